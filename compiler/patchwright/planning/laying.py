"""How lettered pieces lie on cloth: whole, or joined from strips; along which grain; and what cannot be cut.

In: the design and pieces with their needs.
Out: `Flat` and `Long` entries for a cloth plan, and the plan itself.
Never: a record of what was made; trying a way of cutting leaves no trace.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.core.source import NOWHERE
from patchwright.design.design import Design, Fabric, GrainChoice, Pack
from patchwright.planning import cutting
from patchwright.planning.cloth import ClothPlan, Flat, Long, TooWide, plan_cloth
from patchwright.planning.finishing.binding import strips_along
from patchwright.planning.finishing.buying import joined_strips
from patchwright.planning.kept import Kept
from patchwright.planning.lettering import Entry
from patchwright.planning.repeats import in_repeats

Effort = Literal["plain", "best"]
Grain = Literal["crosswise", "lengthwise"]
MOST_HEIGHTS = 4
"""To how many lengths of other pieces the strips of a binding along the cloth are fitted."""


@dataclass(frozen=True, slots=True)
class Way:
    """How pieces are cut that may be cut either way: strips of the top that are too long for the width of the cloth,
    and a binding, joined from so many strips along the cloth, or from none but strips across it."""

    long: Grain = "crosswise"
    binding: int = 0


@dataclass(frozen=True, slots=True)
class Layer:
    """Lays the pieces of one design."""

    design: Design
    effort: Effort
    findings: Findings
    kept: Kept

    def sheet_flat(self, entry: Entry, index: int, fabric: Fabric) -> Flat:
        """A piece to be cut whole, from a precut for example."""
        size = entry.identity.sizes[index]
        if size is None:
            raise ValueError(f"{entry.id} is needed in a size that it has no measure for")
        return Flat(entry.id, size[0].length, size[1].length, entry.needs[index], fabric.direction == "none")

    def solve(
        self, fabric: Fabric, entries: list[Entry], index: int, way: Way, extra: Length, effort: Effort | None = None
    ) -> ClothPlan | None:
        """The cloth plan of a fabric in one size with free pieces cut one way; None where a piece is too wide."""
        laid = [self.on_cloth(entry, index, fabric, way) for entry in entries]
        solver = self.kept.solver(cutting.best) if (effort or self.effort) == "best" else cutting.plain
        flats = tuple(made for made in laid if isinstance(made, Flat))
        longs = tuple(made for made in laid if isinstance(made, Long))
        if fabric.repeat is not None and not self._repeats(longs, entries, extra):
            return None
        try:
            if fabric.repeat is None:
                return plan_cloth(flats, longs, fabric.usable_width, extra, self.design.rules, solver)
            cells = in_repeats(flats, fabric.repeat, fabric.usable_width)
            plan = plan_cloth(cells.flats, (), cells.width, cells.extra, self.design.rules, solver)
            return replace(plan, smallest_width=plan.smallest_width + cells.lost)
        except TooWide as fault:
            self.refuse(next(entry for entry in entries if entry.id == fault.piece), index, fabric.usable_width)
            return None

    def on_cloth(self, entry: Entry, index: int, fabric: Fabric, way: Way) -> Flat | Long:
        """How a piece is laid: whole, or joined from strips across the cloth where it is too long for that."""
        size = entry.identity.sizes[index]
        if size is None:
            raise ValueError(f"{entry.id} is needed in a size that it has no measure for")
        width, height = size[0].length, size[1].length
        count = entry.needs[index]
        if entry.kind == "binding" and self._is_joined(index, fabric):
            loss = self.binding_loss(height)
            if way.binding:
                each = strips_along(width, way.binding, loss, self.design.rules.round_cuts)
                return Flat(entry.id, height, each, way.binding, False)
            return Long(entry.id, height, width, loss, True)
        turn = fabric.direction == "none" and not entry.crosswise
        asked = self._asked(entry, index)
        if not entry.identity.long and asked in (None, "auto"):
            return Flat(entry.id, width, height, count, turn)
        if turn:
            width, height = max(width, height), min(width, height)
            if self._grain_of(entry, index, way.long) == "lengthwise":
                return Flat(entry.id, height, width, count, False)
            if not entry.identity.long:
                return Flat(entry.id, width, height, count, False)
        if width <= fabric.usable_width:
            return Flat(entry.id, width, height, count, turn)
        return Long(entry.id, height, width * count, self._strip_loss(height), False)

    def least_width(self, entry: Entry, index: int, fabric: Fabric, way: Way) -> Length:
        """The width of cloth that a piece takes in every plan, turned if it may be; nothing for a joined one."""
        laid = self.on_cloth(entry, index, fabric, way)
        if isinstance(laid, Long):
            return ZERO
        return min(laid.width, laid.height) if laid.turn else laid.width

    def _is_joined(self, index: int, fabric: Fabric) -> bool:
        """Whether a binding is joined from strips across the cloth, rather than cut from cloth on the bias."""
        binding = self.design.sizes[index].binding
        return binding is not None and binding.way == "straight" and not fabric.pack

    def matching(self, fabric: Fabric, entries: list[Entry], index: int) -> Length:
        """The length that is lost by centering patches on motifs, since the cloth may begin anywhere in its repeat."""
        if fabric.repeat is None:
            return ZERO
        laid = [self.on_cloth(entry, index, fabric, Way()) for entry in entries]
        return in_repeats([made for made in laid if isinstance(made, Flat)], fabric.repeat, fabric.usable_width).extra

    def _repeats(self, longs: tuple[Long, ...], entries: list[Entry], extra: Length) -> bool:
        """Whether all that a matched cloth is used for can be cut in whole repeats; reported where not."""
        what = "the backing" if extra else ""
        for long in longs:
            entry = next(entry for entry in entries if entry.id == long.piece)
            what = ", ".join(entry.uses)
        if not what:
            return True
        fabric = entries[0].identity.fabric if entries else ""
        self.findings.error(
            "repeat-too-long", f"`{fabric}` is matched by its repeat, and `{what}` is joined or not matched",
            next((own.span for own in self.design.fabrics if own.id == fabric), NOWHERE),
            "give that part another fabric: declare the same cloth once more, without `fussy` or `stripe`",
        )
        return False

    def binding_loss(self, strip: Length) -> Length:
        """What a join of binding strips takes."""
        return strip if self.design.rules.binding_join == "diagonal" else self.design.rules.seam * 2

    def _strip_loss(self, height: Length) -> Length:
        return height if self.design.rules.strip_join == "diagonal" else self.design.rules.seam * 2

    def _asked(self, entry: Entry, index: int) -> GrainChoice | None:
        """How the author wants a border, sashing or a strip between columns cut; None for everything else."""
        grains = entry.identity.grains
        return grains[index] if grains and entry.kind != "binding" else None

    def _grain_of(self, entry: Entry, index: int, way: Grain) -> Grain:
        asked = self._asked(entry, index)
        if asked is None:
            return "crosswise"
        if self._is_striped(entry):
            return "lengthwise"
        return way if asked == "auto" else asked

    def _is_striped(self, entry: Entry) -> bool:
        fabric = next(known for known in self.design.fabrics if known.id == entry.identity.fabric)
        return fabric.repeat is not None and not fabric.repeat[1]

    def is_free(self, entry: Entry, index: int, fabric: Fabric) -> bool:
        """Whether a long piece may be cut either way, and crosswise would need joins."""
        size = entry.identity.sizes[index]
        return (
            self._asked(entry, index) == "auto" and fabric.repeat is None
            and fabric.direction == "none" and bool(entry.identity.long)
            and size is not None and max(size).length > fabric.usable_width
        )

    def bindings_along(self, entry: Entry, index: int, fabric: Fabric) -> range:
        """In how many strips along the cloth a binding may be cut; in none where that is not asked or not left free."""
        size, asked = entry.identity.sizes[index], (entry.identity.grains or ("crosswise",) * (index + 1))[index]
        free = asked == "lengthwise" or (asked == "auto" and fabric.direction == "none")
        if size is None or not free or fabric.repeat is not None or not self._is_joined(index, fabric):
            return range(0)
        return range(1, (fabric.usable_width / size[1].length.rational()).floor() + 1)

    def is_binding_along(self, entry: Entry, index: int) -> bool:
        """Whether the author asks for a binding that is cut along the cloth."""
        return entry.kind == "binding" and bool(entry.identity.grains) and entry.identity.grains[index] == "lengthwise"

    def binding_height(self, fabric: Fabric, entries: list[Entry], index: int, way: Way) -> Length:
        """How long the strips are that a binding is joined from, where they lie along the cloth."""
        laid = (self.on_cloth(entry, index, fabric, way) for entry in entries if entry.kind == "binding")
        return next((flat.height for flat in laid if isinstance(flat, Flat)), ZERO)

    def binding_strips(self, fabric: Fabric, entries: list[Entry], index: int) -> Length:
        """The length of cloth that strips across it take for a binding alone."""
        laid = (self.on_cloth(entry, index, fabric, Way()) for entry in entries if entry.kind == "binding")
        joined = [long for long in laid if isinstance(long, Long)]
        return sum((joined_strips(long.total, fabric.usable_width, long.loss) * long.height for long in joined), ZERO)

    def long_heights(self, fabric: Fabric, entries: list[Entry], index: int, ways: list[Way]) -> list[Length]:
        """The lengths of other pieces than a binding that lie along the cloth and are longer than half its width."""
        laid = [self.on_cloth(entry, index, fabric, way) for way in ways[:1] for entry in entries
                if entry.kind != "binding"]
        heights = {flat.height for flat in laid if isinstance(flat, Flat) and flat.height > fabric.usable_width / 2}
        return sorted(heights)[-MOST_HEIGHTS:]

    def least_length(self, fabric: Fabric, entries: list[Entry], index: int) -> Length:
        """The length of cloth whose area is that of all pieces; no plan takes less."""
        areas = []
        for entry in entries:
            laid = self.on_cloth(entry, index, fabric, Way())
            areas.append(
                laid.width * laid.height * laid.count if isinstance(laid, Flat) else laid.total * laid.height
            )
        return sum(areas, ZERO) / fabric.usable_width.rational()

    def refuse(self, entry: Entry, index: int, width: Length) -> None:
        """Report a piece that the cloth cannot give."""
        wide = plain_length(width, self.design.system)
        hint = "make the piece smaller or piece it, or choose a wider cloth with `usable-width`"
        self._refuse(entry, index, f"the cloth is {wide} wide", hint)

    def refuse_of_pack(self, entry: Entry, index: int, pack: Pack, other: bool = False) -> None:
        """Report a piece that no precut of a pack can give; `other` where the pack is another way to buy the fabric."""
        low, high = (plain_length(side, self.design.system) for side in sorted((pack.usable_width, pack.usable_height)))
        out = f"take `{pack.id}` out of the alternatives" if other else f"cut `{entry.identity.fabric}` from yardage"
        hint = f"make the piece smaller or piece it, or {out}"
        self._refuse(entry, index, f"the {pack.kind.replace('-', ' ')} of `{pack.id}` are {low} x {high}", hint)

    def _refuse(self, entry: Entry, index: int, cloth: str, hint: str) -> None:
        size, system = entry.identity.sizes[index], self.design.system
        if size is None:
            return
        text = " x ".join(plain_length(side.length, system) for side in size)
        fabric = next(known for known in self.design.fabrics if known.id == entry.identity.fabric)
        one_way = fabric.direction != "none"
        self.findings.error(
            "one-way-too-long" if one_way else "piece-too-wide",
            f"a piece of `{entry.identity.fabric}` for `{', '.join(entry.uses)}` is cut {text}, and {cloth}, "
            f"in `{self.design.sizes[index].name}`", entry.span, hint,
        )
