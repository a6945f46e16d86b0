"""What is strip-pieced, that it draws the same quilt, and what that takes."""

from __future__ import annotations

from fractions import Fraction

import pytest

from patchwright.core.length import Cut
from patchwright.diagrams.patches import PatchBook
from patchwright.planning.plan import Plan, PlannedUnit, StripChoice
from patchwright.planning.verify import verify
from patchwright.planning.workings import explain
from planning.compiling import codes, plan_of, sample, unit_size
from planning.mutating import Step, changed, named

FABRICS = "fabrics: {red: {}, cream: {}, blue: {}}\n"
BLOCKS = {
    "checkerboard": "one: {WAY, cell: 2 in, rows: [[red, cream, red], [cream, red, cream], [red, cream, red]]}",
    "reversed rows": "one: {WAY, cell: 2 in, rows: [[red, cream, blue], [blue, cream, red]]}",
    "columns": "one: {WAY, cell: 2 in, columns: [[red, cream 1x2, blue], [blue 1x2, cream, red]]}",
    "rows of several heights": "one: {WAY, cell: 2 in, rows: [[red 1x2, cream 2x2], [red, cream 2x1], [blue 3x1]]}",
    "mixed": "one: {WAY, cell: 2 in, rows: [[red/cream, blue, cream], [cream, blue, red], [red, red/cream, cream]]}",
    "turned patches": "one: {WAY, cell: 2 in, rows: [[red, cream 1x2@90, blue], [cream*4]]}",
    "nested": """\
  four: {WAY, rows: [[red, cream], [blue, red]]}
  one: {WAY, cell: 2 in, rows: [[four, four@mirror], [four@90, four@mirror@270], [red, cream, blue, red]]}""",
}
SIZES = """\
quilt: {arrange: [[one, one@mirror], [one@180, one@mirror@180]]}
sizes: {s: {across: 4, down: 4}, l: {across: 6, down: 8}}
"""


def quilt(block: str, way: str) -> Plan:
    text = BLOCKS[block].replace("WAY", f"strip-piece: {way}")
    return plan_of(sample(f"{FABRICS}blocks:\n  {text.strip()}\n{SIZES}"))


def drawn(plan: Plan, index: int) -> list[tuple[str, tuple[tuple[float, float], ...]]]:
    """Every patch of the top at its place, by cloth and corners."""
    book = PatchBook(plan)
    found = []
    for item in plan.sizes[index].items:
        for patch in book.item(item, index).patches:
            corners = sorted((round(float(item.x) + x, 6), round(float(item.y) + y, 6)) for x, y in patch.outline)
            found.append((patch.letter, tuple(corners)))
    return sorted(found)


@pytest.mark.parametrize("block", BLOCKS)
def test_the_quilt_looks_the_same(block: str) -> None:
    """Strips give every patch its place and its cloth, however blocks are turned, mirrored and nested."""
    singly, strips = quilt(block, "no"), quilt(block, "yes")
    assert not any(unit.method == "strip-set" for unit in singly.units)
    assert any(unit.method == "strip-set" for unit in strips.units)
    for index in range(2):
        assert drawn(singly, index) == drawn(strips, index)


def test_rows_alike_are_one_unit() -> None:
    """Rows that are alike, or turned half around, come from one kind of strip set, wherever they stand."""
    units = quilt("checkerboard", "yes").units
    assert [(unit.row_of, unit_size(unit).need) for unit in units] == [(("one", 1), 32), (("one", 2), 16)]
    (unit,) = quilt("reversed rows", "yes").units
    assert unit_size(unit).need == 32


def unit_of(fragment: str) -> PlannedUnit:
    return plan_of(sample(fragment)).units[0]


def four_patches(way: str, count: str = "across: 4, down: 5", size: str = "4 in x 4 in", fabrics: str = FABRICS) -> str:
    return (
        f"{fabrics}units: {{check: {{four-patch: [red, cream], size: {size}, strip-piece: {way}}}}}\n"
        f"blocks: {{one: {{cell: 4 in, rows: [[check]]}}}}\nsizes: {{only: {{{count}}}}}\n"
    )


def test_strips_of_a_four_patch() -> None:
    """20 four-patches of 4 in from 40 in of width: 8 in a strip (common practice: 2 1/2 in segments, two for each)."""
    unit = unit_of(four_patches("yes"))
    made = unit_size(unit)
    assert (unit.how, made.recipe.batch, made.batches) == ("strips", 7, 3)
    assert {(str(piece.width), str(piece.height)) for piece in made.recipe.pieces} == {("71/2", "5/2")}


def test_auto_takes_fewer_seams_and_no_more_cloth() -> None:
    """20 four-patches of 9 in: 8 squares of 5 in or 8 segments to a strip, 5 strips of each cloth both ways.

    From squares each has three seams; from strips there are 5 long ones, and one for each four-patch.
    """
    choice = unit_of(four_patches("auto", size="9 in x 9 in").replace("cell: 4", "cell: 9")).choices[0]
    assert choice is not None
    assert choice.strips
    assert choice.seams == (20 * 3, 5 + 20)
    nine = FABRICS + (
        "units: {nine: {nine-patch: [red, cream], size: 12 in x 12 in}}\nblocks: {one: {cell: 12 in, rows: [[nine]]}}\n"
        "sizes: {only: {across: 5, down: 1}}\n"
    )
    (unit,) = plan_of(sample(nine)).units
    weighed = unit.choices[0]
    assert weighed is not None
    assert weighed.seams[1] < weighed.seams[0]
    assert (unit.how == "strips") == (weighed.cloth[1] <= weighed.cloth[0])


@pytest.mark.parametrize(
    ("fabrics", "how"),
    [
        ("fabrics: {red: {}, cream: {}}\n", "strips"),
        ("fabrics: {red: {directional: lengthwise}, cream: {}}\n", "squares"),
        ("fabrics: {red: {cut-from: {strips: 2 1/2 in x 42 in}}, cream: {}}\n", "strips"),
        ("packs: {p: {squares: 10 in, count: 42}}\nfabrics: {red: {cut-from: {pack: p}}, cream: {}}\n", "squares"),
        (
            "packs: {p: {strips: 2 1/2 in x 42 in, count: 40}}\n"
            "fabrics: {red: {cut-from: {pack: p}, same-print: block}, cream: {}}\n", "squares",
        ),
    ],
)
def test_auto_by_cloth(fabrics: str, how: str) -> None:
    """One-way prints are not turned, shared prints are not mixed, and squares are not sewn into strips unasked."""
    assert unit_of(four_patches("auto", fabrics=fabrics)).how == how


@pytest.mark.parametrize(
    "fragment",
    [
        four_patches("yes", fabrics="fabrics: {red: {directional: lengthwise}, cream: {}}\n"),
        four_patches("yes", size="48 in x 48 in").replace("cell: 4", "cell: 48"),
        FABRICS + "units: {t: {half-square: [red, cream], strip-piece: yes}}\n"
        "blocks: {one: {cell: 3 in, rows: [[t]]}}\n",
        "blocks: {one: {cell: 3 in, strip-piece: yes, rows: [[red]]}}\n",
        FABRICS + "units: {t: {strip-set: [red, cream], segments: 16}}\nblocks: {one: {cell: 3 in, rows: [[t]]}}\n",
    ],
)
def test_what_cannot_be_strip_pieced(fragment: str) -> None:
    assert "strip-piece-impossible" in codes(sample(fragment))


def test_a_strip_set_from_single_pieces() -> None:
    text = FABRICS + "units: {t: {strip-set: [red, cream, red], size: 3 x 4, heights: 1 2 1, strip-piece: no}}\n"
    unit = unit_of(text + "blocks: {one: {cell: 2 in, rows: [[t]]}}\n")
    assert unit.how == "pieces"
    assert [str(piece.height) for piece in unit_size(unit).recipe.pieces] == ["5/2", "9/2", "5/2"]


def test_off_step_strips_are_warned_of() -> None:
    text = "blocks: {one: {cell: 2 1/16 in, strip-piece: yes, rows: [[red, cream], [cream, red]]}}\n"
    assert "off-step" in codes(sample(text))


def test_explained() -> None:
    """What both ways take, for a unit and for a row."""
    (said,) = [one for one in explain(quilt("checkerboard", "yes"), "one-row-1", "s") if one.rule == "strip-pieced"]
    assert dict(said.values)["single_seams"] == "64"
    assert dict(said.values)["strip_seams"] == "4"


BROKEN: list[tuple[str, tuple[Step, ...], object]] = [
    ("a strip too short", ("units", named("one-row-1"), "sizes", 0, "recipe", "pieces", 0, "width"), "35/2"),
    ("a strip too low", ("units", named("one-row-1"), "sizes", 0, "recipe", "pieces", 0, "height"), "2"),
    ("seams of strips", ("units", named("one-row-1"), "choices", 0, "seams"), (64, 3)),
    ("seams of pieces", ("units", named("one-row-1"), "choices", 0, "seams"), (60, 4)),
    ("the other way", ("units", named("one-row-1"), "choices", 0, "strips"), False),
]


@pytest.mark.parametrize(("path", "value"), [pytest.param(path, value, id=name) for name, path, value in BROKEN])
def test_a_wrong_plan_is_noticed(path: tuple[Step, ...], value: object) -> None:
    plan = quilt("checkerboard", "yes")
    assert verify(plan) == ()

    def change(old: object) -> object:
        return Cut(Fraction(value)) if isinstance(value, str) else value

    assert verify(changed(plan, path, change))


def test_the_check_counts_seams_itself() -> None:
    """Rows of three patches have two seams each, and so has every strip set that they are cut from."""
    unit = quilt("checkerboard", "yes").units[0]
    made, choice = unit_size(unit), unit.choices[0]
    assert isinstance(choice, StripChoice)
    assert choice.seams == (made.need * 2, made.batches * 2)
