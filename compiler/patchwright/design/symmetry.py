"""Symmetric layouts: whether the author asks for them, and what the arrangement repeats.

In: the layers of one size's quilt as declared, and its arrangement before it repeats.
Out: what is needed to say which other sizes would be symmetric.
Never: a comparison of blocks; how they look is known in planning.
"""

from __future__ import annotations

from patchwright.design.design import OnPoint, Placement, Symmetry
from patchwright.dialect.declared import TopDeclaration

Grid = tuple[tuple[Placement, ...], ...]


def asked_symmetry(
    layers: tuple[TopDeclaration, ...], period: tuple[Grid, Grid], on_point: OnPoint | None
) -> Symmetry | None:
    """What the arrangement repeats, where `symmetric: yes` holds for a size."""
    asked = next((switch for layer in layers if (switch := layer.symmetric) is not None), None)
    if asked is None or not asked.on:
        return None
    if on_point is None:
        return Symmetry(period[0], (), asked.span)
    between = period[1]
    fixed = {placement for row in on_point.between for placement in row}
    if len(fixed) == 1:
        # Whatever `alternate` names lies everywhere between the blocks.
        between = (tuple(fixed),)
    return Symmetry(period[0], between, asked.span)
