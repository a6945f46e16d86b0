"""Cut pieces: what is cut alike is one piece, with one letter and number in every size.

In: plain patches, units' recipe pieces and plain cloth of the top, with their sizes and counts per size of the quilt.
Out: lettered pieces (A1, A2 …) and which piece serves whom.
Never: strips or yardage.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, field
from typing import Literal

from patchwright.core.length import Cut
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design import Fabric, GrainChoice
from patchwright.methods.method import Then
from patchwright.methods.template import Template

Kind = Literal["patch", "unit", "sashing", "cornerstone", "strip", "border", "binding", "hanging", "back"]
CutSizes = tuple[tuple[Cut, Cut] | None, ...]
Templates = tuple[Template | None, ...]
Grains = tuple[GrainChoice, ...]
"""How the author asks for a long part to be cut, in every size of the quilt; nothing for all other pieces."""


@dataclass(frozen=True, slots=True)
class Identity:
    """What makes two pieces one: the cloth, the cut size in every size of the quilt, and what is done then."""

    fabric: str
    sizes: CutSizes
    then: Then
    long: str
    """Names a long piece, which is joined from strips and never shared; nothing for all others."""
    templates: Templates = ()
    """The shape to cut it to, in every size of the quilt; nothing for pieces that are cut with a ruler alone."""
    grains: Grains = ()


@dataclass(slots=True)
class Entry:
    identity: Identity
    kind: Kind
    needs: list[int]
    uses: list[str] = field(default_factory=list)
    span: Span = NOWHERE
    id: str = ""
    templates: list[str] = field(default_factory=list)
    """Ids of its templates, in every size of the quilt."""
    crosswise: bool = False
    """Whether it is a strip for strip piecing, whose length lies across the cloth."""


@dataclass(slots=True)
class PieceBook:
    """Collects pieces and letters them."""

    fabrics: tuple[Fabric, ...]
    size_count: int
    entries: dict[Identity, Entry] = field(default_factory=dict)
    served: dict[Hashable, Entry] = field(default_factory=dict)
    templates: dict[Template, str] = field(default_factory=dict)

    def add(
        self, served: Hashable, fabric: str, sizes: CutSizes, needs: list[int], kind: Kind, uses: list[str],
        span: Span, then: Then = "none", long: str = "", templates: Templates = (),
        crosswise: bool = False, grains: Grains = (),
    ) -> None:
        """Enter what `served` needs: width and height as they lie on the cloth, and how many in every size."""
        if self._turns(fabric) and not long:
            sizes = tuple(_wide(size) for size in sizes)
        identity = Identity(fabric, sizes, then, long, templates, grains)
        entry = self.entries.setdefault(identity, Entry(identity, kind, [0] * self.size_count, span=span))
        entry.needs = [old + new for old, new in zip(entry.needs, needs, strict=True)]
        entry.uses += [use for use in uses if use not in entry.uses]
        entry.crosswise = entry.crosswise or crosswise
        self.served[served] = entry

    def letter(self) -> list[Entry]:
        """Give every entry its id, fabric by fabric, long strips last and larger pieces first; return them so."""
        ordered: list[Entry] = []
        for fabric in self.fabrics:
            own = [entry for entry in self.entries.values() if entry.identity.fabric == fabric.id and any(entry.needs)]
            own.sort(key=_order)
            for number, entry in enumerate(own, 1):
                entry.id = f"{fabric.letter}{number}"
            ordered += own
        self._number_templates(ordered)
        return ordered

    def _number_templates(self, ordered: list[Entry]) -> None:
        """Number the templates in the order of the pieces; equal shapes are one template, whatever the cloth."""
        for entry in ordered:
            shapes = entry.identity.templates or (None,) * self.size_count
            for shape, need in zip(shapes, entry.needs, strict=True):
                if shape is not None and need:
                    self.templates.setdefault(shape, f"T{len(self.templates) + 1}")
                entry.templates.append(self.templates[shape] if shape is not None and need else "")

    def _turns(self, fabric: str) -> bool:
        return next(known for known in self.fabrics if known.id == fabric).direction == "none"


def _wide(size: tuple[Cut, Cut] | None) -> tuple[Cut, Cut] | None:
    """A piece that may be turned is named by its longer side first."""
    return None if size is None else (max(size), min(size))


def _order(entry: Entry) -> tuple[int, list[tuple[Cut, Cut]], list[str]]:
    """Plain pieces by height and width, largest first; ties are settled by what they are for."""
    first = [size for size in entry.identity.sizes if size is not None][:1]
    rank = {"binding": 2, "hanging": 3, "back": 4}.get(entry.kind, 1 if entry.identity.long else 0)
    sizes = [(height * -1, width * -1) for width, height in first]
    return rank, sizes, [*entry.uses, entry.identity.then, entry.identity.long]
