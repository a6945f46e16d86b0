"""What pressing needs to know of a plan: what is sewn from what, and the cloth of every piece.

In: a plan, or as much of it as is known before a piece of cloth is cut.
Out: the same, as a type.
Never: a length of cloth, a strip, or a count of pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, Protocol

from patchwright.planning.plan import Assembly, PlannedSize, PlannedUnit


class Dyed(Protocol):
    """A fabric with its value."""

    @property
    def id(self) -> str: ...

    @property
    def value(self) -> Literal["light", "medium", "dark"]: ...


class OfFabric(Protocol):
    """A cut piece with its fabric."""

    @property
    def id(self) -> str: ...

    @property
    def fabric(self) -> str: ...


class Sewn(Protocol):
    """A quilt as it is sewn; a plan is one."""

    @property
    def sizes(self) -> Sequence[PlannedSize]: ...

    @property
    def units(self) -> Sequence[PlannedUnit]: ...

    @property
    def assemblies(self) -> Sequence[Assembly]: ...

    @property
    def pieces(self) -> Sequence[OfFabric]: ...

    @property
    def fabrics(self) -> Sequence[Dyed]: ...


@dataclass(frozen=True, slots=True)
class SewnPiece:
    """A cut piece of which nothing but its fabric is known yet."""

    id: str
    fabric: str


@dataclass(frozen=True, slots=True)
class SewnQuilt:
    """A quilt before its cutting is planned."""

    sizes: tuple[PlannedSize, ...]
    units: tuple[PlannedUnit, ...]
    assemblies: tuple[Assembly, ...]
    pieces: tuple[SewnPiece, ...]
    fabrics: Sequence[Dyed]


def cloth_values(quilt: Sewn) -> dict[str, int]:
    """How dark every fabric is, by id: 0 light, 1 medium, 2 dark."""
    return {fabric.id: ("light", "medium", "dark").index(fabric.value) for fabric in quilt.fabrics}
