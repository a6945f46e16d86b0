"""Every unit as its instructions make it, from cut pieces to opened units, by folding, sewing and cutting alone.

Each maker takes the cut pieces' sides by id and the seam, and returns all units of one batch, as they come out.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial, reduce
from itertools import cycle, islice, pairwise
from math import hypot

from methods.folding import Line, Seen, at_origin, box_of, cut, face_down, flip, moved, outline, piece, sew, turned

Sides = dict[str, tuple[float, float]]
Maker = Callable[[Sides, float], list[Seen]]


def rising(side: float) -> Line:
    """From lower left to upper right of a square, keeping its lower right."""
    return Line((0.0, side), (side, 0.0))


def falling(side: float) -> Line:
    """From upper left to lower right of a square, keeping its lower left."""
    return Line((0.0, 0.0), (side, side))


def both_sides(upper: Seen, lower: Seen, line: Line, seam: float) -> list[Seen]:
    """Sew beside a line on both sides, then cut apart on it."""
    return [sew(upper, lower, line.beside(seam)), sew(upper, lower, line.back().beside(seam))]


def half_square_two(sides: Sides, seam: float) -> list[Seen]:
    first, second = piece("first", *sides["first"]), piece("second", *sides["second"])
    return both_sides(first, second, rising(sides["first"][0]), seam)


def half_square_eight(sides: Sides, seam: float) -> list[Seen]:
    """Cut through the middle both ways, then apart on the drawn diagonals."""
    side = sides["first"][0]
    upper, lower = piece("first", *sides["first"]), piece("second", *sides["second"])
    across, down = Line((0, side / 2), (side, side / 2)), Line((side / 2, 0), (side / 2, side))
    units = []
    for horizontal in (across, across.back()):
        for vertical in (down, down.back()):
            quarter = [cut(cut(layer, horizontal), vertical) for layer in (upper, lower)]
            middle = outline(quarter[0]).centroid
            diagonal = rising(side) if (middle.x > side / 2) != (middle.y > side / 2) else falling(side)
            units += both_sides(quarter[0], quarter[1], diagonal, seam)
    return units


def half_square_four(sides: Sides, seam: float) -> list[Seen]:
    """Sewn all around and cut on both diagonals; each unit comes out standing on a corner."""
    side = sides["first"][0]
    even_edges(side, sides["second"][0])
    upper, lower = piece("first", *sides["first"]), piece("second", *sides["second"])
    corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]
    units = []
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        center = (side / 2, side / 2)
        wedge = [cut(cut(layer, Line(center, start)), Line(end, center)) for layer in (upper, lower)]
        units.append(turned(sew(wedge[0], wedge[1], Line(start, end).beside(seam)), 45))
    return units


def half_square_singly(sides: Sides, seam: float) -> list[Seen]:
    units = []
    for reverse in (False, True):
        lines = [rising(sides[role][0]) for role in ("first", "second")]
        first, second = (line.back() if reverse else line for line in lines)
        triangles = cut(piece("first", *sides["first"]), first), cut(piece("second", *sides["second"]), second)
        units.append(sew(*triangles, first.beside(seam)))
    return units


def flipped_onto(base: Seen, width: float, height: float, flaps: dict[str, str], side: float) -> Seen:
    """Flip a square of each role onto its corner of a base, in the order given, sewing on the square's diagonal."""
    for corner, role in flaps.items():
        x = 0.0 if "w" in corner else width - side
        y = 0.0 if "n" in corner else height - side
        stitch = {
            "nw": Line((x, y + side), (x + side, y)),
            "ne": Line((x, y), (x + side, y + side)),
            "se": Line((x + side, y), (x, y + side)),
            "sw": Line((x + side, y + side), (x, y)),
        }[corner]
        base = sew(piece(role, side, side, x, y), base, stitch)
    return base


def geese_flipped(sides: Sides, seam: float) -> list[Seen]:
    width, height = sides["goose"]
    flaps = {"nw": "sky", "ne": "sky"}
    return [flipped_onto(piece("goose", width, height), width, height, flaps, sides["sky"][0])]


def geese_four(sides: Sides, seam: float) -> list[Seen]:
    """Two small squares in opposite corners, then one on each remaining corner."""
    large, small = sides["goose-square"][0], sides["sky"][0]
    far, diagonal = large - small, rising(large)
    flaps = piece("sky", small, small, far, 0.0) + piece("sky", small, small, 0.0, far)
    units = []
    for half in both_sides(flaps, piece("goose", large, large), diagonal, seam):
        upright = half if outline(half).centroid.x < large / 2 else about(half, large / 2, 180)
        units += both_sides(piece("sky", small, small), upright, falling(large), seam)
    return units


def geese_cut(sides: Sides, seam: float) -> list[Seen]:
    """A quarter of the large square, base at the bottom; small triangles meet it at the corners of its base."""
    large, small = sides["goose-square"][0], sides["sky"][0]
    quarter = cut(cut(piece("goose", large, large), falling(large)), rising(large))
    left = cut(piece("sky", small, small, 0.0, large - small), Line((0.0, large), (small, large - small)))
    unit = sew(left, quarter, Line((0.0, large), (large, 0.0)).beside(seam))
    corner = piece("sky", small, small, large - small, large - small)
    right = cut(corner, Line((large - small, large - small), (large, large)))
    unit = sew(right, unit, Line((0.0, 0.0), (large, large)).beside(seam))
    return [unit] * 4


def quarter_two(sides: Sides, seam: float) -> list[Seen]:
    """Half-squares laid face down on half-squares, no fabric on itself, sewn beside the other diagonal."""
    first = half_squares("top", "right", sides, seam)
    pairs = [(first[0], first[1])]
    if "bottom" in sides:
        pairs = list(zip(first, half_squares("bottom", "right", sides, seam), strict=True))
    units = []
    for one, other in pairs:
        width = box_of(one)[2]
        units += both_sides(flip(one, falling(width)), about(other, width / 2, 180), falling(width), seam)
    return units


def half_squares(upper_left: str, lower_right: str, sides: Sides, seam: float) -> list[Seen]:
    """Half-squares two at a time, each lying at the origin with its first fabric at the upper left."""
    units = []
    upper, lower = piece(upper_left, *sides[upper_left]), piece(lower_right, *sides[lower_right])
    for unit in both_sides(upper, lower, rising(sides[upper_left][0]), seam):
        laid = at_origin(unit)
        width = box_of(laid)[2]
        center = next(region for region in laid if region.role == upper_left).outline.centroid
        units.append(laid if center.x + center.y < width else at_origin(about(laid, width / 2, 180)))
    return units


def quarter_cut(sides: Sides, seam: float) -> list[Seen]:
    """Squares cut twice; pairs sewn on the short sides, then the pairs on the long ones; every unit is made alike."""
    bottom, left = "bottom" if "bottom" in sides else "top", "left" if "left" in sides else "right"
    first, second = paired("top", "right", sides, seam), paired(bottom, left, sides, seam)
    width = box_of(first)[2]
    upper = flip(about(second, width / 2, 180), falling(width))
    unit = sew(upper, first, falling(width).back().beside(seam))
    return [unit] * (2 if bottom == "top" else 4)


def paired(under: str, over: str, sides: Sides, seam: float) -> Seen:
    """Two quarters of squares sewn on a short side, lying as the upper right half of a square."""
    top, right = (
        cut(cut(piece(role, *sides[role]), falling(sides[role][0]).back()), rising(sides[role][0]).back())
        for role in (under, over)
    )
    even_edges(box_of(top)[2], box_of(right)[2])
    return sew(face_down(right), top, rising(sides[under][0]).back().beside(seam))


def in_square(sides: Sides, seam: float) -> list[Seen]:
    return [framed(piece("center", *sides["center"]), "corners", sides["corners"][0], seam)]


def in_square_flipped(sides: Sides, seam: float) -> list[Seen]:
    side = sides["center"][0]
    flaps = dict.fromkeys(("nw", "se", "ne", "sw"), "corners")
    return [flipped_onto(piece("center", side, side), side, side, flaps, sides["corners"][0])]


def nested(sides: Sides, seam: float) -> list[Seen]:
    inner = framed(piece("center", *sides["center"]), "inner", sides["inner"][0], seam)
    return [framed(inner, "corners", sides["corners"][0], seam)]


def framed(base: Seen, role: str, leg: float, seam: float) -> Seen:
    """Triangles, from squares cut once, centered on the sides of a square, opposite ones first; set on its corner."""
    base = at_origin(base)
    raw = box_of(base)[2]
    flap = at_origin(turned(cut(piece(role, leg, leg), falling(leg).back()), 135))
    flap = moved(flap, raw / 2 - box_of(flap)[2] / 2, 0.0)
    for quarter in (0, 2, 1, 3):
        base = about(base, raw / 2, 90 * quarter)
        base = about(sew(flap, base, Line((0.0, seam), (raw, seam))), raw / 2, -90 * quarter)
    return turned(base, 45)


def half_rectangle(sides: Sides, seam: float) -> list[Seen]:
    """Rectangles cut once, right side up, on the rising diagonal; triangles sewn on the long edges, tips even."""
    width, height = sides["first"]
    even_edges(hypot(width, height), hypot(*sides["second"]))
    diagonal = Line((0.0, height), (width, 0.0))
    units = []
    for line in (diagonal, diagonal.back()):
        lower, upper = cut(piece("first", width, height), line), cut(piece("second", *sides["second"]), line.back())
        units.append(sew(flip(upper, line), lower, line.beside(seam)))
    return units


def split_square(sides: Sides, seam: float) -> list[Seen]:
    """A pair of small triangles as the lower right half, a large triangle laid on it with the middles even."""
    large = sides["large"][0]
    pair = at_origin(turned(paired("right", "bottom", sides, seam), 90))
    width = box_of(pair)[2]
    shift = (width - large) / 2
    upper = flip(cut(piece("large", large, large, shift, shift), rising(width).back()), rising(width))
    return [sew(upper, pair, rising(width).beside(seam))] * 4


def checkered(side: int, sides: Sides, seam: float) -> list[Seen]:
    """Squares into rows, rows into a unit."""
    turns = [("first", "second"), ("second", "first")]
    rows = []
    for row in range(side):
        squares = [piece(role, *sides[role]) for role in islice(cycle(turns[row % 2]), side)]
        rows.append(reduce(partial(beside, seam=seam), squares))
    return [reduce(partial(below, seam=seam), rows)]


def strip_sets(roles: dict[str, str], sides: Sides, seam: float) -> list[Seen]:
    """The strips of every set sewn together, not yet cut across; pieces are named `set-1-strip-2`."""
    sets: dict[str, list[Seen]] = {}
    for name, size in sides.items():
        sets.setdefault(name.split("-strip-")[0], []).append(piece(roles[name], *size))
    return [reduce(partial(below, seam=seam), strips) for strips in sets.values()]


def segments(whole: Seen, width: float) -> list[Seen]:
    """A strip set cut across into whole segments from one end; what is left over is waste."""
    count = int(box_of(whole)[2] / width + 1e-9)
    edges = [Line((width * at, 1.0), (width * at, 0.0)) for at in range(count + 1)]
    return [cut(cut(whole, left), right.back()) for left, right in pairwise(edges)]


def checkered_from_strips(side: int, sets: list[Seen], width: float, seam: float) -> list[Seen]:
    """Segments sewn to units, by turns as they are cut and turned half around, or from one set and the other."""
    piles = [segments(whole, width) for whole in sets]
    units: list[Seen] = []
    while True:
        columns = []
        for place in range(side):
            pile = piles[place % len(piles)]
            if not pile:
                return units
            segment = pile.pop()
            columns.append(turned(segment, 180) if len(sets) == 1 and place % 2 else segment)
        units.append(reduce(partial(beside, seam=seam), columns))


def strip_pieces(sides: Sides, roles: dict[str, str], seam: float) -> list[Seen]:
    """Single pieces sewn one below the other."""
    return [reduce(partial(below, seam=seam), [piece(roles[name], *size) for name, size in sides.items()])]


def cabin(sides: Sides, seam: float) -> list[Seen]:
    """Logs at the top, the right, the bottom and the left, round after round."""
    unit = piece("center", *sides["center"])
    for number in range(1, len(sides)):
        log = piece("first" if number % 4 in (1, 2) else "second", *sides[f"log-{number}"])
        pair = (log, unit) if number % 4 in (1, 0) else (unit, log)
        unit = below(*pair, seam=seam) if number % 2 else beside(*pair, seam=seam)
    return [unit]


def courthouse(sides: Sides, seam: float) -> list[Seen]:
    """Logs at the top and the bottom, then at the left and the right, round after round."""
    unit = piece("center", *sides["center"])
    for number in range(1, len(sides)):
        log = piece("first" if number % 4 in (1, 2) else "second", *sides[f"log-{number}"])
        pair = (log, unit) if number % 2 else (unit, log)
        unit = below(*pair, seam=seam) if number % 4 in (1, 2) else beside(*pair, seam=seam)
    return [unit]


class UnevenEdgesError(ValueError):
    """Two edges that are to be sewn together are not of one length."""


def even_edges(one: float, other: float) -> None:
    if abs(one - other) > 1e-6:
        raise UnevenEdgesError(f"{one} cannot be sewn to {other}")


def beside(left: Seen, right: Seen, seam: float) -> Seen:
    """Two things of one height sewn side by side."""
    left, right = at_origin(left), at_origin(right)
    even_edges(box_of(left)[3], box_of(right)[3])
    edge = box_of(left)[2]
    upper = flip(moved(right, edge, 0.0), Line((edge, 0.0), (edge, 1.0)))
    return sew(upper, left, Line((edge - seam, 0.0), (edge - seam, 1.0)))


def below(top: Seen, bottom: Seen, seam: float) -> Seen:
    """Two things of one width sewn one below the other."""
    top, bottom = at_origin(top), at_origin(bottom)
    even_edges(box_of(top)[2], box_of(bottom)[2])
    edge = box_of(top)[3]
    upper = flip(moved(bottom, 0.0, edge), Line((0.0, edge), (1.0, edge)))
    return sew(upper, top, Line((1.0, edge - seam), (0.0, edge - seam)))


def about(seen: Seen, center: float, degrees: float) -> Seen:
    """Turned about the point that lies `center` right of and below the origin."""
    return moved(turned(moved(seen, -center, -center), degrees), center, center)


def corners_flipped(sides: Sides, seam: float) -> list[Seen]:
    width, height = sides["base"]
    flaps = {name.removeprefix("corner-"): name.removeprefix("corner-") for name in sides if name != "base"}
    side = next(size for name, (size, _) in sides.items() if name != "base")
    return [flipped_onto(piece("base", width, height), width, height, flaps, side)]


def plain(sides: Sides, seam: float) -> list[Seen]:
    return [piece("fabric", *sides["fabric"])]


MAKERS: dict[tuple[str, str], Maker] = {
    ("patch", "plain"): plain,
    ("half-square", "two-at-a-time"): half_square_two,
    ("half-square", "eight-at-a-time"): half_square_eight,
    ("half-square", "four-at-a-time"): half_square_four,
    ("half-square", "singly"): half_square_singly,
    ("flying-geese", "flipped"): geese_flipped,
    ("flying-geese", "four-at-a-time"): geese_four,
    ("flying-geese", "cut"): geese_cut,
    ("quarter-square", "two-at-a-time"): quarter_two,
    ("quarter-square", "cut"): quarter_cut,
    ("square-in-square", "cut"): in_square,
    ("square-in-square", "flipped"): in_square_flipped,
    ("nested-square", "cut"): nested,
    ("half-rectangle", "cut"): half_rectangle,
    ("split-square", "cut"): split_square,
    ("four-patch", "squares"): partial(checkered, 2),
    ("nine-patch", "squares"): partial(checkered, 3),
    ("sixteen-patch", "squares"): partial(checkered, 4),
    ("log-cabin", "strips"): cabin,
    ("courthouse-steps", "strips"): courthouse,
    ("flipped-corners", "flipped"): corners_flipped,
}

