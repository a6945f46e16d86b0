"""One-way prints in every method: what a batch is said to give upright, tried with cloth that is laid in every way.

Sewn units are folded and sewn with prints that stay unknown until the end, so that every way of laying each square is
tried; of squares that are cut into triangles it is counted which way each triangle of a square faces.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import chain, combinations, product
from typing import Any

import numpy as np
import pytest

from methods import folding, making
from methods.asking import EXACT, ask
from methods.folding import Region, Seen
from methods.test_making import make, settle
from patchwright.core.geometry import Orientation, Polygon
from patchwright.core.length import ZERO, Length
from patchwright.methods.method import Recipe, Request
from patchwright.methods.registry import BY_NAME

MOST_PIECES = 8
WAYS = ((0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0))
"""A print that runs up, and by quarter turns clockwise."""
ALL_TURNS = (0, 1, 2, 3)

Upright = list[tuple[str, int, Any]]
"""Of every region of a unit: its role, its physical piece, and the matrix by which that piece's print lies in it."""


class Bench:
    """Hands out pieces whose prints are kept as unknowns: a vector for each physical piece."""

    def __init__(self) -> None:
        self.roles: list[str] = []

    def piece(self, role: str, width: float, height: float, x: float = 0.0, y: float = 0.0) -> Seen:
        number = len(self.roles)
        self.roles.append(role)
        unknown: list[Any] = [np.zeros(2 * MOST_PIECES), np.zeros(2 * MOST_PIECES)]
        unknown[0][2 * number] = unknown[1][2 * number + 1] = 1.0
        return [Region(role, folding.piece(role, width, height, x, y)[0].outline, (unknown[0], unknown[1]))]


def sewn(name: str, request: Request, monkeypatch: pytest.MonkeyPatch) -> tuple[list[str], list[Upright]]:
    """The role of every physical piece of one batch, and how its print lies in every unit at @0."""
    bench, recipe = Bench(), BY_NAME[name].recipe(request)
    monkeypatch.setattr(making, "piece", bench.piece)
    units = []
    for unit in make(name, recipe, request):
        laid = settle(name, unit, BY_NAME[name].patches(request), request, recipe)
        assert laid is not None
        units.append([_matrix(region) for region in laid])
    return bench.roles, units


def _matrix(region: Region) -> tuple[str, int, Any]:
    px: Any = region.print[0]
    py: Any = region.print[1]
    number = int(np.nonzero(np.abs(px) + np.abs(py) > 1e-9)[0][0]) // 2
    own = slice(2 * number, 2 * number + 2)
    return region.role, number, np.array([px[own], py[own]])


def upright_turns(roles: list[str], units: list[Upright], one_way: tuple[str, ...]) -> set[tuple[int, ...]]:
    """For every way of laying the pieces, the turns in which units lie with all these prints up; the fullest ones."""
    found: set[tuple[int, ...]] = set()
    mine = [number for number, role in enumerate(roles) if role in one_way]
    tried = [
        [
            (number, [_quarter(matrix @ np.array(way)) for way in WAYS])
            for role, number, matrix in unit if role in one_way
        ]
        for unit in units
    ]
    for ways in product(range(4), repeat=len(mine)):
        laid = dict(zip(mine, ways, strict=True))
        turns = []
        for unit in tried:
            seen = {quarters[laid[number]] for number, quarters in unit}
            if len(seen) == 1 and (quarter := seen.pop()) is not None:
                turns.append(-quarter % 4)
        found.add(tuple(sorted(turns)))
    most = max(len(turns) for turns in found)
    return {turns for turns in found if len(turns) == most}


def _quarter(way: Any) -> int | None:
    """The quarter turns of a print, None where it lies on the diagonal."""
    return next((turn for turn, known in enumerate(WAYS) if np.allclose(way, known, atol=1e-6)), None)


def some_of(roles: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    return chain.from_iterable(combinations(roles, count) for count in range(1, len(roles) + 1))


SEWN = [
    *(("half-square", {"make": make}, ()) for make in ("two-at-a-time", "eight-at-a-time", "four-at-a-time")),
    ("quarter-square", {"make": "two-at-a-time"}, ("top", "right")),
    ("quarter-square", {"make": "two-at-a-time"}, ("top", "right", "bottom")),
    ("flying-geese", {"make": "flipped"}, ()), ("flying-geese", {"make": "four-at-a-time"}, ()),
    ("square-in-square", {"make": "flipped"}, ()),
    ("flipped-corners", {"order": "opposite"}, ("base", "nw", "se")),
    ("flipped-corners", {}, ("base", "nw", "ne", "se", "sw")),
    ("log-cabin", {"rounds": "1"}, ()), ("courthouse-steps", {"rounds": "1"}, ()), ("four-patch", {}, ()),
]


@pytest.mark.parametrize(("name", "words", "roles"), SEWN)
def test_a_batch_gives_as_many_upright_as_is_said(
    name: str, words: dict[str, str], roles: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    request = ask(name, "4", "2" if name == "flying-geese" else "4", EXACT, words=words, roles=roles)
    recipe = BY_NAME[name].recipe(request)
    pieces, units = sewn(name, request, monkeypatch)
    for one_way in some_of(tuple(dict.fromkeys(pieces))):
        if set(one_way) & set(recipe.leaning):
            assert upright_turns(pieces, units, one_way) == {()}, one_way
        else:
            assert tuple(sorted(recipe.turns(one_way))) in upright_turns(pieces, units, one_way), one_way


CUT = [
    ("half-square", {"make": "singly"}, ()), ("half-rectangle", {}, ()), ("flying-geese", {"make": "cut"}, ()),
    ("quarter-square", {"make": "cut"}, ("top", "right")),
    ("quarter-square", {"make": "cut"}, ("top", "right", "bottom")),
    ("quarter-square", {"make": "cut"}, ("top", "right", "bottom", "left")), ("split-square", {}, ()),
    ("square-in-square", {"make": "cut"}, ()), ("nested-square", {}, ()),
]


@pytest.mark.parametrize(("name", "words", "roles"), CUT)
def test_squares_cut_into_triangles_give_as_many_upright_as_is_said(
    name: str, words: dict[str, str], roles: tuple[str, ...]
) -> None:
    """A square cut once gives two triangles that face each other, cut twice one for each side."""
    request = ask(name, "2" if name == "half-rectangle" else "4", "2" if name == "flying-geese" else "4", EXACT,
                  words=words, roles=roles)
    made = BY_NAME[name]
    recipe = made.recipe(request)
    named = tuple(dict.fromkeys(patch.role for patch in made.patches(request)))
    for one_way in some_of(named):
        if set(one_way) & set(recipe.leaning):
            continue
        wanted: dict[str, Counter[tuple[int, int]]] = {role: Counter() for role in one_way}
        for turns in recipe.turns(one_way):
            for patch in made.patches(request):
                if patch.role in one_way:
                    wanted[patch.role][_facing(patch.outline, request, turns)] += 1
        for role in one_way:
            assert _supplied(recipe, role, wanted[role]), (one_way, role, wanted[role])


def _facing(outline: Polygon, request: Request, turns: int) -> tuple[int, int]:
    """The direction of a triangle's right angle from the middle of its long side, in the quilt; (0, 0) for others."""
    laid = Orientation(turns).polygon(outline, request.width, request.height)
    if len(laid) != 3:
        return 0, 0
    for tip, one, other in zip(laid, laid[1:] + laid[:1], laid[2:] + laid[:2], strict=True):
        legs = ((one.x - tip.x, one.y - tip.y), (other.x - tip.x, other.y - tip.y))
        if not legs[0][0] * legs[1][0] + legs[0][1] * legs[1][1]:
            x, y = tip.x * 2 - one.x - other.x, tip.y * 2 - one.y - other.y
            return x.sign(), y.sign()
    return 0, 0


def _supplied(recipe: Recipe, role: str, wanted: Counter[tuple[int, int]]) -> bool:
    """Whether the squares of a role give triangles that face so, their prints up."""
    once = sum(piece.per_batch for piece in recipe.pieces if piece.role == role and piece.then == "once")
    twice = sum(piece.per_batch for piece in recipe.pieces if piece.role == role and piece.then == "twice")
    straight = {facing: count for facing, count in wanted.items() if 0 in facing and facing != (0, 0)}
    slanted = {facing: count for facing, count in wanted.items() if 0 not in facing}
    rising = max(slanted.get((-1, -1), 0), slanted.get((1, 1), 0))
    falling = max(slanted.get((1, -1), 0), slanted.get((-1, 1), 0))
    return all(count <= twice for count in straight.values()) and rising + falling <= once


@pytest.mark.parametrize(("name", "words", "role"), [
    ("square-in-square", {"make": "cut"}, "center"), ("nested-square", {}, "inner"),
])
def test_pieces_that_lean_are_turned_by_an_eighth(name: str, words: dict[str, str], role: str) -> None:
    """The sides of the leaning patches that are cut along the grain lie on the diagonal of the unit."""
    request = ask(name, "4", "4", EXACT, words=words)
    assert BY_NAME[name].recipe(request).leaning == (role,)
    for patch in BY_NAME[name].patches(request):
        if patch.role == role:
            corners = patch.outline
            sides = [(b.x - a.x, b.y - a.y) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]
            level = [side for side in sides if side[0] == ZERO or side[1] == ZERO]
            assert len(level) == (1 if len(corners) == 3 else 0)


TEMPLATES: list[tuple[str, str, str, dict[str, str]]] = [
    ("eight-point-star", "8", "8", {}), ("kaleidoscope", "8", "8", {}), ("parallelogram", "8", "4", {}),
    ("polygon", "4", "4", {}), ("triangle-60", "24", "8", {}), ("hexagon", "40", "12", {}),
    ("quarter-circle", "4", "4", {}),
]


@pytest.mark.parametrize(("name", "width", "height", "words"), TEMPLATES)
def test_templates_of_which_patches_are_turned_lean(
    name: str, width: str, height: str, words: dict[str, str]
) -> None:
    """A role is safe where it has a template for each patch, up to moving: as many shapes as differ in direction."""
    extents = {"radius": "3"} if name == "quarter-circle" else {}
    roles = ("first", "second") if name == "polygon" else ()
    request = ask(name, width, height, EXACT, words=words, extents=extents, roles=roles)
    recipe = BY_NAME[name].recipe(request)
    for role in {piece.role for piece in recipe.pieces}:
        patches = [patch.outline for patch in BY_NAME[name].patches(request) if patch.role == role]
        shapes = {_sides_of(outline) for outline in patches}
        templates = sum(piece.role == role for piece in recipe.pieces)
        if len(shapes) > templates:
            assert role in recipe.leaning, (role, len(shapes), templates)
        elif name in ("polygon", "quarter-circle"):
            assert role not in recipe.leaning


def _sides_of(outline: Polygon) -> frozenset[tuple[Length, Length]]:
    """The sides of a shape as vectors, which moving does not change and turning does."""
    return frozenset((b.x - a.x, b.y - a.y) for a, b in zip(outline, outline[1:] + outline[:1], strict=True))
