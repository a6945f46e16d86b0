"""Units to try: every method in every way of making, over sizes, seams, rules and both systems of measure."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from methods.asking import EXACT, TINY, ask, rules
from patchwright.core.length import Length
from patchwright.methods.method import Request, StripRun, TriangleRules
from patchwright.methods.polygon import ORDINALS

HOUSES: dict[str, TriangleRules] = {
    "standard": rules(),
    "exact": EXACT,
    "exact in eighths": rules("in", "exact"),
    "trim": rules("in", "trim", oversize="1/8"),
    "sixteenths": rules(step="1/16"),
    "wide seam": rules(seam="3/8"),
    "narrow seam, exact": rules("in", "exact", seam="1/8", step=TINY),
    "metric exact": rules("cm", "exact"),
    "metric standard": rules("cm", "standard"),
    "metric trim": rules("cm", "trim", oversize="1/2"),
}

DRAWN = (
    "0 0, 1 0, 0 1; 1 0, 1 1, 0 1",
    "0 0, 12 0, 6 9; 0 0, 6 9, 4 12, 0 12; 12 0, 12 12, 4 12",
    "0 0, 2 0, 3 3, 0 3; 2 0, 5 0, 5 3, 3 3; 0 3, 2 3, 3 5, 0 5; 2 3, 5 3, 5 5, 3 5",
)
SQUARES = {"in": ("3/2", "3", "13/6"), "cm": ("4", "15/2")}
WORDS: dict[str, tuple[dict[str, str], ...]] = {
    "half-square": tuple(
        {"make": make} for make in ("two-at-a-time", "eight-at-a-time", "four-at-a-time", "singly")
    ),
    "flying-geese": tuple({"make": make} for make in ("flipped", "four-at-a-time", "cut")),
}


def samples() -> Iterator[tuple[str, str, Request]]:
    """Method, a name for the test, and the request."""
    for method in ("log-cabin", "courthouse-steps"):
        for rounds in range(1, 13):
            side = str(2 * rounds + 2)
            words, extents = {"rounds": str(rounds)}, {"center": "2"}
            yield method, f"{method} of {rounds} rounds", ask(method, side, side, words=words, extents=extents)
    for count in range(1, 17):
        roles = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")[: 2 + count % 7]
        words = {"segments": str(count)}
        yield "strip-set", f"strip-set of {count}", ask("strip-set", "2", "12", roles=roles, words=words)
    for grid in ("four-patch", "nine-patch", "sixteen-patch"):
        for count in (1, 2, 5):
            run = StripRun(count, Length(100))
            yield grid, f"{grid} of {count} from strips", replace(ask(grid, "6", "6"), strips=run)
        full = replace(ask(grid, "6", "6"), strips=StripRun(1, Length("13")))
        yield grid, f"{grid} from strips without spare", full
        metric = replace(ask(grid, "12", "12", rules("cm", "exact")), strips=StripRun(2, Length(105)))
        yield grid, f"{grid} from strips metric", metric
    for heights, roles in (("1 2 1", ("first", "second", "third")), ("3/2 1", ("first", "second"))):
        for words in ({"heights": heights, "segments": "3"}, {"heights": heights}):
            way = "strips" if "segments" in words else "pieces"
            yield "strip-set", f"strip-set {heights} {way}", ask("strip-set", "2", "10", roles=roles, words=words)
    for house, law in HOUSES.items():
        for side in SQUARES[law.system]:
            yield from _of_side(house, law, side)


def _of_side(house: str, law: TriangleRules, side: str) -> Iterator[tuple[str, str, Request]]:
    double = f"{2 * int(side.split('/')[0])}{'/' + side.split('/')[1] if '/' in side else ''}"
    yield "patch", f"patch {side} {house}", ask("patch", side, double, law)
    for words in WORDS["half-square"]:
        name = f"half-square {words['make']} {side} {house}"
        yield "half-square", name, ask("half-square", side, side, law, words=words)
    for words in WORDS["flying-geese"]:
        name = f"flying-geese {words['make']} {double} {house}"
        yield "flying-geese", name, ask("flying-geese", double, side, law, words=words)
    for count in (2, 3, 4):
        for make in ("two-at-a-time", "cut"):
            roles = ("top", "right", "bottom", "left")[:count]
            name = f"quarter-square {count} {make} {side} {house}"
            yield "quarter-square", name, ask("quarter-square", side, side, law, roles=roles, words={"make": make})
    for make in ("cut", "flipped"):
        name = f"square-in-square {make} {double} {house}"
        yield "square-in-square", name, ask("square-in-square", double, double, law, words={"make": make})
    yield "nested-square", f"nested-square {double} {house}", ask("nested-square", double, double, law)
    for width, height in ((side, double), (double, side)):
        name = f"half-rectangle {width} {height} {house}"
        yield "half-rectangle", name, ask("half-rectangle", width, height, law)
    yield "half-rectangle", f"half-rectangle odd {side} {house}", ask("half-rectangle", side, "29/4", law)
    yield "split-square", f"split-square {side} {house}", ask("split-square", side, side, law)
    for grid in ("four-patch", "nine-patch", "sixteen-patch"):
        yield grid, f"{grid} {double} {house}", ask(grid, double, double, law)
    for rounds, center in (("1", side), ("2", "1")):
        words, extents = {"rounds": rounds}, {"center": center}
        for cabin in ("log-cabin", "courthouse-steps"):
            name = f"{cabin} {rounds} {house} {side}"
            yield cabin, name, ask(cabin, double, double, law, words=words, extents=extents)
    yield "strip-set", f"strip-set {house} {side}", ask("strip-set", side, double, law, roles=("first", "second"))
    for number, drawn in enumerate(DRAWN, 1):
        roles = ORDINALS[: drawn.count(";") + 1]
        name = f"polygon {number} {double} {house}"
        yield "polygon", name, ask("polygon", double, double, law, roles=roles, words={"patches": drawn})
        if number < 3:
            name = f"foundation {number} {double} {house}"
            yield "foundation", name, ask("foundation", double, double, law, roles=roles, words={"patches": drawn})
    yield "parallelogram", f"parallelogram {side} {house}", ask("parallelogram", double, side, law)
    yield "eight-point-star", f"eight-point-star {double} {house}", ask("eight-point-star", double, double, law)
    if side == SQUARES[law.system][-1] and house in ("standard", "wide seam", "metric exact"):
        for rows in ("1", "2", "3", "4"):
            words = {"rows": rows}
            yield "triangle-60", f"triangle-60 {rows} {house} {side}", ask("triangle-60", "24", "8", law, words=words)
        for rows in ("2", "4", "6"):
            words = {"rows": rows}
            yield "hexagon", f"hexagon {rows} {house} {side}", ask("hexagon", "40", "12", law, words=words)
    yield "kaleidoscope", f"kaleidoscope {double} {house}", ask("kaleidoscope", double, double, law)
    for radius in ("3/2", "7/4"):
        law_radius = radius if law.system == "in" else "3"
        name = f"quarter-circle {radius} {double} {house}"
        yield "quarter-circle", name, ask("quarter-circle", double, double, law, extents={"radius": law_radius})
    for corners, order in (
        ("nw", "clockwise"),
        ("ne sw", "opposite"),
        ("nw ne se sw", "counterclockwise"),
    ):
        name = f"flipped-corners {corners} {order} {double} {house}"
        yield "flipped-corners", name, ask(
            "flipped-corners",
            double,
            double,
            law,
            roles=("base", *corners.split()),
            words={"order": order},
            extents={"corner": side},
        )
