"""What one booklet is about: the plan, the sizes it covers, its words and its drawings.

In: the arguments of `make_booklet`.
Out: `Scope`, from which every section takes text, inlines, drawings and values by size.
Never: a number that is not the plan's, nor a sentence.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Protocol, TypeVar

from patchwright.core.length import Cut, Finished, Length, Unfinished
from patchwright.diagrams.scene import Scene
from patchwright.planning.plan import Assembly, Piece, Plan, PlannedFabric, PlannedSize, PlannedUnit
from patchwright.planning.pressing.results import PressingPlan
from patchwright.typesetting.booklet import Figure, Inline, Paragraph, PieceMark, Strong, Words
from patchwright.typesetting.content.editions import Edition
from patchwright.wording import Wording

T = TypeVar("T")
U = TypeVar("U")
Lengthy = Length | Finished | Unfinished | Cut
Extent = tuple[Lengthy, Lengthy]
Valued = tuple[tuple[str, T], ...]
"""(label of a size, value) in the order of sizes, the sizes that lack it left out."""


class Drawings(Protocol):
    """The drawings of a booklet, by id."""

    def __contains__(self, id: object) -> bool: ...

    def __getitem__(self, id: str) -> Scene: ...


class MissingFigureError(LookupError):
    """A drawing that the text names and the figures lack."""


@dataclass(frozen=True, slots=True)
class Scope:
    plan: Plan
    figures: Drawings
    wording: Wording
    edition: Edition
    chosen: tuple[int, ...]
    """Indexes of the sizes covered, in the plan's order."""

    @property
    def sizes(self) -> tuple[PlannedSize, ...]:
        return tuple(self.plan.sizes[index] for index in self.chosen)

    @property
    def single(self) -> bool:
        """Whether the booklet covers one size only, so that no size needs naming."""
        return len(self.chosen) == 1

    @property
    def pressing(self) -> PressingPlan:
        """Which way every seam lies; RuntimeError for a plan without it, of which no booklet is made."""
        if self.plan.pressing is None:
            raise RuntimeError(f"`{self.plan.id}` is planned without pressing")
        return self.plan.pressing

    def here(self, values: Sequence[T | None]) -> tuple[T | None, ...]:
        """The values of the covered sizes, from a tuple over all sizes of the plan."""
        return tuple(values[index] for index in self.chosen)

    def any(self, values: Sequence[object | None]) -> bool:
        """Whether a covered size has a value."""
        return any(value is not None for value in self.here(values))

    def valued(self, values: Sequence[T | None]) -> Valued[T]:
        """The values of the covered sizes with their labels, from a tuple over all sizes of the plan."""
        pairs = zip(self.sizes, self.here(values), strict=True)
        return tuple((size.label, value) for size, value in pairs if value is not None)

    def names_with(self, values: Sequence[object | None]) -> tuple[str, ...]:
        """Names of the covered sizes that have a value, from one value for each of them."""
        return tuple(size.name for size, value in zip(self.sizes, values, strict=True) if value is not None)

    def only(self, values: Sequence[object | None]) -> tuple[str, ...]:
        """Names of the covered sizes that have a value, or nothing where all have one."""
        named = tuple(size.name for size, value in zip(self.sizes, self.here(values), strict=True) if value is not None)
        return () if len(named) == len(self.chosen) else named

    def say(self, key: str, **values: object) -> str:
        return self.wording.say(key, **values)

    def inlines(self, key: str, **values: object) -> tuple[Inline, ...]:
        """The filled template as inlines; a value may be an inline or a tuple of them."""
        return as_inlines(self.wording.parts(key, **values))

    def paragraph(self, key: str, **values: object) -> Paragraph:
        return Paragraph(self.inlines(key, **values))

    def listed(self, items: Sequence[Inline | tuple[Inline, ...]]) -> tuple[Inline, ...]:
        return as_inlines(self.wording.listed(items))

    def by_size(self, values: Valued[T], show: Callable[[T], str]) -> str:
        """One value where all sizes agree, else `crib 12, throw and queen 20`: equal values share their sizes."""
        shown = self._shared(values, show)
        if len(shown) == 1:
            return next(iter(shown))
        items = [self.say("by-size.item", size=sizes, value=text) for text, sizes in shown.items()]
        return self._joined(items)

    def told(self, values: Valued[T], show: Callable[[T], str]) -> str:
        """The same for the end of a sentence, with its space or colon: ` 12`, `: crib 12, throw 20`."""
        key = "by-size.after" if self.differs(values, show) else "by-size.after-same"
        return self.say(key, values=self.by_size(values, show))

    def by_size_inline(self, values: Valued[T], show: Callable[[T], str]) -> str:
        """The same for the middle of a sentence: `12 (crib), 20 (throw and queen)`; a dash where no size has it."""
        shown = self._shared(values, show)
        if len(shown) < 2:
            return next(iter(shown), self.say("by-size.none"))
        return self._joined([self.say("by-size.inline", size=sizes, value=text) for text, sizes in shown.items()])

    def differs(self, values: Valued[T], show: Callable[[T], str]) -> bool:
        """Whether the values of the sizes print differently."""
        return len({show(value) for _, value in values}) > 1

    def _shared(self, values: Valued[T], show: Callable[[T], str]) -> dict[str, str]:
        """Each printed value with the sizes that share it."""
        shown: dict[str, list[str]] = {}
        for label, value in values:
            shown.setdefault(show(value), []).append(label)
        return {text: self.wording.listed_text(labels) for text, labels in shown.items()}

    def _joined(self, items: Sequence[str]) -> str:
        """The items between commas, or between semicolons where an item is itself a list."""
        commas = (self.say("list.between"), self.say("list.pair"), self.say("by-size.between-long"))
        long = any(comma in item for item in items for comma in commas)
        return self.say("by-size.between-long" if long else "by-size.between").join(items)

    def extent(self, extent: Extent) -> str:
        """Width and height, or `4½″ square`."""
        width, height = extent
        if type(width) is type(height) and width == height:
            return self.say("measure.square", side=width)
        return self.wording.extent(width, height)

    def rectangle(self, extent: Extent) -> str:
        """Width and height, of a square as well: `27″ × 27″`."""
        return self.wording.extent(*extent)

    def figure(self, id: str, caption: str = "", sizes: tuple[str, ...] = ()) -> Figure:
        """The drawing of this id; raise MissingFigureError where there is none."""
        if id not in self.figures:
            raise MissingFigureError(f"the booklet of `{self.plan.id}` needs the figure `{id}`")
        return Figure(self.figures[id], caption, sizes)

    def figure_if(self, id: str, caption: str = "", sizes: tuple[str, ...] = ()) -> tuple[Figure, ...]:
        """The drawing of this id, or nothing where the figures do not have it."""
        return (self.figure(id, caption, sizes),) if id in self.figures else ()

    def fabric(self, id: str) -> PlannedFabric:
        return next(fabric for fabric in self.plan.fabrics if fabric.id == id)

    def fabric_text(self, id: str) -> str:
        """`Bleached deck (A)`."""
        fabric = self.fabric(id)
        return self.say("fabric.named", name=fabric.name, letter=fabric.letter)

    def unit(self, id: str) -> PlannedUnit:
        return next(unit for unit in self.plan.units if unit.id == id)

    def assembly(self, id: str) -> Assembly:
        return next(assembly for assembly in self.plan.assemblies if assembly.id == id)

    def piece(self, id: str) -> Piece:
        return next(piece for piece in self.plan.pieces if piece.id == id)


def each(values: Sequence[T | None], show: Callable[[T], U]) -> tuple[U | None, ...]:
    """What `show` makes of every value, and nothing where there is none."""
    return tuple(None if value is None else show(value) for value in values)


def as_inlines(parts: Sequence[object]) -> tuple[Inline, ...]:
    """Runs of text and inlines, flattened, with neighboring words joined."""
    flat: list[Inline] = []
    for part in parts:
        for inline in part if isinstance(part, tuple) else (part,):
            made = Words(inline) if isinstance(inline, str) else inline
            if made == Words(""):
                continue
            if isinstance(made, Words) and flat and isinstance(flat[-1], Words):
                flat[-1] = Words(flat[-1].text + made.text)
            else:
                flat.append(made)
    return tuple(flat)


def words(text: str) -> tuple[Inline, ...]:
    return (Words(text),) if text else ()


def strong(text: str) -> tuple[Inline, ...]:
    return (Strong((Words(text),)),)


def mark(piece: str) -> tuple[Inline, ...]:
    return (PieceMark(piece),)
