"""The part of the Design that is cloth: packs, fabrics, and the colors of colorways.

Never: a length of cloth to buy, or a piece that is cut.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from patchwright.core.length import Length
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design_finishing import Direction

PackKind = Literal["squares", "strips", "fat-quarters", "fat-eighths"]
Value = Literal["light", "medium", "dark"]


@dataclass(frozen=True, slots=True)
class Pack:
    """A bundle of precut cloth; its lengths are true sizes in the pattern's unit."""

    id: str
    kind: PackKind
    width: Length
    height: Length
    usable_width: Length
    usable_height: Length
    count: int
    prints: int
    piles: tuple[tuple[str, int], ...] = ()
    match: tuple[str, ...] = ()
    """Fabrics that share one print in each block."""
    single: bool = False
    """Whether its pieces are bought singly rather than in a bundle; `count` is then the number asked for."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class Fabric:
    id: str
    letter: str
    name: str
    colors: tuple[str, ...]
    value: Value
    hatch: int
    """Number of its hatch, from 0, in order of use."""
    pack: str
    """The pack it is cut from, or nothing where it is cut from yardage."""
    pile: str
    direction: Direction
    same_print: str
    apart: Literal["block", "touching", "none"]
    usable_width: Length
    purpose: str
    repeat: tuple[Length, Length] | None = None
    """Repeat across and along the bolt by which patches are centered on motifs; of stripes the height is 0."""
    alternatives: tuple[str, ...] = ()
    """Packs that it could be cut from instead; nothing (an empty name) for yardage."""
    span: Span = field(default=NOWHERE, compare=False)


@dataclass(frozen=True, slots=True)
class ColorwayFabric:
    """A fabric as a colorway shows it."""

    letter: str
    name: str
    colors: tuple[str, ...]
    value: Value
    hatch: int


@dataclass(frozen=True, slots=True)
class Colorway:
    """All fabrics of a pattern in one set of colors; the first one is the pattern's own."""

    id: str
    """Nothing for the pattern's own."""
    label: str
    fabrics: tuple[ColorwayFabric, ...]
