"""Blocks: each sewn from its parts in rows or columns, inner ones first, with counts and what each measures."""

from __future__ import annotations

from patchwright.planning.plan import Assembly
from patchwright.typesetting.booklet import (
    Block,
    Column,
    FigureRow,
    Inline,
    Paragraph,
    Section,
    Step,
    Subheading,
    Table,
)
from patchwright.typesetting.content.chaining import chain_words
from patchwright.typesetting.content.introduction import author_note
from patchwright.typesetting.content.names import counted_parts, heading, plain_name, varied
from patchwright.typesetting.content.pressing import joining_words, sewing_words
from patchwright.typesetting.content.pressing_maps import map_lead
from patchwright.typesetting.content.pressing_remarks import nests_on_lines, remarks
from patchwright.typesetting.content.row_measures import line_measures
from patchwright.typesetting.content.scope import Extent, Scope, Valued, each, words
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell

MAPS = 3
"""Maps side by side."""


def blocks(scope: Scope) -> Section | None:
    """Every assembly in sewing order, or nothing where the quilt has no blocks."""
    made = [assembly for assembly in scope.plan.assemblies if scope.any(assembly.sizes)]
    if not made:
        return None
    body: list[Block] = [Paragraph(scope.inlines("blocks.lead"), "lead"), _overview(scope, made)]
    for assembly in made:
        body += _assembly(scope, assembly)
    body += _maps(scope, made)
    return Section("blocks", scope.say("section.blocks"), tuple(body))


def _maps(scope: Scope, made: list[Assembly]) -> list[Block]:
    """The pressing maps of all blocks that are no parts of others, and how many junctions nest."""
    whole = [assembly for assembly in made if not assembly.nested and f"pressing-block-{assembly.id}" in scope.figures]
    if not whole:
        return []
    title = Subheading(scope.say("press.map.title"), "pressing-maps")
    maps = [
        scope.figure(f"pressing-block-{assembly.id}", heading(assembly_name(scope, assembly))) for assembly in whole
    ]
    rows = [FigureRow(tuple(maps[at : at + MAPS])) for at in range(0, len(maps), MAPS)]
    return [title, Paragraph(words(map_lead(scope, "blocks"))), *rows]


def assembly_name(scope: Scope, assembly: Assembly) -> str:
    """`coil`, `coil, reversed`."""
    return varied(scope, assembly, plain_name(assembly.block))


def block_title(scope: Scope, assembly: Assembly) -> str:
    """`coil block`, `coil block (reversed)`."""
    return varied(scope, assembly, scope.say("blocks.heading", name=plain_name(assembly.block)))


def _overview(scope: Scope, made: list[Assembly]) -> Table:
    rows = []
    for assembly in made:
        name = heading(assembly_name(scope, assembly))
        unfinished: Valued[Extent] = scope.valued(each(assembly.sizes, lambda size: size.unfinished))
        finished: Valued[Extent] = scope.valued(each(assembly.sizes, lambda size: size.finished))
        numbers = each(scope.here(assembly.sizes), lambda size: scope.wording.number(size.count))
        measures = (scope.by_size_inline(values, scope.extent) for values in (unfinished, finished))
        rows.append((text_cell(name), *(text_cell(text) for text in measures), *size_cells(scope, numbers)))
    heads = tuple(Column(scope.say(f"column.{key}")) for key in ("block", "unfinished", "finished"))
    return size_table(scope, "table-blocks", scope.say("blocks.table"), heads, scope.say("column.make"), rows)


def _assembly(scope: Scope, assembly: Assembly) -> list[Block]:
    """The count, the parts, the steps and the measure of one block."""
    title = heading(block_title(scope, assembly))
    return [
        Subheading(title, f"sew-{assembly.id}"),
        *_counts(scope, assembly),
        *_steps(scope, assembly),
        *author_note(scope, assembly.block),
    ]


def _counts(scope: Scope, assembly: Assembly) -> list[Block]:
    counts = scope.valued(each(assembly.sizes, lambda size: size.count))
    words = scope.inlines("make", counts=scope.told(counts, scope.wording.number))
    made: list[Block] = [Paragraph(words, sizes=scope.only(assembly.sizes))]
    if assembly.second_of:
        made.append(scope.paragraph("blocks.second"))
    if assembly.nested:
        made.append(scope.paragraph("blocks.nested"))
    return made


def _steps(scope: Scope, assembly: Assembly) -> list[Block]:
    """Lay out, sew the lines, join the lines; a block of one line needs no joining."""
    lines, laid = len(assembly.lines), [part for line in assembly.lines for part in line]
    parts = counted_parts(scope, laid)
    measure = scope.by_size_inline(scope.valued(each(assembly.sizes, lambda size: size.unfinished)), scope.extent)
    whole = scope.figure_if(f"block-{assembly.id}")
    if len(laid) == 1:
        return [*whole, Paragraph(scope.inlines("blocks.one-part", parts=parts, size=measure), "measure")]
    said: list[list[Block]] = [[Paragraph(scope.inlines("blocks.lay-out", parts=parts)), *whole]]
    sewn = sewing_words(scope, assembly)
    if lines == 1:
        said.append([scope.paragraph("blocks.sew-one", press=sewn)])
    elif any(len(line) > 1 for line in assembly.lines):
        said.append([Paragraph(_sew_lines(scope, assembly, sewn))])
        chained = chain_words(scope, assembly)
        said[-1] += [Paragraph(words(chained))] if chained else []
        said[-1] += line_measures(scope, assembly)
    if lines > 1:
        how = "nest" if nests_on_lines(scope, assembly) else "match"
        said.append([scope.paragraph(f"blocks.join-{assembly.axis}.{how}", press=joining_words(scope, assembly))])
        said[-1] += [Paragraph(words(text)) for text in remarks(scope, assembly) if text]
    said[min(1, len(said) - 1)] += scope.figure_if(f"assembly-{assembly.id}")
    said[-1].append(Paragraph(scope.inlines("blocks.measure", size=measure), "measure"))
    return [Step(f"step-block-{assembly.id}-{number}", number, tuple(body)) for number, body in enumerate(said, 1)]


def _sew_lines(scope: Scope, assembly: Assembly, press: str) -> tuple[Inline, ...]:
    """Every row (or column), or those that are not one part, by number."""
    sewn = [str(number) for number, line in enumerate(assembly.lines, 1) if len(line) > 1]
    if len(sewn) < len(assembly.lines):
        numbers = scope.wording.listed_text(sewn)
        return scope.inlines(f"blocks.sew-some-{assembly.axis}", count=len(sewn), numbers=numbers, press=press)
    return scope.inlines(f"blocks.sew-{assembly.axis}", count=scope.wording.number_word(len(sewn)), press=press)
