"""The drawing board: what every drawing needs at hand, gathered once for a booklet.

In: a plan, the words of one language, the sizes of the theme's labels, the room on a page, and the sizes to show.
Out: look-ups and lengths in inches on the page.
Never: a choice that belongs to one kind of drawing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from patchwright.core.measure import CENTIMETERS_PER_INCH
from patchwright.diagrams.patches import PatchBook
from patchwright.diagrams.picture import Picture, padded
from patchwright.diagrams.pressing import AssemblyPressing, plan_pressing
from patchwright.diagrams.scene import Area, Scene, Swatch, TypeSize
from patchwright.planning.plan import Piece, Plan, PlannedSize
from patchwright.planning.pressing.results import PressingPlan


class Say(Protocol):
    """The words of one language: a template by its key, filled with values; lists; the mark of decimals."""

    def say(self, key: str, **values: object) -> str: ...

    def listed_text(self, items: Sequence[str]) -> str: ...

    @property
    def decimal_mark(self) -> str: ...


class LabelSizes(Protocol):
    """How much room labels take, in inches on the page."""

    def text_width(self, text: str, size: TypeSize = "normal", bold: bool = False) -> float: ...

    def text_height(self, size: TypeSize = "normal", bold: bool = False) -> float: ...


_QUILT_SHARE = 0.72
"""The most of a page's height that the drawing of one quilt takes, so that its caption and some words stand with it."""
_QUILT_HEIGHT = 60
"""How high it is where that is less, in heights of capitals of a usual label, so that its table and steps do, too."""
_ROWS_SHARE = 0.59
"""The most of a page's height that a drawing of the rows of one quilt takes."""
_SHARED_HEIGHT, _ROW_HEIGHT = 45, 5
"""How high two such drawings are that share a page, and how high a row needs to be, in the same measure."""


@dataclass(frozen=True, slots=True)
class Room:
    """The largest drawing that a page takes, in inches; the default fits Letter and A4."""

    width: float = 6.9
    height: float = 8.8
    cover_height: float = 5.6

    def less(self, width: float, height: float) -> Room:
        """The room that is left beside something."""
        return Room(self.width - width, self.height - height, self.cover_height)


@dataclass(frozen=True, slots=True)
class Board:
    """Everything at hand. Cloth is measured in the pattern's unit, the page in inches."""

    plan: Plan
    wording: Say
    type: LabelSizes
    room: Room
    shown: tuple[int, ...]
    """Places in `plan.sizes` of the sizes that the booklet covers, in order."""
    swatches: tuple[Swatch, ...]
    book: PatchBook
    pieces: Mapping[str, Piece]
    pressing: Mapping[str, AssemblyPressing]
    """By the ids of assemblies, and `top-SIZE`; an assembly that is missing gets no arrows, a top a plain rule."""

    @property
    def pressed(self) -> PressingPlan:
        """Which way every seam lies."""
        if self.plan.pressing is None:
            raise RuntimeError(f"`{self.plan.id}` is planned without pressing")
        return self.plan.pressing

    @property
    def em(self) -> float:
        """The measure of all gaps: the height of a usual label's capitals, so that gaps grow with the type."""
        return self.type.text_height("normal")

    @property
    def bleed(self) -> float:
        """Room around every drawing."""
        return self.em / 4

    @property
    def full_scale(self) -> float:
        """Inches on the page for one of the pattern's unit at true size."""
        return 1.0 if self.plan.system == "in" else float(1 / CENTIMETERS_PER_INCH)

    @property
    def one_size(self) -> bool:
        return len(self.shown) == 1

    @property
    def quilt_room(self) -> Room:
        """Room for a drawing of the whole quilt: of several sizes two stand side by side, else words share its page."""
        if self.one_size:
            height = min(self.room.height * _QUILT_SHARE, _QUILT_HEIGHT * self.em)
            return Room(self.room.width, height, self.room.cover_height)
        return Room((self.room.width - 3 * self.em) / 2, self.room.height / 2 - 3 * self.em, self.room.cover_height)

    def rows_room(self, index: int) -> Room:
        """Room for a drawing of all rows of one size's quilt: the layout's where several sizes are shown.

        Where one is, two drawings share a page, as long as its rows of blocks are few enough for it.
        """
        room = self.quilt_room
        if not self.one_size:
            return room
        height = max(_SHARED_HEIGHT, _ROW_HEIGHT * self.plan.sizes[index].down) * self.em
        return Room(room.width, min(self.room.height * _ROWS_SHARE, height), room.cover_height)

    def size(self, index: int) -> PlannedSize:
        return self.plan.sizes[index]

    def around(self, index: int) -> str:
        """What words call what lies around a center: a `border`, or a `round` of a medallion."""
        return "round" if self.size(index).medallion else "border"

    def piece(self, id: str) -> Piece:
        """A cut piece by its letter and number; raise KeyError if there is none."""
        return self.pieces[id]

    def say(self, key: str, **values: object) -> str:
        """The words of a figure; all their keys are under `figures`."""
        return self.wording.say(f"figures.{key}", **values)

    def scene(self, id: str, picture: Picture, title: str, description: str, scale: float = 0) -> Scene:
        """Finish a drawing, with room for its outlines; only the swatches that it shows go with it."""
        bleed = self.bleed
        items = padded(picture, bleed, bleed, bleed, bleed).items
        letters = {item.fabric for item in items if isinstance(item, Area) and item.fabric}
        swatches = tuple(swatch for swatch in self.swatches if swatch.letter in letters)
        stated = scale / self.full_scale if scale else None
        width, height = picture.width + 2 * bleed, picture.height + 2 * bleed
        return Scene(id, width, height, items, swatches, title, description, stated)


def set_up(
    plan: Plan,
    wording: Say,
    type: LabelSizes,
    room: Room | None = None,
    sizes: Sequence[str] | None = None,
    pressing: Mapping[str, AssemblyPressing] | None = None,
) -> Board:
    """Prepare the board for the named sizes of the quilt, all of them by default, and for plain pressing."""
    shown = tuple(i for i, size in enumerate(plan.sizes) if sizes is None or size.name in sizes)
    swatches = tuple(
        Swatch(fabric.letter, fabric.name, fabric.colors, fabric.value, fabric.hatch) for fabric in plan.fabrics
    )
    pieces = {piece.id: piece for piece in plan.pieces}
    ways = plan_pressing(plan) if pressing is None else pressing
    return Board(plan, wording, type, room or Room(), shown, swatches, PatchBook(plan), pieces, ways)
