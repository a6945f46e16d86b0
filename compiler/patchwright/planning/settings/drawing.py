"""The finished drawing of a top while it is laid out: placed parts, and plain cloth with its counts.

In: parts one by one, with their finished places.
Out: a `Top`.
Never: a rule of a setting or a border.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from patchwright.core.geometry import UPRIGHT, Orientation, Polygon, moved
from patchwright.core.length import ZERO, Cut, Length
from patchwright.core.source import NOWHERE, Span
from patchwright.methods.method import Then
from patchwright.planning.instances import BlockKey

Place = tuple[Length, Length, Length, Length]
"""Left, top, width and height, finished."""


@dataclass(frozen=True, slots=True)
class ClothKey:
    """Plain cloth of the top, by what it is; the same key in another size is the same piece there."""

    fabric: str
    part: str
    """`sashing`, `cornerstones`, `border-1` …, `setting`, `setting-triangles`, `strips`."""
    label: str
    """Tells apart different pieces of one part: `upright`, `level`, `long`, `side`, `end`, `corner`, `edge`."""
    number: int = 1
    """Counts pieces of one label that differ in length, in the order in which they are met."""


@dataclass(frozen=True, slots=True)
class ClothNeed:
    """How large a plain piece is finished, and how many are needed."""

    width: Length
    height: Length
    count: int
    cut: tuple[Cut, Cut] | None = None
    """Its cut size where that is not the finished one and two seams."""
    then: Then = "none"
    """How it is cut again; `count` is then a count of squares."""


@dataclass(frozen=True, slots=True)
class TopPart:
    """A placed part with its finished place in the top."""

    key: BlockKey | ClothKey
    part: str
    orientation: Orientation
    x: Length
    y: Length
    width: Length
    height: Length
    outline: Polygon = ()
    """Its corners where it is no upright rectangle; `x` to `height` are then the box around it."""
    on_point: bool = False
    """Whether it lies turned by a further eighth, counterclockwise."""
    row: int | None = None
    """Its diagonal row on point, from 1 at the upper left; the corners before and after them are rows of their own."""
    column: int | None = None
    """In a strippy quilt, the number of its column from 1 at the left, strips counted too."""

    def moved(self, dx: Length, dy: Length) -> TopPart:
        return replace(self, x=self.x + dx, y=self.y + dy, outline=moved(self.outline, dx, dy))


@dataclass(slots=True)
class Top:
    """The finished drawing of one size, before letters."""

    columns: tuple[Length, ...]
    rows: tuple[Length, ...]
    center: tuple[Length, Length]
    size: tuple[Length, Length]
    parts: list[TopPart] = field(default_factory=list)
    cloth: dict[ClothKey, ClothNeed] = field(default_factory=dict)
    """Every plain piece."""
    spans: dict[ClothKey, Span] = field(default_factory=dict)
    sash: tuple[Length, Length] | None = None


@dataclass(frozen=True, slots=True)
class Center:
    """What a setting lays out: widths of columns, heights of rows, and the size of all, before borders."""

    columns: tuple[Length, ...]
    rows: tuple[Length, ...]
    width: Length
    height: Length
    sash: tuple[Length, Length] | None = None
    """How wide the sashing is between columns, 0 where there is none, and between rows; None without sashing."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The edge of everything so far; its origin moves outward as borders are added."""

    x: Length
    y: Length
    width: Length
    height: Length

    def grown(self, aside: Length, above: Length) -> Frame:
        """The edge after a border of this width at the sides and this one at top and bottom."""
        return Frame(self.x - aside, self.y - above, self.width + aside * 2, self.height + above * 2)


@dataclass(slots=True)
class Drawing:
    """Collects parts and cloth."""

    parts: list[TopPart] = field(default_factory=list)
    cloth: dict[ClothKey, ClothNeed] = field(default_factory=dict)
    spans: dict[ClothKey, Span] = field(default_factory=dict)

    def place(self, key: BlockKey, part: str, orientation: Orientation, place: Place) -> None:
        """Place an assembly upright."""
        self.parts.append(TopPart(key, part, orientation, *place))

    def lay(self, fabric: str, part: str, label: str, place: Place, span: Span) -> None:
        """Place a plain rectangle; pieces of one label that differ in size are numbered."""
        x, y, width, height = place
        key = self.need(ClothKey(fabric, part, label), ClothNeed(width, height, 1), span)
        self.parts.append(TopPart(key, part, UPRIGHT, x, y, width, height))

    def shape(self, key: ClothKey, outline: Polygon, row: int | None = None) -> None:
        """Place cloth of another shape; its need is entered apart."""
        self.parts.append(TopPart(key, key.part, UPRIGHT, *around(outline), outline, row=row))

    def need(self, key: ClothKey, need: ClothNeed, span: Span = NOWHERE) -> ClothKey:
        """Enter plain cloth, under the first number of its label that is free or has the same size."""
        number = 1
        while (known := self.cloth.get(key := replace(key, number=number))) is not None:
            if replace(known, count=0) == replace(need, count=0):
                break
            number += 1
        count = known.count if known is not None else 0
        self.cloth[key] = replace(need, count=count + need.count)
        self.spans.setdefault(key, span)
        return key

    def moved(self, dx: Length, dy: Length) -> list[TopPart]:
        """All parts, moved."""
        return [part.moved(dx, dy) for part in self.parts]


def around(outline: Polygon) -> Place:
    """The box around a polygon."""
    left, top = min(corner.x for corner in outline), min(corner.y for corner in outline)
    return left, top, max(corner.x for corner in outline) - left, max(corner.y for corner in outline) - top


def starts(sides: tuple[Length, ...], gap: Length = ZERO, start: Length = ZERO) -> list[Length]:
    """Where sides that lie one after the other with gaps begin."""
    made = [start]
    for side in sides[:-1]:
        made.append(made[-1] + side + gap)
    return made
