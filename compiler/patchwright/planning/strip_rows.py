"""Blocks that are strip-pieced: their rows of plain patches become segments of strip sets.

In: a design, and its instances with their counts.
Out: the design with such rows as units of the method `strip-set`; rows alike are one unit, wherever they stand.
Rule: as for units, by all rows of a block together: fewer seams and no more cloth, unless the author says.
Never: a row with anything but plain patches, or a row of one patch; these stay as they are.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import Orientation
from patchwright.core.length import Length
from patchwright.design.design import Block, Design, Extent, Item, Unit
from patchwright.methods.method import StripRun, StripSet
from patchwright.methods.strip_set import AS_NEEDED, ORDINALS
from patchwright.planning.instances import BlockInstance, Instances
from patchwright.planning.strip_choices import Run, StripRules, Weighed, choose

_MOST_TEXT = 9
"""Characters of one number of a strip set's heights."""
Look = tuple[tuple[str, Fraction], ...]
"""Fabrics and widths in cells, along a row."""


@dataclass(slots=True)
class StripRows:
    """Decides block by block."""

    design: Design
    instances: Instances
    findings: Findings
    units: dict[Look, Unit] = field(default_factory=dict)
    """Units of rows by their look from one end."""

    def rewritten(self) -> Design:
        """The design with strip-pieced rows; the same one where there are none."""
        blocks = tuple(self._block(block) for block in self.design.blocks)
        if not self.units:
            return self.design
        return replace(self.design, blocks=blocks, units=(*self.design.units, *self.units.values()))

    def _block(self, block: Block) -> Block:
        made = [instance for instance in self.instances.blocks.values() if instance.block.id == block.id]
        if block.strip_piece == "no" or not any(any(instance.counts) for instance in made):
            return block
        rows = [number for number, line in enumerate(block.lines) if _is_row(line, block.axis)]
        rules = StripRules(self.design)
        fabrics = [item.ref for number in rows for item in block.lines[number]]
        hindrance = rules.hindrance(fabrics, True) if rows else "it has no row of two to sixteen plain patches"
        weighed = [] if hindrance else self._weighed(block, rows, made, rules)
        if not hindrance and weighed is None:
            hindrance = "a segment is longer than the cloth is wide"
        if hindrance:
            if block.strip_piece == "yes":
                self.findings.error(
                    "strip-piece-impossible", f"`{block.id}` cannot be strip-pieced: {hindrance}", block.span,
                    "leave `strip-piece` out, and it is made from single pieces",
                )
            return block
        if block.strip_piece == "auto" and not (rules.is_plain(fabrics) and choose("auto", weighed or [])):
            return block
        lines = tuple(
            (self._item(block, number),) if number in rows else line for number, line in enumerate(block.lines)
        )
        return replace(block, lines=lines)

    def _weighed(
        self, block: Block, rows: list[int], made: list[BlockInstance], rules: StripRules
    ) -> list[Weighed | None] | None:
        """What all rows take in every size; None where a segment does not fit the cloth."""
        law = self.design.rules.triangle_rules
        found: list[Weighed | None] = []
        for index in range(len(self.design.sizes)):
            runs: list[tuple[Run, StripRun]] = []
            for run in self._runs(block, rows, made, index):
                strips = rules.run_of(run, rules.room([name for name, _ in run.sets[0].strips]), law)
                if strips is None:
                    return None
                runs.append((run, strips))
            found.append(rules.weigh(runs, law) if runs else None)
        return found

    def _runs(self, block: Block, rows: list[int], made: list[BlockInstance], index: int) -> Iterator[Run]:
        """How many of each row a size takes, rows alike counted together."""
        needs: dict[StripSet, int] = {}
        for instance in made:
            cell, count = instance.key.cells[index], instance.counts[index]
            for number in rows if count else ():
                line = block.lines[number]
                strips = tuple((name, cell * width) for name, width in _canonical(_look(line, block.axis)))
                one = StripSet(strips, _aside(line[0], block.axis).at(cell), 1)
                needs[one] = needs.get(one, 0) + count
        for one, need in needs.items():
            yield Run((one,), need)

    def _item(self, block: Block, number: int) -> Item:
        """A row as one unit: strips stand upright in it, or lie level in a column."""
        line = block.lines[number]
        look = _look(line, block.axis)
        canonical = _canonical(look)
        if canonical not in self.units:
            self.units[canonical] = self._unit(block, number, canonical)
        turns = (3 if block.axis == "rows" else 0) + (2 if look != canonical else 0)
        cells = sum((width for _, width in look), Fraction(0))
        return Item(
            "unit", self.units[canonical].id, _aside(line[0], block.axis), Extent(cells), Orientation(turns % 4),
            scaled=True, span=line[0].span,
        )

    def _unit(self, block: Block, number: int, look: Look) -> Unit:
        taken = {unit.id for unit in (*self.design.units, *self.units.values())}
        taken |= {block.id for block in self.design.blocks} | {fabric.id for fabric in self.design.fabrics}
        name = base = f"{block.id}-{'row' if block.axis == 'rows' else 'column'}-{number + 1}"
        count = 2
        while name in taken:
            name, count = f"{base}-{count}", count + 1
        total = sum((width for _, width in look), Fraction(0))
        return Unit(
            id=name, method="strip-set",
            fabrics=tuple((role, fabric) for role, (fabric, _) in zip(ORDINALS, look, strict=False)),
            width=Extent(Fraction(1)), height=Extent(total),
            words=(("segments", AS_NEEDED), ("heights", " ".join(str(width) for _, width in look))), extents=(),
            strip_piece="yes" if block.strip_piece == "yes" else "auto", named=False, row_of=(block.id, number + 1),
            span=block.span,
        )


def _is_row(line: tuple[Item, ...], axis: str) -> bool:
    """Whether a line is plain patches only, so many as a strip set may have, their widths counted in cells."""
    widths = [_along(item, axis) for item in line]
    counted = all(width.fixed == Length() and len(str(width.cells)) <= _MOST_TEXT for width in widths)
    return counted and 2 <= len(line) <= len(ORDINALS) and all(item.kind == "fabric" for item in line)


def _look(line: tuple[Item, ...], axis: str) -> Look:
    return tuple((item.ref, _along(item, axis).cells) for item in line)


def _canonical(look: Look) -> Look:
    """A row or its reverse, whichever comes first: turned half around they are the same segment."""
    return min(look, look[::-1])


def _along(item: Item, axis: str) -> Extent:
    return item.across if axis == "rows" else item.down


def _aside(item: Item, axis: str) -> Extent:
    return item.down if axis == "rows" else item.across
