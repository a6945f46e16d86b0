"""Tables with a column for each size.

In: row heads and values by size.
Out: tables, in which a size that lacks a value has a dash.
"""

from __future__ import annotations

from collections.abc import Sequence

from patchwright.typesetting.booklet import Cell, Column, Inline, Table
from patchwright.typesetting.content.scope import Scope, words

Row = tuple[Cell, ...]


def text_cell(text: str) -> Cell:
    return Cell(words(text))


def size_cells(scope: Scope, values: Sequence[str | tuple[Inline, ...] | None]) -> Row:
    """One cell for each covered size, from values in the order of the covered sizes."""
    dash = scope.say("by-size.none")
    return tuple(
        Cell(words(dash) if value is None else words(value) if isinstance(value, str) else value, size=size.name)
        for size, value in zip(scope.sizes, values, strict=True)
    )


def size_columns(scope: Scope, single: str) -> tuple[Column, ...]:
    """A column for each covered size, headed by its label, or by `single` (if given) where there is only one."""
    return tuple(
        Column(single if single and scope.single else size.label, "end", "" if scope.single else size.name, 0)
        for size in scope.sizes
    )


def size_table(scope: Scope, id: str, caption: str, heads: Sequence[Column], single: str, rows: Sequence[Row]) -> Table:
    """A table whose last columns are the sizes; each row holds a cell for each head and each size."""
    return Table(id, caption, (*heads, *size_columns(scope, single)), tuple(rows))
