"""A booklet without italics: what would be slanted is set as it stands, or strong.

In: a booklet.
Out: the same words, without paragraphs and runs that themes slant.
"""

from __future__ import annotations

from dataclasses import replace

from patchwright.typesetting.booklet import (
    Block,
    Booklet,
    Bullets,
    Emphasis,
    Inline,
    Link,
    Notice,
    Paragraph,
    Step,
    Strong,
    Table,
    Words,
)


def upright(booklet: Booklet) -> Booklet:
    """Leads become plain paragraphs, and emphasis becomes strong.

    The cover is left to short words: its summary opens the first section that is not the list of contents.
    """
    cover = booklet.cover
    summary = (Paragraph((Words(cover.summary),)),) if cover.summary else ()
    first = next((section.id for section in booklet.sections if section.id != "contents"), "")
    sections = tuple(
        replace(section, blocks=((*summary, *blocks) if section.id == first else blocks))
        for section in booklet.sections
        for blocks in [tuple(_block(block) for block in section.blocks)]
    )
    return replace(booklet, cover=replace(cover, summary=""), sections=sections)


def _block(block: Block) -> Block:
    if isinstance(block, Paragraph):
        return replace(block, inlines=_inlines(block.inlines), role="body" if block.role == "lead" else block.role)
    if isinstance(block, Bullets):
        return replace(block, items=tuple(_inlines(item) for item in block.items))
    if isinstance(block, Table):
        rows = tuple(tuple(replace(cell, inlines=_inlines(cell.inlines)) for cell in row) for row in block.rows)
        return replace(block, rows=rows)
    if isinstance(block, Notice | Step):
        return replace(block, blocks=tuple(_block(inner) for inner in block.blocks))
    return block


def _inlines(inlines: tuple[Inline, ...]) -> tuple[Inline, ...]:
    return tuple(_inline(inline) for inline in inlines)


def _inline(inline: Inline) -> Inline:
    if isinstance(inline, Emphasis):
        return Strong(_inlines(inline.inlines))
    if isinstance(inline, Strong | Link):
        return replace(inline, inlines=_inlines(inline.inlines))
    return inline
