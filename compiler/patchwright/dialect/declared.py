"""Declared: what the author wrote, typed and with spans, nothing added.

In: the checked tree of a pattern or a house file.
Out: one frozen model for each mapping of the dialect; every key carries the description that editors show.
Never: a default of the house, a resolved name, or a number that was worked out; Design has those.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ModelWrapValidatorHandler, PrivateAttr, model_validator

from patchwright.core.source import NOWHERE, Span, span_of
from patchwright.dialect.scalars import (
    Color,
    Count,
    ItemText,
    LengthText,
    Name,
    PairText,
    Percent,
    Prose,
    Switch,
)

System = Literal["inches", "centimeters"]


class Declaration(BaseModel):
    """The base of all mappings: frozen, no unknown keys, with the spans of the mapping and of its keys."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, populate_by_name=False,
        alias_generator=lambda name: name.replace("_", "-"),
    )
    _span: Span = PrivateAttr(default=NOWHERE)
    _key_spans: dict[str, Span] = PrivateAttr(default_factory=dict)

    @model_validator(mode="wrap")
    @classmethod
    def _keep_spans(cls, data: Any, handler: ModelWrapValidatorHandler[Any]) -> Any:
        made = handler(data)
        if isinstance(made, Declaration) and isinstance(data, Mapping):
            made._span = span_of(data)
            made._key_spans = {str(key): span_of(key) for key in data}
        return made

    @property
    def span(self) -> Span:
        """Where the mapping stands."""
        return self._span

    def key_span(self, key: str) -> Span:
        """Where a key (as written, with hyphens) stands; the mapping's own span if it is not there."""
        return self._key_spans.get(key, self._span)

    def has(self, key: str) -> bool:
        """Whether the author wrote the key."""
        return key in self._key_spans


class PackDeclaration(Declaration):
    """A bundle of precut cloth: exactly one of the four shapes, with its size, and what the bundle holds."""

    squares: PairText | None = Field(None, description="side of the squares, such as 10 in")
    strips: PairText | None = Field(None, description="width x length of the strips, such as 2 1/2 in x 42 in")
    fat_quarters: PairText | None = Field(None, description="true size of the fat quarters, such as 18 in x 21 in")
    fat_eighths: PairText | None = Field(None, description="true size of the fat eighths, such as 9 in x 21 in")
    count: Count = Field(description="how many pieces of cloth one bundle holds")
    usable: LengthText | None = Field(None, description="side that can be relied on, where it is less than the size")
    prints: Count | None = Field(None, description="how many different cloths one bundle holds (default: each its own)")
    piles: dict[str, Count] = Field(default_factory=dict, description="named parts of the bundle with their counts")


class SourceDeclaration(Declaration):
    """What a fabric is cut from: a pack by name, or precuts bought singly; yardage when this is left out."""

    pack: Name | None = Field(None, description="name of a pack")
    pile: Name | None = Field(None, description="the pile of the pack that it is cut from")
    fat_quarters: Count | None = Field(None, description="how many fat quarters")
    fat_eighths: Count | None = Field(None, description="how many fat eighths")
    strips: PairText | None = Field(None, description="width x length of strips bought singly")
    squares: PairText | None = Field(None, description="side of squares bought singly")


class FabricDeclaration(Declaration):
    """A fabric: a role in the design, cut from yardage or from a precut."""

    name: Prose | None = Field(None, description="what the booklet calls it")
    color: Color | None = Field(None, description="its color in drawings, six hexadecimal digits")
    colors: list[Color] | None = Field(None, description="its colors in drawings, where it is many prints")
    value: Literal["light", "medium", "dark"] | None = Field(None, description="its value (default: from its color)")
    cut_from: SourceDeclaration | None = Field(None, description="what it is cut from (default: yardage)")
    same_print: Name | None = Field(
        None, description="what shares one print: none, unit, block, touching, quilt, or a unit's or block's name"
    )
    apart: Literal["block", "touching", "none"] | None = Field(
        None, description="what two groups of one print are kept off: one block (default), touching, none"
    )
    directional: Literal["lengthwise", "crosswise"] | None = Field(
        None, description="a one-way print, and how it runs on the bolt"
    )
    usable_width: LengthText | None = Field(None, description="width that can be relied on, where it differs")
    purpose: Prose | None = Field(None, description="what it is for, in the list of requirements")


class UnitDeclaration(Declaration):
    """A piecing unit: the method with its fabrics, and the method's own keys."""

    method: str = ""
    """The method's key; filled in from the mapping by the reader of units."""
    fabrics: tuple[tuple[str, Name], ...] = ()
    """(role, fabric) pairs in the method's order."""
    words: tuple[tuple[str, str, Span], ...] = ()
    """(key, word, span) of the method's word keys that were written."""
    extents: tuple[tuple[str, LengthText], ...] = ()
    """(key, length) of the method's extent keys that were written."""
    size: PairText | None = Field(None, description="width x height in cells, or absolute with a unit")
    strip_piece: Literal["auto", "yes", "no"] | None = Field(None, description="whether it is made from strip sets")


class BlockDeclaration(Declaration):
    """A block: rows or columns of items, or another block with fabrics swapped."""

    rows: list[list[ItemText]] | None = Field(None, description="rows of items from the top")
    columns: list[list[ItemText]] | None = Field(None, description="columns of items from the left")
    cell: LengthText | None = Field(None, description="finished side of one cell of the block's grid")
    size: PairText | None = Field(None, description="finished size of the block; the cell follows")
    like: Name | None = Field(None, description="the block that this one repeats with other fabrics")
    swap: dict[str, Name] = Field(default_factory=dict, description="which fabric, unit or block stands for which")
    strip_piece: Literal["auto", "yes", "no"] | None = Field(None, description="whether it is made from strip sets")


class SashingDeclaration(Declaration):
    """Strips of cloth between the blocks."""

    width: LengthText | None = Field(None, description="finished width")
    fabric: Name | None = Field(None, description="its fabric")
    cornerstone: Name | None = Field(None, description="fabric of the squares where sashing crosses (default: none)")
    frame: Switch | None = Field(None, description="whether sashing also runs around the outside (default: no)")


class BorderDeclaration(Declaration):
    """One border; borders are listed from the inside out."""

    width: LengthText = Field(description="finished width")
    fabric: Name = Field(description="its fabric")
    corners: Name | None = Field(
        None, description="butted (default), mitered, or a fabric or block for corner squares"
    )
    cut: Literal["crosswise", "lengthwise"] | None = Field(
        None, description="along which grain it is cut (default: whichever takes less cloth)"
    )


class BindingDeclaration(Declaration):
    """The cloth around the raw edges; strip width and allowance are house rules."""

    fabric: Name | None = Field(None, description="its fabric (default: a cloth of its own)")
    strip: LengthText | None = Field(None, description="width of the binding strips, where it differs from the house's")


class BackingDeclaration(Declaration):
    """The back of the quilt."""

    fabric: Name | None = Field(None, description="its fabric (default: a cloth of its own)")
    usable_width: LengthText | None = Field(None, description="width of the backing cloth, where it differs")
    directional: Literal["lengthwise", "crosswise"] | None = Field(None, description="a one-way print")


class QuiltDeclaration(Declaration):
    """The top and its finishing; any key may be overridden by a size."""

    setting: Literal["straight"] | None = Field(None, description="how the blocks are set")
    arrange: list[list[ItemText]] | None = Field(
        None, description="blocks by rows; repeated over the quilt where it is smaller than the size"
    )
    across: Count | None = Field(None, description="blocks in a row")
    down: Count | None = Field(None, description="rows of blocks")
    sashing: SashingDeclaration | None = Field(None, description="strips between the blocks")
    borders: list[BorderDeclaration] | None = Field(None, description="borders from the inside out")
    binding: BindingDeclaration | None = Field(None, description="the binding")
    backing: BackingDeclaration | None = Field(None, description="the backing")


class BlockSizeDeclaration(Declaration):
    """What a size changes of a block."""

    cell: LengthText | None = Field(None, description="finished side of one cell in this size")
    size: PairText | None = Field(None, description="finished size of the block in this size")


class SizeDeclaration(QuiltDeclaration):
    """One size of the quilt: anything of `quilt`, and cells or sizes of blocks."""

    name: Prose | None = Field(None, description="what the booklet calls this size")
    blocks: dict[str, BlockSizeDeclaration] = Field(default_factory=dict, description="cells or sizes of blocks")


class TextDeclaration(Declaration):
    """The author's own words, in Markdown with values filled in."""

    introduction: Prose | None = Field(None, description="stands before everything else")
    steps: dict[str, Prose] = Field(default_factory=dict, description="notes printed with a unit's or block's steps")
    finishing: Prose | None = Field(None, description="stands at the end of finishing")
    about: Prose | None = Field(None, description="stands at the end of the booklet")


class ImprintDeclaration(Declaration):
    address: Prose | None = Field(None, description="address of the publisher")
    corrections: Prose | None = Field(None, description="where corrections are published")
    copyright: Prose | None = Field(None, description="copyright line")


class JoinsDeclaration(Declaration):
    binding: Literal["diagonal", "straight"] | None = Field(None, description="how binding strips are joined")
    strips: Literal["diagonal", "straight"] | None = Field(None, description="how border and sashing strips are joined")


class BindingRules(Declaration):
    strip: LengthText | None = Field(None, description="cut width of binding strips")
    extra: LengthText | None = Field(None, description="added to the perimeter for corners and closing")


class BackingRules(Declaration):
    overage: LengthText | None = Field(None, description="beyond the top on each side")
    seam: LengthText | None = Field(None, description="seam allowance between panels, on each of the two")


class BattingRules(Declaration):
    overage: LengthText | None = Field(None, description="beyond the top on each side")


class SystemRules(Declaration):
    """The rules that are lengths, for one system of measure."""

    seam: LengthText | None = Field(None, description="seam allowance")
    usable_width: LengthText | None = Field(None, description="width of cloth that can be relied on")
    straightening: LengthText | None = Field(None, description="added to each length bought off the bolt")
    fat_quarter: PairText | None = Field(None, description="true size of a fat quarter, length x width")
    fat_eighth: PairText | None = Field(None, description="true size of a fat eighth, length x width")
    triangles: Literal["standard", "exact", "trim"] | None = Field(None, description="rule for triangle units")
    oversize: LengthText | None = Field(None, description="added by the rule `trim` beyond `standard`")
    round_cuts: LengthText | None = Field(None, description="cut sizes of triangle units are rounded up to it")
    round_yardage: list[LengthText] | None = Field(None, description="lengths bought are rounded up to one of these")
    binding: BindingRules | None = Field(None, description="binding")
    backing: BackingRules | None = Field(None, description="backing")
    batting: BattingRules | None = Field(None, description="batting")
    miter_extra: LengthText | None = Field(None, description="added to mitered borders")


class HouseDeclaration(Declaration):
    """The publisher's rules and imprint: house.yaml, or the key `house` of a pattern for what differs there."""

    name: Prose | None = Field(None, description="name of the publisher")
    imprint: ImprintDeclaration | None = Field(None, description="address, corrections, copyright")
    theme: Name | None = Field(None, description="name of the theme")
    papers: list[Literal["letter", "a4"]] | None = Field(None, description="papers that booklets are made for")
    language: Literal["en"] | None = Field(None, description="language of the booklets")
    pressing: Literal["nest", "dark", "open"] | None = Field(None, description="how seams are pressed")
    joins: JoinsDeclaration | None = Field(None, description="how strips are joined")
    shrinkage: Percent | None = Field(None, description="how much cloth may shrink before cutting, each way")
    inches: SystemRules | None = Field(None, description="rules for patterns in inches")
    centimeters: SystemRules | None = Field(None, description="rules for patterns in centimeters")


class PatternDeclaration(Declaration):
    """A whole pattern."""

    dialect: Annotated[Count, Field(description="version of the dialect; this is 1")]
    pattern: Prose = Field(description="title of the pattern")
    release: Count = Field(description="number of this published state, from 1")
    summary: Prose | None = Field(None, description="one sentence for the cover")
    skill: Literal["beginner", "confident beginner", "intermediate", "advanced"] | None = Field(
        None, description="for whom it is"
    )
    lengths: System = Field(description="unit of measure that the pattern is designed in")
    packs: dict[str, PackDeclaration] = Field(default_factory=dict, description="bundles of precut cloth, by name")
    fabrics: dict[str, FabricDeclaration] = Field(description="fabrics in order of use, by name")
    units: dict[str, UnitDeclaration] = Field(default_factory=dict, description="piecing units, by name")
    blocks: dict[str, BlockDeclaration] = Field(description="blocks, by name")
    quilt: QuiltDeclaration = Field(description="the top and its finishing")
    sizes: dict[str, SizeDeclaration] = Field(description="sizes of the quilt, by name")
    text: TextDeclaration | None = Field(None, description="the author's own words")
    house: HouseDeclaration | None = Field(None, description="house rules that differ in this pattern")


UnitReader = Callable[[Any], UnitDeclaration]
