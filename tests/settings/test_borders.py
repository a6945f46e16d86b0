"""Mitered and pieced borders, and coping. Common practice, no source: each answer follows from arithmetic."""

from __future__ import annotations

import pytest

from patchwright.core.length import Length
from patchwright.planning.plan import Plan
from planning.compiling import PLAIN_PRACTICE, cut_sides, errors, lengths, plan_of, sample

BORDERED = """\
fabrics: {{red: {{}}, cream: {{}}, blue: {{}}}}
units:
  half: {{half-square: [red, cream], size: 5 in x 5 in}}
  goose: {{flying-geese: {{goose: red, sky: cream}}, size: 5 in x 2 1/2 in}}
blocks:
  one: {{size: {size}, rows: [[red {cells}]]}}
  tooth: {{cell: 5 in, rows: [[half]]}}
  wing: {{cell: 1 in, rows: [[goose]]}}
quilt: {{arrange: [[one]], borders: {borders}}}
sizes: {{only: {{across: 1, down: 1}}}}
house: {{inches: {{usable-width: 120 in}}}}
"""


def text(borders: str, wide: int = 46, high: int = 58) -> str:
    return sample(BORDERED.format(size=f"{wide} in x {high} in", cells=f"{wide}x{high}", borders=borders))


def around(plan: Plan, part: str) -> dict[str, int]:
    """How often each made thing lies in a part of the top."""
    counts: dict[str, int] = {}
    for item in plan.sizes[0].items:
        if item.part == part:
            counts[item.ref] = counts.get(item.ref, 0) + 1
    return counts


def test_coping_brings_a_quilt_to_whole_units() -> None:
    """5-inch units on 46 x 58: coping 2 at the sides and 1 at top and bottom, 50 x 60, ten and twelve units."""
    plan = plan_of(text("[{pieced: {repeat: [tooth], corner: cream}, coping: {fabric: blue}}]"))
    coping, pieced = plan.sizes[0].borders
    assert (coping.kind, pieced.kind) == ("coping", "pieced")
    assert [str(coping.width), str(coping.high)] == ["2", "1"]
    assert [side.length for side in coping.after] == list(lengths("50 1/2", "60 1/2"))
    assert pieced.end_units == (("tooth", 10),)
    assert pieced.side_units == (("tooth", 12),)
    assert cut_sides(plan, "blue") == {lengths("2 1/2", "58 1/2"), lengths("1 1/2", "50 1/2")}
    assert [str(side) for side in plan.sizes[0].finished] == ["60", "70"]


def test_sides_that_mirror_take_an_even_number_of_units() -> None:
    plan = plan_of(text(
        "[{pieced: {repeat: [tooth], corner: cream, turn-at: middle}, coping: {fabric: blue}}]", 51, 58
    ))
    pieced = plan.sizes[0].borders[1]
    assert [pieced.end_units[0][1], pieced.side_units[0][1]] == [12, 12]


def test_mirrored_geese_are_turned_at_the_middle() -> None:
    """Each half of a side is the mirror image of the other, and the four sides are turns of one another."""
    plan = plan_of(text(
        "[{pieced: {repeat: [tooth], corner: cream, turn-at: middle}}]", 20, 20
    ))
    top = [item for item in plan.sizes[0].items if item.part == "border-1" and not item.y and item.kind == "assembly"]
    turns = [item.orientation.turns for item in sorted(top, key=lambda item: item.x)]
    assert turns[:2] == [turns[0]] * 2
    assert turns[2:] == [turns[2]] * 2
    assert turns[0] != turns[2]


def test_no_coping_where_the_units_fit() -> None:
    plan = plan_of(text("[{pieced: {repeat: [tooth], corner: cream}, coping: {fabric: blue}}]", 50, 60))
    assert [border.kind for border in plan.sizes[0].borders] == ["pieced"]


def test_narrow_coping_is_widened_to_what_can_be_sewn() -> None:
    """49 1/2 would fit with 1/4 of coping; the least is 1/2 unless the author says otherwise."""
    border = "[{{pieced: {{repeat: [tooth], corner: cream}}, coping: {{fabric: blue{least}}}}}]"
    wide = plan_of(text(border.format(least=""), 49, 59))
    least = plan_of(text(border.format(least=", least: 1 in"), 49, 59))
    assert str(wide.sizes[0].borders[0].width) == "1/2"
    assert str(least.sizes[0].borders[0].width) == "3"


def test_units_that_do_not_fit_name_the_sizes_that_would() -> None:
    found = errors(text("[{pieced: {repeat: [tooth], corner: cream}}]"))
    assert [item.code for item in found] == ["pieced-border-does-not-fit"]
    assert found[0].hints == (
        "45 in or 50 in wide and 55 in or 60 in high would fit",
        "or give `coping: {fabric: …}`, which would be 2 in wide at the sides and 1 in at top and bottom, or more "
        "where that is too narrow to sew",
        "or give `spacers: {fabric: …}` under `pieced`, which fill each row up to the side",
    )


@pytest.mark.parametrize(("repeat", "turns"), [
    ("[tooth, tooth@90]", [0, 1, 0, 1]),
    ("[tooth@180*2]", [2, 2, 2, 2]),
    ("[tooth, tooth@mirror]", [0, None, 0, None]),
])
def test_blocks_of_a_repeat_take_turns(repeat: str, turns: list[int | None]) -> None:
    """On every side they lie as along the top, turned with the side; a half-square mirrored is the same one turned."""
    plan = plan_of(text(f"[{{pieced: {{repeat: {repeat}, corner: cream}}}}]", 20, 20))
    items = [item for item in plan.sizes[0].items if item.part == "border-1" and item.kind == "assembly"]
    top = sorted((item for item in items if not item.y), key=lambda item: item.x)
    right = sorted((item for item in items if item.x == Length(25)), key=lambda item: item.y)
    along = [item.orientation.turns for item in top]
    assert [found for found, wanted in zip(along, turns, strict=True) if wanted is not None] == [
        wanted for wanted in turns if wanted is not None
    ]
    assert along[1] != along[0] or turns[0] == turns[1]
    assert [(item.orientation.turns - 1) % 4 for item in right] == along


def test_a_repeat_that_leans_is_as_long_as_it_lies() -> None:
    """A goose block of 5 x 2 1/2 on its side is 2 1/2 wide and makes the border 5 wide."""
    plan = plan_of(text("[{pieced: {repeat: [wing@90], corner: cream}}]", 20, 25))
    pieced = plan.sizes[0].borders[0]
    assert str(pieced.width) == "5"
    assert [pieced.end_units[0][1], pieced.side_units[0][1]] == [8, 10]


def test_coping_that_would_be_too_wide_names_the_sizes_that_could_be_reached() -> None:
    """46 x 58 takes 2 and 1 of coping to be 50 x 60; at most 1 1/2 reaches 50 from 47 to 49."""
    border = "[{{pieced: {{repeat: [tooth], corner: cream}}, coping: {{fabric: blue, most: {most}}}}}]"
    assert plan_of(text(border.format(most="2 in"))).sizes[0].borders[0].kind == "coping"
    found = errors(text(border.format(most="1 1/2 in")))
    assert [item.code for item in found] == ["pieced-border-does-not-fit"]
    assert found[0].hints[0].startswith(
        "42 in to 44 in or 47 in to 49 in wide and 52 in to 54 in or 57 in to 59 in high could"
    )
    for wide, high in ((42, 52), (44, 54), (47, 57), (49, 59)):
        assert plan_of(text(border.format(most="1 1/2 in"), wide, high)).sizes[0].borders[0].kind == "coping"
    for wide in (41, 46, 51):
        assert errors(text(border.format(most="1 1/2 in"), wide, 59)) != []


def test_corners_are_square() -> None:
    found = errors(text("[{pieced: {repeat: [wing]}, coping: {fabric: blue}}]"))
    assert [item.code for item in found] == ["block-size-mismatch"]


def test_a_border_of_plain_squares_needs_its_width() -> None:
    squares = "[{{{width}pieced: {{repeat: [red, cream], corner: blue}}}}]"
    assert [item.code for item in errors(text(squares.format(width=""), 20, 24))] == ["missing-key"]
    plan = plan_of(text(squares.format(width="width: 2 in, "), 20, 24))
    counts = around(plan, "border-1")
    assert sorted(counts.values()) == [4, 22, 22]


def test_a_mitered_border_is_longer_by_the_extra_of_the_house() -> None:
    plan = plan_of(text("[{width: 3 in, fabric: blue, corners: mitered}]", 20, 30))
    assert cut_sides(plan, "blue") == {lengths("3 1/2", "42"), lengths("3 1/2", "32")}
    shapes = [item.outline for item in plan.sizes[0].items if item.part == "border-1"]
    assert [len(outline) for outline in shapes] == [4] * 4


def test_a_triple_mitered_border_is_cut_to_one_length() -> None:
    """1 + 2 1/2 + 3 1/2 on 50 x 60: joined as one, cut 2 x 7 and the extra of 6 longer than each side."""
    borders = ", ".join(f"{{width: {width} in, fabric: blue, corners: mitered}}" for width in ("1", "2 1/2", "3 1/2"))
    plan = plan_of(text(f"[{borders}]", 50, 60))
    assert {sides[1] for sides in cut_sides(plan, "blue")} == {Length(60 + 14 + 6), Length(50 + 14 + 6)}
    assert {border.joined for border in plan.sizes[0].borders} == {("border-1", "border-2", "border-3")}


def test_a_mitered_border_without_extra_still_has_its_seams() -> None:
    pattern = text("[{width: 3 in, fabric: blue, corners: mitered}]", 20, 30)
    plan = plan_of(pattern.replace("usable-width: 120 in", "usable-width: 120 in, miter-extra: 0 in"))
    assert cut_sides(plan, "blue") == {lengths("3 1/2", "36 1/2"), lengths("3 1/2", "26 1/2")}


@pytest.mark.parametrize(("borders", "code"), [
    ("[{width: 2 in, fabric: blue, coping: {fabric: red}}]", "coping-without-pieced"),
    ("[{fabric: blue, pieced: {repeat: [tooth]}}]", "pieced-and-plain"),
    ("[{fabric: blue}]", "missing-key"),
    ("[{width: 2 in}]", "missing-key"),
    ("[{pieced: {repeat: [half]}}]", "wrong-kind"),
    ("[{pieced: {repeat: [tooth 2x2]}}]", "sized-placement"),
    ("[{pieced: {repeat: [tooth], corner: red/cream}}]", "sized-placement"),
    ("[{pieced: {repeat: [tooth]}, coping: {fabric: red, least: 1 in, most: 3/4 in}}]", "coping-limits"),
])
def test_mistakes(borders: str, code: str) -> None:
    assert [item.code for item in errors(text(borders))] == [code]


def test_coping_around_a_top_with_a_root_is_trimmed_to_whole_units() -> None:
    plan = plan_of(sample(f"""\
fabrics: {{red: {{}}, cream: {{}}, blue: {{}}}}
blocks:
  one: {{size: 6 in, rows: [[red]]}}
  tooth: {{size: 2 1/2 in, rows: [[cream]]}}
quilt:
  setting: on-point
  arrange: [[one]]
  setting-triangles: {{fabric: cream, float: 1 in}}
  borders: [{{pieced: {{repeat: [tooth]}}, coping: {{fabric: blue}}}}]
sizes: {{only: {{across: 3, down: 4}}}}
{PLAIN_PRACTICE}"""))
    coping = plan.sizes[0].borders[0]
    assert not coping.width.length.is_rational
    assert all((side.length - Length("1/2")).is_multiple_of(Length("5/2").rational()) for side in coping.after)
    assert all(side.is_rational for pair in cut_sides(plan, "blue") for side in pair)
