"""Which ways of making fix their own pressing, whatever nests.

A corner sewn by stitch-and-flip is flipped open, so that its seam lies under the corner; geese made four at a time have
their first two seams pressed toward the sky before the last squares are laid on (common practice).
A new method without an entry here leaves all its seams free.
"""

from __future__ import annotations

_AWAY_FROM: dict[tuple[str, str], str] = {
    ("flipped-corners", "flipped"): "base",
    ("square-in-square", "flipped"): "center",
    ("flying-geese", "flipped"): "goose",
    ("flying-geese", "four-at-a-time"): "goose",
}


def pressed_away_from(method: str, how: str) -> str | None:
    """The role away from which all seams of a unit are pressed, or None where they are free."""
    return _AWAY_FROM.get((method, how))
