"""What a piecing method is: its keys, its patches, what it takes to make, and the stages of its making.

In: one unit's finished size and the rules in force.
Out: exact finished patches, a recipe (pieces to cut, batch, what is trimmed) and staged shapes, all as core geometry.
Never: a fabric's name, a count of a quilt, a color, a word of a booklet; a method knows roles and shapes only.
"""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from patchwright.core.geometry import Polygon
from patchwright.core.length import Cut, Length, Unfinished
from patchwright.core.measure import System
from patchwright.methods.template import Template

Then = Literal["none", "once", "twice"]
StageKind = Literal["place", "mark", "sew", "cut-apart", "press", "trim", "finished"]
MarkKind = Literal["drawn", "stitch", "cut", "fold"]


@dataclass(frozen=True, slots=True)
class Role:
    """A place for a fabric in a unit, such as `goose` and `sky`."""

    name: str
    doc: str
    required: bool = True


@dataclass(frozen=True, slots=True)
class Key:
    """A key of its own that a method adds to a unit."""

    name: str
    doc: str
    kind: Literal["word", "extent", "text"]
    """A `word` is one of `choices`; an `extent` is a length in cells, or absolute with its unit.

    A `text` is read by the method itself.
    """
    choices: tuple[str, ...] = ()
    default: str = ""


@dataclass(frozen=True, slots=True)
class TriangleRules:
    """The house's rules that decide cut sizes, all in the pattern's unit."""

    system: System
    seam: Length
    triangles: Literal["standard", "exact", "trim"]
    step: Fraction
    """Cut sizes of triangle units are rounded up to it."""
    oversize: Length
    """Added by `trim` beyond `standard`."""


@dataclass(frozen=True, slots=True)
class StripRun:
    """How a unit is strip-pieced: how many units one run of strips gives, and how long its strips may be."""

    units: int
    room: Length
    """The cut length at hand, which is the usable width of the cloth."""


@dataclass(frozen=True, slots=True)
class StripSet:
    """Strips that are sewn together along their length and cut across into columns of a unit, lengths finished."""

    strips: tuple[tuple[str, Length], ...]
    """(role, height) of the patches of a column, from top to bottom."""
    width: Length
    """Of the column."""
    each: int
    """Segments that one unit takes."""
    turned: bool = False
    """Whether some of them are turned half around."""


@dataclass(frozen=True, slots=True)
class Request:
    """One unit at one size: finished lengths as it lies at @0."""

    width: Length
    height: Length
    roles: tuple[str, ...]
    """The roles that have a fabric, in the method's order."""
    words: tuple[tuple[str, str], ...]
    """(key, chosen word or text) of the method's word and text keys, defaults filled in."""
    extents: tuple[tuple[str, Length], ...]
    """(key, finished length) of the method's extent keys, defaults filled in."""
    rules: TriangleRules
    strips: StripRun | None = None
    """Where it is strip-pieced; None where it is made from single pieces."""

    def word(self, key: str) -> str:
        return dict(self.words)[key]

    def extent(self, key: str) -> Length:
        return dict(self.extents)[key]


@dataclass(frozen=True, slots=True)
class UnitPatch:
    """One finished patch of a unit at @0, corners clockwise from any start, in the unit's own coordinates."""

    role: str
    outline: Polygon


@dataclass(frozen=True, slots=True)
class RecipePiece:
    """A piece to cut for one batch: width and height as it lies in the unit at @0."""

    id: str
    """Distinct in the recipe: `goose`, `sky`, `corner-ne`."""
    role: str
    width: Cut
    height: Cut
    per_batch: int
    then: Then = "none"
    """Whether the cut square is cut again, once or twice on the diagonal, before sewing."""
    template: Template | None = None
    """The shape that is cut from the rectangle with a template, as it lies in the unit at @0."""


@dataclass(frozen=True, slots=True)
class Recipe:
    """How a unit is made: what a batch takes and gives."""

    how: str
    """The way of making by its key word: `two-at-a-time`, `flipped`, `cut`."""
    pieces: tuple[RecipePiece, ...]
    batch: int
    """Units that one batch gives."""
    gives: tuple[int, ...]
    """For each unit of the batch the quarter turns by which a one-way print lies differently; all 0 for most.

    They are the first fabric's; where squares are sewn face to face the other fabric turns the other way round.
    """
    trim: bool
    """Whether the sewn unit is trimmed to its unfinished size."""
    rounding: Length
    """By how much the cut exceeds the exact geometry on one side of a sewn unit, 0 if exact, less if rounded down."""
    notes: tuple[str, ...] = ()
    """Wording keys of remarks: `bias-edges`, `rounded-down` …"""
    gives_apart: tuple[tuple[tuple[str, ...], tuple[int, ...]], ...] = ()
    """Where the prints of all these roles are one-way: the turns in which all of them stand upright, fewer than `gives`
    or others; the first that holds counts."""
    leaning: tuple[str, ...] = ()
    """Roles of which not every patch can be cut so that a one-way print stands upright in the unit."""
    either_hand: bool = False
    """Whether the pieces of a batch, cut, make the unit and its mirror image alike, so that hands share batches."""
    foundation: tuple[Polygon, ...] = ()
    """The finished patches of a printed foundation in sewing order, from its printed side: the unit's mirror image."""

    def turns(self, one_way: Collection[str]) -> tuple[int, ...]:
        """The turns in which units of one batch lie so that the one-way prints of these roles are upright."""
        for roles, turns in self.gives_apart:
            if set(roles) <= set(one_way):
                return turns
        return self.gives


@dataclass(frozen=True, slots=True)
class StageShape:
    """One layer of cloth in a stage's drawing."""

    role: str
    outline: Polygon
    wrong_side: bool = False


@dataclass(frozen=True, slots=True)
class StageMark:
    """A line on top of a stage's drawing."""

    kind: MarkKind
    points: Polygon


@dataclass(frozen=True, slots=True)
class PatchSeam:
    """A seam of a unit in the order of sewing: numbers of the patches behind it and before it, in `patches`."""

    first: tuple[int, ...]
    second: tuple[int, ...]
    lies: Literal["free", "first", "second"] = "free"
    """On which side its allowance lies where the method's habit says it."""


@dataclass(frozen=True, slots=True)
class SeamMark:
    """A seam that a stage presses, where it lies in a drawing; which way it is pressed the plan knows.

    `near` and `beyond` are numbers of patches on its two sides; from its first to its last point `beyond` lies on the
    left hand.
    """

    near: int
    beyond: int
    points: Polygon


@dataclass(frozen=True, slots=True)
class StageView:
    """One small drawing of a stage: layers from the bottom up, then marks; cut sizes in the pattern's unit."""

    shapes: tuple[StageShape, ...]
    marks: tuple[StageMark, ...] = ()
    pressed: tuple[SeamMark, ...] = ()
    """The seams that are pressed here, sewn and opened."""


@dataclass(frozen=True, slots=True)
class Stage:
    """One thing to do, drawn and named."""

    kind: StageKind
    key: str
    """The wording key of what to do: `half-square.two-at-a-time.mark`."""
    views: tuple[StageView, ...]
    pieces: tuple[str, ...] = ()
    """Ids of the recipe's pieces that the words name, in order."""
    lengths: tuple[tuple[str, Length], ...] = ()
    """Other lengths that the words name, by placeholder."""
    gives: int = 0
    """How many there are after it, where the words say so."""
    apart: int = 1
    """Of how many alike things a batch is made up where it is drawn, one of which is a sample of the stage."""
    only_measures: bool = False
    """Whether there is nothing to do but to measure, so that a class needs no sample of it."""


@dataclass(frozen=True, slots=True)
class Refusal:
    """Why a unit cannot be made as asked: a diagnostic's code, the key at fault, message values and a hint's sizes."""

    code: str
    key: str
    message: str
    hints: tuple[str, ...] = ()


OUTWARD = ""
"""The role that no patch has, for ways of making that press every seam outward."""


@dataclass(frozen=True, slots=True)
class Method:
    """A piecing method: the data that the dialect reads and the three functions that the plan and drawings call."""

    name: str
    """The key that an author writes."""
    doc: str
    roles: tuple[Role, ...]
    listed: bool
    """Whether fabrics are written as a list in the roles' order rather than as a mapping by role."""
    keys: tuple[Key, ...]
    default_size: tuple[Fraction, Fraction]
    """Width and height in cells."""
    refuse: Callable[[Request], tuple[Refusal, ...]]
    patches: Callable[[Request], tuple[UnitPatch, ...]]
    recipe: Callable[[Request], Recipe]
    stages: Callable[[Request, Recipe], tuple[Stage, ...]]
    strip_sets: Callable[[Request], tuple[StripSet, ...]] | None = None
    """From which strip sets it can be pieced; None for methods that are never strip-pieced."""
    seams: Callable[[Request], tuple[PatchSeam, ...]] | None = None
    """The seams in the order in which it sews them, each a straight line; None where the last seam is the longest line
    that divides the patches, and so on within both parts, or where a curve joins two patches."""
    pressed_away: tuple[tuple[str, str], ...] = ()
    """(way of making, role) where a way of making fixes its own pressing: all seams lie away from that role.

    `OUTWARD` in place of a role: toward the piece that was added to those sewn before.
    """
    two_hands: tuple[str, ...] = ()
    """Ways of making whose units look alike, but come in equal numbers in two hands of sewing, each with its last seam
    where the other has an earlier one."""


def unfinished_size(request: Request) -> tuple[Unfinished, Unfinished]:
    """The unit's size with raw edges."""
    seams = request.rules.seam * 2
    return Unfinished(request.width + seams), Unfinished(request.height + seams)
