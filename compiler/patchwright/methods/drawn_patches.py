"""Patches that an author draws by their corners: `0 0, 2 0, 0 2; 2 0, 2 2, 0 2`.

In: a request with a text of corners.
Out: finished polygons, clockwise, that tile the unit; or why they do not.
The corners are counted on an even grid over the unit: the farthest across is its width, the farthest down its height.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from itertools import combinations

from patchwright.core.geometry import Polygon, double_area
from patchwright.core.length import ZERO, Length
from patchwright.methods.flat_shapes import double_area_of, is_clockwise_and_simple, overlap
from patchwright.methods.limits import refuse_wide_seam
from patchwright.methods.method import Key, Refusal, Request
from patchwright.methods.staging import at
from patchwright.methods.template import Spot, coarse, direction, fine_spot

MOST_PATCHES, MOST_CORNERS = 16, 16
MOST_DIGITS = 9

PATCHES = Key(
    "patches",
    "The corners of every patch, in the order of the fabrics: across and down from the upper left corner.",
    "text",
    default="0 0, 1 0, 0 1; 1 0, 1 1, 0 1",
)

_EXAMPLE = "write `patches: \"0 0, 2 0, 0 2; 2 0, 2 2, 0 2\"`: corners between commas, patches between semicolons"


def drawn_polygons(request: Request) -> tuple[Polygon, ...]:
    """The patches of a request that `refuse_drawn` does not refuse."""
    return _scaled(request.word("patches"), request.width, request.height)


def refuse_drawn(request: Request, noun: str) -> tuple[Refusal, ...]:
    """Why the drawn patches cannot be sewn together to this unit; `noun` names it with its article."""
    return _refuse_text(request, noun) or _refuse_tiling(request, noun) or _refuse_narrow(request)


def _refuse_text(request: Request, noun: str) -> tuple[Refusal, ...]:
    try:
        read = _read(request.word("patches"))
    except ValueError as fault:
        return (Refusal("patches-not-read", "patches", f"the patches of {noun} {fault}", (_EXAMPLE,)),)
    if len(read) == len(request.roles):
        return ()
    message = f"{noun} has {len(request.roles)} fabrics and the corners of {len(read)} patches"
    return (Refusal("patches-not-read", "patches", message, ("give each patch its fabric, in the same order",)),)


def _refuse_tiling(request: Request, noun: str) -> tuple[Refusal, ...]:
    """Patches may neither cross themselves nor each other, nor leave a gap."""
    hint = "every patch lies beside the next, and together they fill the unit from corner to corner"
    polygons = drawn_polygons(request)
    for number, polygon in enumerate(polygons, 1):
        if not is_clockwise_and_simple(polygon):
            message = f"the sides of patch {number} of {noun} cross"
            return (Refusal("patches-not-whole", "patches", message, ("name its corners in order around it",)),)
    for (number, one), (second, other) in combinations(enumerate(polygons, 1), 2):
        if overlap(one, other):
            message = f"patches {number} and {second} of {noun} overlap"
            return (Refusal("patches-not-whole", "patches", message, (hint,)),)
    covered = sum((double_area(polygon) for polygon in polygons), ZERO)
    if covered != request.width * request.height * 2:
        return (Refusal("patches-not-whole", "patches", f"the patches of {noun} do not fill it", (hint,)),)
    return ()


def _refuse_narrow(request: Request) -> tuple[Refusal, ...]:
    narrow = min(width_across(polygon) for polygon in drawn_polygons(request))
    return refuse_wide_seam(request, coarse(narrow), "a patch")


def width_across(polygon: Polygon) -> Fraction:
    """The least distance between a side and the corner farthest from it."""
    spots = [fine_spot(point) for point in polygon]
    least: Fraction | None = None
    for start, end in zip(spots, spots[1:] + spots[:1], strict=True):
        along = direction(start, end)
        far = max(abs(along[0] * (y - start[1]) - along[1] * (x - start[0])) for x, y in spots)
        least = far if least is None else min(least, far)
    return least or Fraction(0)


@lru_cache(maxsize=256)
def _read(text: str) -> tuple[tuple[Spot, ...], ...]:
    """The corners as numbers; ValueError says what is wrong, to be read after `the patches of a unit`."""
    patches = [part for part in text.split(";") if part.strip()]
    if not 2 <= len(patches) <= MOST_PATCHES:
        raise ValueError(f"must be from 2 to {MOST_PATCHES}, and there are {len(patches)}")
    read = tuple(_corners(part) for part in patches)
    if any(max(spot[axis] for patch in read for spot in patch) <= 0 for axis in (0, 1)):
        raise ValueError("have no width or no height")
    return read


def _corners(text: str) -> tuple[Spot, ...]:
    """One patch, clockwise as drawn."""
    spots = tuple(_spot(part) for part in text.split(","))
    if not 3 <= len(spots) <= MOST_CORNERS:
        raise ValueError(f"have from 3 to {MOST_CORNERS} corners each, and `{text.strip()}` has {len(spots)}")
    if len(set(spots)) < len(spots):
        raise ValueError(f"name a corner twice in `{text.strip()}`")
    return spots if double_area_of(spots) > 0 else spots[::-1]


def _spot(text: str) -> Spot:
    parts = text.split()
    if len(parts) != 2:
        raise ValueError(f"need two numbers for every corner, and one is `{text.strip()}`")
    return _number(parts[0]), _number(parts[1])


def _number(text: str) -> Fraction:
    """A number that is not negative, as `3`, `2.5` or `5/2`."""
    allowed = len(text) <= MOST_DIGITS and all(letter in "0123456789./" for letter in text)
    try:
        return Fraction(text) if allowed else Fraction("")
    except (ValueError, ZeroDivisionError):
        raise ValueError(f"have a corner at `{text}`, and numbers are such as `3`, `2.5` or `5/2`") from None


@lru_cache(maxsize=256)
def _scaled(text: str, width: Length, height: Length) -> tuple[Polygon, ...]:
    read = _read(text)
    right, bottom = (max(spot[axis] for patch in read for spot in patch) for axis in (0, 1))
    return tuple(tuple(at(width * (x / right), height * (y / bottom)) for x, y in patch) for patch in read)
