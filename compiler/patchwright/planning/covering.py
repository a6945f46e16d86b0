"""An independent check of tops that have more than upright rectangles: on point, mitered, or with triangles.

In: a finished plan.
Out: one sentence for each thing that does not agree.
Never: a function of the settings; only the plan's own data and exact arithmetic.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from patchwright.core.geometry import Point, Polygon
from patchwright.core.length import Length
from patchwright.planning.plan import Piece, Plan, PlannedSize, TopItem

TRIANGLES = "setting-triangles"
STONES = "cornerstones"
SASHES = ("sashing", STONES)
STRIPS = "strips"
THREE = 3
ROOT = Length.root(2)
USUAL_SEAM = Length("3/4")
METRIC_SHORTFALL = Length("1/8")
"""The trade's constants in centimeters are too small by up to so much; a warning says so when they are used."""
Line = tuple[str, Length]


def uncovered(size: PlannedSize) -> Iterator[str]:
    """Whether the parts cover the top without a gap or an overlap.

    Every part runs clockwise. Each stretch of an edge counts up where it begins and down where it ends, on the line on
    which it lies; together with the edge of the whole top, run the other way, everything on every line must cancel.
    What covers a point then changes across no line, so that every point is covered as the outside is: not at all.
    """
    width, height = size.finished[0].length, size.finished[1].length
    ends: Counter[tuple[Line, Length]] = Counter()
    whole = _box(Length(), Length(), width, height)
    for outline in (*map(outline_of, size.items), whole[::-1]):
        for here, there in zip(outline, outline[1:] + outline[:1], strict=True):
            line = _line(here, there)
            if line is None:
                yield "an edge of the top lies neither upright, nor level, nor on the diagonal"
                return
            along = 1 if line[0] == "upright" else 0
            ends[line, (here.x, here.y)[along]] += 1
            ends[line, (there.x, there.y)[along]] -= 1
    if any(ends.values()):
        (_, place), _ = next(entry for entry in ends.items() if entry[1])
        yield f"a gap or an overlap in the top at an edge near {place}"
    if any(_double_area(outline_of(item)).sign() <= 0 for item in size.items):
        yield "a part of the top is turned inside out"


def outline_of(item: TopItem) -> Polygon:
    """The corners of a part, clockwise."""
    return item.outline or _box(item.x, item.y, item.x + item.width, item.y + item.height)


def is_triangle(item: TopItem) -> bool:
    """Whether a part is a setting triangle, or half a cornerstone at an edge: a square gives several."""
    return item.part == TRIANGLES or (item.part == STONES and len(item.outline) == THREE)


def _box(left: Length, top: Length, right: Length, bottom: Length) -> Polygon:
    return Point(left, top), Point(right, top), Point(right, bottom), Point(left, bottom)


def _line(here: Point, there: Point) -> Line | None:
    """The line on which an edge lies: its kind, and what is the same for all its points."""
    if here.y == there.y:
        return "level", here.y
    if here.x == there.x:
        return "upright", here.x
    if here.x + here.y == there.x + there.y:
        return "rising", here.x + here.y
    return ("falling", here.x - here.y) if here.x - here.y == there.x - there.y else None


def _double_area(outline: Polygon) -> Length:
    total = Length()
    for here, there in zip(outline, outline[1:] + outline[:1], strict=True):
        total += here.x * there.y - there.x * here.y
    return total


@dataclass(frozen=True, slots=True)
class Shapes:
    """Checks what shaped parts are cut from."""

    plan: Plan

    def check(self, index: int, size: PlannedSize) -> Iterator[str]:
        """Blocks on point are as large as their places; triangles and mitered strips are cut large enough."""
        wrong: dict[str, None] = {}
        for item in size.items:
            fault = None
            if is_triangle(item):
                fault = self._triangle(index, size, item)
            elif item.on_point:
                fault = self._on_point(index, item)
            elif item.part in SASHES and item.outline:
                fault = self._slanted_sash(index, item)
            elif item.outline:
                fault = self._mitered(index, item)
            if fault:
                wrong[fault] = None
        yield from wrong

    def squares(self, size: PlannedSize) -> Counter[str]:
        """How many squares the triangles of a top are cut from.

        A square that is cut twice gives four, one for each edge of the quilt, which counts where the print is one-way.
        """
        edges: dict[str, Counter[str]] = {}
        for item in size.items:
            if is_triangle(item):
                edges.setdefault(item.ref, Counter())[_edge(size, item)] += 1
        made: Counter[str] = Counter()
        for ref, counts in edges.items():
            piece = self._piece(ref)
            each = 2 if piece.then == "once" else 4
            one_way = piece.upright and piece.then == "twice"
            made[ref] = max(counts.values()) if one_way else -(-counts.total() // each)
        return made

    def is_rounded_strip(self, index: int, item: TopItem) -> bool:
        """Whether a strip whose finished sides have roots in them is cut by less than a step too large.

        Such are those of borders, and those between columns of blocks on point.
        """
        if item.kind != "piece" or not (item.part.startswith("border") or item.part == STRIPS):
            return False
        if item.width.is_rational and item.height.is_rational:
            return False
        cut = self._sides(index, item.ref)
        step, seams = self.plan.rules.round_cuts, self.plan.rules.seam * 2
        wanted = sorted((item.width + seams, item.height + seams))
        return all(side >= own and side - own < Length(step) for side, own in zip(cut, wanted, strict=True))

    def _piece(self, ref: str) -> Piece:
        return next(piece for piece in self.plan.pieces if piece.id == ref)

    def _sides(self, index: int, ref: str) -> tuple[Length, Length]:
        """The cut sides of a piece, the shorter first."""
        size = self._piece(ref).sizes[index]
        sides = sorted((size.width.length, size.height.length)) if size is not None else [Length(), Length()]
        return sides[0], sides[1]

    def _on_point(self, index: int, item: TopItem) -> str | None:
        """A block on point lies in a square whose sides are the block's."""
        seams = self.plan.rules.seam * 2
        if item.kind == "piece":
            sides = tuple(side - seams for side in self._sides(index, item.ref))
        else:
            made = next(one.sizes[index] for one in self.plan.assemblies if one.id == item.ref)
            sides = (made.finished[0].length, made.finished[1].length) if made is not None else ()
        edges = zip(item.outline, item.outline[1:] + item.outline[:1], strict=True)
        lengths = {(abs(a.x - b.x), abs(a.y - b.y)) for a, b in edges}
        right = len(item.outline) == 4 and set(sides) and all(
            across == down and across * ROOT == side for across, down in lengths for side in sides
        )
        return None if right else f"`{item.ref}` does not fit its place on point"

    def _triangle(self, index: int, size: PlannedSize, item: TopItem) -> str | None:
        """A setting triangle has its straight grain along the edge of the quilt, and is cut large enough."""
        piece, cut = self._piece(item.ref), self._sides(index, item.ref)
        seam = self.plan.rules.seam
        corner = len(_edge(size, item)) == 2
        if cut[0] != cut[1] or piece.then != ("once" if corner else "twice"):
            return f"{piece.id} would put a bias edge along the quilt"
        reach = _reach(size, item)
        needed = reach + seam * 2 + seam * ROOT if corner else reach + (seam + seam * ROOT) * 2
        rules = self.plan.rules
        if rules.system == "cm" and rules.triangles != "exact" and seam == USUAL_SEAM:
            needed -= METRIC_SHORTFALL
        if cut[0] < needed:
            return f"{piece.id} is too small for the edge of the quilt"
        if cut[0] - needed > Length(1) * 2 + rules.oversize:
            return f"{piece.id} is much larger than its place"
        return None

    def _slanted_sash(self, index: int, item: TopItem) -> str | None:
        """Sashing on the diagonal is cut as it is finished, or as far as the tips of its slanted ends need.

        A slanted end moves outward by a seam, and its tip along the strip by a seam and the seam's diagonal.
        """
        seam = self.plan.rules.seam
        falls, rises = ([(point.x + sign * point.y) * ROOT / 2 for point in item.outline] for sign in (1, -1))
        narrow, long = sorted((max(falls) - min(falls), max(rises) - min(rises)))
        cut = self._sides(index, item.ref)
        if cut[0] != narrow + seam * 2:
            return f"{item.ref} is not as wide as its sashing"
        plain = len(set(falls)) == len(set(rises)) == 2
        excess = cut[1] - long - (seam * 2 if plain else (seam + seam * ROOT) * 2)
        if excess.sign() < 0:
            return f"{item.ref} is too short for its sashing"
        if excess.sign() > 0 and (plain or excess >= Length(self.plan.rules.round_cuts)):
            return f"{item.ref} is longer than its sashing"
        return None

    def _mitered(self, index: int, item: TopItem) -> str | None:
        """A mitered strip is as wide as its border and two seams, and reaches from corner to corner."""
        seams = self.plan.rules.seam * 2
        short, long = self._sides(index, item.ref)
        narrow, reach = sorted((item.width, item.height))
        if short < narrow + seams or short - narrow - seams >= Length(self.plan.rules.round_cuts):
            return f"{item.ref} is not as wide as its mitered border"
        return f"{item.ref} is too short for its miters" if long < reach + seams else None


def _edge(size: PlannedSize, item: TopItem) -> str:
    """The edges of the quilt's center, or of its column, that a part lies along: one letter for a side, two for a
    corner.
    """
    center = [
        other for other in size.items if not other.part.startswith("border") and other.column == item.column
    ]
    left, top = min(other.x for other in center), min(other.y for other in center)
    right, bottom = max(other.x + other.width for other in center), max(other.y + other.height for other in center)
    found = {
        "l": [point for point in item.outline if point.x == left],
        "r": [point for point in item.outline if point.x == right],
        "t": [point for point in item.outline if point.y == top],
        "b": [point for point in item.outline if point.y == bottom],
    }
    return "".join(name for name, points in found.items() if len(points) > 1)


def _reach(size: PlannedSize, item: TopItem) -> Length:
    """The side of the smallest triangle on the straight grain that holds a part.

    For a side its long edge, which lies along the quilt; for a corner its short edges, which both do.
    """
    edge = _edge(size, item)
    across = -1 if "r" in edge else 1
    down = -1 if "b" in edge else 1
    points = [(point.x * across, point.y * down) for point in item.outline]
    if len(edge) == 2:
        return max(x + y for x, y in points) - min(x for x, _ in points) - min(y for _, y in points)
    level = edge in ("t", "b")
    along = [(x, y) if level else (y, x) for x, y in points]
    base = min(high for _, high in along)
    return max(place + high for place, high in along) - min(place - high for place, high in along) - base * 2
