"""Borders as the plan states them: what they are cut from, and what the quilt measures before and after each.

In: a size of the design, its finished top, and the ids of pieces and assemblies.
Out: the plan's borders, from the inside out; coping that is not needed is left out.
Never: a place in the top; the settings have put everything there.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Literal

from patchwright.core.length import Finished, Length
from patchwright.design.design import Border, Size
from patchwright.planning.plan import PlannedBorder
from patchwright.planning.settings.drawing import Top, TopPart
from patchwright.planning.settings.mitered import mitered_together

Ids = Mapping[object, str]
CornerKind = Literal["none", "piece", "assembly", "mitered"]
Edges = tuple[Length, Length, Length, Length]
Units = tuple[tuple[str, int], ...]


def planned_borders(size: Size, top: Top, ids: Ids, seam: Length) -> tuple[PlannedBorder, ...]:
    """All borders of a size."""
    made = []
    width, height = top.center
    for number, border in enumerate(size.borders, 1):
        parts = [part for part in top.parts if part.part == f"border-{number}"]
        if not parts:
            continue
        before = (Finished(width).unfinished(seam), Finished(height).unfinished(seam))
        left, above = min(part.x for part in parts), min(part.y for part in parts)
        outer = (max(p.x + p.width for p in parts) - left, max(p.y + p.height for p in parts) - above)
        aside, high = (outer[0] - width) / 2, (outer[1] - height) / 2
        width, height = outer
        after = (Finished(width).unfinished(seam), Finished(height).unfinished(seam))
        own = {key.label: ids[key] for key in top.cloth if key.part == f"border-{number}"}
        corner, kind = _corner(border, own)
        frame = (left, above, left + width, above + height)
        made.append(PlannedBorder(
            id=f"border-{number}", fabric=border.fabric, width=Finished(aside), cut="crosswise",
            side_piece=own.get("side", ""), end_piece=own.get("end", ""), corner=corner, corner_kind=kind,
            before=before, after=after, end_width=Finished(high) if high != aside else None, kind=border.kind,
            side_units=_side(border, parts, frame, ids), end_units=_end(border, parts, frame, ids),
            spacers=_spacers(top, ids, number), spacers_at=_spacers_at(border),
            sides=bool(aside), ends=bool(high),
            corners_turned=border.corner_lay is not None,
            joined=tuple(f"border-{one}" for one in mitered_together(size, number)) if kind == "mitered" else (),
        ))
    return tuple(made)


def _spacers(top: Top, ids: Ids, number: int) -> tuple[str, ...]:
    """The pieces that fill up the rows of a pieced border."""
    own = [key for key in top.cloth if key.part == f"border-{number}" and key.label == "spacer"]
    return tuple(dict.fromkeys(ids[key] for key in own))


def _spacers_at(border: Border) -> Literal["", "ends", "middle", "beside-middle"]:
    """Where they lie in each row."""
    pieced = border.pieced
    if border.kind != "pieced" or pieced is None or pieced.spacers is None:
        return ""
    if pieced.spacers.at == "ends":
        return "ends"
    return "beside-middle" if pieced.middle is not None else "middle"


def _corner(border: Border, own: Mapping[str, str]) -> tuple[str, CornerKind]:
    """The piece or assembly of the corners, and how they are made."""
    if border.corner_kind == "mitered":
        return "", "mitered"
    if "corner" in own:
        return own["corner"], "piece"
    if not (border.sides and border.ends):
        return "", "none"
    pieced = border.pieced.corner.ref if border.kind == "pieced" and border.pieced is not None else ""
    corner = border.corner or pieced
    return corner, "assembly" if corner else "none"


def _side(border: Border, parts: list[TopPart], frame: Edges, ids: Ids) -> Units:
    """What one side of a pieced border is made of, where it runs along the sides."""
    if border.kind != "pieced" or not border.sides:
        return ()
    return _units(parts, frame, ids, 0, cornered=border.ends)


def _end(border: Border, parts: list[TopPart], frame: Edges, ids: Ids) -> Units:
    """What one end of a pieced border is made of, where it runs along top and bottom."""
    if border.kind != "pieced" or not border.ends:
        return ()
    return _units(parts, frame, ids, 1, cornered=border.sides)


def _units(parts: list[TopPart], frame: Edges, ids: Ids, axis: int, cornered: bool) -> Units:
    """What one side (axis 0) or one end (axis 1) of a pieced border is made of, counted, without corners."""
    counts: Counter[str] = Counter()
    for part in parts:
        begins = (part.x == frame[0], part.y == frame[1])
        ends = (part.x + part.width == frame[2], part.y + part.height == frame[3])
        if begins[axis] and not (cornered and (begins[1 - axis] or ends[1 - axis])):
            counts[ids[part.key]] += 1
    return tuple(counts.items())
