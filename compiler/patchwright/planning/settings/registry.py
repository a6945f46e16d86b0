"""All settings and kinds of borders; a new one is one module and one line here."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from patchwright.design.design import Border, Size
from patchwright.planning.settings.drawing import Center, Drawing, Frame
from patchwright.planning.settings.laying_out import LayingOut
from patchwright.planning.settings.mitered import mitered_border
from patchwright.planning.settings.on_point import on_point
from patchwright.planning.settings.pieced import coping, pieced_border
from patchwright.planning.settings.plain_borders import plain_border
from patchwright.planning.settings.straight import straight
from patchwright.planning.settings.strippy import strippy

LayCenter = Callable[[LayingOut, Drawing], Center | None]
LayBorder = Callable[[LayingOut, Drawing, int, Frame], Frame]

Setting = Literal["straight", "on-point", "strippy"]
SETTINGS: Mapping[Setting, LayCenter] = {"straight": straight, "on-point": on_point, "strippy": strippy}
BORDERS: Mapping[str, LayBorder] = {
    "plain": plain_border, "mitered": mitered_border, "coping": coping, "pieced": pieced_border,
}


def setting_of(size: Size) -> Setting:
    """The name of a size's setting."""
    if size.strips is not None:
        return "strippy"
    return "straight" if size.on_point is None else "on-point"


def border_way(border: Border) -> str:
    """The name of the way in which a border is laid."""
    return "mitered" if border.corner_kind == "mitered" else border.kind
