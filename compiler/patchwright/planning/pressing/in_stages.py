"""Which seams of a unit the stages of its making press, and which way, as the plan has it.

In: the seams of a unit and the marks of its method's stages.
Out: for a mark its seam and how it lies there; for each stage the seams that it is the first to press.
Never: a direction chosen here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from patchwright.methods.method import SeamMark, Stage
from patchwright.planning.pressing.results import PressedSeam, UnitSides


@dataclass(frozen=True, slots=True)
class StageSeam:
    """A seam that a stage presses, at one of the places where it is."""

    pressed: PressedSeam
    sides: UnitSides
    mark: SeamMark

    def halves(self, mirrored: bool) -> tuple[int, int]:
        """At the first and at the last point of the mark 1 toward its left hand, -1 away from it, 0 open.

        `mirrored` where the unit is the mirror image of what its method draws, which exchanges the ends of seams.
        """
        start, finish = self.pressed.halves[::-1] if mirrored else self.pressed.halves
        return (start, finish) if self.mark.near in self.sides.first else (-finish, -start)


def marked_seam(seams: Sequence[PressedSeam], mark: SeamMark) -> StageSeam:
    """The seam that a mark stands for; LookupError where the plan has none."""
    for pressed in seams:
        for sides in pressed.drawn:
            if _parts(sides, mark.near, mark.beyond) or _parts(sides, mark.beyond, mark.near):
                return StageSeam(pressed, sides, mark)
    raise LookupError(f"no seam between the patches {mark.near} and {mark.beyond}")


def _parts(sides: UnitSides, one: int, other: int) -> bool:
    return one in sides.first and other in sides.second


def pressed_in(seams: Sequence[PressedSeam], stages: Sequence[Stage]) -> tuple[tuple[StageSeam, ...], ...]:
    """For every stage what its drawings press, place by place."""
    return tuple(
        tuple(marked_seam(seams, mark) for view in stage.views for mark in view.pressed) for stage in stages
    )
