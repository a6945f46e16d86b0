"""Web pages made by the program, with the views that they are made of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from patchwright import driver
from patchwright.composing import compose_web
from patchwright.files import find_patterns
from patchwright.typesetting.themes import Theme
from patchwright.typesetting.web import write_html
from patchwright.typesetting.web_views import View

ROOT = Path(__file__).resolve().parents[2]
PATTERNS = {"rope-walk": ROOT / "tests/patterns/rope-walk.yaml", "tidemark": ROOT / "patterns/tidemark.yaml"}
"""An inch pattern with a pack, and a metric one."""
EDITIONS = ("all-sizes", "class", "kit")


@dataclass(frozen=True)
class Made:
    """A web page in a file, what it was made from, and the theme."""

    path: Path
    views: tuple[View, ...]
    theme: Theme

    def view(self, edition: str, size: str) -> View:
        return next(one for one in self.views if (one.edition, one.size) == (edition, size))

    @property
    def sizes(self) -> list[str]:
        return list(dict.fromkeys(view.size for view in self.views if view.size))


@cache
def views_of(path: Path, theme_name: str = "") -> tuple[tuple[View, ...], Theme]:
    """The views of a pattern, with every edition that a page can show."""
    (project,) = find_patterns((path,))
    compiled, ways = driver.compile_colorways(project, "best", theme_name)
    assert compiled.plan is not None, compiled.diagnostics
    theme, mistakes = driver.load_project_theme(project, compiled.plan.rules.theme)
    assert theme is not None, mistakes
    return compose_web(compiled.plan, theme, editions=EDITIONS, ways=ways), theme


def made(path: Path, folder: Path, theme_name: str = "") -> Made:
    """Write the web page of a pattern into a folder."""
    views, theme = views_of(path, theme_name)
    file = folder / f"{path.stem}{theme_name}.html"
    file.write_text(write_html(views, theme), encoding="utf-8")
    return Made(file, views, theme)
