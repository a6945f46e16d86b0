"""The independent check of strip piecing: strips give every patch, and the seams are those that were weighed.

In: a plan.
Out: one sentence for each thing that does not agree.
Never: a strip set as the method or the planner knows it; patches are put into columns anew.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Plan, PlannedUnit, StripChoice, UnitSize

Column = tuple[tuple[str, Length], ...]
"""Fabrics and finished heights, from top to bottom."""


@dataclass(frozen=True, slots=True)
class StripCheck:
    """Checks every unit that could be strip-pieced."""

    plan: Plan

    def check(self, index: int) -> Iterator[str]:
        """Every disagreement in one size."""
        for unit in self.plan.units:
            made = unit.sizes[index]
            choice = unit.choices[index] if unit.choices else None
            if made is None or choice is None:
                continue
            if choice.strips != (unit.how == "strips"):
                yield f"`{unit.id}` is not made the way that was chosen"
                continue
            columns, width = self._columns(unit, made)
            yield from self._weighed(unit, made, choice, columns)
            if choice.strips:
                yield from self._given(unit, made, columns, width)

    def _columns(self, unit: PlannedUnit, made: UnitSize) -> tuple[list[Column], Length]:
        """The finished columns of a unit from left to right, and how wide each is."""
        fabrics = dict(unit.fabrics)
        boxes = []
        for patch in BY_NAME[unit.method].patches(made.request):
            xs, ys = [corner.x for corner in patch.outline], [corner.y for corner in patch.outline]
            boxes.append((min(xs), min(ys), max(xs), max(ys), fabrics[patch.role]))
        lefts = sorted({box[0] for box in boxes})
        columns = [tuple((box[4], box[3] - box[1]) for box in sorted(boxes) if box[0] == left) for left in lefts]
        return columns, boxes[0][2] - boxes[0][0]

    def _weighed(
        self, unit: PlannedUnit, made: UnitSize, choice: StripChoice, columns: list[Column]
    ) -> Iterator[str]:
        """The seams of both ways, counted again; left to itself, strips never take more seams or cloth."""
        patches = sum(len(column) for column in columns)
        if choice.seams[0] != made.need * (patches - 1):
            yield f"`{unit.id}` has {made.need * (patches - 1)} seams from single pieces, not as weighed"
        if not choice.strips:
            return
        kinds = {min(column, column[::-1]) for column in columns}
        within = sum(len(column) - 1 for column in kinds)
        seams = made.batches * within + made.need * (len(columns) - 1)
        if choice.seams[1] != seams:
            yield f"`{unit.id}` has {seams} seams from strips, not as weighed"
        more = choice.seams[1] > choice.seams[0] or choice.cloth[1] > choice.cloth[0]
        if choice.asked == "auto" and unit.method != "strip-set" and more:
            yield f"`{unit.id}` is strip-pieced though that takes more"

    def _given(
        self, unit: PlannedUnit, made: UnitSize, columns: list[Column], width: Length
    ) -> Iterator[str]:
        """As many patches of each fabric and height as the units of a batch show can be cut across the strips."""
        seams = self.plan.rules.seam * 2
        fabrics = dict(unit.fabrics)
        needed = Counter((fabric, height + seams) for column in columns for fabric, height in column)
        given: Counter[tuple[str, Length]] = Counter()
        for piece in made.recipe.pieces:
            across = (piece.width.length / (width + seams)).floor()
            given[fabrics[piece.role], piece.height.length] += across * piece.per_batch
        for (fabric, height), count in needed.items():
            if given[fabric, height] < count * made.recipe.batch:
                yield f"the strips of `{unit.id}` do not give its patches of `{fabric}`"
        if set(given) != set(needed):
            yield f"the strips of `{unit.id}` are not as high as its patches"
