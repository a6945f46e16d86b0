"""Booklets → one HTML file that needs nothing else: style, script, drawings and fonts inside.

In: a booklet, or the views of a pattern that a reader may choose from, and a theme.
Out: the text of the file, or a `TypesettingError`.
Never: an address that is fetched, a style or script that the page's own policy does not name by its hash.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Literal

from patchwright.core.theme import Tokens
from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.faults import WebTemplateError
from patchwright.typesetting.fitting import check_glyphs
from patchwright.typesetting.themes import Theme
from patchwright.typesetting.web_drawings import PageDrawings, Pen, as_name
from patchwright.typesetting.web_style import page_policy, page_style
from patchwright.typesetting.web_template import render
from patchwright.typesetting.web_views import View, WebTree, figures_of, web_tree

if TYPE_CHECKING:
    from markupsafe import Markup

    from patchwright.typesetting.booklet_tree import Tree

LOGO_PARTS: tuple[Literal["cover", "colophon"], ...] = ("cover", "colophon")


def write_html(shown: Booklet | Sequence[View], theme: Theme, drawings: Drawings | None = None) -> str:
    """Make the web booklet of one booklet or of several views, the first of which needs no script to be read.

    Hand in `drawings` to share them with the PDF writer.
    """
    from markupsafe import Markup

    drawings = drawings or Drawings(theme.look)
    views = [View(shown)] if isinstance(shown, Booklet) else list(shown)
    tree = web_tree(views, Pen(drawings, theme.tokens))
    check_glyphs(tree, theme)
    places = [part for part in LOGO_PARTS if theme.tokens.logo.stands_on(part)]
    logos = [tree.data["logo"]] * len(places) if tree.data["logo"] is not None else []
    page = PageDrawings.of(tree.drawings, [*figures_of(tree.data), *logos])
    style = page_style(theme, tree.texts | tree.labels, tree.colors)
    policy = page_policy(style, theme.web_script)
    first = views[0].booklet
    text = render(
        theme.web_template,
        booklet=tree.data,
        pattern=first.pattern or first.id,
        release=first.release,
        style=Markup(style),
        script=Markup(theme.web_script),
        policy=policy,
        store=Markup(_store(tree, page)),
        drawing=_drawing(page),
        swatch=_swatch(theme.tokens),
        logo_places=places,
    )
    if f'<meta http-equiv="Content-Security-Policy" content="{Markup.escape(policy)}">' not in text:
        raise WebTemplateError("the theme's web template does not set the policy that it is given")
    return text


def _store(tree: WebTree, page: PageDrawings) -> str:
    """Every fabric's swatch, and every drawing that is shown in several places, once."""
    symbols = [
        f'<symbol id="swatch-{as_name(name)}" {part.box}>{part.inside}</symbol>'
        for name, part in tree.swatches.items()
    ]
    symbols.append(page.store())
    return f'<svg class="store" aria-hidden="true" focusable="false">{"".join(symbols)}</svg>'


def _swatch(tokens: Tokens) -> Callable[[str], Markup]:
    from markupsafe import Markup

    width, height = tokens.spacing.swatch_width, tokens.spacing.swatch_height

    def swatch(name: str) -> Markup:
        return Markup(
            f'<svg class="swatch" viewBox="0 0 {width * 72:g} {height * 72:g}" aria-hidden="true" focusable="false">'
            f'<use href="#swatch-{as_name(name)}"/></svg>'
        )

    return swatch


def _drawing(page: PageDrawings) -> Callable[[Tree], Markup]:
    def drawing(figure: Tree) -> Markup:
        return page.figure(figure)

    return drawing
