"""Every piecing method in every way of making it gets through to a booklet: its words, pieces, figures and measure."""

from __future__ import annotations

from itertools import product

import pytest

from content.compiled import EvenLabels, compiled
from patchwright.core.source import Source
from patchwright.diagrams.figures import booklet_figures
from patchwright.methods.method import Method
from patchwright.methods.registry import METHODS
from patchwright.typesetting.booklet import Figure, Step
from patchwright.typesetting.booklet_tree import booklet_tree
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import to_text
from patchwright.wording import load_wording

FABRICS = ("red", "cream", "blue", "green", "gold", "teal", "plum", "rust", "gray")
MOST_CHOICES = 5
"""A key with more choices counts something; its first choice stands for all."""


def ways(method: Method) -> list[dict[str, str]]:
    """Every combination of a method's word keys."""
    keys = [key for key in method.keys if key.kind == "word"]
    choices = [key.choices if len(key.choices) <= MOST_CHOICES else key.choices[:1] for key in keys]
    return [dict(zip([key.name for key in keys], combination, strict=True)) for combination in product(*choices)]


def pattern_of(method: Method, way: dict[str, str]) -> str:
    """A quilt whose one block holds the unit as drawn, turned and mirrored."""
    drawn = next((key.default.count(";") + 1 for key in method.keys if key.name == "patches"), len(FABRICS))
    roles = method.roles[: min(drawn, len(FABRICS))]
    names = FABRICS[: len(roles)]
    listed = "[" + ", ".join(names) + "]"
    mapped = "{" + ", ".join(f"{role.name}: {name}" for role, name in zip(roles, names, strict=True)) + "}"
    unit = f"{method.name}: {listed if method.listed else mapped}"
    words = "".join(f", {key}: {word}" for key, word in way.items())
    fabrics = "".join(f'  {name}: {{name: {name.title()}, color: "#aabbcc"}}\n' for name in names)
    return (
        f"dialect: 1\npattern: Trial\nrelease: 1\nsummary: One unit.\nlengths: inches\nfabrics:\n{fabrics}"
        f"units:\n  trial: {{{unit}{words}}}\n"
        "blocks:\n  four:\n    cell: 3 in\n    rows: [[trial, trial@180], [trial@mirror, trial@mirror@180]]\n"
        "quilt: {arrange: [[four]]}\nsizes:\n  lap: {across: 2, down: 3}\n"
    )


@pytest.mark.parametrize(
    ("method", "way"),
    [
        pytest.param(method, way, id="-".join([method.name, *way.values()]))
        for method in METHODS
        for way in ways(method)
    ],
)
def test_a_method_gets_through(method: Method, way: dict[str, str]) -> None:
    plan, wording = compiled(Source("trial.yaml", pattern_of(method, way)), None, "trial"), load_wording()
    booklet = make_booklet(plan, booklet_figures(plan, wording, EvenLabels()), wording, EDITIONS["one-size"], ("lap",))
    assert booklet_tree(booklet).scenes
    text = to_text(booklet)
    assert "  " not in "\n".join(line.strip() for line in text.splitlines())
    units = next((section for section in booklet.sections if section.id == "units"), None)
    assert (units is None) == (not plan.units or not any(unit.method != "patch" for unit in plan.units))
    for step in units.blocks if units is not None else ():
        if isinstance(step, Step):
            assert any(isinstance(block, Figure) for block in step.blocks), step.id
