"""Enters every piece of cloth that a pattern is cut into: patches, pieces of units, sashing, borders, setting pieces.

In: a design, its instances, the plans of its units, its tops and bindings.
Out: nothing; the piece book holds what was entered, ready to be lettered.
Never: a rounded patch, or a place on cloth.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.core.diagnostics import Findings
from patchwright.core.geometry import Orientation
from patchwright.core.length import Cut, Finished, Length
from patchwright.core.measure import plain_length
from patchwright.core.source import NOWHERE, Span
from patchwright.design.design import Design, Fabric
from patchwright.methods.method import RecipePiece
from patchwright.methods.template import same_half_turned
from patchwright.planning.finishing.binding import BindingNeed
from patchwright.planning.finishing.by_block import Group, layers_of
from patchwright.planning.finishing.hanging import HangingNeed, hanging_needs
from patchwright.planning.instances import Instances, UnitKey
from patchwright.planning.lettering import Grains, Kind, PieceBook, Templates
from patchwright.planning.plan_finishing import HangingPart
from patchwright.planning.top import ClothKey, ClothNeed, Top
from patchwright.planning.unit_plans import UnitPlan


def _binding_cut(need: BindingNeed) -> tuple[Cut, Cut]:
    """The joined strip, or what is cut whole where strips come from precuts or from cloth on the bias."""
    if need.cloth is None:
        return Cut(need.needed), need.strip
    return Cut(need.cloth[0]), Cut(need.cloth[1])


@dataclass(frozen=True, slots=True)
class PieceEntries:
    """Writes the piece book of a pattern."""

    design: Design
    instances: Instances
    book: PieceBook

    def pieces(self, units: list[UnitPlan], tops: list[Top]) -> None:
        """Patches, pieces of units, and everything of the top that is plain cloth."""
        for patch, counts in self.instances.patches.items():
            sizes = tuple(
                self._cut(patch.fabric, width, height)
                for width, height in zip(patch.widths, patch.heights, strict=True)
            )
            uses = self.instances.patch_uses[patch]
            self.book.add(patch, patch.fabric, sizes, counts, "patch", uses, self._span(uses[0]))
        for unit in units:
            self._enter_unit(unit)
        keys = dict.fromkeys(key for top in tops for key in top.cloth)
        for key in keys:
            self._enter_cloth(key, tops)

    def _enter_unit(self, unit: UnitPlan) -> None:
        fabrics = dict(unit.instance.unit.fabrics)
        for piece in unit.recipes[0].pieces:
            own = [next(other for other in recipe.pieces if other.id == piece.id) for recipe in unit.recipes]
            fabric = fabrics[piece.role]
            sideways = unit.key.turn % 2 == 1
            sizes = tuple(self._on_cloth(fabric, *((p.height, p.width) if sideways else (p.width, p.height)))
                          for p in own)
            needs = [p.per_batch * batches for p, batches in zip(own, unit.batches, strict=True)]
            self.book.add(
                (unit.key, piece.id), fabric, sizes, needs, "unit", [unit.key.unit], unit.instance.unit.span,
                piece.then, templates=self._templates(unit.key, fabric, own),
                crosswise=unit.is_strip_pieced,
            )

    def _templates(self, key: UnitKey, fabric: str, pieces: list[RecipePiece]) -> Templates:
        """The shapes of a unit's piece as they lie on the cloth: for the other hand mirrored, turned with a print."""
        shapes = tuple(piece.template for piece in pieces)
        if not any(shapes):
            return ()
        way = self._fabric(fabric).direction
        lay = Orientation((key.turn + (1 if way == "crosswise" else 0)) % 4, key.mirror)
        laid = [shape.laid(lay) if shape is not None else None for shape in shapes]
        if way != "none":
            return tuple(laid)
        seam = self.design.rules.seam
        return tuple(same_half_turned(shape, seam) if shape is not None else None for shape in laid)

    def _enter_cloth(self, key: ClothKey, tops: list[Top]) -> None:
        """Enter sashing, borders and setting pieces; those longer than the cloth is wide are long."""
        found = [top.cloth.get(key) for top in tops]
        sizes = tuple(self._cut_cloth(key.fabric, need) if need is not None else None for need in found)
        usable = self._fabric(key.fabric).usable_width
        long = any(size is not None and max(side.length for side in size) > usable for size in sizes)
        kinds: dict[str, Kind] = {"sashing": "sashing", "cornerstones": "cornerstone", "strips": "strip"}
        kind = "border" if key.part.startswith("border") else kinds.get(key.part, "patch")
        span = next((top.spans[key] for top in tops if key in top.spans), NOWHERE)
        then = next(need.then for need in found if need is not None)
        shared = then != "none" or (kind == "border" and key.label in ("unit", "spacer"))
        name = f"{key.part} {key.label} {key.number}" if (long or kind in ("border", "strip")) and not shared else ""
        needs = [need.count if need is not None else 0 for need in found]
        asked = self._grains(key.part) if kind in ("sashing", "border", "strip") and not shared else ()
        grains = asked if name or any(grain != "auto" for grain in asked) else ()
        self.book.add(key, key.fabric, sizes, needs, kind, [key.part], span, then, long=name, grains=grains)

    def _grains(self, part: str) -> Grains:
        """How a part of the top is asked to be cut, in every size."""
        if part == "sashing":
            return tuple(size.sashing.cut if size.sashing is not None else "auto" for size in self.design.sizes)
        if part == "strips":
            return tuple(size.strips.cut if size.strips is not None else "auto" for size in self.design.sizes)
        place = int(part.removeprefix("border-")) - 1
        borders = [dict(enumerate(size.borders)).get(place) for size in self.design.sizes]
        return tuple(border.cut if border is not None else "auto" for border in borders)

    def _cut_cloth(self, fabric: str, need: ClothNeed) -> tuple[Cut, Cut]:
        """The cut size of plain cloth; sides that are no rational number are rounded up and trimmed when sewn."""
        seam, step = self.design.rules.seam, self.design.rules.round_cuts
        cut = need.cut or (Finished(need.width).cut(seam), Finished(need.height).cut(seam))
        width, height = (side if side.length.is_rational else Cut(side.length.up_to(step)) for side in cut)
        return self._on_cloth(fabric, width, height)

    def _cut(self, fabric: str, width: Length, height: Length) -> tuple[Cut, Cut]:
        """The cut size of a plain patch, by width across the cloth and height along it."""
        seam = self.design.rules.seam
        return self._on_cloth(fabric, Finished(width).cut(seam), Finished(height).cut(seam))

    def _on_cloth(self, fabric: str, width: Cut, height: Cut) -> tuple[Cut, Cut]:
        """Lay an upright piece on the cloth: a print that runs across the bolt turns it sideways there."""
        return (height, width) if self._fabric(fabric).direction == "crosswise" else (width, height)

    def bindings(self, bindings: list[BindingNeed | None]) -> None:
        """A binding that is cut from a fabric of the top is a long piece of that fabric."""
        for fabric in self.design.fabrics:
            own = [
                need if size.binding is not None and size.binding.fabric == fabric.id else None
                for size, need in zip(self.design.sizes, bindings, strict=True)
            ]
            if not any(own):
                continue
            sizes = tuple(_binding_cut(need) if need is not None else None for need in own)
            needs = [0 if need is None else need.cloths or 1 for need in own]
            span = next(size.binding.span for size in self.design.sizes if size.binding is not None)
            grains = tuple(
                size.binding.cut if size.binding is not None and size.binding.fabric == fabric.id else "auto"
                for size in self.design.sizes
            )
            self.book.add(
                ("binding", fabric.id), fabric.id, sizes, needs, "binding", ["binding"], span, long="binding",
                grains=grains,
            )

    def backs(self, groups: list[tuple[Group, ...]]) -> None:
        """The backs of blocks that have their own, the largest of every size first."""
        fabrics = dict.fromkeys(size.by_block.fabric for size in self.design.sizes if size.by_block is not None)
        for fabric in fabrics:
            own = [size.by_block if size.by_block and size.by_block.fabric == fabric else None
                   for size in self.design.sizes]
            span = next(made.span for made in own if made is not None)
            for rank in range(max(len(found) for found in groups)):
                placed = [
                    (made, found[rank]) if made is not None and rank < len(found) else None
                    for made, found in zip(own, groups, strict=True)
                ]
                if not any(placed):
                    continue
                backs = [layers_of(one[0], one[1][0], self.design.rules)[2] if one is not None else None
                         for one in placed]
                sizes = tuple(self._on_cloth(fabric, Cut(back[0]), Cut(back[1])) if back is not None else None
                              for back in backs)
                counts = [one[1][1] if one is not None else 0 for one in placed]
                self.book.add(("back", fabric, rank), fabric, sizes, counts, "back", ["backs"], span)

    def hangings(self, tops: list[Top]) -> None:
        """Sleeves, corners and labels, part by part and fabric by fabric; a sleeve is never shared."""
        found: dict[tuple[HangingPart, str], list[HangingNeed | None]] = {}
        for index, (size, top) in enumerate(zip(self.design.sizes, tops, strict=True)):
            for need in hanging_needs(size.hanging, top.size[0], self.design.rules) if size.hanging is not None else ():
                found.setdefault((need.part, need.fabric), [None] * len(tops))[index] = need
        spans = [size.hanging.span for size in self.design.sizes if size.hanging is not None]
        for (part, fabric), needs in found.items():
            sizes = tuple(
                self._on_cloth(fabric, need.width, need.height) if need is not None else None for need in needs
            )
            counts = [need.count if need is not None else 0 for need in needs]
            long = part if part == "hanging-sleeve" else ""
            self.book.add((part, fabric), fabric, sizes, counts, "hanging", [part], spans[0], long=long)

    def check_steps(self, findings: Findings) -> None:
        """Warn of plain patches whose cut size is off the house's step; they are never rounded."""
        for entry in self.book.entries.values():
            if entry.kind == "unit" or not any(entry.needs):
                continue
            sides = {side.length for size, need in zip(entry.identity.sizes, entry.needs, strict=True)
                     if size is not None and need for side in size}
            for side in sorted(sides):
                _check_step(findings, self.design, entry.identity.fabric, side, entry.span)

    def check_strips(self, units: list[UnitPlan], findings: Findings) -> None:
        """The same for rows of patches that are strip-pieced: their strips' heights, and their segments' width."""
        seam = self.design.rules.seam
        for unit in units:
            if not unit.instance.unit.row_of[0]:
                continue
            fabrics = dict(unit.instance.unit.fabrics)
            sides = {
                (fabrics[piece.role], side)
                for recipe, width, count in zip(unit.recipes, unit.key.widths, unit.instance.counts, strict=True)
                for piece in recipe.pieces if count
                for side in (piece.height.length, width + seam * 2)
            }
            for fabric, side in sorted(sides):
                _check_step(findings, self.design, fabric, side, unit.instance.unit.span)

    def _fabric(self, name: str) -> Fabric:
        return next(fabric for fabric in self.design.fabrics if fabric.id == name)

    def _span(self, name: str) -> Span:
        spans = {unit.id: unit.span for unit in self.design.units} | {b.id: b.span for b in self.design.blocks}
        return spans.get(name, NOWHERE)


def _check_step(findings: Findings, design: Design, fabric: str, side: Length, span: Span) -> None:
    """Warn of a cut size that rulers do not show."""
    step, system = design.rules.round_cuts, design.system
    if not side.is_multiple_of(step):
        low, high = side.down_to(step), side.up_to(step)
        findings.warning(
            "off-step", f"a piece of `{fabric}` is cut {plain_length(side, system)}, "
            f"off the step of {plain_length(Length(step), system)}", span,
            f"the nearest cut sizes on it are {plain_length(low, system)} and "
            f"{plain_length(high, system)}; change the cell or size by the difference",
        )
