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
)


def upright(booklet: Booklet) -> Booklet:
    """Leads become plain paragraphs, emphasis becomes strong, the cover's summary stands in place of its subtitle."""
    cover = replace(booklet.cover, summary="")
    sections = tuple(
        replace(section, blocks=tuple(_block(block) for block in section.blocks)) for section in booklet.sections
    )
    return replace(booklet, cover=cover, sections=sections, subtitle=booklet.cover.summary or booklet.subtitle)


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
