"""Borders that sizes make in different ways: every size reads what its own booklet says, and nothing of the others."""

from __future__ import annotations

from functools import cache

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import with_pressing
from patchwright.typesetting.booklet import Paragraph, Section, Step, Subheading, Table
from patchwright.typesetting.content.borders import borders
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.scope import Scope
from patchwright.wording import load_wording
from pressing.quilts import quilt

WAYS = {
    "cornered": "{width: 2 in, fabric: light, corners: dark}",
    "other-corners": "{width: 2 in, fabric: light, corners: other}",
    "butted": "{width: 2 in, fabric: light}",
    "other-cloth": "{width: 2 in, fabric: dark}",
    "mitered": "{width: 2 in, fabric: light, corners: mitered}",
    "block-corners": "{width: 2 in, fabric: light, corners: t}",
    "turned-corners": "{width: 2 in, fabric: light, corner: t@90}",
    "two-sides": "{width: 2 in, fabric: light, along: sides}",
    "two-ends": "{width: 2 in, fabric: light, along: ends}",
    "pieced": "{pieced: {repeat: [t], corner: dark}, coping: {fabric: light}}",
    "pieced-sides": "{pieced: {repeat: [t]}, along: sides}",
    "spaced": "{pieced: {repeat: [r], corner: dark, spacers: {fabric: light}}}",
}
"""One border in each size, every one made in its own way, around the same center."""


@cache
def mixed() -> Plan:
    sizes = "".join(f"  {name}: {{across: 2, down: 2, borders: [{way}]}}\n" for name, way in WAYS.items())
    return with_pressing(quilt(
        "blocks:\n  b: {cell: 3 in, rows: [[dark, light], [light, dark]]}\n"
        "  t: {cell: 1 in, rows: [[light, dark], [dark, other]]}\n"
        "  r: {cell: 1 in, strip-piece: no, rows: [[light, dark, other, light, dark],"
        " [dark, light, light, dark, other]]}\n"
        f"quilt: {{arrange: [[b]]}}\nsizes:\n{sizes}"
    ))


def section_of(chosen: tuple[int, ...]) -> Section:
    edition = EDITIONS["one-size" if len(chosen) == 1 else "all-sizes"]
    made = borders(Scope(mixed(), {}, load_wording("en"), edition, chosen))
    assert made is not None
    return made


def told(section: Section, size: str) -> list[str]:
    """The paragraphs and steps that a size reads."""
    made = []
    for block in section.blocks:
        parts = block.blocks if isinstance(block, Step) else (block,)
        if not (isinstance(block, Step | Paragraph) and size in (block.sizes or (size,))):
            continue
        made += [inline_text(part.inlines) for part in parts if isinstance(part, Paragraph)]
    return [text for text in made if "only." not in text]


@pytest.mark.parametrize("index", range(len(WAYS)), ids=WAYS)
def test_every_size_reads_of_its_own_border_what_its_own_booklet_says(index: int) -> None:
    every = section_of(tuple(range(len(WAYS))))
    name = mixed().sizes[index].name
    assert told(every, name) == told(section_of((index,)), name)


def test_corners_are_sewn_only_where_a_size_has_them() -> None:
    every = section_of(tuple(range(len(WAYS))))
    cornered = {name for name in WAYS if any("Sew one" in text for text in told(every, name))}
    assert cornered == {"cornered", "other-corners", "block-corners", "turned-corners", "pieced", "spaced"}


def test_every_part_of_the_section_has_an_id_of_its_own() -> None:
    every = section_of(tuple(range(len(WAYS))))
    ids = [block.id for block in every.blocks if isinstance(block, Step | Subheading | Table)]
    assert len(ids) == len(set(ids))
