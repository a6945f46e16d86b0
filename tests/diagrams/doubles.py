"""Stand-ins for what drawings take from elsewhere: a theme's label sizes."""

from __future__ import annotations

from patchwright.diagrams.scene import TypeSize

_POINTS = {"small": 7.0, "normal": 8.5, "large": 10.5}


class PlainType:
    """Every character 0.55 em wide, capitals 0.72 em high."""

    def text_width(self, text: str, size: TypeSize = "normal", bold: bool = False) -> float:
        return len(text) * 0.55 * _POINTS[size] / 72

    def text_height(self, size: TypeSize = "normal", bold: bool = False) -> float:
        return 0.72 * _POINTS[size] / 72
