"""Types of pack problems and their answers: sheets of one size, prints in piles, groups of one print, loose pieces.

All lengths are whole grid units. Everything is frozen; no float appears anywhere.
"""

from __future__ import annotations

from dataclasses import dataclass

from .sheets import SheetLayout, SheetPiece


@dataclass(frozen=True, slots=True)
class Pile:
    """Prints of one kind in the pack (light, dark, or simply all): so many prints, each on so many sheets."""

    key: str
    prints: int
    sheets: int = 1


@dataclass(frozen=True, slots=True)
class Group:
    """Pieces that must all be cut from one print: (piece key, count) pairs.

    `match` between fabrics is one group with the pieces of both. `pile` restricts the print to a pile.
    Groups that share a word of `apart` never share a print: name the block that holds them to keep the groups of one
    block apart, and name a pair of groups to keep two that touch apart.
    """

    key: str
    needs: tuple[tuple[str, int], ...]
    pile: str | None = None
    apart: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Loose:
    """Pieces that may come from any print, of one pile if it is named."""

    piece: str
    count: int
    pile: str | None = None


@dataclass(frozen=True, slots=True)
class PackProblem:
    """Everything to be cut from packs of sheets of one true size, in grid units."""

    width: int
    height: int
    pieces: tuple[SheetPiece, ...]
    piles: tuple[Pile, ...]
    groups: tuple[Group, ...] = ()
    loose: tuple[Loose, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetUse:
    """One sheet of a print: what is cut from it, where, and what is left of it."""

    pile: str
    print: int
    sheet: int
    layout: SheetLayout


@dataclass(frozen=True, slots=True)
class PrintUse:
    """One print: the groups cut from it, and the loose pieces that it gives beside them."""

    pile: str
    print: int
    groups: tuple[str, ...]
    loose: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class PackPlan:
    """Whether one pack is enough, how many packs are, and which sheet gives what.

    `needed` is the least number of sheets if the packs held prints enough, at least `bound`, and 0 when a group takes
    more sheets of one print than are ever counted; `packs` is None when no number of packs can serve, because every
    pack holds the same prints; `sheets` is then empty.
    `unused` counts the whole sheets left in each pile, and `spare` the pieces that the layouts give beyond the need.
    """

    enough: bool
    packs: int | None
    needed: int
    bound: int
    proof: str
    sheets: tuple[SheetUse, ...]
    prints: tuple[PrintUse, ...]
    unused: tuple[tuple[str, int], ...]
    spare: tuple[tuple[str, int], ...]

    @property
    def used(self) -> int:
        """How many sheets are cut into."""
        return len(self.sheets)
