"""The pressing plan: which way every seam lies and why, which junctions nest, and where the quilt grows thick.

In: nothing; these are the types that the planner, the booklet and the drawings share.
Never: a sentence of a booklet; names are ids, roles and parts, reasons are keys.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from patchwright.planning.pressing.terms import Owner, OwnerKind, Proof, Reason, Rule, Seam, SeamEnd, Way


@dataclass(frozen=True, slots=True)
class UnitSides:
    """A seam among a unit's patches: numbers of the patches behind it and before it, and its place in the sewing."""

    order: int
    first: tuple[int, ...]
    second: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class PressedSeam:
    """One seam and which way it lies."""

    seam: Seam
    way: Way
    halves: tuple[int, int]
    """1 forward, -1 back, 0 open: at its start (top, or right) and at its finish; they differ where it is spun."""
    toward: tuple[str, ...]
    """What it lies toward: roles of a unit, ids of parts, `line-2`, or `sashing`, `blocks`, `center`, `border-1`;
    several where a rule covers several seams; nothing where it is open or spun."""
    away: tuple[str, ...]
    reason: Reason
    also: tuple[Reason, ...]
    """Other reasons that agree."""
    drawn: tuple[UnitSides, ...] = ()
    """Where the seam is among the patches of a unit; more than once where two parts of it are made alike."""
    spun_at: tuple[int, int] | None = None
    """Of a spun seam, at which of its crossings, counted from its start, and how many it has."""


@dataclass(frozen=True, slots=True)
class Junction:
    """Two seam ends that meet on a joining line; wherever the same two meet there, they nest or they do not."""

    line: Seam
    first: SeamEnd
    """The end that comes from behind the line, the side that a seam pressed back lies toward."""
    second: SeamEnd
    nests: bool
    counts: tuple[int, ...]
    """How often in each size."""
    can_nest: bool = True
    """False where a seam is always open, or comes in two hands that nobody tells apart, so that only some may nest."""


@dataclass(frozen=True, slots=True)
class NestCount:
    """How many junctions of one size nest."""

    size: str
    nested: int
    total: int


@dataclass(frozen=True, slots=True)
class VariantCount:
    """A unit or assembly that is pressed in two ways, and how many of each."""

    kind: OwnerKind
    id: str
    second_id: str
    """The second way is a thing of its own in a plan."""
    first: tuple[int, ...]
    second: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """How it was chosen which blocks are pressed the second way."""

    most: Fraction | None
    """The most that any choice lets nest, each size's as a fraction, all sizes added up; None where it is not known."""
    chessboard: tuple[bool, ...]
    """For each size, whether those of the second way lie by turns with the first, like the squares of a chessboard."""


@dataclass(frozen=True, slots=True)
class HeavyPoint:
    """A point of a joining line where more than six seams meet, that is, as many layers of seam allowance."""

    line: Seam
    seams: int
    counts: tuple[int, ...]
    advice: Literal["spin", "open", "spun"]
    """Spin the seam at this point, press the line open, or nothing more, since it is spun already."""
    loses: tuple[int, ...]
    """How many junctions that nest now would not if the advice were followed, in each size."""
    gains: tuple[int, ...]
    """How many would that do not now."""
    turned: tuple[int, ...] = ()
    """Where the seam is to be spun, the half of it that is pressed the other way: 0 at its start, 1 at its finish."""


@dataclass(frozen=True, slots=True)
class PressingPlan:
    """One plan for all sizes."""

    rule: Rule
    proof: Proof
    nested: Fraction
    """Junctions that nest, each size's as a fraction, all sizes added up."""
    bound: Fraction
    """The most that could; by the rule `dark`, in any way that lies as much toward the darker fabric as this one."""
    total: Fraction
    """Sizes that have junctions at all."""
    sizes: tuple[NestCount, ...]
    seams: tuple[PressedSeam, ...]
    """Inner ones first."""
    junctions: tuple[Junction, ...]
    variants: tuple[VariantCount, ...]
    heavy: tuple[HeavyPoint, ...]
    choice: Choice | None = None
    """Where the house allows a second way."""

    def seams_of(self, kind: OwnerKind, name: str, variant: int = 0) -> tuple[PressedSeam, ...]:
        """The seams of a class; where it has no such variant, those of the one that it has."""
        known = _sorted_seams(self.seams).classes
        return known.get((kind, name, variant)) or known.get((kind, name, None), ())

    def pressed(self, seam: Seam) -> PressedSeam:
        """One seam; KeyError where there is none."""
        owner = seam.owner
        known = _sorted_seams(self.seams)
        variant = owner.variant if (owner.kind, owner.id, owner.variant) in known.classes else None
        return known.places[owner.kind, owner.id, variant, seam.part, seam.line, seam.place]

    def not_nesting(self, line: Seam) -> tuple[Junction, ...]:
        """The junctions on a joining line that do not nest."""
        return tuple(junction for junction in self.junctions if junction.line == line and not junction.nests)

    @property
    def is_best(self) -> bool:
        """Whether it is proven that no more can nest, with any choice of ways where there was one."""
        chosen = self.choice is None or self.choice.most is None or self.choice.most == self.nested
        return chosen and self.proof in ("parity", "elimination", "program")

    def has_variants(self, owner: Owner) -> bool:
        return any((known.kind, known.id) == (owner.kind, owner.id) for known in self.variants)


@dataclass(frozen=True, slots=True)
class _SortedSeams:
    """The seams of a plan in their order by kind, name and variant, and the first at each place, also of any variant.

    Any variant is None.
    """

    seams: tuple[PressedSeam, ...]
    classes: dict[tuple[str, str, int | None], tuple[PressedSeam, ...]]
    places: dict[tuple[str, str, int | None, str, int, int], PressedSeam]


_MOST_SORTED = 16
_sorted: dict[int, _SortedSeams] = {}
"""What was sorted lately, by the identity of the seams, which are kept with it so that it stays theirs."""


def _sorted_seams(seams: tuple[PressedSeam, ...]) -> _SortedSeams:
    known = _sorted.get(id(seams))
    if known is not None:
        return known
    classes: dict[tuple[str, str, int | None], list[PressedSeam]] = {}
    places: dict[tuple[str, str, int | None, str, int, int], PressedSeam] = {}
    for pressed in seams:
        seam, owner = pressed.seam, pressed.seam.owner
        for variant in (owner.variant, None):
            classes.setdefault((owner.kind, owner.id, variant), []).append(pressed)
            places.setdefault((owner.kind, owner.id, variant, seam.part, seam.line, seam.place), pressed)
    while len(_sorted) >= _MOST_SORTED:
        del _sorted[next(iter(_sorted))]
    _sorted[id(seams)] = _SortedSeams(seams, {key: tuple(own) for key, own in classes.items()}, places)
    return _sorted[id(seams)]
