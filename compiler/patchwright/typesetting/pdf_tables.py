"""The tables of a composed PDF: the first cell of every row marked as the head of that row.

In: the engine's PDF, in which cells of tables stand as readable objects, each with the id of the head of its column.
Out: the same PDF, byte for byte as long, with heads of rows beside the engine's heads of columns, each with its scope.
Never: an object moved; a PDF of another build of the engine is refused rather than guessed at.

The engine knows heads of columns alone. Its cells name the head of their column, which would hide the head of their
row from readers that go by names; what is left is the scope of every head, from which all readers find both.
"""

from __future__ import annotations

import re

from patchwright.typesetting.faults import PageEngineError

_CELL = re.compile(
    rb"(\n\d+ 0 obj\n<</Type/StructElem/S/)TD(/P \d+ 0 R/A\[<</O/Table)(/Headers\[\(\w*?x(\d+)y\d+\)\])"
)
_CELLS = re.compile(rb"\n\d+ 0 obj\n<</Type/StructElem/S/TD/")
_ROW = b"/Scope/Row"


def with_row_heads(pdf: bytes) -> bytes:
    """Make the cell of the first column the head of its row, in every table; what is taken out becomes spaces."""
    made, known = _CELL.subn(_marked, pdf)
    if known != len(_CELLS.findall(pdf)):
        raise PageEngineError("the cells of the composed PDF's tables are written in an unknown way")
    return made


def _marked(cell: re.Match[bytes]) -> bytes:
    """One cell of the same length, without the name of its column's head."""
    start, middle, named, column = cell.groups()
    is_first = column == b"0"
    return start + (b"TH" if is_first else b"TD") + middle + (_ROW if is_first else b"").ljust(len(named))
