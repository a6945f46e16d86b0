"""Whether a unit is strip-pieced: what single pieces and strips take, in seams and in cloth.

In: a unit's strip sets in every size, how many units are needed, and the cloth of its roles.
Out: the choice with what was weighed, and how many units a run of strips gives.
Rule: left to itself, a unit is strip-pieced where that takes fewer seams and no more cloth in every size; each cloth is
counted in strips of its own, cut across its width, as they are laid without looking further.
Never: strips across prints that are to be told apart, or of a one-way print.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from patchwright.core.length import ZERO, Length
from patchwright.design.design import Design, Fabric, Pack
from patchwright.methods.method import StripRun, StripSet, TriangleRules
from patchwright.methods.strip_piecing import most_units, strip_length
from patchwright.planning.plan import StripChoice

Asked = Literal["auto", "yes", "no"]
Cloth = tuple[str, Length]
"""A fabric and a cut height."""
Weighed = tuple[tuple[int, int], tuple[Length, Length]]
"""Seams, and length of cloth, from single pieces and from strips."""


_PARTS = 4
"""Into how many parts of a strip's length a run of strips may go."""


@dataclass(frozen=True, slots=True)
class Run:
    """One kind of unit in one size: its strip sets with the fabrics of their strips, and how many are needed."""

    sets: tuple[StripSet, ...]
    need: int

    @property
    def patches(self) -> int:
        return sum(len(one.strips) * one.each for one in self.sets)

    @property
    def turns(self) -> bool:
        return any(one.turned for one in self.sets)

    @property
    def columns(self) -> int:
        return sum(one.each for one in self.sets)


@dataclass(frozen=True, slots=True)
class StripRules:
    """What the cloth of a design allows."""

    design: Design

    def room(self, fabrics: Sequence[str]) -> Length:
        """How long a strip of all these fabrics can be cut in one."""
        return min(self._width(self._fabric(name)) for name in fabrics)

    def hindrance(self, fabrics: Sequence[str], turned: bool) -> str:
        """Why these fabrics cannot be strip-pieced, as a message says it; nothing if they can.

        `turned` where a segment is turned half around before it is sewn in.
        """
        for name in dict.fromkeys(fabrics):
            fabric = self._fabric(name)
            if turned and fabric.direction != "none":
                return f"`{name}` is a one-way print, which its segments would turn"
            if fabric.repeat is not None:
                return f"`{name}` is matched by its repeat, which strips would cut through"
            if fabric.pack and fabric.same_print not in ("none", "quilt"):
                return f"`{name}` shares prints by `{fabric.same_print}`, which strips would mix"
        return ""

    def is_plain(self, fabrics: Sequence[str]) -> bool:
        """Whether all are bought by length or in strips and may be turned, so that long strips surprise nobody."""
        found = [self._fabric(name) for name in fabrics]
        packs = [self._pack(fabric) for fabric in found]
        long = all(pack is None or pack.kind == "strips" for pack in packs)
        return long and all(fabric.direction == "none" for fabric in found)

    def run_of(self, run: Run, room: Length, rules: TriangleRules, each: int = 0) -> StripRun | None:
        """How many units each run of strips gives, alike in all runs; None where a strip is too short.

        Whole strips, halves, thirds or quarters of one, whichever leave the least cloth over, the longest of these.
        `each` where the author tells how many.
        """
        most = most_units(run.sets, rules.seam, room)
        if most < max(each, 1):
            return None
        if each:
            return StripRun(each, room)
        found: list[tuple[Length, int, StripRun]] = []
        for parts in range(1, min(most, _PARTS) + 1):
            runs = max(-(-run.need // (most // parts)), 1)
            strips = StripRun(max(-(-run.need // runs), 1), room)
            found.append((self.weigh([(run, strips)], rules)[1][1], runs, strips))
        return min(found, key=lambda one: one[:2])[2]

    def weigh(self, runs: Sequence[tuple[Run, StripRun]], rules: TriangleRules) -> Weighed:
        """Seams and cloth of all these units from single pieces, and from strips."""
        singly, along = 0, 0
        pieces: dict[Cloth, Counter[Length]] = {}
        strips: dict[Cloth, Counter[Length]] = {}
        for run, strip_run in runs:
            count = -(-run.need // strip_run.units)
            singly += run.need * (run.patches - 1)
            along += count * sum(len(one.strips) - 1 for one in run.sets) + run.need * (run.columns - 1)
            for one in run.sets:
                width = one.width + rules.seam * 2
                length = strip_length(one, strip_run, strip_run.units, rules)
                for fabric, height in one.strips:
                    high = height + rules.seam * 2
                    strips.setdefault((fabric, high), Counter())[length] += count
                    cloth = fabric, min(width, high)
                    pieces.setdefault(cloth, Counter())[max(width, high)] += one.each * run.need
        return (singly, along), (self._cloth(pieces), self._cloth(strips))

    def _cloth(self, pieces: Mapping[Cloth, Counter[Length]]) -> Length:
        """The length of cloth that they take, the longest laid first, each where it first fits."""
        whole = ZERO
        for (fabric, high), lengths in pieces.items():
            room = self._width(self._fabric(fabric))
            left: list[Length] = []
            for length, count in sorted(lengths.items(), reverse=True):
                each = max((room / length).floor(), 1)
                left += [room - length * each] * (count // each)
                for _ in range(count % each):
                    place = next((n for n, rest in enumerate(left) if rest >= length), None)
                    if place is None:
                        left.append(room - length)
                    else:
                        left[place] -= length
            whole += high * len(left)
        return whole

    def _width(self, fabric: Fabric) -> Length:
        pack = self._pack(fabric)
        return fabric.usable_width if pack is None else max(pack.usable_width, pack.usable_height)

    def _pack(self, fabric: Fabric) -> Pack | None:
        return next((pack for pack in self.design.packs if pack.id == fabric.pack), None)

    def _fabric(self, name: str) -> Fabric:
        return next(fabric for fabric in self.design.fabrics if fabric.id == name)


def with_fabrics(sets: Sequence[StripSet], fabrics: Mapping[str, str]) -> tuple[StripSet, ...]:
    """The strip sets with fabrics in place of roles."""
    return tuple(
        replace(one, strips=tuple((fabrics[role], height) for role, height in one.strips)) for one in sets
    )


def choose(asked: Asked, weighed: Sequence[Weighed | None]) -> bool:
    """Whether to strip-piece: as asked, or where no size has more seams or cloth and one has fewer seams."""
    found = [one for one in weighed if one is not None]
    if asked != "auto" or not found:
        return asked == "yes"
    return all(seams[1] <= seams[0] and cloth[1] <= cloth[0] for seams, cloth in found) and any(
        seams[1] < seams[0] for seams, _ in found
    )


def choices(asked: Asked, strips: bool, weighed: Sequence[Weighed | None]) -> tuple[StripChoice | None, ...]:
    """What was weighed in every size, as the plan keeps it."""
    return tuple(None if one is None else StripChoice(asked, strips, *one) for one in weighed)
