"""Quilts that are made block by block: what is cut for every block, worked by hand, and what cannot be combined."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from diagrams.drawings import figures_of
from patchwright.core.length import Length
from patchwright.planning.finishing.by_block import batting_for_blocks
from patchwright.planning.plan import LayeredBlocks, Plan, PlannedByBlock
from patchwright.planning.verify import verify
from planning.compiling import codes, plan_of, sample

FABRICS = "fabrics: {red: {color: a9482f}, cream: {color: ece7db}, blue: {color: 2f6f7e}}\n"
BLOCKS = """\
blocks:
  one: {size: 7 in, rows: [[red]]}
  two: {size: 7 in, rows: [[cream, red], [red, cream]]}
WIDE
sizes: {only: {across: 6, down: 8}}
"""


def quilt(parts: str, arrange: str = "[[one, two], [two, one]]", wide: str = "") -> str:
    return sample(f"{FABRICS}{BLOCKS.replace('WIDE', wide)}quilt: {{arrange: {arrange}, {parts}}}\n")


def made(plan: Plan) -> PlannedByBlock:
    found = plan.sizes[0].by_block
    assert found is not None
    return found


def sides(*texts: str) -> tuple[Length, ...]:
    return tuple(Length(Fraction(text)) for text in texts)


def test_a_rag_quilt_by_hand() -> None:
    """Common practice, no source. 48 blocks of 7 in with seams of 1/2 in are cut 8 in, fronts and backs, and their
    batting 6 1/2 in, so that it ends 1/4 in inside the seams; four-patches are cut 3 1/2 + 1 = 4 1/2 in. The top
    finishes 42 x 56 in and measures 43 x 57 in before its edge is clipped. 5 backs to a strip of 42 in: 10 strips of
    8 in, 80 in. Batting off a roll of 90 in: 13 to a row, 4 rows, 26 in.
    """
    plan = plan_of(quilt("rag: {seam: 1/2 in}, backing: {fabric: blue}"), effort="best")
    (block,) = made(plan).blocks
    assert (block.count, block.finished) == (48, sides("7", "7"))
    assert (block.front, block.batting, block.back) == (sides("8", "8"), sides("13/2", "13/2"), sides("8", "8"))
    size = plan.sizes[0]
    assert tuple(side.length for side in size.finished) == sides("42", "56")
    assert tuple(side.length for side in size.unfinished) == sides("43", "57")
    cut = {(piece.fabric, own.width.length, own.need) for piece in plan.pieces for own in piece.sizes if own}
    assert ("blue", Length(8), 48) in cut
    assert ("red", Length(8), 24) in cut
    backs = next(fabric.sizes[0] for fabric in plan.fabrics if fabric.id == "blue")
    assert backs is not None
    assert backs.length == Length(80)
    assert size.backing is None
    assert size.binding is None


def test_quilt_as_you_go_by_hand() -> None:
    """Common practice, no source. Blocks of 7 in are 7 1/2 in unfinished; batting and backs reach 1 in beyond them."""
    plan = plan_of(quilt("quilt-as-you-go: {allowance: 1 in}, backing: {fabric: blue}, binding: {fabric: red}"))
    (block,) = made(plan).blocks
    assert block.front == sides("15/2", "15/2")
    assert block.batting == block.back == sides("19/2", "19/2")
    assert plan.rules.seam == Length(Fraction(1, 4))
    assert plan.sizes[0].binding is not None


def test_the_house_has_measures_of_its_own() -> None:
    """What the pattern leaves open is the house's."""
    house = "house: {inches: {rag: {seam: 3/4 in, inset: 1/2 in}, quilt-as-you-go: {allowance: 2 in}}}\n"
    rag = plan_of(quilt("rag: {}, backing: {fabric: blue}") + house)
    assert made(rag).blocks[0].front == sides("17/2", "17/2")
    assert made(rag).blocks[0].batting == sides("6", "6")
    quilted = plan_of(quilt("quilt-as-you-go: {}, backing: {fabric: blue}") + house)
    assert made(quilted).blocks[0].back == sides("23/2", "23/2")


@pytest.mark.parametrize("way", ["rag: {seam: 3/4 in, inset: 1/2 in}", "quilt-as-you-go: {allowance: 2 in}"])
def test_blocks_of_two_sizes_have_layers_of_two_sizes(way: str) -> None:
    wide = "  wide: {cell: 1 in, rows: [[cream 10x7]]}"
    text = quilt(f"{way}, backing: {{fabric: blue}}", "[[one, wide], [one, wide]]", wide)
    plan = plan_of(text)
    assert [(block.finished, block.count) for block in made(plan).blocks] == [
        (sides("10", "7"), 24), (sides("7", "7"), 24),
    ]


@pytest.mark.parametrize("pressing", ["nest", "dark", "open"])
def test_no_seam_between_blocks_is_pressed(pressing: str) -> None:
    """Only the seams inside the blocks have directions, and only they are counted: one junction in each four-patch."""
    text = quilt("rag: {}, backing: {fabric: blue}") + f"house: {{pressing: {pressing}}}\n"
    plan = plan_of(text, effort="best")
    assert plan.pressing is not None
    assert {pressed.seam.owner.kind for pressed in plan.pressing.seams} <= {"unit", "assembly"}
    assert [size.total for size in plan.pressing.sizes] == [24]


@pytest.mark.parametrize(("way", "seams"), [
    ("rag: {}", {"by-block-seam", "by-block-clips"}), ("quilt-as-you-go: {}", {"by-block-closed"}),
])
def test_layers_and_seams_are_drawn_in_place_of_a_top(way: str, seams: set[str]) -> None:
    plan = plan_of(quilt(f"{way}, backing: {{fabric: blue}}"), effort="best")
    drawn = {entry.scene.id for entry in figures_of(plan).drawn}
    assert drawn >= {"by-block-layers", "layout-only", *seams}
    assert not drawn & {"top-only", "pressing-top-only"}


@pytest.mark.parametrize(("parts", "code"), [
    ("rag: {}, backing: {fabric: blue}, binding: {fabric: red}", "not-by-block"),
    ("rag: {}, backing: {fabric: blue}, sashing: {width: 1 in, fabric: red}", "not-by-block"),
    ("rag: {}, quilt-as-you-go: {}, backing: {fabric: blue}", "not-by-block"),
    ("rag: {}, backing: {fabric: blue}, borders: [{width: 2 in, fabric: red}]", "not-by-block"),
    ("rag: {}, backing: {fabric: blue, seams: crosswise}", "not-by-block"),
    ("rag: {}, backing: {fabric: blue}, hanging: {sleeve: red}", "not-by-block"),
    ("quilt-as-you-go: {}, backing: {fabric: blue}, setting: on-point", "not-by-block"),
    ("quilt-as-you-go: {}", "missing-key"),
    ("rag: {seam: 1/8 in}, backing: {fabric: blue}", "by-block-range"),
    ("quilt-as-you-go: {allowance: 9 in}, backing: {fabric: blue}", "by-block-range"),
])
def test_what_cannot_be_sewn_is_refused(parts: str, code: str) -> None:
    assert code in codes(quilt(parts))


def test_a_size_cannot_be_made_in_another_way() -> None:
    text = quilt("rag: {}, backing: {fabric: blue}").replace("{across: 6,", "{rag: {}, across: 6,")
    assert "unknown-key" in codes(text)


@pytest.mark.parametrize("count", [1, 5, 13, 48, 200])
@pytest.mark.parametrize("size", [("13/2", "13/2"), ("12", "9"), ("30", "21")])
def test_batting_for_blocks_is_enough_by_area_and_by_row(count: int, size: tuple[str, str]) -> None:
    """What is bought holds as many pieces as whole rows of them do, one way or the other."""
    rules = plan_of(quilt("rag: {}, backing: {fabric: blue}")).rules
    pair = Length(Fraction(size[0])), Length(Fraction(size[1]))
    bought = batting_for_blocks([LayeredBlocks(pair, pair, pair, pair, count, "A1")], rules)
    assert bought.roll is not None
    cloths = [(bought.roll.width, bought.roll.length)]
    cloths += [bought.package] if bought.package is not None else []
    for wide, long in cloths:
        held = max(
            (wide / across.rational()).floor() * (long / along.rational()).floor()
            for across, along in (pair, pair[::-1])
        )
        turned = max(
            (long / across.rational()).floor() * (wide / along.rational()).floor()
            for across, along in (pair, pair[::-1])
        )
        assert max(held, turned) >= count


def test_verify_measures_the_layers() -> None:
    """Batting that is too large, a back too few, a front without its seams: none passes."""
    plan = plan_of(quilt("rag: {}, backing: {fabric: blue}"))
    own = made(plan)
    (block,) = own.blocks
    wrong = [
        replace(block, batting=block.front), replace(block, count=47), replace(block, front=block.finished),
        replace(block, back=block.batting),
    ]
    for one in wrong:
        size = replace(plan.sizes[0], by_block=replace(own, blocks=(one,)))
        assert list(verify(replace(plan, sizes=(size,)))), one
