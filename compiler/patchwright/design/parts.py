"""Units and blocks: Declared → Design.

In: declared units and blocks, with the names they use.
Out: units with roles, sizes and options spelled out; blocks whose items are resolved, `like` and `swap` carried out.
Never: a size in inches; everything is in cells plus fixed lengths until a size of the quilt gives the cells.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise

from patchwright.core.diagnostics import Findings, Note
from patchwright.core.length import Length
from patchwright.core.source import Span, span_of
from patchwright.design.design import Block, Extent, Item, Unit
from patchwright.design.house import native_length, native_pair
from patchwright.design.names import Names
from patchwright.design.rules import Rules
from patchwright.dialect.declared import BlockDeclaration, UnitDeclaration
from patchwright.dialect.scalars import ItemText
from patchwright.methods.method import Method
from patchwright.methods.registry import BY_NAME

MOST_ITEMS = 400
ONE_CELL = Extent(Fraction(1))


@dataclass(slots=True)
class Parts:
    """Builds units and blocks; blocks are resolved when first needed, so that their order does not matter."""

    names: Names
    rules: Rules
    findings: Findings
    declared_units: dict[str, UnitDeclaration]
    declared_blocks: dict[str, BlockDeclaration]
    units: dict[str, Unit] = field(default_factory=dict)
    blocks: dict[str, Block | None] = field(default_factory=dict)
    opening: list[str] = field(default_factory=list)
    """Blocks being resolved, outermost first."""
    copies: dict[tuple[str, str], str] = field(default_factory=dict)
    """Ids of nested blocks' copies with swapped fabrics, by the block and the one that it is swapped for."""

    def resolve(self) -> None:
        """Resolve all units and all blocks."""
        for name, declared in self.declared_units.items():
            self.units[str(name)] = self._unit(str(name), declared, span_of(name))
        for name in self.declared_blocks:
            self.block(str(name), span_of(name))

    def _unit(self, name: str, declared: UnitDeclaration, span: Span) -> Unit:
        method = BY_NAME[declared.method]
        for _, fabric in declared.fabrics:
            self.names.find(fabric.text, fabric.span, "fabric")
        if declared.size is None:
            width, height = (Extent(side) for side in method.default_size)
        elif declared.size.absolute:
            pair = native_pair(declared.size, self.rules.system, self.findings)
            width, height = Extent(fixed=pair[0]), Extent(fixed=pair[1])
        else:
            width, height = Extent(declared.size.width.value), Extent(declared.size.height.value)
        if width in (Extent(), Extent(fixed=Length())) or height in (Extent(), Extent(fixed=Length())):
            where = declared.size.span if declared.size is not None else span
            self.findings.error("size-out-of-range", f"`{name}` has a side of nothing", where, "sizes are above zero")
        fabrics = tuple((role, fabric.text) for role, fabric in declared.fabrics)
        if len(fabrics) > 1 and len({fabric for _, fabric in fabrics}) == 1:
            self.findings.warning(
                "needless-seam", f"all parts of `{name}` are `{fabrics[0][1]}`", span,
                "a plain patch would look the same without seams",
            )
        return Unit(
            id=name, method=method.name, fabrics=fabrics, width=width, height=height,
            words=_words(method, declared), extents=self._extents(method, declared),
            strip_piece=declared.strip_piece or "auto", named=True, span=span,
        )

    def _extents(self, method: Method, declared: UnitDeclaration) -> tuple[tuple[str, Extent], ...]:
        written = dict(declared.extents)
        made = []
        for key in method.keys:
            if key.kind != "extent":
                continue
            text = written.get(key.name)
            if text is None:
                made.append((key.name, Extent(Fraction(key.default or 1))))
            elif text.measure.system is None:
                made.append((key.name, Extent(text.measure.value)))
            else:
                made.append((key.name, Extent(fixed=native_length(text, self.rules.system, self.findings))))
        return tuple(made)

    def block(self, name: str, span: Span) -> Block | None:
        """The resolved block; None where it has mistakes, which are reported once."""
        if name in self.blocks:
            return self.blocks[name]
        if name in self.opening:
            chain = " → ".join([*self.opening[self.opening.index(name) :], name])
            self.findings.error(
                "circular-block", f"`{name}` is made of itself: {chain}", span, "a block cannot contain itself"
            )
            return None
        self.opening.append(name)
        declared = self.declared_blocks[name]
        made = self._like(name, declared) if declared.like is not None else self._written(name, declared)
        self.opening.pop()
        self.blocks[name] = made
        return made

    def _written(self, name: str, declared: BlockDeclaration) -> Block | None:
        span = self.names.spans.get(name, declared.span)
        if declared.rows is not None and declared.columns is not None:
            self.findings.error(
                "both-rows-and-columns", f"`{name}` has both `rows` and `columns`", declared.key_span("columns"),
                "keep one of them; nest a block for the other direction",
            )
            return None
        written = declared.rows if declared.rows is not None else declared.columns
        if not written or not all(written):
            self.findings.error(
                "block-without-rows", f"`{name}` has no items", span, "give `rows` or `columns` with items, or `like`"
            )
            return None
        lines = tuple(tuple(self._items(line)) for line in written)
        if any(item is None for line in lines for item in line):
            return None
        items = tuple(tuple(item for item in line if item is not None) for line in lines)
        if sum(len(line) for line in items) > MOST_ITEMS:
            self.findings.error(
                "pattern-too-large", f"`{name}` has more than {MOST_ITEMS} items", span, "nest smaller blocks in it"
            )
            return None
        axis = "rows" if declared.rows is not None else "columns"
        self._warn_of_needless_seams(items, written)
        if not self._lines_agree(name, axis, items, written):
            return None
        return self._assembled(name, axis, items, declared, span)

    def _assembled(
        self, name: str, axis: str, items: tuple[tuple[Item, ...], ...], declared: BlockDeclaration, span: Span
    ) -> Block:
        along = _sum(tuple(_along(item, axis) for item in items[0]))
        across = _sum(tuple(_aside(line[0], axis) for line in items))
        width, height = (along, across) if axis == "rows" else (across, along)
        return Block(
            id=name, axis="rows" if axis == "rows" else "columns", lines=items, width=width, height=height,
            strip_piece=declared.strip_piece or "auto", span=span,
        )

    def _items(self, line: list[ItemText]) -> list[Item | None]:
        made: list[Item | None] = []
        for text in line:
            made.extend([self._item(text)] * text.repeat)
        return made

    def _item(self, text: ItemText) -> Item | None:
        if text.other:
            return self._plain_half_square(text)
        kind = self.names.find(text.name, text.span, "fabric", "unit", "block")
        if kind is None:
            return None
        width, height = ONE_CELL, ONE_CELL
        if kind == "unit":
            unit = self.units[text.name]
            width, height = unit.width, unit.height
        elif kind == "block":
            block = self.block(text.name, text.span)
            if block is None:
                return None
            width, height = block.width, block.height
        scaled = text.width is not None and text.height is not None
        if text.width is not None and text.height is not None:
            width, height = Extent(text.width), Extent(text.height)
        return Item(kind, text.name, width, height, text.orientation, scaled, text.span)

    def _plain_half_square(self, text: ItemText) -> Item | None:
        found = [self.names.find(fabric, text.span, "fabric") for fabric in (text.name, text.other)]
        if None in found:
            return None
        if text.name == text.other:
            self.findings.warning(
                "needless-seam", f"both halves of `{text.text}` are `{text.name}`", text.span, f"write `{text.name}`"
            )
        name = f"{text.name}-{text.other}"
        if name in self.names.kinds:
            name += "-half-square"
        method = BY_NAME["half-square"]
        name = self._entered(Unit(
            id=name, method=method.name, fabrics=(("first", text.name), ("second", text.other)),
            width=ONE_CELL, height=ONE_CELL, words=_words(method, None), extents=(), strip_piece="auto",
            named=False, span=text.span,
        ))
        size = (Extent(text.width or Fraction(1)), Extent(text.height or Fraction(1)))
        return Item("unit", name, *size, text.orientation, text.width is not None, text.span)

    def _entered(self, unit: Unit) -> str:
        """The id of a unit that the author gave no name; one like it serves again, and no name is taken twice."""
        for known in self.units.values():
            if not known.named and replace(known, id=unit.id) == replace(unit, named=False):
                return known.id
        name, number = unit.id, 2
        while name in self.units or name in self.names.kinds:
            name, number = f"{unit.id}-{number}", number + 1
        self.units[name] = replace(unit, id=name)
        return name

    def _lines_agree(
        self, name: str, axis: str, items: tuple[tuple[Item, ...], ...], written: list[list[ItemText]]
    ) -> bool:
        """Check widths and heights where they are all in cells; mixed ones are checked once the cell is known."""
        good = True
        line_word, height_word, width_word = ("row", "high", "wide") if axis == "rows" else ("column", "wide", "high")
        for number, line in enumerate(items, 1):
            odd = next((item for item in line if _differs(_aside(item, axis), _aside(line[0], axis))), None)
            if odd is not None:
                good = False
                self.findings.error(
                    "row-height-mismatch",
                    f"in {line_word} {number} of `{name}`, `{odd.ref}` is {_cells(_aside(odd, axis))} {height_word} "
                    f"and `{line[0].ref}` is {_cells(_aside(line[0], axis))}",
                    odd.span, f"all items of a {line_word} are equally {height_word}; give sizes such as "
                    f"`{odd.ref} 2x1`, or nest a block",
                    notes=[Note(line[0].span, f"{_cells(_aside(line[0], axis))} {height_word}")],
                )
        first = _sum(tuple(_along(item, axis) for item in items[0]))
        for number, line in enumerate(items[1:], 2):
            total = _sum(tuple(_along(item, axis) for item in line))
            if _differs(total, first):
                good = False
                self.findings.error(
                    "row-width-mismatch",
                    f"{line_word} {number} of `{name}` is {_cells(total)} {width_word}, {line_word} 1 is "
                    f"{_cells(first)}: {_written_sum(line, axis)} against {_written_sum(items[0], axis)}",
                    written[number - 1][0].span, f"all {line_word}s of a block are equally {width_word}",
                    notes=[Note(written[0][0].span, f"{line_word} 1: {_cells(first)} {width_word}")],
                )
        return good

    def _warn_of_needless_seams(
        self, items: tuple[tuple[Item, ...], ...], written: list[list[ItemText]]
    ) -> None:
        """Warn of plain patches of one cloth side by side, unless the author repeated one on purpose."""
        for texts in written:
            for left, right in pairwise(texts):
                same = left.name == right.name and not left.other and not right.other
                plain = self.names.kinds.get(left.name) == "fabric" and left.repeat == right.repeat == 1
                if same and plain:
                    self.findings.warning(
                        "needless-seam", f"two patches of `{left.name}` lie side by side", right.span,
                        f"write one wider patch, such as `{left.name} 2x1`, or `{left.name}*2` if the seam is wanted",
                    )

    def _like(self, name: str, declared: BlockDeclaration) -> Block | None:
        like = declared.like
        if like is None:
            return None
        span = self.names.spans.get(name, declared.span)
        if declared.rows is not None or declared.columns is not None:
            self.findings.error(
                "like-and-rows", f"`{name}` has both `like` and its own items", like.span, "keep one of them"
            )
            return None
        if self.names.find(like.text, like.span, "block") is None:
            return None
        model = self.block(like.text, like.span)
        swaps = self._swaps(name, declared)
        if model is None or swaps is None:
            return None
        unmet = set(swaps)
        made = self._swapped(model, name, swaps, unmet)
        for key in sorted(unmet):
            self.findings.error(
                "swap-unknown", f"`{like.text}` does not use `{key}`, so it cannot be swapped",
                next(span_of(word) for word in declared.swap if word == key), "swap something that the block uses",
            )
        return None if made is None or unmet else replace(made, span=span)

    def _swaps(self, name: str, declared: BlockDeclaration) -> dict[str, str] | None:
        good = True
        for old, new in declared.swap.items():
            kind = self.names.find(str(old), span_of(old), "fabric", "unit", "block")
            if kind is None or self.names.find(new.text, new.span, kind) is None:
                good = False
        return {str(old): new.text for old, new in declared.swap.items()} if good else None

    def _swapped(self, model: Block, name: str, swaps: dict[str, str], unmet: set[str]) -> Block | None:
        """The model with names exchanged, also inside its units and nested blocks, which get copies of their own."""
        lines = []
        for line in model.lines:
            items = [self._swapped_item(item, name, swaps, unmet) for item in line]
            if any(item is None for item in items):
                return None
            lines.append(tuple(item for item in items if item is not None))
        return replace(model, id=name, lines=tuple(lines))

    def _swapped_item(self, item: Item, name: str, swaps: dict[str, str], unmet: set[str]) -> Item | None:
        if item.ref in swaps:
            unmet.discard(item.ref)
            return self._exchanged(item, name, swaps[item.ref])
        if item.kind == "unit":
            return replace(item, ref=self._swapped_unit(self.units[item.ref], name, swaps, unmet))
        if item.kind == "block":
            inner = self.block(item.ref, item.span)
            if inner is None:
                return None
            if not _uses(self, inner, set(swaps)):
                return item
            copy = self.copies.get((inner.id, name))
            if copy is None:
                copy = self._free_block_name(f"{inner.id}-{name}")
                self.copies[inner.id, name] = copy
                self.blocks[copy] = self._swapped(inner, copy, swaps, unmet)
            return replace(item, ref=copy)
        return item

    def _exchanged(self, item: Item, name: str, new: str) -> Item | None:
        """The item with another name in its place, which must be as large where no size was written."""
        width, height = item.width, item.height
        if item.kind == "unit":
            width, height = self.units[new].width, self.units[new].height
        elif item.kind == "block":
            block = self.block(new, item.span)
            if block is None:
                return None
            width, height = block.width, block.height
        if not item.scaled and (width, height) != (item.width, item.height):
            self.findings.error(
                "nested-size-mismatch",
                f"`{name}` swaps `{item.ref}`, {_cells(item.width)} by {_cells(item.height)}, for `{new}`, "
                f"{_cells(width)} by {_cells(height)}", self.names.spans.get(name, item.span),
                f"swap for something of the same size, or write sizes in cells, such as `{item.ref} 2x2`",
            )
            return None
        return replace(item, ref=new)

    def _free_block_name(self, wanted: str) -> str:
        name, number = wanted, 2
        while name in self.blocks or name in self.names.kinds:
            name, number = f"{wanted}-{number}", number + 1
        return name

    def _swapped_unit(self, unit: Unit, name: str, swaps: dict[str, str], unmet: set[str]) -> str:
        if not any(fabric in swaps for _, fabric in unit.fabrics):
            return unit.id
        unmet -= {fabric for _, fabric in unit.fabrics}
        fabrics = tuple((role, swaps.get(fabric, fabric)) for role, fabric in unit.fabrics)
        for known in self.units.values():
            if replace(known, id=unit.id, named=unit.named) == replace(unit, fabrics=fabrics):
                return known.id
        return self._entered(replace(unit, id=f"{unit.id}-{name}", fabrics=fabrics))


def _uses(parts: Parts, block: Block, wanted: set[str]) -> bool:
    for line in block.lines:
        for item in line:
            if item.ref in wanted:
                return True
            if item.kind == "unit" and any(fabric in wanted for _, fabric in parts.units[item.ref].fabrics):
                return True
            inner = parts.block(item.ref, item.span) if item.kind == "block" else None
            if inner is not None and _uses(parts, inner, wanted):
                return True
    return False


def _words(method: Method, declared: UnitDeclaration | None) -> tuple[tuple[str, str], ...]:
    written = {key: word for key, word, _ in declared.words} if declared is not None else {}
    return tuple((key.name, written.get(key.name, key.default)) for key in method.keys if key.kind != "extent")


def _along(item: Item, axis: str) -> Extent:
    """The item's extent in the direction of its line."""
    return item.across if axis == "rows" else item.down


def _aside(item: Item, axis: str) -> Extent:
    """The item's extent across its line."""
    return item.down if axis == "rows" else item.across


def _sum(extents: tuple[Extent, ...]) -> Extent:
    total = Extent()
    for extent in extents:
        total += extent
    return total


def _differs(one: Extent, other: Extent) -> bool:
    """Whether two extents can be told apart without knowing the cell."""
    if one.fixed or other.fixed:
        return one.cells == other.cells and one.fixed != other.fixed
    return one.cells != other.cells


def _cells(extent: Extent) -> str:
    if extent.fixed and extent.cells:
        return f"{extent.cells} cells and {extent.fixed}"
    if extent.fixed:
        return str(extent.fixed)
    return f"{extent.cells} cell" if extent.cells == 1 else f"{extent.cells} cells"


def _written_sum(line: tuple[Item, ...], axis: str) -> str:
    return " + ".join(
        str(extent.cells) if not extent.fixed else _cells(extent) for extent in (_along(item, axis) for item in line)
    )
