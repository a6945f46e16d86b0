"""The usual sizes of mattresses in both systems, with where each is from.

Out: a table by system of measure; a house may add beds or change them in its rules.
Never: a size converted from the other system; mattresses of one system are not sold in the other.
"""

from __future__ import annotations

from patchwright.core.measure import System

MATTRESSES: dict[System, tuple[tuple[str, int, int, str], ...]] = {
    "in": (
        ("crib", 28, 52, "width: Consumer Product Safety Commission on 16 CFR 1241, 28 in inside; length from memory"),
        ("twin", 39, 75, "encyclopedia table of bed sizes"),
        ("twin-xl", 39, 80, "a fabric shop's table of common quilt sizes, 2012"),
        ("full", 54, 75, "encyclopedia table of bed sizes"),
        ("queen", 60, 80, "encyclopedia table of bed sizes"),
        ("king", 76, 80, "from memory; some tables have 78"),
        ("california-king", 72, 84, "encyclopedia table of bed sizes"),
    ),
    "cm": (
        ("crib", 60, 120, "from memory"),
        ("small-single", 80, 200, "from memory"),
        ("single", 90, 200, "encyclopedia table of bed sizes, continental"),
        ("double", 140, 200, "encyclopedia table of bed sizes, continental"),
        ("queen", 160, 200, "from memory"),
        ("king", 180, 200, "encyclopedia table of bed sizes, continental"),
        ("british-single", 90, 190, "from memory"),
        ("british-double", 135, 190, "a bed retailer's table of British sizes"),
        ("british-king", 150, 200, "from memory"),
        ("british-super-king", 180, 200, "a bed retailer's table of British sizes"),
    ),
}
"""(name, width, length, source) of the usual mattresses of each system; makers vary by 1 in or 2 cm."""
INFANT_BEDS = ("crib",)
"""Beds whose quilts get the caution about sleeping infants."""
