"""Sums of lengths along the rows or columns of a block, which only a size of the quilt makes certain.

In: a block with its cell in every size.
Out: a mistake for each row whose parts do not agree in height, or that is not as long as the first.
Never: a sum that cells alone decide; those are checked with the design.
"""

from __future__ import annotations

from patchwright.core.diagnostics import Findings, Note
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.design.design import Block, Design

Lengths = tuple[Length, ...]
"""One length for every size of the pattern."""


def check_lines(design: Design, findings: Findings, block: Block, cells: Lengths) -> None:
    """Check sums of lengths where absolute sizes and cells are mixed, which only now can be added up."""
    rows = block.axis == "rows"
    system = design.system
    for index, size in enumerate(design.sizes):
        sums = []
        for line in block.lines:
            sides = [(item.down if rows else item.across).at(cells[index]) for item in line]
            for item, side in zip(line, sides, strict=True):
                if side != sides[0]:
                    findings.error(
                        "row-height-mismatch",
                        f"in `{block.id}`, `{item.ref}` is {plain_length(side, system)} and `{line[0].ref}` beside "
                        f"it is {plain_length(sides[0], system)} in the size `{size.name}`", item.span,
                        "all items of a row are equally high, all items of a column equally wide",
                        notes=[Note(line[0].span, plain_length(sides[0], system))],
                    )
            sums.append(sum_lengths([(item.across if rows else item.down).at(cells[index]) for item in line]))
        for line, total in zip(block.lines, sums, strict=True):
            if total != sums[0]:
                findings.error(
                    "row-width-mismatch",
                    f"the lines of `{block.id}` differ in the size `{size.name}`: {plain_length(total, system)} "
                    f"here, {plain_length(sums[0], system)} in the first", line[0].span,
                    "all rows of a block are equally wide, all columns equally high",
                    notes=[Note(block.lines[0][0].span, plain_length(sums[0], system))],
                )


def sum_lengths(lengths: list[Length]) -> Length:
    """The sum of lengths, none giving zero."""
    total = ZERO
    for length in lengths:
        total += length
    return total
