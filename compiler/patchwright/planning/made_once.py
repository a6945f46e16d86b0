"""Units and blocks under two names that are the same made thing turned: made once, and the other name placed turned.

In: a design.
Out: the design without the names that are not needed, and the names that stay though they are the same made thing.
Rule: a unit is another one turned where its method makes the same patches so from the same choices. A block is another
one turned where it shows the same patches and is sewn of the same lines: a line of the same parts read from its other
end is the same line, in rows or in columns. What has a one-way print in it is left as it is.
A name stays where it would take an author's text with it: a note to its steps, or a value in prose; and where another
way of making it or another size of its own is written.
Never: a mirror image; those are one thing where they are placed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, field, fields, is_dataclass, replace
from typing import Any

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import Length
from patchwright.design.design import (
    Block,
    Border,
    Design,
    Extent,
    Fit,
    Item,
    OnPoint,
    Pieced,
    Placement,
    Sashing,
    Size,
    Symmetry,
    Unit,
)
from patchwright.planning.instances import Instances, Look
from patchwright.planning.prose_values import VALUE

Twins = dict[str, tuple[str, int]]
"""By a name that is not needed, the name that serves, and how it is turned there."""
Part = tuple[str, str, str, str, bool, int]
"""Kind, name, length along its line and aside, and how it lies: the least lay that looks the same."""
_HOLDERS = (Size, Border, Pieced, Sashing, OnPoint, Symmetry, Fit)


def made_once(design: Design, findings: Findings) -> tuple[Design, tuple[str, ...]]:
    """Units first, then blocks, inner ones before those that hold them."""
    apart: list[str] = []
    search = _Search(design, findings)
    design = _with(design, search.units())
    apart += search.apart
    for _ in design.blocks:
        search = _Search(design, findings)
        twins = search.blocks()
        if not twins:
            break
        design = _with(design, twins)
    else:
        search = _Search(design, findings)
    search.warn()
    return design, tuple(dict.fromkeys([*apart, *search.apart]))


@dataclass(slots=True)
class _Search:
    """Looks for names of one design that are the same made thing."""

    design: Design
    findings: Findings
    apart: list[str] = field(default_factory=list)
    warnings: list[tuple[Unit | Block, str, int]] = field(default_factory=list)
    instances: Instances = field(init=False)
    told: frozenset[str] = field(init=False)
    fixed: frozenset[str] = field(init=False)
    cells: tuple[Length, ...] = field(init=False)
    """All cells that there are, the largest first."""
    lies: dict[Hashable, Orientation] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.instances = Instances(self.design, Findings())
        self.told = _told(self.design)
        self.fixed = frozenset(_fixed(self.design))
        found = {cell for size in self.design.sizes for _, cell in size.cells}
        self.cells = tuple(sorted(found, reverse=True)) or (Length(1),)

    def warn(self) -> None:
        """Tell of every name that stays for the sake of an author's text."""
        for known, first, turn in self.warnings:
            turned, written = f"the same as `{first}`", first
            if turn:
                turned, written = f"`{first}` turned by {turn * 90} degrees", f"{first}@{turn * 90}"
            self.findings.warning(
                "made-twice", f"`{known.id}` is {turned}, and is made and counted apart, as the text is about both",
                known.span, f"write `{written}` in place of `{known.id}`, and both are one thing to make",
            )

    def units(self) -> Twins:
        """Units by what must be the same of them but their fabrics' places."""
        groups: dict[Hashable, list[Unit]] = defaultdict(list)
        for unit in self.design.units:
            if not self.instances.is_one_way(unit.id):
                cloth = tuple(sorted(fabric for _, fabric in unit.fabrics))
                groups[unit.method, unit.words, unit.extents, cloth].append(unit)
        twins = self._twins(groups, self._turn_of_unit)
        self.warn()
        return twins

    def blocks(self) -> Twins:
        """Blocks by the lines that they are sewn of, which are compared where blocks have the same parts."""
        parts: dict[Hashable, list[Block]] = defaultdict(list)
        for block in self.design.blocks:
            if not self.instances.is_one_way(block.id):
                parts[tuple(sorted(item.ref for line in block.lines for item in line))].append(block)
        groups: dict[Hashable, list[Block]] = defaultdict(list)
        for key, block in [(key, block) for key, group in parts.items() if len(group) > 1 for block in group]:
            lines = tuple(sorted(self._line(line, axis) for line, axis in _lines(block)))
            groups[key, lines].append(block)
        return self._twins(groups, self._turn_of_block)

    def _twins(self, groups: Mapping[Hashable, list[Any]], turn_of: Any) -> Twins:
        """In each group, names with an author's text before others, so that these are the ones not needed."""
        twins: Twins = {}
        for group in groups.values():
            firsts: list[Any] = []
            for known in sorted(group, key=self._rank):
                found = ((first, turn_of(known, first)) for first in firsts)
                twin = next(((first, turn) for first, turn in found if turn is not None), None)
                if twin is None:
                    firsts.append(known)
                elif not self._is_free(known, twin[0]):
                    self.apart += [known.id, twin[0].id]
                    if known.id in self.told:
                        self.warnings.append((known, twin[0].id, twin[1]))
                    firsts.append(known)
                else:
                    twins[known.id] = twin[0].id, twin[1]
        return twins

    def _is_free(self, known: Unit | Block, first: Unit | Block) -> bool:
        """Whether a name can go: for no text of an author, no other way of making, and no other size of its own."""
        if known.id in self.told or known.id in self.fixed or known.strip_piece != first.strip_piece:
            return False
        cells = [dict(size.cells) for size in self.design.sizes]
        return all(own.get(first.id, own[known.id]) == own[known.id] for own in cells if known.id in own)

    def _rank(self, known: Unit | Block) -> tuple[bool, bool, bool]:
        named = known.named if isinstance(known, Unit) else True
        return known.id not in self.told, known.id not in self.fixed, not named

    def _turn_of_unit(self, unit: Unit, first: Unit) -> int | None:
        """How the first is turned where it looks like the unit, in every size that either is used in."""
        samples = list(self._samples(unit, first))
        return next((turn for turn in range(4) if all(
            self.instances.look_of_unit(first.id, _turned(size, turn), cell, Orientation(turn))
            == self.instances.look_of_unit(unit.id, size, cell, UPRIGHT) != frozenset()
            for size, cell in samples
        )), None)

    def _samples(self, unit: Unit, first: Unit) -> Iterator[tuple[tuple[Extent, Extent], Length]]:
        """The sizes in which a unit is used, or stands as declared, in cells as large as there are."""
        sizes = {(unit.width, unit.height): None} | {
            (item.width, item.height): None for block in self.design.blocks for line in block.lines for item in line
            if item.kind == "unit" and item.ref == unit.id
        }
        return ((size, cell) for size in sizes for cell in self.cells)

    def _turn_of_block(self, block: Block, first: Block) -> int | None:
        """How the first is turned where it looks like the block, its rows lying as the block's if they can."""
        own = [dict(size.cells) for size in self.design.sizes]
        cells = dict.fromkeys(cells[block.id] for cells in own if block.id in cells) or self.cells[:1]
        odd = block.axis != first.axis
        return next((turn for turn in sorted(range(4), key=lambda turn: (turn % 2 != odd, turn)) if all(
            self.instances.look(first.id, (cell,), Orientation(turn)) == self.instances.look(block.id, (cell,), UPRIGHT)
            for cell in cells
        )), None)

    def _line(self, line: tuple[Item, ...], axis: str) -> tuple[Part, ...]:
        """The parts of a line as it lies level, from the end from which it reads first."""
        level = UPRIGHT if axis == "rows" else Orientation(3)
        read = [self._part(item, axis, item.orientation.then(level)) for item in line]
        back = [self._part(item, axis, item.orientation.then(level).then(Orientation(2))) for item in line[::-1]]
        return min(tuple(read), tuple(back))

    def _part(self, item: Item, axis: str, lay: Orientation) -> Part:
        along, aside = (item.across, item.down) if axis == "rows" else (item.down, item.across)
        least = self._least(item, lay) if item.kind != "fabric" else UPRIGHT
        return item.kind, item.ref, _text(along), _text(aside), least.mirror, least.turns

    def _least(self, item: Item, lay: Orientation) -> Orientation:
        """The first of all lays in which a part looks as in this one."""
        key = item.kind, item.ref, item.width, item.height, lay
        if key not in self.lies:
            wanted = self._look(item, lay)
            ways = [Orientation(turns, mirror) for mirror in (False, True) for turns in range(4)]
            self.lies[key] = next(way for way in ways if self._look(item, way) == wanted) if wanted else lay
        return self.lies[key]

    def _look(self, item: Item, lay: Orientation) -> Look:
        if item.kind == "unit":
            return self.instances.look_of_unit(item.ref, (item.width, item.height), self.cells[0], lay)
        return self.instances.look(item.ref, self.cells[:1], lay)


def _lines(block: Block) -> Iterator[tuple[tuple[Item, ...], str]]:
    """The lines of a block with their direction; parts one above the other, each a row, are one column."""
    if len(block.lines) > 1 and all(len(line) == 1 for line in block.lines):
        yield tuple(item for line in block.lines for item in line), "columns" if block.axis == "rows" else "rows"
    else:
        yield from ((line, block.axis) for line in block.lines)


def _told(design: Design) -> frozenset[str]:
    """Names that an author's text is about: with a note to their steps, or a value in any prose."""
    notes = dict(design.steps)
    proses = [prose.text for prose in (design.introduction, design.finishing, design.about, *notes.values()) if prose]
    values = [match[1].split(".") for text in proses for match in VALUE.finditer(text)]
    return frozenset(notes) | {words[1] for words in values if words[0] in ("unit", "block") and len(words) > 2}


def _fixed(design: Design) -> Iterator[str]:
    """Names of blocks that stand where nothing says how they are turned."""
    for size in design.sizes:
        yield from (border.corner for border in size.borders if border.corner_kind == "block")
        if size.sashing is not None:
            yield size.sashing.cornerstone


def _turned(size: tuple[Extent, Extent], turn: int) -> tuple[Extent, Extent]:
    return (size[1], size[0]) if turn % 2 else size


def _text(extent: Extent) -> str:
    return f"{extent.cells} {extent.fixed}"


def _with(design: Design, twins: Twins) -> Design:
    """The design with one name for each made thing."""
    if not twins:
        return design
    blocks = tuple(
        replace(block, lines=tuple(tuple(_item(item, twins) for item in line) for line in block.lines))
        for block in design.blocks if block.id not in twins
    )
    sizes = tuple(replace(_placed(size, twins), cells=tuple(_cells(size, twins).items())) for size in design.sizes)
    units = tuple(unit for unit in design.units if unit.id not in twins)
    return replace(design, units=units, blocks=blocks, sizes=sizes)


def _item(item: Item, twins: Twins) -> Item:
    if item.kind == "fabric" or item.ref not in twins:
        return item
    first, turn = twins[item.ref]
    width, height = _turned((item.width, item.height), turn)
    return replace(
        item, ref=first, width=width, height=height, orientation=Orientation(turn).then(item.orientation)
    )


def _cells(size: Size, twins: Twins) -> dict[str, Length]:
    """The cells of blocks, also of those that stand for another only here."""
    made = {name: cell for name, cell in size.cells if name not in twins}
    for name, cell in size.cells:
        if name in twins:
            made.setdefault(twins[name][0], cell)
    return made


def _placed(value: Any, twins: Twins) -> Any:
    """The same with every placement of a name that is not needed as one of the other, turned."""
    if isinstance(value, Placement):
        if value.kind == "fabric" or value.ref not in twins:
            return value
        first, turn = twins[value.ref]
        return replace(value, ref=first, orientation=Orientation(turn).then(value.orientation))
    if isinstance(value, tuple):
        return tuple(_placed(one, twins) for one in value)
    if is_dataclass(value) and isinstance(value, _HOLDERS):
        return replace(value, **{one.name: _placed(getattr(value, one.name), twins) for one in fields(value)})
    return value
