"""The cutting of one fabric in one size, gathered by height of strip for telling.

In: strips and precuts of the plan.
Out: groups of equal strips with what they yield together, and what each kind of strip yields.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.planning.plan import FabricSize, PackSize, SheetCut, Strip, Yield


@dataclass(frozen=True, slots=True)
class Gained:
    """So many of a piece."""

    piece: str
    count: int


@dataclass(frozen=True, slots=True)
class Joined:
    """What is joined to a long piece: whole strips, and the ends of strips from which other pieces are cut."""

    piece: str
    whole: int
    ends: int


@dataclass(frozen=True, slots=True)
class Share:
    """Of the pieces that some strips give: how many are needed and how many are spare."""

    needed: int
    spare: int


@dataclass(frozen=True, slots=True)
class Kind:
    """Strips or precuts that are cut alike: how many, and what each gives."""

    count: int
    each: tuple[Gained, ...]
    joined: tuple[str, ...]
    """Pieces to whose joined strip each of these goes."""
    used: Length | None
    """Width of the cloth that is used."""

    @property
    def is_whole(self) -> bool:
        """Whether the strip goes undivided into one long piece."""
        return not self.each and len(self.joined) == 1


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
    def joined(self) -> tuple[Joined, ...]:
        """How many strips and ends go into each long piece."""
        pieces = dict.fromkeys(piece for kind in self.kinds for piece in kind.joined)
        return tuple(
            Joined(
                piece,
                sum(kind.count for kind in self.kinds if kind.is_whole and piece in kind.joined),
                sum(kind.count for kind in self.kinds if not kind.is_whole and piece in kind.joined),
            )
            for piece in pieces
        )


@dataclass(frozen=True, slots=True)
class SizeCuts:
    """One fabric's groups in one size, in cutting order."""

    groups: tuple[Group, ...]

    def group(self, height: Length | None) -> Group | None:
        return next((group for group in self.groups if group.height == height), None)

    @property
    def scattered(self) -> tuple[str, ...]:
        """Pieces that are cut from strips of more than one height, so that their number is told in parts."""
        counts = Counter(gained.piece for group in self.groups for gained in group.gained)
        return tuple(piece for piece, count in counts.items() if count > 1)

    def share(self, piece: str, need: int, here: Group) -> Share | None:
        """How many of the pieces that a group gives are needed after what earlier groups gave; the others are spare."""
        left = need
        for group in self.groups:
            count = sum(gained.count for gained in group.gained if gained.piece == piece)
            needed = min(count, left)
            if group is here:
                return Share(needed, count - needed) if count else None
            left -= needed
        return None


def size_cuts(size: FabricSize) -> SizeCuts:
    """Gather a fabric's cutting; precuts come before strips."""
    heights = dict.fromkeys(strip.height for strip in size.strips)
    strips = [Group(height, tuple(_strip(one) for one in size.strips if one.height == height)) for height in heights]
    sheets = size.precuts.sheets if size.precuts is not None else ()
    return SizeCuts((*([Group(None, tuple(map(_sheet, sheets)))] if sheets else []), *strips))


def pack_cuts(size: PackSize) -> SizeCuts:
    """Gather the cutting of a pack for all fabrics that share it."""
    return SizeCuts((Group(None, tuple(map(_sheet, size.sheets))),) if size.sheets else ())


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
