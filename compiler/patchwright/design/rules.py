"""The house rules in force for one pattern, resolved: every rule has a value, all lengths in the pattern's unit."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from patchwright.core.length import Length
from patchwright.core.measure import System
from patchwright.methods.method import TriangleRules

Join = Literal["diagonal", "straight"]


@dataclass(frozen=True, slots=True)
class Imprint:
    address: str
    corrections: str
    copyright: str


@dataclass(frozen=True, slots=True)
class Rules:
    """Widths and lengths of cloth as it is cut; joins and seams in inches or centimeters, as `system` says."""

    system: System
    name: str
    imprint: Imprint
    theme: str
    papers: tuple[str, ...]
    editions: tuple[str, ...]
    """Booklets that are built where none are asked for."""
    language: str
    pressing: Literal["nest", "dark", "open"]
    binding_join: Join
    strip_join: Join
    shrinkage: Fraction
    """Share of a bought length that is lost, 3 % as 3/100."""
    seam: Length
    usable_width: Length
    straightening: Length
    fat_quarter: tuple[Length, Length]
    """Length along the selvage, width."""
    fat_eighth: tuple[Length, Length]
    triangles: Literal["standard", "exact", "trim"]
    oversize: Length
    round_cuts: Fraction
    round_yardage: tuple[Length, ...]
    """Steps of the lengths that can be bought, in the pattern's unit."""
    binding_strip: Length
    binding_extra: Length
    backing_overage: Length
    backing_seam: Length
    batting_overage: Length
    binding_single: Length
    binding_by: Literal["hand", "machine", "either"]
    backing_selvages: Length
    """What of a wide cloth's width is not usable."""
    batting_packages: tuple[tuple[Length, Length], ...]
    batting_rolls: tuple[Length, ...]
    miter_extra: Length
    long_seam: Length
    """From which length on a seam of the top is a long one."""
    sleeve: Length
    """Cut height of a sleeve."""
    sleeve_inset: Length
    sleeve_hem: Length
    hanging_corner: Length
    """Cut side of the squares for corners."""
    kit_count: int
    """How many kits the sheet for shops is made for."""
    rag_seam: Length
    """Of all seams of a rag quilt."""
    rag_inset: Length
    """How far a rag quilt's batting ends inside its seams."""
    block_allowance: Length
    """How far batting and back reach beyond a block that is quilted by itself, on each side."""
    block_stop: Length
    """How far before the edges of such a block its quilting ends, so that its layers fold away."""
    kit_bolt: Length
    """Length of cloth on one bolt."""
    other_measures: bool = True
    """Whether what is bought is told in the other system of measure too."""
    round_elsewhere: tuple[Length, ...] = ()
    """Steps of the lengths that can be bought there, in its inches or centimeters."""
    spinning: Literal["any", "middle", "never"] = "middle"
    """At which crossings of four seams a seam may be spun so that more nests: any, the middle or only one, or none."""
    pressing_variants: int = 1
    """In how many ways a block or unit may be pressed, so that neighbors nest: 1 or 2."""
    beds: tuple[tuple[str, tuple[Length, Length]], ...] = ()
    """(name, width and length) of mattresses."""

    @property
    def triangle_rules(self) -> TriangleRules:
        return TriangleRules(self.system, self.seam, self.triangles, self.round_cuts, self.oversize)
