"""Borders: what each size's list of borders says, with coping as a border of its own.

In: borders as declared, names, rules.
Out: one `Border` for each, from the inside out; the coping of a pieced border stands before it.
Never: the width of coping or of a border of blocks; these follow from the blocks in planning.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import Orientation
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import System, plain_length
from patchwright.design.design import Border, Fabric, GrainChoice, Pieced, Placement, Spacers
from patchwright.design.grain import asked_grain, without_cloth
from patchwright.design.house import native_length
from patchwright.design.names import Names
from patchwright.design.rules import Rules
from patchwright.dialect.declared import (
    BorderDeclaration,
    CopingDeclaration,
    PiecedDeclaration,
    SpacersDeclaration,
)
from patchwright.dialect.scalars import ItemText, LengthText, Name

CornerKind = Literal["none", "fabric", "block", "mitered"]
LEAST_COPING: dict[System, Length] = {"in": Length("1/2"), "cm": Length(1)}
"""The least finished width of coping unless the author says otherwise; common practice, no source."""
OPEN_BORDER: dict[System, tuple[Length, Length]] = {"in": (Length(1), Length(12)), "cm": (Length("5/2"), Length(30))}
"""The least and the most width of a border that is left open for a bed; our own choice."""


@dataclass(frozen=True, slots=True)
class Borders:
    """Resolves the borders of one pattern."""

    names: Names
    rules: Rules
    findings: Findings
    fabrics: Mapping[str, Fabric]
    on_bed: bool = False
    """Whether a bed decides the widths that are left open."""

    def resolve(self, declared: Sequence[BorderDeclaration]) -> tuple[Border, ...]:
        """All borders that are right; mistakes are reported and left out."""
        return tuple(border for one in declared for border in self._border(one))

    def _border(self, declared: BorderDeclaration) -> Iterator[Border]:
        if declared.pieced is not None:
            yield from self._pieced(declared, declared.pieced)
            return
        if declared.coping is not None:
            self.findings.error(
                "coping-without-pieced", "`coping` makes a pieced border fit, and this border is not pieced",
                declared.coping.span, "take `coping` out, or give `pieced` in place of `fabric`",
            )
        limits, fabric = self._limits(declared), self._fabric(declared)
        corner, kind, lay = self._corner(declared)
        if limits is None or fabric is None or kind is None:
            return
        is_open = declared.width is None or declared.width.length is None
        if is_open and kind == "block":
            self.findings.error(
                "border-limits", "a border with corner blocks is as wide as they are, so its width cannot be left open",
                declared.span, "write its `width`, or take other corners",
            )
            return
        self._check_along(declared, (declared.corner or declared.corners) if kind != "none" else None)
        yield Border(
            limits[0], fabric, self._grain(declared, fabric), corner, kind, corner_lay=lay,
            limits=limits if is_open else None, sides=declared.along != "ends", ends=declared.along != "sides",
            span=declared.span,
        )

    def _grain(self, declared: BorderDeclaration, fabric: str) -> GrainChoice:
        return asked_grain(declared.cut, self.fabrics.get(fabric), declared.key_span("cut"), self.findings)

    def _check_along(self, declared: BorderDeclaration, corner: Name | ItemText | None) -> None:
        """A border on two sides of the quilt has no corners."""
        if declared.along is not None and corner is not None:
            self.findings.error(
                "border-along-with-corners", f"a border that runs only along the {declared.along} has no corners",
                corner.span, "take its corners out, or `along`",
            )

    def _limits(self, declared: BorderDeclaration) -> tuple[Length, Length] | None:
        """The least and the most width, which are one where it is written."""
        if declared.width is not None and declared.width.length is not None:
            for written, word in ((declared.least, "least"), (declared.most, "most")):
                if written is not None:
                    self.findings.error(
                        "border-limits", f"`{word}` is for a border whose width is left open", written.span,
                        "write `width: fit`, or take it out",
                    )
            width = self._positive(declared.width.length)
            return (width, width) if width is not None else None
        if not self.on_bed:
            if declared.width is None:
                self.findings.error(
                    "missing-key", "the border has no `width`", declared.span,
                    "write `width: …`; only where the quilt has a `fit` may it be left out",
                )
            return None
        least, most = (
            self._positive(written) if written is not None else usual
            for written, usual in zip((declared.least, declared.most), OPEN_BORDER[self.rules.system], strict=True)
        )
        if least is None or most is None:
            return None
        if least > most:
            self.findings.error(
                "border-limits", f"a border of at least {plain_length(least, self.rules.system)} and at most "
                f"{plain_length(most, self.rules.system)} has no width", declared.span,
                "make `most` larger than `least`",
            )
            return None
        return least, most

    def _positive(self, written: LengthText) -> Length | None:
        width = native_length(written, self.rules.system, self.findings)
        if width > ZERO:
            return width
        self.findings.error(
            "border-width-zero", f"a border `{written.text}` wide has no width", written.span,
            "give a width above zero, or take the border out",
        )
        return None

    def _fabric(self, declared: BorderDeclaration) -> str | None:
        if declared.fabric is None:
            self.findings.error("missing-key", "the border has no `fabric`", declared.span, "write `fabric: …`")
            return None
        found = self.names.find(declared.fabric.text, declared.fabric.span, "fabric")
        return declared.fabric.text if found is not None else None

    def _corner(self, declared: BorderDeclaration) -> tuple[str, CornerKind | None, Orientation | None]:
        """What lies in the corners, how they are made, and how the first lies where each is turned."""
        if declared.corner is None:
            return *self._corners(declared.corners), None
        if declared.corners is not None:
            self.findings.error(
                "corner-twice", "the border has both `corners` and `corner`", declared.corner.span,
                "keep `corners` for corners that all lie upright, or `corner` for a block that is turned at each",
            )
            return "", None, None
        placement = self._placement(declared.corner)
        if placement is None:
            return "", None, None
        lay = placement.orientation if placement.kind == "block" else None
        return placement.ref, "block" if placement.kind == "block" else "fabric", lay

    def _corners(self, written: Name | None) -> tuple[str, CornerKind | None]:
        """The fabric or block of the corners, and how they are made; no way where the name is wrong."""
        if written is None or written.text == "butted":
            return "", "none"
        if written.text == "mitered":
            return "", "mitered"
        kind = self.names.find(written.text, written.span, "fabric", "block")
        return written.text, None if kind is None else "block" if kind == "block" else "fabric"

    def _pieced(self, declared: BorderDeclaration, pieced: PiecedDeclaration) -> Iterator[Border]:
        own = ((declared.fabric, "fabric"), (declared.corners, "corners"), (declared.corner, "corner"))
        for written, word in own:
            if written is not None:
                self.findings.error(
                    "pieced-and-plain", f"a pieced border has no `{word}` of its own", written.span,
                    "name its blocks or fabrics under `pieced`, as `repeat` and `corner`",
                )
        repeat = [placement for item in pieced.repeat for placement in [self._placement(item)] * item.repeat]
        corner = self._placement(pieced.corner) if pieced.corner is not None else repeat[0]
        middle = self._placement(pieced.middle) if pieced.middle is not None else None
        coping = declared.coping
        least, most = self._coping_limits(coping) if coping is not None else (None, None)
        spacers = self._spacers(pieced.spacers, coping) if pieced.spacers is not None else None
        width = self._pieced_width(declared)
        placed = tuple(one for one in repeat if one is not None)
        if len(placed) < len(repeat) or corner is None or width is None or (pieced.middle and middle is None):
            return
        mirrored = pieced.turn_at == "middle" or middle is not None
        self._check_along(declared, pieced.corner)
        made = Pieced(placed, corner, mirrored, least, most, middle, spacers)
        sides, ends = declared.along != "ends", declared.along != "sides"
        if coping is not None:
            yield Border(
                ZERO, coping.fabric.text, self._grain(declared, coping.fabric.text), "", "none", "coping", made,
                sides, ends, span=coping.span,
            )
        else:
            without_cloth(
                declared.cut, "in a pieced border without `coping`", declared.key_span("cut"), self.findings
            )
        yield Border(width, "", "auto", "", "none", "pieced", made, sides, ends, span=declared.span)

    def _spacers(self, written: SpacersDeclaration, coping: CopingDeclaration | None) -> Spacers:
        """Rectangles within the rows; coping about the quilt does the same in another way."""
        self.names.find(written.fabric.text, written.fabric.span, "fabric")
        if coping is not None:
            self.findings.error(
                "coping-and-spacers", "coping brings the quilt to the size of the rows, spacers bring the rows to that "
                "of the quilt", coping.span, "keep one of them",
            )
        least = LEAST_COPING[self.rules.system]
        if written.least is not None:
            least = native_length(written.least, self.rules.system, self.findings)
        return Spacers(written.fabric.text, written.at or "ends", least, written.span)

    def _pieced_width(self, declared: BorderDeclaration) -> Length | None:
        """The width of a pieced border of squares; 0 where blocks have it."""
        if declared.width is not None and declared.width.length is None:
            self.findings.error(
                "border-limits", "a pieced border is as wide as its blocks, so its width cannot be left open",
                declared.width.span, "take `width` out, or write it where the border is all squares of fabrics",
            )
            return None
        return self._positive(declared.width.length) if declared.width is not None and declared.width.length else ZERO

    def _coping_limits(self, coping: CopingDeclaration) -> tuple[Length, Length | None]:
        """The least and the most finished width."""
        system = self.rules.system
        self.names.find(coping.fabric.text, coping.fabric.span, "fabric")
        least = LEAST_COPING[system]
        if coping.least is not None:
            least = native_length(coping.least, system, self.findings)
        if coping.most is None:
            return least, None
        most = native_length(coping.most, system, self.findings)
        if most < least:
            self.findings.error(
                "coping-limits", f"coping of at least {plain_length(least, system)} and at most "
                f"{plain_length(most, system)} has no width", coping.most.span, "make `most` larger than `least`",
            )
        return least, most

    def _placement(self, item: ItemText) -> Placement | None:
        """A block or a fabric's square, as it lies along the top of the quilt."""
        if item.other or item.width is not None:
            self.findings.error(
                "sized-placement", f"`{item.text}` is no block or fabric as it is", item.span,
                "name a block, turned or mirrored if you like, or a fabric; a block's `cell` or `size` says how large",
            )
            return None
        kind = self.names.find(item.name, item.span, "block", "fabric")
        if kind is None:
            return None
        return Placement("block" if kind == "block" else "fabric", item.name, item.orientation, item.span)
