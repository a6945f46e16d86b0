"""What rows, columns and strips should measure, and which pairs begin them, in words, counted by hand."""

from __future__ import annotations

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import with_pressing
from patchwright.typesetting.booklet import Block, Paragraph
from patchwright.typesetting.content.chained_tops import chained_columns, chained_diagonals
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.mitered_borders import mitered_steps
from patchwright.typesetting.content.pieced_borders import pieced_table
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.row_measures import diagonal_measures, line_measures
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.unit_steps import stage_words, told_stages
from patchwright.wording import load_wording
from planning.test_measures import MIXED, SASHED_ON_POINT, STRIPPY
from pressing.quilts import ON_POINT, quilt

FOUR = "  four: {cell: 3 in, strip-piece: no, rows: [[dark, light], [dark, other]]}\nquilt:"
STRAIGHT = (
    STRIPPY.replace("  setting-triangles: {fabric: light}\n", "").replace("across: 2", "across: 3")
    .replace("[[nine]]", "[[nine, nine, nine], [four@90, four, four]]").replace("quilt:", FOUR)
)  # fmt: skip


def scope_of(plan: Plan) -> Scope:
    return Scope(with_pressing(plan), {}, load_wording("en"), EDITIONS["all-sizes"], tuple(range(len(plan.sizes))))


def said(blocks: list[Block]) -> str:
    told = [inline_text(block.inlines) for block in blocks if isinstance(block, Paragraph)]
    return " ".join(told).replace("\u00a0", " ")


def test_rows_of_a_block_that_differ_are_told_by_number() -> None:
    """Cells of 1 in, and of 2 in in the large size: rows of 4 by 1, 4 by 2, and one part, of which nothing is said."""
    scope = scope_of(quilt(MIXED))
    told = {made.block: said(line_measures(scope, made)) for made in scope.plan.assemblies if len(made.lines) > 1}
    assert told["rows"] == (
        "Row 1 should measure 4½″ × 1½″ (Small), 8½″ × 2½″ (Large) unfinished. "
        "Row 2 should measure 4½″ × 2½″ (Small), 8½″ × 4½″ (Large) unfinished."
    )
    assert told["columns"].startswith("Column 1 should measure 1½″ × 4½″ (Small), 2½″ × 8½″ (Large) unfinished. ")


def test_rows_of_a_block_that_are_alike_are_told_once() -> None:
    scope = scope_of(quilt(ON_POINT))
    told = {made.block: said(line_measures(scope, made)) for made in scope.plan.assemblies}
    assert told["nine"] == "Each row should measure 6½″ × 2½″ unfinished."


def test_diagonal_rows_are_measured_between_the_seams_of_their_ends() -> None:
    """The ends are trimmed later, so that their edges have no measure."""
    scope = scope_of(quilt(ON_POINT))
    told = said(diagonal_measures(scope, scope.sizes, False, ()))
    assert "6½″ unfinished from one long edge to the other" in told
    assert "6″, 18″, 30″, and 42″ finished, by how many blocks it has" in told
    sashed = scope_of(quilt(SASHED_ON_POINT))
    assert "1½″ unfinished" in said(diagonal_measures(sashed, sashed.sizes, True, ()))
    column = scope_of(quilt(STRIPPY))
    assert said(diagonal_measures(column, column.sizes, False, ())).endswith("its end triangles, 6″ finished.")


def test_diagonal_rows_begin_with_three_kinds_of_pairs() -> None:
    """Three by three on point has five rows: two begin at the left edge, one in the corner, two at the lower edge."""
    scope = scope_of(quilt(ON_POINT))
    small = scope.sizes[:1]
    told = said(chained_diagonals(scope, small, ()))
    assert told.count("nine block") == 3
    for pair in ("2 of B1 triangle and nine block at the left edge; ", "1 of B2 triangle and nine block; ",
                 "2 of B1 triangle and nine block at the lower edge."):
        assert pair in told


def test_columns_on_point_begin_with_two_kinds_of_pairs() -> None:
    """Two columns of four: three rows begin with a side triangle, one with a corner, in each."""
    scope = scope_of(quilt(STRIPPY))
    told = said(chained_diagonals(scope, scope.sizes, ()))
    assert told.startswith("Chain-piece alike pairs one after another: 6 of ")
    assert "triangle and nine block; 2 of " in told


def test_straight_columns_begin_with_alike_pairs() -> None:
    """Three columns begin with a nine and a four, of which one is turned."""
    scope = scope_of(quilt(STRAIGHT))
    assert said(chained_columns(scope, scope.sizes, ())).endswith(
        "3 of nine block and four block. Keep those together that are turned alike. "
        "Then add the next part to each in the same way."
    )


def test_more_kinds_of_pairs_than_a_sentence_holds_are_one_number() -> None:
    blocks = "".join(
        f"  b{number}: {{cell: 3 in, strip-piece: no, rows: [[dark, light], [{pair}]]}}\n"
        for number, pair in enumerate(("dark, dark", "light, light", "other, other", "dark, other", "light, other"))
    )
    rows = [[f"b{(at + step) % 5}" for at in range(5)] for step in range(2)]
    text = f"blocks:\n{blocks}quilt:\n  setting: strippy\n  arrange: {str(rows).replace(chr(39), '')}\n" + (
        "  strips: {width: 2 in, fabric: other}\nsizes: {small: {across: 5, down: 2}}\n"
    )
    scope = scope_of(quilt(text))
    assert said(chained_columns(scope, scope.sizes, ())).startswith(
        "Chain-pieced, the first two parts of every column go through the machine one after another, 5 pairs in all."
    )


BORDERED = """\
blocks:
  one: {cell: 3 in, rows: [[dark, light], [light, dark]]}
  goose: {cell: 1 in, rows: [[dark, light]]}
quilt:
  arrange: [[one]]
  borders: BORDERS
sizes: {only: {across: 2, down: 3}}
"""


def test_strips_of_borders_are_measured_with_their_corners() -> None:
    """Twelve by eighteen: with corners of 1 in the rows at top and bottom are 14 by 1 in, 1/2 more unfinished."""
    pieced = "[{pieced: {repeat: [goose], corner: dark}}]"
    scope = scope_of(quilt(BORDERED.replace("BORDERS", pieced)))
    border = scope.sizes[0].borders[0]
    table = pieced_table(scope, border.id, (border,))
    cells = [[inline_text(cell.inlines) for cell in row] for row in table.rows]
    assert cells[1][1].replace("\u00a0", " ") == "1½″ × 18½″"
    assert [row[1].replace("\u00a0", " ") for row in cells[3:]] == ["12½″ × 1½″", "14½″ × 1½″"]


def test_sets_of_mitered_strips_are_measured() -> None:
    """Two and three inches side by side: 5 1/2 unfinished."""
    mitered = "[{width: 2 in, fabric: light, corners: mitered}, {width: 3 in, fabric: dark, corners: mitered}]"
    scope = scope_of(quilt(BORDERED.replace("BORDERS", mitered)))
    last = scope.sizes[0].borders[-1]
    steps = mitered_steps(scope, last.id, (last,), ())
    assert "Each set should measure 5½″ across, unfinished." in said([one for step in steps for one in step.blocks])


PARTS = """\
units:
  hourglass: {quarter-square: [dark, light]}
  hatch: {nested-square: {center: dark, inner: light, corners: other}}
  check: {four-patch: [dark, light], strip-piece: no}
blocks: {one: {cell: 4 in, rows: [[hourglass 1x1, hatch 1x1, check 1x1]]}}
quilt: {arrange: [[one]]}
sizes: {only: {across: 2, down: 2}}
"""


def test_parts_of_units_are_measured() -> None:
    """Squares of 5 1/4 give half-squares of 5 1/4 less 1/4 x √2, 4.896; a square of 2 on its corner measures
    2 x √2 + 1/2, 3.328, and a little more since its triangles are rounded up; two cells of 2 in measure 4 1/2 by 2 1/2.
    """
    scope = scope_of(quilt(PARTS))
    told = {
        unit.id: " ".join(
            inline_text(stage_words(scope, unit, size, stage.stage)) for stage in told_stages(scope, unit)
            if (size := unit.sizes[0]) is not None
        ).replace("\u00a0", " ").replace("\u202f", "")
        for unit in scope.plan.units
    }
    assert "makes 2, ≈4⅞″ square unfinished." in told["hourglass"]
    assert "that stick out: ≈3⅜″ square unfinished." in told["hatch"]
    assert "Each row should measure 4½″ × 2½″ unfinished." in told["check"]
