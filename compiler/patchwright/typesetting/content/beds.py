"""What a booklet says of the beds that sizes are made for.

In: the planned sizes that a booklet covers.
Out: rows for the table of finished sizes: the mattress, how far the quilt as planned hangs down, and what is tucked in.
Never: the drop that was asked for; what is printed is what the finished quilt reaches, and nothing where it does not
cover the mattress.
"""

from __future__ import annotations

from patchwright.planning.plan import PlannedFit, PlannedSize
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.tables import Row, size_cells, text_cell


def bed_rows(scope: Scope) -> list[Row]:
    """Rows with a cell for each covered size; none where no size is made for a bed."""
    fits = [_covered(size) for size in scope.sizes]
    length = scope.wording.length
    rows = {
        "bed": [_bed(scope, fit) if fit is not None else None for fit in fits],
        "drop": [length(fit.drops(size.finished)[0]) if fit is not None else None
                 for fit, size in zip(fits, scope.sizes, strict=True)],
        "foot": [length(fit.drops(size.finished)[1]) if fit is not None else None
                 for fit, size in zip(fits, scope.sizes, strict=True)],
        "tuck": [length(fit.tuck) if fit is not None and fit.tuck else None for fit in fits],
    }
    return [
        (text_cell(scope.say(f"requirements.{name}")), *size_cells(scope, texts))
        for name, texts in rows.items() if any(texts)
    ]


def _covered(size: PlannedSize) -> PlannedFit | None:
    """The fit of a size that covers its mattress."""
    fit = size.fit
    return fit if fit is not None and min(side.sign() for side in fit.drops(size.finished)) >= 0 else None


def _bed(scope: Scope, fit: PlannedFit) -> str:
    """What people call a bed, with its size; one that the house added goes by its own name."""
    key = f"requirements.beds.{fit.bed}"
    called = scope.say(key) if scope.wording.has(key) else fit.bed.replace("-", " ")
    return scope.say("requirements.bed-value", bed=called, size=scope.wording.extent(*fit.mattress))
