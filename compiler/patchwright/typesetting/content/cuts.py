"""The cutting of one fabric in one size, gathered by height of strip for telling.

In: strips and precuts of the plan.
Out: groups of equal strips with what they yield together, and what each kind of strip yields.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.planning.plan import FabricSize, SheetCut, Strip, Yield


@dataclass(frozen=True, slots=True)
class Gained:
    """So many of a piece; of a long piece, so many strips that are joined for it."""

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
    kinds: tuple[Kind, ...]

    @property
    def count(self) -> int:
        return sum(kind.count for kind in self.kinds)

    @property
    def gained(self) -> tuple[Gained, ...]:
        """How many pieces all of them give."""
        return _summed((one.piece, one.count * kind.count) for kind in self.kinds for one in kind.each)

    @property
    def joined(self) -> tuple[Gained, ...]:
        """How many strips go into each long piece."""
        return _summed((piece, kind.count) for kind in self.kinds for piece in kind.joined)

    def is_shared(self, piece: str) -> bool:
        """Whether a strip that goes into this long piece also gives other pieces."""
        return any(piece in kind.joined and (kind.each or len(kind.joined) > 1) for kind in self.kinds)


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


def size_cuts(size: FabricSize) -> SizeCuts:
    """Gather a fabric's cutting; precuts come before strips."""
    heights = dict.fromkeys(strip.height for strip in size.strips)
    strips = [Group(height, tuple(_strip(one) for one in size.strips if one.height == height)) for height in heights]
    sheets = size.precuts.sheets if size.precuts is not None else ()
    return SizeCuts((*([Group(None, tuple(map(_sheet, sheets)))] if sheets else []), *strips))


def _strip(strip: Strip) -> Kind:
    joined = tuple(dict.fromkeys(segment.piece for segment in strip.segments))
    return Kind(strip.count, _given(strip.yields), joined, strip.used)


def _sheet(sheet: SheetCut) -> Kind:
    return Kind(sheet.count, _given(sheet.yields), (), None)


def _given(yields: Sequence[Yield]) -> tuple[Gained, ...]:
    return _summed((one.piece, one.each) for one in yields)


def _summed(pairs: Iterable[tuple[str, int]]) -> tuple[Gained, ...]:
    counts: dict[str, int] = {}
    for piece, count in pairs:
        counts[piece] = counts.get(piece, 0) + count
    return tuple(Gained(piece, count) for piece, count in counts.items())
