"""How the seams of borders are pressed, in words: where a border is sewn on, and within a pieced one.

In: the plan's pressing.
Out: sentences for the steps of borders.
Never: a direction chosen here.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from patchwright.planning.pressing.results import PressedSeam
from patchwright.planning.pressing.terms import Way
from patchwright.typesetting.content.scope import Scope

_STRIPS = ("left", "right", "upper", "lower")


def sewn_on_words(scope: Scope, border: str, part: Literal["side", "end"]) -> str:
    """How the seams are pressed that join the sides, or top and bottom, of a border to the quilt."""
    seams = [seam for seam in scope.pressing.seams_of("border", border) if seam.seam.part == part]
    found = {_toward(seam, border) for seam in seams}
    if len(found) == 1:
        return scope.say(f"press.border.{found.pop()}")
    return scope.say("press.border.each", seams=scope.wording.listed_text([
        scope.say(f"press.border.place.{part}-{seam.seam.place + 1}.{_toward(seam, border)}") for seam in seams
    ]))


def _toward(seam: PressedSeam, border: str) -> Literal["border", "quilt", "open"]:
    if seam.way == "open":
        return "open"
    return "border" if border in seam.toward else "quilt"


def corners_words(scope: Scope, border: str, strip: str) -> str:
    """How the seams are pressed that join corner squares to the strips of top and bottom.

    There are two to a row; sizes that piece the same border have more.
    """
    seams = [
        seam for seam in scope.pressing.seams_of("border", border)
        if seam.seam.part == "within" and seam.seam.line > 1 and seam.seam.place < 2
    ]
    found = {"open" if seam.way == "open" else "strip" if strip in seam.toward else "corner" for seam in seams}
    return scope.say(f"press.border.corners.{found.pop() if len(found) == 1 else 'arrows'}")


def sets_words(scope: Scope, borders: Sequence[str]) -> str:
    """How the seams between the strips of borders are pressed that are mitered as one."""
    found: dict[str, set[str]] = {"side": set(), "end": set()}
    for border in borders[1:]:
        for seam in scope.pressing.seams_of("border", border):
            if seam.seam.part in found:
                found[seam.seam.part].add(_toward(seam, border))
    key = _set_key(found["side"], found["end"])
    return scope.say(f"press.border.sets.{key}")


def _set_key(sides: set[str], ends: set[str]) -> str:
    """Which sentence tells how such seams lie: all alike, or sides and ends opposite, which nests at the corners."""
    if sides == ends and len(sides) == 1:
        return next(iter(sides))
    by_turns = {("border", "quilt"): "sides-outside", ("quilt", "border"): "sides-inside"}
    pair = next(iter(sides)), next(iter(ends))
    return by_turns.get(pair, "arrows") if len(sides) == len(ends) == 1 else "arrows"


def strips_words(scope: Scope, border: str, lines: Sequence[int]) -> str:
    """How the seams within the rows of a pieced border are pressed; `lines` are those that it has, of `_STRIPS`."""
    rows: dict[int, list[Way]] = {}
    for seam in scope.pressing.seams_of("border", border):
        if seam.seam.part == "within" and seam.seam.line in lines:
            rows.setdefault(seam.seam.line, []).append(seam.way)
    if not rows:
        return ""
    if {way for ways in rows.values() for way in ways} == {"open"}:
        return scope.say("press.border.open")
    if any(len(set(ways)) > 1 for ways in rows.values()):
        return scope.say("press.border.arrows")
    return scope.say("press.border.rows", rows=scope.wording.listed_text([
        scope.say(f"press.border.row.{_STRIPS[line]}", way=_way(scope, line, ways)) for line, ways in rows.items()
    ]))


def _way(scope: Scope, line: int, ways: Sequence[Way]) -> str:
    """Seams of the side rows lie up or down, those of the upper and lower rows right or left."""
    return scope.say(f"press.way.{'columns' if line < 2 else 'rows'}.{ways[0]}")
