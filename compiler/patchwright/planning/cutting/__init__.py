"""Cutting: the fewest strips, sheets and yards that straight-ruler cuts can do with, and proof that it is so."""

from __future__ import annotations

from .packs import Group, Loose, PackPlan, PackProblem, Pile, PrintUse, SheetUse, plan_pack
from .plain import first_fit, plain
from .problem import CannotCut, Cut, Joined, Part, Segment, Strip, Yardage, YardagePlan
from .sheets import Left, Place, SheetCut, SheetLayout, SheetPiece, layout, yields
from .yardage import best

__all__ = [
    "CannotCut",
    "Cut",
    "Group",
    "Joined",
    "Left",
    "Loose",
    "PackPlan",
    "PackProblem",
    "Part",
    "Pile",
    "Place",
    "PrintUse",
    "Segment",
    "SheetCut",
    "SheetLayout",
    "SheetPiece",
    "SheetUse",
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
