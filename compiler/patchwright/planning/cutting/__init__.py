"""Cutting: the fewest strips, sheets and yards that straight-ruler cuts can do with, and proof that it is so.

Plain practice is all that a quick check needs; what looks for the best plan is imported when it is first asked for.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

from .plain import first_fit, plain
from .problem import CannotCut, Cut, Joined, Part, Segment, Strip, Yardage, YardagePlan

if TYPE_CHECKING:
    from .packs import plan_pack
    from .packtypes import Group, Loose, PackPlan, PackProblem, Pile
    from .printchoices import MOST_TOGETHER
    from .sheets import Place, SheetLayout, SheetPiece, layout, yields
    from .yardage import best

__all__ = [
    "MOST_TOGETHER",
    "CannotCut",
    "Cut",
    "Group",
    "Joined",
    "Loose",
    "PackPlan",
    "PackProblem",
    "Part",
    "Pile",
    "Place",
    "Segment",
    "SheetLayout",
    "SheetPiece",
    "Strip",
    "Yardage",
    "YardagePlan",
    "best",
    "first_fit",
    "layout",
    "plain",
    "plan_pack",
    "yields",
]

_HOMES = {
    "packs": ("plan_pack",),
    "packtypes": ("Group", "Loose", "PackPlan", "PackProblem", "Pile"),
    "printchoices": ("MOST_TOGETHER",),
    "sheets": ("Place", "SheetLayout", "SheetPiece", "layout", "yields"),
    "yardage": ("best",),
}


def __getattr__(name: str) -> Any:
    home = next((home for home, names in _HOMES.items() if name in names), None)
    if home is None:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{home}"), name)
