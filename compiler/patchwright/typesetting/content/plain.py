"""A booklet as plain text, for reading, comparing and searching.

In: a booklet or one of its sections.
Out: lines of text with every word and number of it; the same booklet always gives the same lines.
Never: a layout; widths of columns and pages are the writers'.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.typesetting.booklet import (
    Aside,
    Block,
    Booklet,
    Bullets,
    Contents,
    Cover,
    Emphasis,
    FabricKey,
    Figure,
    FigureRow,
    Inline,
    Link,
    Notice,
    Paragraph,
    PieceMark,
    ScaleMark,
    Section,
    Step,
    Strong,
    Subheading,
    Table,
    Words,
)


def to_text(booklet: Booklet) -> str:
    """The whole booklet, cover first."""
    lines = [f"# {booklet.title}", booklet.subtitle, *_cover(booklet.cover), ""]
    for section in booklet.sections:
        lines += [*section_text(section), ""]
    lines += [f"swatch {each.letter}: {each.name}, {each.value}, {each.hatch_name}" for each in booklet.swatches]
    return "\n".join(line.rstrip() for line in lines) + "\n"


def section_text(section: Section) -> list[str]:
    """The lines of one section, its title first."""
    return [f"## {section.title}", *_blocks(section.blocks)]


def inline_text(inlines: Sequence[Inline]) -> str:
    """The text of inlines without their styles."""
    return "".join(
        inline.text if isinstance(inline, Words | PieceMark | Aside) else inline_text(inline.inlines)
        for inline in inlines
    )


def _cover(cover: Cover) -> Iterator[str]:
    yield cover.summary
    yield f"[{cover.figure.scene.id}]"
    yield from (f"{head}: {text}" for head, text in cover.facts)
    yield from (f"{label}: {size}" for label, size in cover.sizes)
    yield cover.publisher


def _blocks(blocks: Sequence[Block]) -> list[str]:
    return [line for block in blocks for line in _block(block)]


def _block(block: Block) -> list[str]:
    if isinstance(block, Paragraph):
        return [_for_sizes(block.sizes) + _styled(block.inlines)]
    if isinstance(block, Subheading):
        return ["", f"### {block.text}"]
    if isinstance(block, Bullets):
        return [("[ ] " if block.checklist else "- ") + _styled(item) for item in block.items]
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Figure):
        return [_figure(block)]
    if isinstance(block, FigureRow):
        return [" ".join(_figure(figure) for figure in block.figures)]
    if isinstance(block, Notice):
        return [f"({block.kind}) {block.title}", *_indented(block.blocks)]
    if isinstance(block, Step):
        return _step(block)
    return [_short(block)]


def _short(block: FabricKey | ScaleMark | Contents) -> str:
    if isinstance(block, FabricKey):
        return "(fabrics) " + " ".join(block.scene_swatches)
    return f"(scale) {block.caption}" if isinstance(block, ScaleMark) else f"(contents) {block.title}"


def _step(step: Step) -> list[str]:
    lines = _indented(step.blocks)
    return [f"{step.number}. {_for_sizes(step.sizes)}{lines[0].strip()}", *lines[1:]]


def _table(table: Table) -> list[str]:
    """The caption if there is one, the heads, then a line for each row, cells parted by bars."""
    rows = [[f"{cell.swatch and '▪ '}{inline_text(cell.inlines)}" for cell in row] for row in table.rows]
    caption = [f"({table.caption})"] if table.caption else []
    return [*caption, *(" | ".join(row) for row in ([column.head for column in table.columns], *rows))]


def _figure(figure: Figure) -> str:
    return _for_sizes(figure.sizes) + f"[{figure.scene.id}{': ' if figure.caption else ''}{figure.caption}]"


def _indented(blocks: Sequence[Block]) -> list[str]:
    return [f"  {line}" for line in _blocks(blocks)]


def _for_sizes(sizes: Sequence[str]) -> str:
    return f"<{' '.join(sizes)}> " if sizes else ""


def _styled(inlines: Sequence[Inline]) -> str:
    """The text with its styles as signs: *strong*, _emphasis_, [text](address)."""
    text = ""
    for inline in inlines:
        if isinstance(inline, Strong):
            text += f"*{_styled(inline.inlines)}*"
        elif isinstance(inline, Emphasis):
            text += f"_{_styled(inline.inlines)}_"
        elif isinstance(inline, Link):
            text += f"[{_styled(inline.inlines)}]({inline.target})"
        else:
            text += inline.text
    return text
