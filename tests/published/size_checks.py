"""Checks of borders, sizes of quilts, widths of cloth and precuts. Each names the rules that its source assumes."""

from __future__ import annotations

from fractions import Fraction

from patchwright.core.length import Length
from patchwright.core.measure import parse_measure
from patchwright.design.house import LENGTH_RULES
from patchwright.planning.plan import Plan
from planning.compiling import bought, codes, cuts, design_of, lengths, plan_of, sample
from published.values import Row, checks, exclude

BORDERED = """\
blocks:
  one: {{cell: {cell} in, rows: [[red {wide}x{high}]]}}
quilt:
  arrange: [[one]]
  borders: {borders}
sizes:
  only: {{across: {across}, down: {down}}}
"""


def bordered(cell: str, wide: int, high: int, across: int, down: int, *widths: str) -> Plan:
    """A top of plain blocks, each so many cells wide and high, in butted borders of these finished widths."""
    borders = "[" + ", ".join(f"{{width: {width} in, fabric: cream}}" for width in widths) + "]"
    return plan_of(sample(BORDERED.format(
        cell=cell, wide=wide, high=high, across=across, down=down, borders=borders
    )))


def village(*widths: str) -> Plan:
    """A top of 32 x 43 1/2 finished, 32 1/2 x 44 unfinished."""
    return bordered("1/4", 32, 29, 4, 6, *widths)


def long_sides(plan: Plan, border: str) -> list[str]:
    """The lengths of a border's pieces, sides first."""
    own = plan.sizes[0].borders
    found = next(known for known in own if known.id == border)
    pieces = {piece.id: piece.sizes[0] for piece in plan.pieces}
    made = []
    for name in (found.side_piece, found.end_piece):
        size = pieces[name]
        assert size is not None
        made.append(str(max(size.width, size.height)))
    return made


@checks("border-butt")
def butted_border(row: Row) -> None:
    """Sides first; top and bottom are as wide as the top and both sides, and two seams of 1/4."""
    assert row.expected.startswith("W + 2b")
    plan = bordered("1", 10, 10, 2, 2, "3")
    assert long_sides(plan, "border-1") == ["41/2", str(Length(20) + Length(3) * 2 + Length("1/2"))]


@checks("border-garden")
def border_of_a_garden(row: Row) -> None:
    """A top of 70 1/2 unfinished, border of 2, butted with the sides first."""
    plan = bordered("1", 10, 10, 7, 7, "2")
    assert long_sides(plan, "border-1")[1] == str(Length(Fraction(str(row.expected))))


@checks("border-village-1")
def first_village_border(row: Row) -> None:
    """32 1/2 x 44 unfinished, border of 1, butted with the sides first."""
    assert long_sides(village("1"), "border-1") == [str(Length(Fraction(str(side)))) for side in row.expected]


@checks("border-village-2")
def second_village_border(row: Row) -> None:
    """The same, in a second border of 2."""
    assert long_sides(village("1", "2"), "border-2") == [str(Length(Fraction(str(side)))) for side in row.expected]


@checks("size-bigblock", "size-vision")
def size_of_plain_blocks(row: Row) -> None:
    """Magazines count the raw edges in: our unfinished size."""
    across, down = row.inputs["blocks"]
    plan = bordered("1", row.inputs["finished"], row.inputs["finished"], across, down)
    assert [str(side) for side in plan.sizes[0].unfinished] == [str(Length(Fraction(str(s)))) for s in row.expected]


@checks("count-vision")
def checkerboard(row: Row) -> None:
    across, down = row.inputs["blocks"]
    plan = plan_of(sample(f"""\
blocks:
  one: {{cell: 9 in, rows: [[red]]}}
  other: {{cell: 9 in, rows: [[cream]]}}
quilt: {{arrange: [[one, other], [other, one]]}}
sizes: {{only: {{across: {across}, down: {down}}}}}
"""))
    assert [sum(cuts(plan, name).values()) for name in ("one", "other")] == row.expected


@checks("squares-50")
def quilt_of_squares(row: Row) -> None:
    """Squares cut 3, seams of 1/4."""
    across, down = row.inputs["squares"]
    finished = Fraction(str(row.inputs["cut"])) - Fraction(1, 2)
    plan = bordered(str(finished), 1, 1, across, down)
    assert plan.sizes[0].finished[0].length == Length(row.expected)
    assert cuts(plan) == {("red", str(row.inputs["cut"]), str(row.inputs["cut"])): across * down}


# -- widths -----------------------------------------------------------------------------------------------------------

exclude("cloth is planned by its usable width; the printed width is for the shop", "wof-nominal")


@checks("wof-usable-40")
def usual_usable_width(row: Row) -> None:
    low, high = (int(side) for side in row.expected.split("-"))
    assert Length(low) <= design_of(sample()).rules.usable_width <= Length(high)


@checks("fq-nominal", "f8-nominal")
def no_more_than_nominal(row: Row) -> None:
    """What is counted on is never more than the nominal size."""
    rules = design_of(sample()).rules
    own = rules.fat_quarter if row.id == "fq-nominal" else rules.fat_eighth
    nominal = [Length(int(side)) for side in row.expected.split(" x ")]
    assert all(side <= most for side, most in zip(own, nominal, strict=True))


@checks("f8-usable")
def usual_fat_eighth(row: Row) -> None:
    assert design_of(sample()).rules.fat_eighth == tuple(Length(int(side)) for side in row.expected.split(" x "))


@checks("qy")
def quarter_yard(row: Row) -> None:
    """42 usable, nothing for straightening: one piece of the whole quarter yard is bought as that."""
    height, width = (int(side) for side in row.expected.split(" x "))
    plan = plan_of(sample(f"""\
blocks: {{one: {{cell: 1/2 in, rows: [[red {width * 2 - 1}x{height * 2 - 1}]]}}}}
sizes: {{only: {{across: 1, down: 1}}}}
house: {{inches: {{usable-width: {width} in, straightening: 0 in}}}}
"""))
    assert bought(plan, "red") == Fraction(row.inputs["yard"])


@checks("fq-metric")
def metric_fat_quarter(row: Row) -> None:
    metric = sample("lengths: centimeters\nblocks: {one: {cell: 8 cm, rows: [[red]]}}\n")
    own = design_of(metric).rules.fat_quarter
    assert own == tuple(Length(int(side)) for side in row.expected.split(" x "))


@checks("precut-2_5", "precut-1_5", "precut-10", "precut-5")
def precut(row: Row) -> None:
    """Each of these precuts can be declared as a pack of its true size."""
    side = row.expected
    shape = f"strips: {side} in x 42 in" if row.unit.startswith("inch strips") else f"squares: {side} in"
    design = design_of(sample(f"""\
packs: {{bundle: {{{shape}, count: 40}}}}
fabrics: {{red: {{cut-from: {{pack: bundle}}}}}}
blocks: {{one: {{cell: 1/2 in, rows: [[red]]}}}}
"""))
    assert min(design.packs[0].width, design.packs[0].height) == Length(Fraction(str(side)))


@checks("wide-back")
def wide_backing(row: Row) -> None:
    """Cloth of this width takes a backing of up to it in one panel."""
    plan = plan_of(sample(f"""\
blocks: {{one: {{cell: 20 in, rows: [[red]]}}}}
quilt: {{arrange: [[one]], backing: {{usable-width: {row.expected} in}}}}
sizes: {{only: {{across: 4, down: 6}}}}
"""))
    backing = plan.sizes[0].backing
    assert backing is not None
    assert (backing.seams, len(backing.panels)) == ("none", 1)
    assert backing.length == backing.size[1]


@checks("shrink-good", "shrink-range", "backing-shrink-add")
def shrinkage(row: Row) -> None:
    """A house may count with any of these, and buys more for it."""
    for percent in str(row.expected).removesuffix(".0").split("-"):
        text = sample(f"sizes: {{only: {{across: 13, down: 13}}}}\nhouse: {{shrinkage: {percent} %}}\n")
        assert codes(text) == ["unused-fabric"]
        assert bought(plan_of(text), "red") >= bought(plan_of(sample("sizes: {only: {across: 13, down: 13}}\n")), "red")
        assert design_of(text).rules.shrinkage == Fraction(percent) / 100


@checks("yd-1-8", "yd-1-4", "yd-1-3", "yd-3-8", "yd-5-8", "yd-2-3", "yd-3-4", "yd-1")
def part_of_a_yard(row: Row) -> None:
    read = parse_measure(f"{row.inputs['yard']} yd").within("in")
    assert (read,) == lengths(row.text)


@checks("seam-std")
def usual_seam(row: Row) -> None:
    assert design_of(sample()).rules.seam == Length(Fraction(str(row.expected)))
    assert next(rule for rule in LENGTH_RULES if rule.path == ("seam",)).default("in") == Length("1/4")
