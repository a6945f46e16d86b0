"""Web pages made by the program, with the views that they are made of; each is made once for a session."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from demos import ROOT, compiled
from patchwright import driver
from patchwright.composing import compose_web
from patchwright.typesetting.drawings import Drawings
from patchwright.typesetting.themes import Theme
from patchwright.typesetting.web import write_html
from patchwright.typesetting.web_views import View

PATTERNS = {"rope-walk": ROOT / "tests/patterns/rope-walk.yaml", "tidemark": ROOT / "patterns/tidemark.yaml"}
"""An inch pattern with a pack, and a metric one."""
EDITIONS = ("all-sizes", "class", "kit")


@dataclass(frozen=True)
class Made:
    """A web page in a file, what it was made from, and the theme."""

    path: Path
    views: tuple[View, ...]
    theme: Theme
    drawings: Drawings

    def view(self, edition: str, size: str) -> View:
        return next(one for one in self.views if (one.edition, one.size) == (edition, size))

    @property
    def sizes(self) -> list[str]:
        return list(dict.fromkeys(view.size for view in self.views if view.size))

    def alone(self, views: Sequence[View], path: Path) -> Path:
        """Write a page of some of the views alone."""
        path.write_text(write_html(views, self.theme, self.drawings), encoding="utf-8")
        return path


@cache
def views_of(
    path: Path, theme_name: str = "", sizes: int = 0, editions: tuple[str, ...] = EDITIONS
) -> tuple[tuple[View, ...], Theme, Drawings]:
    """The views of a pattern, with every edition that a page can show, and their drawings in the theme's look.

    Ask for so many `sizes` where others would be alike.
    """
    made, ways = compiled(path)
    assert made.plan is not None
    name = made.plan.rules.theme
    if theme_name == name:
        return views_of(path, "", sizes, editions)
    theme, mistakes = driver.load_project_theme(made.project, theme_name or name)
    assert theme is not None, mistakes
    names = tuple(size.name for size in made.plan.sizes[: sizes or None])
    return compose_web(made.plan, theme, names, editions, ways=ways), theme, Drawings(theme.look)


def made(
    path: Path, folder: Path, theme_name: str = "", sizes: int = 0, editions: tuple[str, ...] = EDITIONS
) -> Made:
    """Write the web page of a pattern into a folder, unless it is there."""
    views, theme, drawings = views_of(path, theme_name, sizes, editions)
    file = folder / f"{path.stem}-{theme.name}-{sizes or 'all'}-{len(editions)}.html"
    if not file.exists():
        file.write_text(write_html(views, theme, drawings), encoding="utf-8")
    return Made(file, views, theme, drawings)
