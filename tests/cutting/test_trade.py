"""Cases from the trade about strips and yardage, as numbers. Common practice, no source.

Lengths in inches; straightening 0, yardage rounded up to 1/8 yard. Where a case states the plain practice, ours must
not need more.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from patchwright.planning.cutting import SheetPiece, Yardage, YardagePlan, best, plain, yields

from .lists import on_grid
from .ruler import check


def inches(plan: YardagePlan, grid: int) -> object:
    return Fraction(plan.length, grid)


def strips_of(plan: YardagePlan) -> int:
    return sum(strip.count for strip in plan.strips)


def planned(width: object, items: list[list[object]], joined: list[list[object]], turn: bool) -> tuple[Yardage, int]:
    problem, grid = on_grid(width, items, joined, turn)
    check(problem, plain(problem))
    check(problem, best(problem))
    return problem, grid


@pytest.mark.parametrize(
    ("width", "items", "turn", "strips", "length", "eighths"),
    [
        (Fraction(85, 2), [[8.5, 8.5, 144]], True, 29, Fraction(493, 2), 55),
        (42, [[8.5, 8.5, 144]], True, 36, 306, 68),
        (40, [[8.5, 8.5, 144]], True, 36, 306, 68),
        (42, [[14, 2.5, 42]], False, 14, 35, 8),
        (40, [[14, 2.5, 42]], False, 21, Fraction(105, 2), 12),
        (44, [[2.5, 2.5, 70]], True, 5, Fraction(25, 2), 3),
        (42, [[4.5, 2.5, 140]], False, 16, 40, 9),
        (40, [[4.5, 2.5, 140]], False, 18, 45, 10),
        (42, [[12.5, 12.5, 15]], True, 5, Fraction(125, 2), 14),
    ],
)
def test_plain_practice(
    width: object, items: list[list[object]], turn: bool, strips: int, length: Fraction, eighths: int
) -> None:
    problem, grid = planned(width, items, [], turn)
    plan = plain(problem)
    assert (strips_of(plan), inches(plan, grid), plan.step) == (strips, length, eighths)
    assert best(problem).step <= eighths


def test_turning_forty_two_pieces_saves_three_eighths() -> None:
    problem, grid = planned(40, [[14, 2.5, 42]], [], True)
    plan = best(problem)
    assert inches(plan, grid) == Fraction(81, 2)
    assert plan.step == 9
    assert sorted((strip.height // grid, strip.count) for strip in plan.strips) == [(2, 5), (14, 2)]


def test_turning_a_hundred_and_forty_pieces_saves_an_eighth() -> None:
    problem, grid = planned(40, [[4.5, 2.5, 140]], [], True)
    plan = best(problem)
    assert (strips_of(plan), inches(plan, grid), plan.step) == (9, Fraction(81, 2), 9)


@pytest.mark.parametrize(("width", "made"), [(42, 96), (40, 80)])
def test_ninety_squares_from_eight_half_yards(width: int, made: int) -> None:
    square = (SheetPiece("a", 14, 14, True),)
    assert 8 * yields(2 * width, 36, square, (99,))[0][0] == made


@pytest.mark.parametrize(("length", "made"), [(36, 56), (18, 24), (9, 8)])
def test_five_inch_squares_from_a_yard_and_less(length: int, made: int) -> None:
    assert yields(40, length, (SheetPiece("a", 5, 5, True),), (99,)) == ((made,),)
    assert yields(39, 9, (SheetPiece("a", 5, 5, True),), (99,)) == ((7,),)


def test_sixteen_strip_sets_make_sixty_four_blocks() -> None:
    # A strip set 8 1/2 high is cut like a strip: four blocks to a set.
    for sets, blocks in ((16, 64), (20, 80)):
        problem, _ = planned(42, [[8.5, 8.5, blocks]], [], False)
        assert strips_of(plain(problem)) == sets


def test_a_border_cut_across_or_along_the_cloth() -> None:
    perimeter: list[list[object]] = [[Fraction(11, 2), 2 * 50 + 2 * 50, Fraction(1, 2)]]
    problem, grid = planned(40, [], perimeter, False)
    plan = best(problem)
    assert (strips_of(plan), inches(plan, grid), plan.step) == (6, 33, 8)
    # Lengthwise without joins: four bands side by side, as long as the longest side.
    problem, grid = planned(40, [[5.5, 50, 4]], [], False)
    plan = best(problem)
    assert (inches(plan, grid), plan.step) == (50, 12)


@pytest.mark.parametrize(
    ("length", "loss", "strips", "eighths"),
    [(2 * (68 + 84), Fraction(5, 2), 9, 5), (2 * (96 + 110) + 10, Fraction(5, 2), 12, 7), (177, 0, 5, 3)],
)
def test_binding_counts_its_joins(length: int, loss: object, strips: int, eighths: int) -> None:
    problem, _ = planned(40, [], [[Fraction(5, 2), length, loss]], False)
    plan = best(problem)
    assert (strips_of(plan), plan.step) == (strips, eighths)
    assert dict(plan.joins)["j0"] == strips - 1


def test_a_length_as_wide_as_the_cloth_uses_all_of_it() -> None:
    problem, grid = planned(21, [[7.5, 7.5, 1], [13.5, 7.5, 1]], [], False)
    plan = best(problem)
    assert plan.smallest_width == problem.width == 21 * grid
    assert strips_of(plan) == 1


def test_a_border_longer_than_the_cloth_needs_a_join() -> None:
    problem, _ = planned(42, [], [[5.5, 42.5, Fraction(1, 2)]], False)
    assert dict(best(problem).joins)["j0"] >= 1
    problem, _ = planned(42, [], [[5.5, 42, Fraction(1, 2)]], False)
    assert dict(best(problem).joins)["j0"] == 0


def test_a_plain_plan_shares_pieces_evenly_over_its_strips() -> None:
    problem, grid = planned(44, [[2.5, 2.5, 70]], [], True)
    plan = plain(problem)
    assert [cut.each for strip in plan.strips for cut in strip.cuts] == [14]
    assert plan.smallest_width == 35 * grid
