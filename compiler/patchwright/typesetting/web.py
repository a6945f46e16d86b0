"""Booklet → one HTML file that needs nothing else: style, script, drawings and fonts inside.

In: a booklet and a theme.
Out: the text of the file, or a `TypesettingError`.
Never: an address that is fetched, a style or script that the page's own policy does not name by its hash.
"""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Callable
from dataclasses import asdict
from typing import TYPE_CHECKING

from patchwright.core.theme import Palette, Tokens
from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.booklet_tree import BookletTree, Tree, booklet_tree
from patchwright.typesetting.drawings import Drawings, swatch_scene
from patchwright.typesetting.faults import WebTemplateError
from patchwright.typesetting.fitting import check_glyphs
from patchwright.typesetting.themes import Theme
from patchwright.typesetting.web_fonts import font_faces
from patchwright.typesetting.web_template import render

if TYPE_CHECKING:
    from markupsafe import Markup

_SVG = re.compile(r'<svg [^>]*(viewBox="[^"]*")[^>]*><title.*?</title><desc.*?</desc>(.*)</svg>', re.DOTALL)


def write_html(booklet: Booklet, theme: Theme, drawings: Drawings | None = None) -> str:
    """Make the web booklet; hand in `drawings` to share them with the PDF writer."""
    from markupsafe import Markup

    tree = booklet_tree(booklet)
    check_glyphs(tree, theme)
    drawings = drawings or Drawings(theme.look)
    style = _style(tree, theme)
    policy = _policy(style, theme.web_script)
    text = render(
        theme.web_template,
        booklet=tree.data,
        style=Markup(style),
        script=Markup(theme.web_script),
        policy=policy,
        swatches=Markup(_symbols(tree, theme.tokens, drawings)),
        drawing=_drawing(tree, drawings),
        swatch=_swatch(theme.tokens),
    )
    if f'<meta http-equiv="Content-Security-Policy" content="{Markup.escape(policy)}">' not in text:
        raise WebTemplateError("the theme's web template does not set the policy that it is given")
    return text


def _policy(style: str, script: str) -> str:
    """The page may use its own style, script, fonts and pictures, and fetch nothing."""
    allowed = f"style-src '{_hash(style)}'"
    if script:
        allowed += f"; script-src '{_hash(script)}'"
    return f"default-src 'none'; {allowed}; font-src data:; img-src data:; base-uri 'none'; form-action 'none'"


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode("ascii")


def _style(tree: BookletTree, theme: Theme) -> str:
    """Font faces, the tokens as custom properties, and the theme's own rules."""
    tokens = theme.tokens
    families = (
        f'--text-font:"{tokens.text_face.family}","{tokens.label_face.family}",serif;'
        f'--label-font:"{tokens.label_face.family}","{tokens.text_face.family}",sans-serif;'
    )
    faces = font_faces(tokens.text_face, tokens.label_face, tree.texts | tree.labels)
    light, dark = _properties(tokens.light), _properties(tokens.dark)
    screen = f"@media screen and (prefers-color-scheme:dark){{:root{{{dark}}}}}"
    return f"{faces}:root{{{families}{light}}}{screen}\n{theme.web_style}"


def _properties(palette: Palette) -> str:
    return "".join(f"--{name.replace('_', '-')}:{color};" for name, color in asdict(palette).items())


def _symbols(tree: BookletTree, tokens: Tokens, drawings: Drawings) -> str:
    """Every fabric's swatch once, for all places that show it."""
    gaps = tokens.spacing
    symbols = []
    for letter, one in tree.data["swatches"].items():
        size = (gaps.swatch_width, gaps.swatch_height)
        scene = swatch_scene(letter, one["name"], tuple(one["colors"]), one["hatch"], *size)
        match = _SVG.fullmatch(drawings.svg(scene))
        if match:
            symbols.append(f'<symbol id="swatch-{_name(letter)}" {match[1]}>{match[2]}</symbol>')
    return f'<svg class="swatches" aria-hidden="true" focusable="false">{"".join(symbols)}</svg>'


def _swatch(tokens: Tokens) -> Callable[[str], Markup]:
    from markupsafe import Markup

    width, height = tokens.spacing.swatch_width, tokens.spacing.swatch_height

    def swatch(letter: str) -> Markup:
        return Markup(
            f'<svg class="swatch" viewBox="0 0 {width * 72:g} {height * 72:g}" aria-hidden="true" focusable="false">'
            f'<use href="#swatch-{_name(letter)}"/></svg>'
        )

    return swatch


def _drawing(tree: BookletTree, drawings: Drawings) -> Callable[[Tree], Markup]:
    """A function that gives a figure's drawing, with ids of its own each time that it is shown."""
    from markupsafe import Markup

    shown: dict[str, int] = {}

    def drawing(figure: Tree) -> Markup:
        key = str(figure["drawing"])
        shown[key] = shown.get(key, 0) + 1
        scene = tree.scenes[key]
        repeat = key.removeprefix(scene.id) + (f"-again-{shown[key]}" if shown[key] > 1 else "")
        return Markup(drawings.svg(scene, repeat))

    return drawing


def _name(letter: str) -> str:
    return re.sub(r"[^A-Za-z0-9_-]", "-", letter)
