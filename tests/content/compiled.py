"""Plans of small patterns for the tests of content, compiled by the real passes from text as an author writes it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from patchwright.core.source import Source
from patchwright.design.resolve import make_design
from patchwright.diagrams.figures import Figures, booklet_figures
from patchwright.diagrams.scene import TypeSize
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.planning.build import make_plan
from patchwright.planning.plan import Plan
from patchwright.typesetting.booklet import Booklet
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.wording import load_wording

DATA = Path(__file__).parent / "data"
SIZES = {"rope-walk": ("crib", "throw", "queen"), "tide-pool": ("baby", "lap", "wall"), "four-patch": ("wall",)}
"""The patterns in `data` and their sizes, so that no pattern is compiled before a test runs."""
BOOKLETS = tuple((name, size) for name, sizes in SIZES.items() for size in ("", *sizes))
"""Every booklet of them: (pattern, size), the size empty for all sizes."""


class CannotCompileError(ValueError):
    """A pattern of the tests that the passes refuse."""


class EvenLabels:
    """Label sizes of a made-up typeface in which every character is equally wide."""

    def text_width(self, text: str, size: TypeSize = "normal", bold: bool = False) -> float:
        return len(text) * self.text_height(size, bold) * 0.62

    def text_height(self, size: TypeSize = "normal", bold: bool = False) -> float:
        return {"small": 0.08, "normal": 0.1, "large": 0.14}[size]


@cache
def plan_of(name: str) -> Plan:
    """The plan of a pattern in `data`."""
    return compiled(_source(f"{name}.yaml"), _source("house.yaml"), name)


def compiled(source: Source, house: Source | None, name: str) -> Plan:
    """The plan of a pattern's text."""
    declared, mistakes = read_pattern(source)
    if declared is None:
        raise CannotCompileError(mistakes)
    rules = read_house(house)[0] if house is not None else None
    design, mistakes = make_design(declared, rules, name)
    if design is None:
        raise CannotCompileError(mistakes)
    plan, mistakes = make_plan(design, "plain")
    if plan is None:
        raise CannotCompileError(mistakes)
    return plan


@cache
def figures_of(name: str, sizes: tuple[str, ...]) -> Figures:
    return booklet_figures(plan_of(name), load_wording(), EvenLabels(), sizes=sizes)


def names_of(plan: Plan) -> tuple[str, ...]:
    return tuple(size.name for size in plan.sizes)


@cache
def booklet_of(name: str, size: str = "") -> Booklet:
    """The booklet of one size, or of all sizes where none is named."""
    plan = plan_of(name)
    sizes = (size,) if size else names_of(plan)
    edition = EDITIONS["one-size" if size else "all-sizes"]
    return make_booklet(plan, figures_of(name, sizes), load_wording(), edition, sizes)


def _source(name: str) -> Source:
    return Source(name, (DATA / name).read_text("utf-8"))
