"""Types of the cutting problems and their answers.

All lengths are whole grid units: the caller chooses one grid on which every length of the problem is a whole number,
and nothing here rounds a length to fit.
Width runs across the cloth, height along it.
Everything is frozen; no float appears anywhere.
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, replace

PROVEN = "proven"
PROVEN_BY_SOLVER = "proven by solver"
GAP = "gap"


class CannotCut(ValueError):  # noqa: N818 - it names what the cloth cannot do, and callers report it as a diagnostic.
    """A piece that no layout of this cloth can give; `key` names the piece and `reason` is a stable word.

    Reasons: `too-wide` (no allowed turn fits across the cloth), `too-large` (no allowed turn fits the sheet),
    `too-short` (a joined piece whose segments could never be long enough to be worth joining).
    """

    def __init__(self, key: str, reason: str) -> None:
        """Say which piece cannot be cut, and why."""
        super().__init__(f"{key}: {reason}")
        self.key = key
        self.reason = reason


@dataclass(frozen=True, slots=True)
class Part:
    """Equal rectangles to cut: `width` across the cloth and `height` along it, in grid units.

    `turn` allows a quarter turn; a one-way cloth forbids it.
    """

    key: str
    width: int
    height: int
    count: int
    turn: bool


@dataclass(frozen=True, slots=True)
class Joined:
    """A long piece sewn together from strips cut across the cloth.

    `total` is the length needed after joining, `loss` what each join takes, `least` the shortest segment worth joining.
    Segments of lengths r1 … rn serve when r1 + … + rn − loss · (n − 1) ≥ total.
    """

    key: str
    height: int
    total: int
    loss: int
    least: int


@dataclass(frozen=True, slots=True)
class Yardage:
    """Everything to cut from one cloth of the usable `width`.

    `purchasable` holds the ascending usable lengths that can be bought, rounding, straightening and shrinkage already
    taken off; step k is its k-th entry, counted from one.
    `near` of the width is better left unused where that costs nothing, as cloth may be narrower than it should be;
    nought stands for one part in eighty.
    """

    width: int
    parts: tuple[Part, ...]
    joined: tuple[Joined, ...]
    purchasable: tuple[int, ...]
    near: int = 0

    def step(self, length: int) -> int:
        """Return the least step whose usable length is at least `length`; ValueError when none is long enough."""
        place = bisect_left(self.purchasable, length)
        if place == len(self.purchasable):
            raise ValueError(f"no purchasable length reaches {length} grid units")
        return place + 1


@dataclass(frozen=True, slots=True)
class Cut:
    """What one strip yields of one part, in cutting order.

    `each` pieces come from this group; `width` is laid along the strip and `height` (at most the strip's) across it.
    With `stack` above one, each section of the strip is cut again into that many rows: each = columns × stack.
    """

    key: str
    each: int
    width: int
    height: int
    turned: bool
    stack: int

    @property
    def columns(self) -> int:
        """The number of sections cut from the strip for this group."""
        return -(-self.each // self.stack)


@dataclass(frozen=True, slots=True)
class Segment:
    """A part of a strip given to a joined piece: the least length it must have there, in grid units."""

    key: str
    length: int


@dataclass(frozen=True, slots=True)
class Strip:
    """`count` equal strips cut across the cloth, each yielding the same cuts and segments; `used` is the width used."""

    height: int
    count: int
    cuts: tuple[Cut, ...]
    segments: tuple[Segment, ...]
    used: int


@dataclass(frozen=True, slots=True)
class YardagePlan:
    """Strips that give everything asked for, with what must be bought and what no plan of strips can beat.

    `step` counts from one into the problem's purchasable lengths.
    `length_bound` and `step_bound` hold for every plan of strips cut across the cloth and sub-cut with a final trim.
    `proof` speaks of the step: `proven` (integer certificate or complete enumeration), `proven by solver`, or `gap`.
    `made` counts the pieces obtained, `joins` the seams in each joined piece, `smallest_width` is the most width that
    any strip uses: the least usable width at which this very plan still works.
    """

    strips: tuple[Strip, ...]
    length: int
    step: int
    length_bound: int
    step_bound: int
    proof: str
    made: tuple[tuple[str, int], ...]
    joins: tuple[tuple[str, int], ...]
    smallest_width: int


def checked(problem: Yardage) -> Yardage:
    """Return the problem with parts and joined pieces in an order that does not depend on the caller's.

    Raises CannotCut for a piece that no strip can give and ValueError for a malformed problem.
    """
    keys = [part.key for part in problem.parts] + [long.key for long in problem.joined]
    if len(set(keys)) != len(keys):
        raise ValueError("two pieces share a key")
    if problem.width <= 0 or any(b <= a for a, b in zip(problem.purchasable, problem.purchasable[1:], strict=False)):
        raise ValueError("the width must be positive and purchasable lengths must ascend")
    for part in problem.parts:
        if part.width <= 0 or part.height <= 0 or part.count < 0:
            raise ValueError(f"{part.key}: sides must be positive and the count not negative")
        if part.count and part.width > problem.width and not (part.turn and part.height <= problem.width):
            raise CannotCut(part.key, "too-wide")
    for long in problem.joined:
        if long.height <= 0 or long.loss < 0 or long.least < 0:
            raise ValueError(f"{long.key}: the height must be positive; loss and least segment must not be negative")
        if long.total > problem.width and problem.width <= max(long.loss, long.least - 1):
            raise CannotCut(long.key, "too-short")
    parts = sorted(
        (part for part in problem.parts if part.count),
        key=lambda part: (-part.height, -part.width, -part.count, part.turn, part.key),
    )
    joined = sorted(
        (replace(long, least=min(long.least, long.total)) for long in problem.joined if long.total > 0),
        key=lambda long: (-long.height, -long.total, long.loss, long.least, long.key),
    )
    return Yardage(problem.width, tuple(parts), tuple(joined), problem.purchasable, problem.near)
