"""Precut sheets: yields come from layouts, prints follow their rules, and the pack is counted honestly."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patchwright.planning.cutting import (
    CannotCut,
    Group,
    Loose,
    PackPlan,
    PackProblem,
    Pile,
    SheetLayout,
    SheetPiece,
    layout,
    plan_pack,
    yields,
)

from .ruler import Rectangle, apart, ruler_can_cut


def grid(inches: str, per_inch: int = 8) -> int:
    """Return a length such as `4 1/2` in eighths of an inch."""
    return int(sum(Fraction(word) for word in inches.split()) * per_inch)


def piece(key: str, width: str, height: str) -> SheetPiece:
    return SheetPiece(key, grid(width), grid(height), True)


def check_layout(width: int, height: int, pieces: tuple[SheetPiece, ...], drawn: SheetLayout) -> Counter[str]:
    """Fail unless the layout holds whole pieces that its cuts, made in order, set free; return their counts."""
    sizes = {one.key: one for one in pieces}
    placed = [Rectangle(p.key, p.x, p.y, p.width, p.height) for p in drawn.places]
    for spot in drawn.places:
        one = sizes[spot.key]
        assert (spot.width, spot.height) == ((one.height, one.width) if spot.turned else (one.width, one.height))
        assert one.turn or not spot.turned
        assert 0 <= spot.x <= width - spot.width
        assert 0 <= spot.y <= height - spot.height
    assert all(apart(a, b) for i, a in enumerate(placed) for b in placed[:i])
    assert ruler_can_cut(placed, 0, 0, width, height)
    rectangles = {(0, 0, width, height)}
    for cut in drawn.cuts:
        whole = (cut.x, cut.y, cut.width, cut.height)
        assert whole in rectangles
        rectangles.remove(whole)
        if cut.upright:
            rectangles |= {(cut.x, cut.y, cut.at - cut.x, cut.height)}
            rectangles |= {(cut.at, cut.y, cut.x + cut.width - cut.at, cut.height)}
        else:
            rectangles |= {(cut.x, cut.y, cut.width, cut.at - cut.y)}
            rectangles |= {(cut.x, cut.at, cut.width, cut.y + cut.height - cut.at)}
    expected = {(p.x, p.y, p.width, p.height) for p in drawn.places} | {
        (left.x, left.y, left.width, left.height) for left in drawn.left
    }
    assert rectangles == expected
    return Counter(spot.key for spot in drawn.places)


def check_pack(problem: PackProblem, plan: PackPlan) -> None:
    """Fail unless the sheets give every group from one print, groups apart as asked, and all loose pieces."""
    cut: dict[tuple[str, int], Counter[str]] = {}
    for sheet in plan.sheets:
        cut.setdefault((sheet.pile, sheet.print), Counter()).update(
            check_layout(problem.width, problem.height, problem.pieces, sheet.layout)
        )
    groups = {group.key: group for group in problem.groups}
    served: list[str] = []
    loose: Counter[str] = Counter()
    for used in plan.prints:
        here = cut[used.pile, used.print]
        for key in used.groups:
            here.subtract(dict(groups[key].needs))
            assert groups[key].pile in (None, used.pile)
        here.subtract(dict(used.loose))
        loose.update(dict(used.loose))
        assert all(n >= 0 for n in here.values())
        words = [word for key in used.groups for word in groups[key].apart]
        assert len(words) == len(set(words))
        served += used.groups
    assert sorted(served) == sorted(groups)
    wanted: Counter[str] = Counter()
    for one in problem.loose:
        wanted[one.piece] += one.count
    assert loose == wanted
    for pile in problem.piles:
        used_prints = {(s.pile, s.print) for s in plan.sheets if s.pile == pile.key}
        assert plan.packs is not None
        assert len(used_prints) <= pile.prints * (1 if groups else pile.sheets * plan.packs)
        assert dict(plan.unused)[pile.key] >= 0
    assert plan.bound <= plan.needed <= plan.used


TEN = grid("10")


@pytest.mark.parametrize(
    ("size", "square", "count"),
    [
        (("10", "10"), "2 1/2", 16),
        (("18", "22"), "3 1/2", 30),
        (("18", "22"), "2", 99),
        (("18", "21"), "2", 90),
        (("17", "20"), "2", 80),
    ],
)
def test_squares_from_one_sheet(size: tuple[str, str], square: str, count: int) -> None:
    """Common practice, no source."""
    assert yields(grid(size[0]), grid(size[1]), (piece("a", square, square),), (999,)) == ((count,),)


def test_area_alone_promises_a_layout_that_no_ruler_can_cut() -> None:
    """Common practice, no source."""
    tight = (piece("a", "1 1/2", "4 1/2"), piece("b", "1 1/2", "3 1/2"), piece("c", "3", "3"))
    counts = yields(TEN, TEN, tight, (6, 6, 3))
    assert (6, 6, 3) not in counts
    assert {(6, 6, 1), (6, 5, 2)} <= set(counts)
    assert layout(TEN, TEN, tight, (6, 6, 3)) is None
    easier = (piece("a", "1 1/2", "3 1/2"), piece("b", "1 1/2", "2 1/2"), piece("c", "3", "3"))
    drawn = layout(TEN, TEN, easier, (6, 6, 3))
    assert drawn is not None
    assert check_layout(TEN, TEN, easier, drawn) == {"a": 6, "b": 6, "c": 3}


def star_and_heart(prints: int, size: str = "10", blocks: int = 9) -> PackProblem:
    pieces = (piece("star", "2 1/2", "4 1/2"), piece("heart", "4 1/2", "4 1/2"))
    groups = [Group(f"star {b}", (("star", 4),), apart=(f"block {b}",)) for b in range(blocks)]
    groups += [Group(f"heart {b}", (("heart", 1),), apart=(f"block {b}",)) for b in range(blocks)]
    return PackProblem(grid(size), grid(size), pieces, (Pile("all", prints),), tuple(groups))


def test_the_worked_example_needs_seven_squares() -> None:
    problem = star_and_heart(42)
    pairs = {(g, c) for g, c in product(range(3), range(5)) if 2 * g + c <= 4}
    best = yields(problem.width, problem.height, problem.pieces, (36, 9))
    assert {(g, c) for g, c in product(range(3), range(5)) if any(4 * g <= a and c <= b for a, b in best)} == pairs
    plan = plan_pack(problem)
    check_pack(problem, plan)
    assert (plan.enough, plan.used, plan.needed, plan.bound, plan.proof) == (True, 7, 7, 7, "proven")
    assert dict(plan.unused) == {"all": 35}
    stars, hearts = (
        PackProblem(TEN, TEN, problem.pieces, problem.piles, tuple(g for g in problem.groups if g.key.startswith(word)))
        for word in ("star", "heart")
    )
    assert plan_pack(stars).used + plan_pack(hearts).used == 8


def test_six_squares_are_not_enough_and_the_plan_says_seven() -> None:
    problem = star_and_heart(6)
    plan = plan_pack(problem)
    assert (plan.enough, plan.needed, plan.packs) == (False, 7, 2)
    check_pack(problem, plan)


def test_an_eighth_less_gives_what_a_ruler_still_can() -> None:
    problem = star_and_heart(42, "9 7/8")
    plan = plan_pack(problem)
    check_pack(problem, plan)
    assert plan.used == 9


def test_groups_of_one_block_need_prints_of_their_own() -> None:
    assert plan_pack(star_and_heart(1, blocks=1)).packs is None
    plan = plan_pack(star_and_heart(2, blocks=1))
    assert (plan.enough, plan.used) == (True, 2)


def test_one_group_may_take_more_sheets_of_a_print_than_are_usually_looked_at() -> None:
    rectangle, square = piece("star", "2 1/2", "4 1/2"), piece("heart", "4 1/2", "4 1/2")
    places = tuple(f"block {n}" for n in range(9))
    groups = (
        Group("all stars", (("star", 36),), apart=places),
        *(Group(f"heart {n}", (("heart", 1),), apart=(place,)) for n, place in enumerate(places)),
    )
    plan = plan_pack(PackProblem(grid("10"), grid("10"), (rectangle, square), (Pile("all", 6, 7),), groups))
    # Eight rectangles to a square: 36 take five squares of one print; its fifth cannot serve hearts, which stand in the
    # same blocks and so take another print, four to a square.
    assert (plan.needed, plan.used, plan.packs) == (8, 8, 1)
    star = next(share for share in plan.prints if "all stars" in share.groups)
    assert star.groups == ("all stars",)
    assert sum(sheet.print == star.print for sheet in plan.sheets) == 5


def test_a_group_that_needs_two_packs_of_one_print() -> None:
    problem = PackProblem(
        grid("10"), grid("10"), (piece("star", "5", "5"),), (Pile("all", 4, 3),), (Group("g", (("star", 22),)),)
    )
    plan = plan_pack(problem)
    assert (plan.needed, plan.used, plan.packs) == (6, 6, 2)


def test_eighty_half_squares_from_forty_two_pairs() -> None:
    """Eight at a time: ten pairs make eighty, but eighty different prints are more than the pack holds."""
    square = (piece("square", "10", "10"),)
    pack = (Pile("all", 42),)
    assert plan_pack(PackProblem(TEN, TEN, square, pack, (), (Loose("square", 10),))).used == 10
    different = tuple(Group(f"g{i}", (("square", 1),), apart=("quilt",)) for i in range(80))
    plan = plan_pack(PackProblem(TEN, TEN, square, pack, different))
    assert (plan.enough, plan.packs, plan.needed) == (False, None, 80)


def test_more_packs_when_one_is_not_enough() -> None:
    square = (piece("a", "2 1/2", "2 1/2"),)
    problem = PackProblem(TEN, TEN, square, (Pile("all", 42),), (), (Loose("a", 700),))
    plan = plan_pack(problem)
    check_pack(problem, plan)
    assert (plan.enough, plan.packs, plan.needed, dict(plan.unused)) == (False, 2, 44, {"all": 40})
    assert dict(plan.spare) == {"a": 4}


def test_seventy_two_squares_from_twenty_four_fat_quarters() -> None:
    problem = PackProblem(
        grid("18"), grid("21"), (piece("a", "7 1/2", "7 1/2"),), (Pile("all", 24),), (), (Loose("a", 72),)
    )
    plan = plan_pack(problem)
    check_pack(problem, plan)
    assert plan.enough


def test_piles_prints_and_loose_pieces_together() -> None:
    problem = PackProblem(
        40,
        40,
        (SheetPiece("big", 30, 30, False), SheetPiece("small", 10, 10, True)),
        (Pile("light", 5, 2), Pile("dark", 3, 2)),
        (Group("one", (("big", 2),)), Group("two", (("big", 1), ("small", 3)), "dark")),
        (Loose("small", 4, "light"), Loose("small", 2)),
    )
    plan = plan_pack(problem)
    check_pack(problem, plan)
    assert plan.used == 3


def test_a_piece_larger_than_the_sheet_is_refused() -> None:
    with pytest.raises(CannotCut) as caught:
        plan_pack(PackProblem(40, 40, (SheetPiece("a", 41, 3, True),), (Pile("all", 4),), (), (Loose("a", 1),)))
    assert (caught.value.key, caught.value.reason) == ("a", "too-large")


def by_trying(width: int, height: int, pieces: tuple[SheetPiece, ...], counts: tuple[int, ...]) -> bool:
    """Tell by trying every whole-number cut whether a sheet gives the counts: slow, and sure."""
    if not any(counts):
        return True
    if sum(counts) == 1:
        one = pieces[counts.index(1)]
        return (one.width <= width and one.height <= height) or (
            one.turn and one.height <= width and one.width <= height
        )
    parts = [c for c in product(*(range(n + 1) for n in counts)) if any(c) and c != counts]
    for first in parts:
        second = tuple(a - b for a, b in zip(counts, first, strict=True))
        for at in range(1, width):
            if by_trying(at, height, pieces, first) and by_trying(width - at, height, pieces, second):
                return True
        for at in range(1, height):
            if by_trying(width, at, pieces, first) and by_trying(width, height - at, pieces, second):
                return True
    return False


@settings(max_examples=25, deadline=None, derandomize=True)
@given(
    st.integers(3, 6),
    st.integers(3, 6),
    st.lists(st.tuples(st.integers(1, 4), st.integers(1, 4), st.booleans()), min_size=1, max_size=2),
)
def test_yields_are_all_that_cuts_can_do(width: int, height: int, sizes: list[tuple[int, int, bool]]) -> None:
    pieces = tuple(SheetPiece(f"p{i}", *size) for i, size in enumerate(sizes))
    limits = (2,) * len(pieces)
    best = yields(width, height, pieces, limits)
    for counts in product(*(range(n + 1) for n in limits)):
        promised = any(all(a <= b for a, b in zip(counts, vector, strict=True)) for vector in best)
        assert promised == by_trying(width, height, pieces, counts)
        drawn = layout(width, height, pieces, counts)
        assert (drawn is not None) == promised
        if drawn is not None:
            assert check_layout(width, height, pieces, drawn) == Counter(
                {one.key: n for one, n in zip(pieces, counts, strict=True) if n}
            )


def test_many_loose_sizes_from_fat_quarters() -> None:
    sizes = (("2 1/2", "2 1/2"), ("4 1/2", "4 1/2"), ("2 1/2", "4 1/2"), ("3 1/2", "3 1/2"), ("5", "5"))
    pieces = tuple(piece(f"p{i}", *size) for i, size in enumerate(sizes))
    loose = tuple(Loose(one.key, 20) for one in pieces)
    problem = PackProblem(grid("18"), grid("21"), pieces, (Pile("all", 3),), (), loose)
    plan = plan_pack(problem)
    check_pack(problem, plan)
    assert plan.needed - plan.bound <= 1


@pytest.mark.parametrize(("pieces", "sheets", "packs"), [(10, 1, 3), (66, 1, 17), (66, 2, 9), (160, 1, 40)])
def test_packs_enough_for_one_group_of_many_sheets(pieces: int, sheets: int, packs: int) -> None:
    """Four squares of 4 1/2 come from one of 10, so that so many of one print take so many packs."""
    square = piece("square", "4 1/2", "4 1/2")
    plan = plan_pack(PackProblem(
        grid("10"), grid("10"), (square,), (Pile("all", 6, sheets),), (Group("quilt", (("square", pieces),)),)
    ))
    assert plan.packs == packs
    assert plan.needed == plan.used == -(-pieces // 4)


def test_a_group_of_more_sheets_than_are_ever_counted_has_no_plan() -> None:
    square = piece("square", "4 1/2", "4 1/2")
    problem = PackProblem(
        grid("10"), grid("10"), (square,), (Pile("all", 6, 1),), (Group("quilt", (("square", 241),)),)
    )
    assert plan_pack(problem).packs is None


def test_a_group_of_many_sizes_and_sheets_is_still_covered() -> None:
    """Fewer ways are followed there, and the plan must cover every piece all the same."""
    needs = (("wide", 120), ("small", 90), ("square", 41), ("long", 60))
    pieces = tuple(
        piece(key, width, height)
        for key, width, height in (
            ("wide", "4 1/2", "2 1/2"), ("small", "2 1/2", "2 1/2"), ("square", "2 7/8", "2 7/8"),
            ("long", "5 1/4", "1 1/2"),
        )
    )
    group = Group("quilt", needs)
    plan = plan_pack(PackProblem(grid("10"), grid("10"), pieces, (Pile("all", 2, 1),), (group,)))
    made = Counter(place.key for sheet in plan.sheets for place in sheet.layout.places)
    assert plan.packs == plan.needed == plan.used
    assert plan.needed >= plan.bound
    assert all(made[key] >= count for key, count in needs)
