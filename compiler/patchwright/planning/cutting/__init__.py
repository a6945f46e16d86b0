"""Cutting: the fewest strips, sheets and yards that straight-ruler cuts can do with, and proof that it is so."""

from __future__ import annotations

from .plain import first_fit, plain
from .problem import CannotCut, Cut, Joined, Part, Segment, Strip, Yardage, YardagePlan
from .yardage import best

__all__ = [
    "CannotCut",
    "Cut",
    "Joined",
    "Part",
    "Segment",
    "Strip",
    "Yardage",
    "YardagePlan",
    "best",
    "first_fit",
    "plain",
]
