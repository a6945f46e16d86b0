"""The cutting of one fabric in one size, gathered by height of strip for telling.

In: strips and precuts of the plan.
Out: groups of equal strips with what they yield together, and what each kind of strip yields.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.planning.plan import FabricSize, PlannedFabric, SheetCut, Strip, Yield


@dataclass(frozen=True, slots=True)
class Gained:
    """How many of a piece a group of strips or precuts gives in all."""

    piece: str
    count: int


@dataclass(frozen=True, slots=True)
class Kind:
    """Strips or precuts that are cut alike: how many, and what each gives."""

    count: int
    each: tuple[Gained, ...]
    joined: tuple[str, ...]
    """Pieces to whose joined strip each of these goes."""
    used: Length | None
    """Width of the cloth that is used."""


@dataclass(frozen=True, slots=True)
class Group:
    """All strips of one height, or all precuts of a fabric (height None)."""

    height: Length | None
    count: int
    gained: tuple[Gained, ...]
    joined: tuple[str, ...]
    kinds: tuple[Kind, ...]


@dataclass(frozen=True, slots=True)
class SizeCuts:
    """One fabric's groups in one size, in cutting order."""

    groups: tuple[Group, ...]

    def group(self, height: Length | None) -> Group | None:
        return next((group for group in self.groups if group.height == height), None)

    def last_group_of(self, piece: str) -> Group | None:
        """The last group that gives some of the piece; its spare pieces are told there."""
        giving = [group for group in self.groups if any(gained.piece == piece for gained in group.gained)]
        return giving[-1] if giving else None


def size_cuts(size: FabricSize, fabric: PlannedFabric) -> SizeCuts:
    """Gather a fabric's cutting; precuts come before strips."""
    heights = dict.fromkeys(strip.height for strip in size.strips)
    strips = [_strip_group(height, [strip for strip in size.strips if strip.height == height]) for height in heights]
    sheets = [_sheet_group(size.precuts.sheets)] if size.precuts is not None and size.precuts.sheets else []
    return SizeCuts((*sheets, *strips))


def _strip_group(height: Length, strips: Sequence[Strip]) -> Group:
    kinds = tuple(
        Kind(strip.count, _gained(strip.yields, 1), _joined(strip), strip.used) for strip in strips
    )
    joined = tuple(dict.fromkeys(piece for kind in kinds for piece in kind.joined))
    return Group(height, sum(kind.count for kind in kinds), _in_all(kinds), joined, kinds)


def _sheet_group(sheets: Sequence[SheetCut]) -> Group:
    kinds = tuple(Kind(sheet.count, _gained(sheet.yields, 1), (), None) for sheet in sheets)
    return Group(None, sum(kind.count for kind in kinds), _in_all(kinds), (), kinds)


def _joined(strip: Strip) -> tuple[str, ...]:
    return tuple(dict.fromkeys(segment.piece for segment in strip.segments))


def _gained(yields: Sequence[Yield], times: int) -> tuple[Gained, ...]:
    counts: dict[str, int] = {}
    for given in yields:
        counts[given.piece] = counts.get(given.piece, 0) + given.each * times
    return tuple(Gained(piece, count) for piece, count in counts.items())


def _in_all(kinds: Sequence[Kind]) -> tuple[Gained, ...]:
    counts: dict[str, int] = {}
    for kind in kinds:
        for gained in kind.each:
            counts[gained.piece] = counts.get(gained.piece, 0) + gained.count * kind.count
    return tuple(Gained(piece, count) for piece, count in counts.items())
