"""Finishing: backing panels, batting, layering, quilting and binding."""

from __future__ import annotations

from patchwright.core.length import Length
from patchwright.planning.plan import PlannedBacking
from patchwright.typesetting.booklet import (
    Block,
    Column,
    Figure,
    FigureRow,
    Paragraph,
    Section,
    Step,
    Subheading,
    Table,
)
from patchwright.typesetting.content.binding import binding
from patchwright.typesetting.content.by_block import finishing_by_block
from patchwright.typesetting.content.hanging import hanging
from patchwright.typesetting.content.introduction import prose_blocks
from patchwright.typesetting.content.scope import Scope, each
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell


def finishing(scope: Scope) -> Section | None:
    """From the pressed top to the bound quilt, the author's own words first; None where nothing is left to do."""
    blocks: list[Block] = [*prose_blocks(scope, scope.plan.finishing)]
    if any(size.backing for size in scope.sizes):
        blocks += _backing(scope)
    if any(size.by_block for size in scope.sizes):
        blocks += finishing_by_block(scope)
    else:
        blocks += _layers(scope)
    blocks += hanging(scope)
    if any(size.binding for size in scope.sizes):
        blocks += binding(scope)
    if not blocks:
        return None
    return Section("finishing", scope.say("section.finishing"), tuple(blocks))


def _backing(scope: Scope) -> list[Block]:
    blocks: list[Block] = [Subheading(scope.say("finishing.backing.title"), "part-backing"), _backing_table(scope)]
    seam = scope.plan.rules.backing_seam
    ways = dict.fromkeys(size.backing.seams for size in scope.sizes if size.backing is not None)
    for way in ways:
        sizes = [size for size in scope.sizes if size.backing is not None and size.backing.seams == way]
        names = tuple(size.name for size in sizes) if len(sizes) < len(scope.sizes) else ()
        start = scope.say("only-for", sizes=scope.wording.listed_text([size.label for size in sizes])) if names else ""
        blocks.append(Paragraph(scope.inlines(f"finishing.backing.{way}", start=start, seam=seam), sizes=names))
    blocks += _split_panels(scope)
    figures: list[Figure] = []
    for size in scope.sizes:
        figures += scope.figure_if(f"backing-{size.name}", sizes=() if scope.single else (size.name,))
    if scope.single:
        return [*blocks, *figures]
    return [*blocks, FigureRow(tuple(figures))] if figures else blocks


def _split_panels(scope: Scope) -> list[Block]:
    """Where the outer panels come from one length of cloth, which is cut along its middle."""
    split = [size for size in scope.sizes if size.backing is not None and size.backing.split]
    if not split:
        return []
    names = tuple(size.name for size in split) if len(split) < len(scope.sizes) else ()
    start = scope.say("only-for", sizes=scope.wording.listed_text([size.label for size in split])) if names else ""
    return [Paragraph(scope.inlines("finishing.backing.split", start=start), sizes=names)]


def _backing_table(scope: Scope) -> Table:
    """Panels, the sewn size, and the batting."""
    backings = [size.backing for size in scope.sizes]
    rows = [
        (
            text_cell(scope.say("finishing.table.panels")),
            *size_cells(scope, each(backings, lambda backing: _panels(scope, backing))),
        ),
        (
            text_cell(scope.say("finishing.table.cloth")),
            *size_cells(scope, each(backings, lambda backing: scope.wording.length(backing.usable_width))),
        ),
        (
            text_cell(scope.say("finishing.table.length")),
            *size_cells(scope, each(backings, lambda backing: scope.wording.length(backing.length))),
        ),
        (
            text_cell(scope.say("finishing.table.backing")),
            *size_cells(scope, each(backings, lambda backing: scope.wording.extent(*backing.size))),
        ),
    ]
    heads = (Column(scope.say("finishing.table.head")),)
    return size_table(scope, "table-backing", scope.say("finishing.table.caption"), heads, "", rows)


def _panels(scope: Scope, backing: PlannedBacking) -> str:
    """`2 panels 40″ × 76″ and 1 panel 12″ × 76″`: equal panels are counted together."""
    counts: dict[tuple[Length, Length], int] = {}
    for panel in backing.panels:
        counts[panel] = counts.get(panel, 0) + 1
    return scope.wording.listed_text(
        [
            scope.say("finishing.panels", count=count, size=scope.wording.extent(*panel))
            for panel, count in counts.items()
        ]
    )


def _layers(scope: Scope) -> list[Block]:
    """Batting size, layering and quilting."""
    batting = scope.by_size_inline(tuple((size.label, size.batting) for size in scope.sizes), scope.rectangle)
    backed = any(size.backing for size in scope.sizes)
    keys = ["batting", *(["layer"] if backed else ["layer-unbacked"]), "baste", "quilt", "square-up"]
    steps = [
        Step(f"step-layers-{number}", number, (Paragraph(scope.inlines(f"finishing.{key}", size=batting)),))
        for number, key in enumerate(keys, 1)
    ]
    return [Subheading(scope.say("finishing.layers.title"), "part-layers"), *steps]
