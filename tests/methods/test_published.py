"""Published cut sizes, each with its source in `data/published.yaml`, against what the methods give."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
import yaml

from methods.asking import TINY, ask, rules
from methods.folding import box_of
from methods.making import half_square_two
from patchwright.core.length import Length
from patchwright.core.measure import parse_number
from patchwright.methods.half_rectangle import exact_rectangle
from patchwright.methods.method import Recipe, RecipePiece, Request, unfinished_size
from patchwright.methods.registry import BY_NAME

Check = Mapping[str, Any]
ROWS = yaml.safe_load((Path(__file__).parent / "data" / "published.yaml").read_text("utf-8"))


@pytest.mark.parametrize("row", [pytest.param(row, id=row["id"]) for row in ROWS])
def test_published_value(row: Mapping[str, Any]) -> None:
    found = FIND[row["check"]["find"]](row["check"])
    wanted = figures(row["expected"])
    assert len(found) == len(wanted)
    for one, other in zip(found, wanted, strict=True):
        if row["tolerance"] == 0 and isinstance(one, Length) and one.is_rational:
            assert one.rational() == other
        else:
            assert float(one) == pytest.approx(float(other), abs=row["tolerance"] or 1e-9)


def test_every_row_has_its_source() -> None:
    assert len({row["id"] for row in ROWS}) == len(ROWS)
    assert all(row["source"]["title"] for row in ROWS)
    assert all("argument" in row for row in ROWS if row["check"].get("house", {}).get("triangles") == "trim")


TRADE = [
    ("half-square", "4", "first", {}, {}, "39/8"),
    ("half-square", "73/8", "first", {}, {}, "10"),
    ("half-square", "33/8", "first", {"make": "eight-at-a-time"}, {}, "10"),
    ("square-in-square", "5", "center", {}, {"step": "1/16"}, "65/16"),
    ("square-in-square", "5", "center", {}, {}, "33/8"),
]


@pytest.mark.parametrize(("method", "size", "piece", "words", "house", "wanted"), TRADE)
def test_trade_case(
    method: str, size: str, piece: str, words: dict[str, str], house: dict[str, str], wanted: str
) -> None:
    """Sizes that printed patterns have wrong; the right ones follow from arithmetic: common practice, no source."""
    check = {"method": method, "size": size, "piece": piece, "words": words, "house": house}
    assert pieces(check)[0].width.length == Length(wanted)


def test_rounded_center_is_trimmed() -> None:
    """A square in a square of 5 in, its center rounded up to an eighth, is trimmed: common practice, no source."""
    assert asked({"method": "square-in-square", "size": "5"})[1].trim
    assert not asked({"method": "square-in-square", "size": "5", "house": {"step": "1/16"}})[1].trim


def test_four_and_a_half_is_too_small_for_four() -> None:
    """Squares of 4 1/2 sewn two at a time finish at about 3 5/8, not 4: common practice, no source."""
    unit = half_square_two({"first": (4.5, 4.5), "second": (4.5, 4.5)}, 0.25)[0]
    left, _, right, _ = box_of(unit)
    assert right - left - 0.5 == pytest.approx(3.625, abs=1 / 32)


def figures(expected: object) -> list[Fraction]:
    """The row's value or values as exact numbers: `3 x 5 1/2`, 2.375 or a list."""
    if isinstance(expected, list):
        return [Fraction(str(one)) for one in expected]
    if isinstance(expected, str):
        return [parse_number(part) for part in expected.split(" x ")]
    return [Fraction(str(expected))]


def asked(check: Check) -> tuple[Request, Recipe]:
    house = dict(check.get("house", {}))
    if house.get("step") == "tiny":
        house["step"] = TINY
    law = rules(house.pop("system", "in"), house.pop("triangles", "standard"), **house)
    sides = check["size"].split(" x ")
    roles = tuple(check.get("roles", "").split())
    request = ask(check["method"], sides[0], sides[-1], law, roles=roles, words=check.get("words"))
    method = BY_NAME[check["method"]]
    assert method.refuse(request) == ()
    return request, method.recipe(request)


def pieces(check: Check) -> list[RecipePiece]:
    _, recipe = asked(check)
    return [next(piece for piece in recipe.pieces if piece.id == name) for name in check["piece"].split()]


def added(check: Check) -> list[Length]:
    return [pieces(check)[0].width.length - asked(check)[0].width]


def added_to_height(check: Check) -> list[Length]:
    return [pieces(check)[0].width.length - asked(check)[0].height]


def both_heights(check: Check) -> list[Length]:
    heights = {piece.height.length for piece in pieces(check)}
    return list(heights)


def unfinished(check: Check) -> list[Length]:
    """Height first, as the sources write it."""
    width, height = unfinished_size(asked(check)[0])
    return [height.length] if width == height else [height.length, width.length]


def finished_piece(check: Check) -> list[Length]:
    return [pieces(check)[0].width.length - asked(check)[0].rules.seam * 2]


def finished_of_cut(check: Check) -> list[Length]:
    assert float(pieces(check)[0].width) == pytest.approx(float(check["cut"]), abs=1e-9)
    return [asked(check)[0].width]


def finished_row(check: Check) -> list[Length]:
    """What plain patches of these cut sizes finish at when they are sewn in a row."""
    seam = rules().seam
    total = Length()
    for cut in check["cuts"].split():
        request = ask("patch", Length(cut) - seam * 2, "1")
        assert BY_NAME["patch"].recipe(request).pieces[0].width.length == Length(cut)
        total += request.width
    return [total]


def stage_width(check: Check) -> list[Length]:
    request, recipe = asked(check)
    stage = next(s for s in BY_NAME[check["method"]].stages(request, recipe) if s.key == check["stage"])
    return [max(point.x for shape in stage.views[0].shapes for point in shape.outline)]


def stage_length(check: Check) -> list[Length]:
    request, recipe = asked(check)
    stage = next(s for s in BY_NAME[check["method"]].stages(request, recipe) if s.key == check["stage"])
    return [dict(stage.lengths)[check["name"]]]


def segments(check: Check) -> list[int]:
    """The most segments whose strips are no longer than the given length."""
    fitting = []
    for count in range(1, 17):
        _, recipe = asked({**check, "words": {"segments": str(count)}})
        fitting += [recipe.batch] if recipe.pieces[0].width.length <= Length(check["length"]) else []
    return [max(fitting)]


def rectangle(check: Check) -> list[Length]:
    width, height = (Length(side) for side in check["size"].split(" x "))
    return list(exact_rectangle(width, height, rules().seam))


FIND: dict[str, Callable[[Check], Sequence[Length | int]]] = {
    "cut": lambda check: [pieces(check)[0].width.length],
    "cuts": lambda check: [piece.width.length for piece in pieces(check)],
    "cut-size": lambda check: [pieces(check)[0].width.length, pieces(check)[0].height.length],
    "height": both_heights,
    "added": added,
    "added-to-height": added_to_height,
    "unfinished": unfinished,
    "unfinished-size": unfinished,
    "finished-piece": finished_piece,
    "finished-of-cut": finished_of_cut,
    "finished-row": finished_row,
    "stage-width": stage_width,
    "stage-length": stage_length,
    "batches": lambda check: [asked(check)[1].batch * check["batches"]],
    "segments": segments,
    "exact-rectangle": rectangle,
}
