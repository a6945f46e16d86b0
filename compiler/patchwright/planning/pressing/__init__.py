"""Pressing: which way every seam of a plan lies, so that as many junctions nest as can.

Read `press` first; it runs model, problem and solution in order. `recount` counts again from the finished top.
"""

from __future__ import annotations

from patchwright.planning.pressing.drawing import as_assembly_pressing, as_top_pressing, drawn_pressing
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.pressing.results import PressingPlan

__all__ = [
    "PressingPlan", "as_assembly_pressing", "as_top_pressing", "drawn_pressing", "plan_pressing", "recount",
]
