"""Declared: what the author wrote, typed and with spans, nothing added.

In: the checked tree of a pattern or a house file.
Out: one frozen model for each mapping of the dialect; every key carries the description that editors show.
Never: a default of the house, a resolved name, or a number that was worked out; Design has those.
"""

# Annotations are evaluated here as they stand; the table of keys is made from them.
from typing import Annotated, Any, Literal

from patchwright.core.source import Span
from patchwright.dialect.beds import BlockCount, BorderWidth, FitDeclaration
from patchwright.dialect.declaration import Declaration as Declaration
from patchwright.dialect.declaration import key
from patchwright.dialect.scalars import (
    AsGiven,
    Color,
    Count,
    ItemText,
    KeyText,
    LengthText,
    Name,
    PairText,
    Percent,
    Prose,
    Switch,
)

System = Literal["inches", "centimeters"]
Edition = Literal[
    "all-sizes", "one-size", "large-print", "low-ink", "fold", "screen", "by-block", "templates", "coloring", "labels",
    "class", "kit",
]  # fmt: skip
Key = Annotated[str, KeyText]
"""A name that the author chose, as the `Text` that it was written as, with its span."""
Line = Annotated[list[ItemText], 1]
"""A row or column, which has at least one item."""


class PackDeclaration(Declaration):
    """A bundle of precut cloth: exactly one of the four shapes, with its size, and what the bundle holds."""

    squares: PairText | None = key("side of the squares, such as 10 in")
    strips: PairText | None = key("width x length of the strips, such as 2 1/2 in x 42 in")
    fat_quarters: PairText | None = key("true size of the fat quarters, such as 18 in x 21 in")
    fat_eighths: PairText | None = key("true size of the fat eighths, such as 9 in x 21 in")
    count: Count = key("how many pieces of cloth one bundle holds")
    usable: LengthText | None = key("side that can be relied on, where it is less than the size")
    prints: Count | None = key("how many different cloths one bundle holds (default: each its own)")
    piles: dict[Key, Count] = key("named parts of the bundle with their counts", default={})
    match: list[Name] | None = key("fabrics of this pack that share one print in each block", at_least=2)


class SourceDeclaration(Declaration):
    """What a fabric is cut from: a pack by name, or precuts bought singly; yardage when this is left out."""

    pack: Name | None = key("name of a pack")
    pile: Name | None = key("the pile of the pack that it is cut from")
    fat_quarters: Count | None = key("how many fat quarters")
    fat_eighths: Count | None = key("how many fat eighths")
    strips: PairText | None = key("width x length of strips bought singly")
    squares: PairText | None = key("side of squares bought singly")


class AlternativeDeclaration(SourceDeclaration):
    """Another way to buy a fabric, worked out beside the chosen one."""

    yardage: Switch | None = key("whether it is cut from yardage")


class FabricDeclaration(Declaration):
    """A fabric: a role in the design, cut from yardage or from a precut."""

    name: Prose | None = key("what the booklet calls it")
    color: Color | None = key("its color in drawings, six hexadecimal digits")
    colors: list[Color] | None = key("its colors in drawings, where it is many prints", at_least=1)
    value: Literal["light", "medium", "dark"] | None = key("its value (default: from its color)")
    cut_from: SourceDeclaration | None = key("what it is cut from (default: yardage)")
    alternatives: list[AlternativeDeclaration] | None = key(
        "other ways to buy it, for a table of all of them", at_least=1, at_most=6
    )
    same_print: Name | None = key(
        "what shares one print: none (default), unit, block, quilt, or a unit's or block's name"
    )
    apart: Literal["block", "touching", "none"] | None = key(
        "what two groups of one print are kept off: one block (default), touching, none"
    )
    directional: Literal["lengthwise", "crosswise"] | None = key("a one-way print, and how it runs on the bolt")
    usable_width: LengthText | None = key("width that can be relied on, where it differs")
    fussy: PairText | None = key("repeat of its motifs, across x along the bolt; every patch is centered on one")
    stripe: LengthText | None = key("repeat of its stripes across the bolt; borders are cut along them, all alike")
    purpose: Prose | None = key("what it is for, in the list of requirements")


class UnitDeclaration(Declaration):
    """A piecing unit: the method with its fabrics, and the method's own keys."""

    method: Annotated[str, AsGiven] = key("", default="")
    """The method's key; filled in from the mapping by the reader of units."""
    fabrics: Annotated[tuple[tuple[str, Name], ...], AsGiven] = key("", default=())
    """(role, fabric) pairs in the method's order."""
    words: Annotated[tuple[tuple[str, str, Span], ...], AsGiven] = key("", default=())
    """(key, word, span) of the method's word keys that were written."""
    extents: Annotated[tuple[tuple[str, LengthText], ...], AsGiven] = key("", default=())
    """(key, length) of the method's extent keys that were written."""
    size: PairText | None = key("width x height in cells, or absolute with a unit")
    strip_piece: Literal["auto", "yes", "no"] | None = key("whether it is made from strip sets")

    def _values(self) -> dict[str, Any]:
        return super()._values() | {"words": tuple((name, word) for name, word, _ in self.words)}


class BlockDeclaration(Declaration):
    """A block: rows or columns of items, or another block with fabrics swapped."""

    rows: list[Line] | None = key("rows of items from the top", at_least=1)
    columns: list[Line] | None = key("columns of items from the left", at_least=1)
    cell: LengthText | None = key("finished side of one cell of the block's grid")
    size: PairText | None = key("finished size of the block; the cell follows")
    like: Name | None = key("the block that this one repeats with other fabrics")
    swap: dict[Key, Name] = key("which fabric, unit or block stands for which", default={})
    strip_piece: Literal["auto", "yes", "no"] | None = key("whether it is made from strip sets")


class SashingDeclaration(Declaration):
    """Strips of cloth between the blocks."""

    width: LengthText | None = key("finished width")
    height: LengthText | None = key("finished width of the strips between rows, where it differs")
    fabric: Name | None = key("its fabric")
    block: Name | None = key("a block as the strip between two columns, in place of width and fabric")
    between: Literal["rows", "columns"] | None = key("only between rows, or only between columns (default: both)")
    cornerstone: Name | None = key("fabric or block of the squares where sashing crosses (default: none)")
    frame: Switch | None = key("whether sashing also runs around the outside (default: no)")
    cut: Literal["crosswise", "lengthwise"] | None = key(
        "along which grain its strips are cut (default: whichever takes less cloth)"
    )


class SpacersDeclaration(Declaration):
    """Rectangles in the rows of a pieced border that bring them to the length of the quilt's sides."""

    fabric: Name = key("their fabric")
    at: Literal["ends", "middle"] | None = key("where they lie in each row (default: ends)")
    least: LengthText | None = key("the least finished length (default: 1/2 in or 1 cm)")


class PiecedDeclaration(Declaration):
    """A border pieced of blocks that repeat along every side."""

    repeat: Line = key("blocks or fabrics that repeat along each side, from its start", at_most=20)
    corner: ItemText | None = key("block or fabric of the corners (default: the first of the repeat)")
    turn_at: Literal["middle"] | None = key("middle: the second half of each side mirrors the first")
    middle: ItemText | None = key("block or fabric in the middle of each side (default: none)")
    spacers: SpacersDeclaration | None = key("rectangles within each side that bring whole repeats to its length")


class CopingDeclaration(Declaration):
    """Strips between the quilt and a pieced border, as wide as it takes for the border to fit."""

    fabric: Name = key("their fabric")
    least: LengthText | None = key("the least finished width (default: 1/2 in or 1 cm)")
    most: LengthText | None = key("the most finished width (default: as much as it takes)")


class BlockCopingDeclaration(Declaration):
    """Strips around the smaller blocks of a quilt that bring all blocks to one size."""

    fabric: Name | None = key("their fabric")
    least: LengthText | None = key("the least finished width (default: 1/2 in or 1 cm)")


class BorderDeclaration(Declaration):
    """One border; borders are listed from the inside out."""

    width: BorderWidth | None = key(
        "finished width, or fit where it is left open; a pieced border's follows from its blocks"
    )
    least: LengthText | None = key("the least finished width where that is left open (default: 1 in or 2.5 cm)")
    most: LengthText | None = key("the most finished width where that is left open (default: 12 in or 30 cm)")
    fabric: Name | None = key("its fabric; a pieced border has none of its own")
    corners: Name | None = key("butted (default), mitered, or a fabric or block for corner squares, all upright")
    corner: ItemText | None = key("block of the upper left corner as it lies there, turned on at each further corner")
    along: Literal["sides", "ends"] | None = key(
        "only along the two sides, or only along top and bottom (default: all around)"
    )
    cut: Literal["crosswise", "lengthwise"] | None = key(
        "along which grain it is cut (default: whichever takes less cloth)"
    )
    pieced: PiecedDeclaration | None = key("what it is pieced of, in place of a fabric")
    coping: CopingDeclaration | None = key("strips inside a pieced border that make it fit")


class BindingDeclaration(Declaration):
    """The cloth around the raw edges; strip width and allowance are house rules."""

    fabric: Name | None = key("its fabric (default: a cloth of its own)")
    strip: LengthText | None = key("width of the binding strips, where it differs from the house's")
    fold: Literal["double", "single"] | None = key("how the strip is folded (default: double)")
    bias: Literal["strips", "squares", "continuous"] | None = key(
        "cut on the bias: strips across the cloth, strips of squares, or one strip in a spiral (default: straight)"
    )
    cut: Literal["crosswise", "lengthwise"] | None = key(
        "along which grain straight strips are cut (default: across, unless lengthwise takes less cloth)"
    )


class BackingDeclaration(Declaration):
    """The back of the quilt."""

    fabric: Name | None = key("its fabric (default: a cloth of its own)")
    usable_width: LengthText | None = key("width of the backing cloth, where it differs")
    wide: LengthText | None = key("width by which a wide backing cloth is sold, such as 108 in")
    seams: Literal["lengthwise", "crosswise"] | None = key(
        "which way the seams run along the quilt's height or across it (default: whichever takes less cloth)"
    )
    centered: Switch | None = key("whether a panel lies in the middle, so that no seam runs there (default: no)")
    directional: Literal["lengthwise", "crosswise"] | None = key("a one-way print")


class HangingDeclaration(Declaration):
    """What a quilt is hung by, and the label on its back; each is made where its fabric is named."""

    sleeve: Name | None = key("fabric of a sleeve along the upper edge of the back")
    corners: Name | None = key("fabric of triangles in the two upper corners of the back, for a rod")
    label: Name | None = key("fabric of the label on the back")
    label_size: PairText | None = key("finished width x height of the label (default: 6 x 4 in or 15 x 10 cm)")


class SettingTrianglesDeclaration(Declaration):
    """The triangles that fill the edges of a quilt that is set on point."""

    fabric: Name | None = key("their fabric")
    float: LengthText | None = key("how far the edges lie beyond the points of the blocks (default: 0)")
    trim_to: PairText | None = key("finished size to which the center is trimmed, in place of a float")


class StripEdgesDeclaration(Declaration):
    """The strips beside the first and the last column of a strippy quilt."""

    width: LengthText | None = key("finished width (default: as the strips between the columns)")
    fabric: Name | None = key("their fabric (default: as the strips between the columns)")


class StripsDeclaration(Declaration):
    """The long strips between the columns of blocks of a strippy quilt."""

    width: LengthText | None = key("finished width")
    fabric: Name | None = key("their fabric")
    cut: Literal["crosswise", "lengthwise"] | None = key(
        "along which grain they are cut (default: whichever takes less cloth)"
    )
    edges: StripEdgesDeclaration | None = key("strips beside the outermost columns too (default: none)")


class TopDeclaration(Declaration):
    """The top and its finishing; any key may be overridden by a size."""

    setting: Literal["straight", "on-point", "strippy", "medallion"] | None = key("how the blocks are set")
    arrange: list[list[ItemText]] | None = key(
        "blocks by rows; repeated over the quilt where it is smaller than the size"
    )
    across: BlockCount | None = key("blocks in a row, or fit where that is left open")
    down: BlockCount | None = key("rows of blocks, or fit where that is left open")
    fit: FitDeclaration | None = key("the bed that the quilt is made for, and how far it hangs down")
    alternate: Name | None = key("on point, the block or fabric between the blocks (default: as arranged)")
    block_size: PairText | None = key("finished size of every block of the top; their cells follow")
    symmetric: Switch | None = key("whether both halves of the layout mirror each other; reported where not")
    assemble: Literal["rows", "quarters"] | None = key(
        "what blocks that are set straight are sewn into first (default: whichever has fewer long seams)"
    )
    setting_triangles: SettingTrianglesDeclaration | None = key(
        "on point, the triangles along the edges; in a strippy quilt or a medallion, those that set blocks on point"
    )
    strips: StripsDeclaration | None = key("in a strippy quilt, the strips between the columns of blocks")
    coping: BlockCopingDeclaration | None = key("strips around smaller blocks that bring all to one size")
    sashing: SashingDeclaration | None = key("strips between the blocks")
    borders: list[BorderDeclaration] | None = key("borders from the inside out", at_most=20)
    binding: BindingDeclaration | None = key("the binding")
    backing: BackingDeclaration | None = key("the backing")
    hanging: HangingDeclaration | None = key("a sleeve, corners to hang it by, and a label")


class RagDeclaration(Declaration):
    """A rag quilt: blocks of three layers, sewn together with their seams out, clipped to fray."""

    seam: LengthText | None = key("width of all its seams (default: the house's)")
    inset: LengthText | None = key("how far the batting of a block ends inside its seams (default: the house's)")


class AsYouGoDeclaration(Declaration):
    """Quilt-as-you-go: every block is quilted with its own batting and back, then the blocks are joined."""

    allowance: LengthText | None = key(
        "how far batting and back reach beyond a block on each side (default: the house's)"
    )


class QuiltDeclaration(TopDeclaration):
    """The top and its finishing, and whether it is made block by block, which holds for all sizes."""

    rag: RagDeclaration | None = key("a rag quilt: blocks of three layers, sewn together with their seams out")
    quilt_as_you_go: AsYouGoDeclaration | None = key("blocks quilted one by one with their own backs, then joined")


class BlockSizeDeclaration(Declaration):
    """What a size changes of a block."""

    cell: LengthText | None = key("finished side of one cell in this size")
    size: PairText | None = key("finished size of the block in this size")


class SizeDeclaration(TopDeclaration):
    """One size of the quilt: anything of `quilt`, and cells or sizes of blocks."""

    name: Prose | None = key("what the booklet calls this size")
    blocks: dict[Key, BlockSizeDeclaration] = key("cells or sizes of blocks", default={})


class TextDeclaration(Declaration):
    """The author's own words, in Markdown with values filled in."""

    introduction: Prose | None = key("stands before everything else")
    steps: dict[Key, Prose] = key("notes printed with a unit's or block's steps", default={})
    finishing: Prose | None = key("stands at the end of finishing")
    about: Prose | None = key("stands at the end of the booklet")


class CoverDeclaration(Declaration):
    """A photograph for the cover, instead of the drawn quilt."""

    photo: Prose = key("the file of the photograph, PNG or JPEG, from the folder of the house file")
    words: Prose = key("what the photograph shows, for those who cannot see it")


class LogoDeclaration(Declaration):
    """The mark of the house, on the cover and the last page where the theme has it."""

    file: Prose = key("the file of the logo, SVG, PNG or JPEG, from the folder of the house file")
    words: Prose = key("what the logo shows, for those who cannot see it")


class ImprintDeclaration(Declaration):
    """Who publishes the booklet, printed on its last page."""

    address: Prose | None = key("address of the publisher")
    corrections: Prose | None = key("where corrections are published")
    copyright: Prose | None = key("copyright line")


class JoinsDeclaration(Declaration):
    """How strips that are too short are joined."""

    binding: Literal["diagonal", "straight"] | None = key("how binding strips are joined")
    strips: Literal["diagonal", "straight"] | None = key("how border and sashing strips are joined")


class BindingRules(Declaration):
    """How binding is cut and how much of it is made."""

    strip: LengthText | None = key("cut width of binding strips that are folded double")
    single: LengthText | None = key("cut width of binding strips that are folded once")
    extra: LengthText | None = key("added to the perimeter for corners and closing")


class BackingRules(Declaration):
    """How large the backing is and how its panels are joined."""

    overage: LengthText | None = key("beyond the top on each side")
    seam: LengthText | None = key("seam allowance between panels, on each of the two")
    selvages: LengthText | None = key("what of a wide cloth's width is not usable")


class BattingRules(Declaration):
    """How large the batting is, and in what it is sold."""

    overage: LengthText | None = key("beyond the top on each side")
    packages: list[PairText] | None = key("sizes of packaged batting", at_most=40)
    rolls: list[LengthText] | None = key("widths of batting off the roll", at_most=20)


class HangingRules(Declaration):
    """How sleeves and corners to hang a quilt by are cut."""

    sleeve: LengthText | None = key("cut height of a sleeve, around the rod and with its seam")
    inset: LengthText | None = key("how far a sleeve ends before each side of the quilt")
    hem: LengthText | None = key("what each end of a sleeve takes to be turned under twice")
    corner: LengthText | None = key("cut side of the squares for corners")


class RagRules(Declaration):
    """How rag quilts are sewn and filled."""

    seam: LengthText | None = key("width of all seams of a rag quilt")
    inset: LengthText | None = key("how far the batting of a block ends inside its seams")


class AsYouGoRules(Declaration):
    """How blocks that are quilted one by one are made up."""

    allowance: LengthText | None = key("how far batting and back reach beyond a block on each side")
    stop: LengthText | None = key("how far before the edges of a block its quilting ends")


class KitRules(Declaration):
    """What the sheet for shops counts on that cut kits of a pattern."""

    count: Count | None = key("how many kits are cut")
    bolt: LengthText | None = key("length of cloth on one bolt")


class SystemRules(Declaration):
    """The rules that are lengths, for one system of measure."""

    seam: LengthText | None = key("seam allowance")
    usable_width: LengthText | None = key("width of cloth that can be relied on")
    straightening: LengthText | None = key("added to each length bought off the bolt")
    fat_quarter: PairText | None = key("true size of a fat quarter, length x width")
    fat_eighth: PairText | None = key("true size of a fat eighth, length x width")
    triangles: Literal["standard", "exact", "trim"] | None = key("rule for triangle units")
    oversize: LengthText | None = key("added by the rule `trim` beyond `standard`")
    round_cuts: LengthText | None = key("cut sizes of triangle units are rounded up to it")
    round_yardage: list[LengthText] | None = key("lengths bought are rounded up to one of these", at_least=1)
    binding: BindingRules | None = key("binding")
    backing: BackingRules | None = key("backing")
    batting: BattingRules | None = key("batting")
    miter_extra: LengthText | None = key("added to mitered borders")
    long_seam: LengthText | None = key("a seam of the top from this length on is a long one, of which few are wanted")
    hanging: HangingRules | None = key("sleeves and corners to hang a quilt by")
    rag: RagRules | None = key("rag quilts")
    quilt_as_you_go: AsYouGoRules | None = key("blocks that are quilted one by one")
    kit: KitRules | None = key("kits that a shop cuts")
    beds: dict[Key, PairText] = key("sizes of mattresses by name, beside the usual ones", default={}, at_most=60)


class HouseDeclaration(Declaration):
    """The publisher's rules and imprint: house.yaml, or the key `house` of a pattern for what differs there."""

    name: Prose | None = key("name of the publisher")
    imprint: ImprintDeclaration | None = key("address, corrections, copyright")
    logo: LogoDeclaration | None = key("the mark of the house")
    theme: Name | None = key("name of the theme")
    papers: list[Literal["letter", "a4"]] | None = key("papers that booklets are made for", at_least=1)
    editions: list[Edition] | None = key("booklets that are built where none are asked for", at_least=1)
    language: Literal["en", "de"] | None = key("language of the booklets")
    pressing: Literal["nest", "dark", "open"] | None = key("how seams are pressed")
    spinning: Literal["any", "middle", "never"] | None = key(
        "at which crossings of four seams a seam may be spun so that more nests (default: in its middle)"
    )
    pressing_variants: Count | None = key("in how many ways a block or unit may be pressed, 1 (default) or 2")
    joins: JoinsDeclaration | None = key("how strips are joined")
    binding_by: Literal["hand", "machine", "either"] | None = key("how the binding is sewn down on the back")
    shrinkage: Percent | None = key("how much cloth may shrink before cutting, each way")
    other_measures: Switch | None = key("whether what is bought is told in the other system of measure too")
    inches: SystemRules | None = key("rules for patterns in inches")
    centimeters: SystemRules | None = key("rules for patterns in centimeters")


class ColorwayFabricDeclaration(Declaration):
    """What a colorway changes of a fabric."""

    name: Prose | None = key("what the booklet calls it in this colorway")
    color: Color | None = key("its color in this colorway")
    colors: list[Color] | None = key("its colors in this colorway, where it is many prints", at_least=1)
    value: Literal["light", "medium", "dark"] | None = key("its value in this colorway (default: from its color)")
    directional: Literal["lengthwise", "crosswise"] | None = key("a one-way print in this colorway")
    fussy: PairText | None = key("repeat of its motifs in this colorway")
    stripe: LengthText | None = key("repeat of its stripes in this colorway")


class ColorwayDeclaration(Declaration):
    """The same pattern in other colors: the fabrics that differ."""

    name: Prose | None = key("what the booklet calls this colorway")
    fabrics: dict[Key, ColorwayFabricDeclaration] = key("the fabrics that differ, by name", at_least=1, at_most=200)


class PatternDeclaration(Declaration):
    """A whole pattern."""

    dialect: Count = key("version of the dialect; this is 1")
    pattern: Prose = key("title of the pattern")
    release: Count = key("number of this published state, from 1")
    summary: Prose | None = key("one sentence for the cover")
    cover: CoverDeclaration | None = key("a photograph for the cover")
    skill: Literal["beginner", "confident beginner", "intermediate", "advanced"] | None = key("for whom it is")
    lengths: System = key("unit of measure that the pattern is designed in")
    packs: dict[Key, PackDeclaration] = key("bundles of precut cloth, by name", default={}, at_most=50)
    fabrics: dict[Key, FabricDeclaration] = key("fabrics in order of use, by name", at_least=1, at_most=200)
    units: dict[Key, UnitDeclaration] = key("piecing units, by name", default={}, at_most=500)
    blocks: dict[Key, BlockDeclaration] = key("blocks, by name", at_least=1, at_most=500)
    quilt: QuiltDeclaration = key("the top and its finishing")
    sizes: dict[Key, SizeDeclaration] = key("sizes of the quilt, by name", at_least=1, at_most=24)
    colorways: dict[Key, ColorwayDeclaration] = key("the same pattern in other colors, by name", default={}, at_most=24)
    text: TextDeclaration | None = key("the author's own words")
    house: HouseDeclaration | None = key("house rules that differ in this pattern")
