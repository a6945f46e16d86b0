"""Pressing maps: a unit, a block or a top with an arrow at every seam, and marks where seams do not nest or pile up.

In: a plan with its pressing.
Out: the scenes `pressing-unit-ID`, `pressing-block-ID`, `pressing-top-SIZE`, and `pressing-legend`.
Never: a color; only outlines, so that every arrow is seen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, hypot, pi, sin

from patchwright.core.geometry import UPRIGHT
from patchwright.diagrams.arrows import seam_arrow
from patchwright.diagrams.board import Board
from patchwright.diagrams.cloth import framed, scaled
from patchwright.diagrams.fitting import fitted
from patchwright.diagrams.layout import second_marks
from patchwright.diagrams.names import block_name, first_size, unit_name
from patchwright.diagrams.patches import Flat
from patchwright.diagrams.picture import Picture, bare, padded, wrapped
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, Scene
from patchwright.diagrams.seam_places import PlacedSeam, SeamPlaces, places_in, places_on_top
from patchwright.planning.plan import Assembly, PlannedUnit

BLOCK_SIDE = 2.0
UNIT_SIDE = 1.1
"""The longer side on the page, in inches, where the room allows."""
_PARTS = (0.5, 0.3, 0.7, 0.15, 0.85)
"""How far along a seam an arrow may stand, the best place first."""
_RING = 12
"""Corners of a ring."""


def block_map(board: Board, assembly: Assembly) -> Scene:
    """All seams of a block."""
    index = first_size(board, assembly.sizes)
    flat = board.book.flat("assembly", assembly.id, UPRIGHT, index, (0, 0))
    places = _marked(board, places_in(board.plan, board.pressed, "assembly", assembly.id, index))
    name = block_name(board, assembly)
    return _scene(board, f"pressing-block-{assembly.id}", flat, places, BLOCK_SIDE, name)


def unit_map(board: Board, unit: PlannedUnit) -> Scene:
    """All seams of a unit."""
    index = first_size(board, unit.sizes)
    flat = board.book.flat("unit", unit.id, UPRIGHT, index, (0, 0))
    places = _marked(board, places_in(board.plan, board.pressed, "unit", unit.id, index))
    return _scene(board, f"pressing-unit-{unit.id}", flat, places, UNIT_SIDE, unit_name(board, unit))


def top_map(board: Board, index: int) -> Scene:
    """The seams of rows, of the joined rows and of the borders, over the outlines of the parts."""
    size = board.size(index)
    places = _marked(board, places_on_top(board.plan, board.pressed, index))
    width, height = (float(side.length) for side in size.finished)
    room = board.rows_room(index)
    scale = min((room.width - 2 * board.bleed) / width, (room.height - 2 * board.bleed) / height)
    items: list[Item] = []
    for item in size.items:
        corners = [(float(corner.x), float(corner.y)) for corner in item.outline]
        x, y, wide, high = (float(side) for side in (item.x, item.y, item.width, item.height))
        around = corners or [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]
        items.append(Area(scaled(around, scale), "paper"))
    items += second_marks(board, index, scale, (0.0, 0.0))
    items += _marks(board, places, scale)
    picture = framed(bare(width * scale, height * scale, items))
    title = board.say("pressing-map.top", size=size.label)
    return board.scene(f"pressing-top-{size.name}", picture, title, _told(board, title, places))


def _marked(board: Board, places: SeamPlaces) -> SeamPlaces:
    """Seams with what is marked on them; where the house presses open, nothing was to nest or to be spread."""
    return SeamPlaces(places.seams, (), ()) if board.pressed.rule == "open" else places


def legend_scene(board: Board) -> Scene:
    """What the marks of all maps and drawings mean."""
    em = board.em
    long, high = 3.2 * em, 1.8 * em
    middle = high / 2
    arrow = bare(long, high, [Line(((0, middle), (long, middle)), "press", "end")])
    opened = bare(long, high, [Line(((0, middle), (long, middle)), "press", "both")])
    ring = bare(high, high, [_ring(board, (middle, middle))])
    pile = bare(high, high, [_diamond(board, (middle, middle))])
    pictures = {"side": arrow, "open": opened, "missed": ring, "heavy": pile}
    keys = [key for key in pictures if key in ("side", "open") or board.pressed.rule != "open"]
    parts = [_named(board, pictures[key], board.say(f"pressing-map.{key}")) for key in keys]
    picture = wrapped(parts, board.room.width - 2 * board.bleed, 2 * em, 0.6 * em)
    title = board.say("pressing-map.legend")
    told = " ".join(board.say(f"pressing-map.told.{key}") for key in keys)
    return board.scene("pressing-legend", picture, title, told)


def _named(board: Board, picture: Picture, text: str) -> Picture:
    room = board.type.text_width(text, "small") + 1.4 * board.em
    grown = padded(picture, right=room)
    at = (picture.width + 0.6 * board.em, picture.height / 2)
    return grown.with_items([Label(at, text, "small", "start")])


def _scene(board: Board, id: str, flat: Flat, places: SeamPlaces, side: float, name: str) -> Scene:
    def draw(scale: float) -> Picture:
        items: list[Item] = [Area(scaled(patch.outline, scale), "paper") for patch in flat.patches]
        items += _marks(board, places, scale)
        return _with_room(framed(bare(flat.width * scale, flat.height * scale, items)))

    picture = fitted(board, draw, side / max(flat.width, flat.height))
    title = board.say("pressing-map.thing", name=name)
    return board.scene(id, picture, title, _told(board, title, places))


def _with_room(picture: Picture) -> Picture:
    """The picture with room for arrows of short seams that reach beyond its edge."""
    points = [point for item in picture.items if isinstance(item, Line) for point in item.points]
    across, down = [x for x, _ in points] or [0.0], [y for _, y in points] or [0.0]
    return padded(
        picture, max(0.0, -min(across)), max(0.0, -min(down)), max(0.0, max(across) - picture.width),
        max(0.0, max(down) - picture.height),
    )


def _told(board: Board, title: str, places: SeamPlaces) -> str:
    counts = {
        "spun": sum(seam.is_spun for seam in places.seams), "open": sum(seam.is_open for seam in places.seams),
        "missed": len(places.missed), "heavy": len(places.heavy),
    }
    return " ".join([
        board.say("pressing-map.seams", title=title, count=len(places.seams)),
        *(board.say(f"pressing-map.count.{key}", count=count) for key, count in counts.items() if count),
    ])


def _marks(board: Board, places: SeamPlaces, scale: float) -> Iterator[Item]:
    """Arrows, then rings and diamonds on top of them."""
    spots = [(x * scale, y * scale) for x, y in (*places.missed, *places.heavy)]
    for seam in places.seams:
        yield from _arrows(board, seam, scale, spots)
    for place in places.heavy:
        yield _diamond(board, (place[0] * scale, place[1] * scale))
    for place in places.missed:
        yield _ring(board, (place[0] * scale, place[1] * scale))


def _arrows(board: Board, seam: PlacedSeam, scale: float, spots: Sequence[XY]) -> Iterator[Line]:
    """One arrow over a seam, or one over each half of a spun one; short seams get short arrows."""
    free = _free_part(board, seam, scale, spots)
    halves = (seam.spun / 2, seam.steps[0]), ((1 + seam.spun) / 2, seam.steps[1])
    parts = halves if seam.is_spun else ((free, seam.steps[0]),)
    room = seam.long * scale * (min(seam.spun, 1 - seam.spun) if seam.is_spun else 1)
    (x, y), (other_x, other_y) = seam.ends
    for part, (dx, dy) in parts:
        at = _at(seam, part, scale)
        if seam.is_open:
            dx, dy = -(other_y - y) / seam.long, (other_x - x) / seam.long
        yield seam_arrow(board, at, (dx, dy), room, seam.is_open)


def _free_part(board: Board, seam: PlacedSeam, scale: float, spots: Sequence[XY]) -> float:
    """How far along a seam its arrow stands: in the middle, or beside it where a mark is in the way."""
    for part in _PARTS:
        at = _at(seam, part, scale)
        if all(hypot(at[0] - spot[0], at[1] - spot[1]) > 1.2 * board.em for spot in spots):
            return part
    return _PARTS[0]


def _at(seam: PlacedSeam, part: float, scale: float) -> XY:
    x, y = seam.at(part)
    return x * scale, y * scale


def _ring(board: Board, at: XY) -> Line:
    return Line(_around(at, 0.5 * board.em, _RING, closed=True), "outline")


def _diamond(board: Board, at: XY) -> Area:
    return Area(_around(at, 0.55 * board.em, 4, closed=False), "highlight", style="outline")


def _around(at: XY, radius: float, corners: int, closed: bool) -> tuple[XY, ...]:
    steps: Sequence[int] = range(corners + closed)
    return tuple(
        (at[0] + radius * cos(2 * pi * step / corners), at[1] + radius * sin(2 * pi * step / corners))
        for step in steps
    )
