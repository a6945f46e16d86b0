"""Whole booklets: sections in order, figures, cautions, grammar, and the same text every time."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from content.compiled import BOOKLETS, DATA, SIZES, booklet_of, figures_of, names_of, plan_of
from patchwright.design.design import Prose
from patchwright.typesetting.booklet import Block, Booklet, Figure, FigureRow, Notice, Paragraph, Step, Table
from patchwright.typesetting.booklet_tree import booklet_tree
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.introduction import UnfilledProseError
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import inline_text, section_text, to_text
from patchwright.typesetting.content.scope import MissingFigureError
from patchwright.wording import load_wording


def blocks_of(blocks: Sequence[Block]) -> Iterator[Block]:
    """All blocks, those within others among them."""
    for block in blocks:
        yield block
        if isinstance(block, Step | Notice):
            yield from blocks_of(block.blocks)
        elif isinstance(block, FigureRow):
            yield from block.figures


def all_blocks(booklet: Booklet) -> list[Block]:
    return [block for section in booklet.sections for block in blocks_of(section.blocks)]


@pytest.mark.parametrize("name", SIZES)
def test_sizes_are_those_of_the_patterns(name: str) -> None:
    assert names_of(plan_of(name)) == SIZES[name]


def ids(booklet: Booklet) -> list[str]:
    return [section.id for section in booklet.sections]


def test_sections_stand_in_the_order_of_the_trade() -> None:
    assert ids(booklet_of("rope-walk")) == [
        "contents", "introduction", "requirements", "before", "cutting", "layouts-crib", "layouts-throw",
        "layouts-queen", "units", "blocks", "top", "borders", "finishing", "about", "coloring",
    ]  # fmt: skip
    assert ids(booklet_of("four-patch", "wall")) == [
        "contents", "requirements", "before", "cutting", "units", "blocks", "top", "finishing", "about", "coloring",
    ]  # fmt: skip


@pytest.mark.parametrize(("name", "size"), BOOKLETS)
def test_writers_can_take_it(name: str, size: str) -> None:
    """Ids are unique, tables are rectangular, links lead somewhere, and all words of the writers are there."""
    assert booklet_tree(booklet_of(name, size)).scenes


@pytest.mark.parametrize(("name", "size"), BOOKLETS)
def test_text_is_clean(name: str, size: str) -> None:
    booklet = booklet_of(name, size)
    for line in to_text(booklet).splitlines():
        words = line.strip()
        assert "  " not in words, line
        assert not re.search(r"[{}]", words), line
        assert not re.search(r" [,.;:](?!\w)|\(\)|\( | \)|\.\.|,,|: *\.$", words), line
        assert not re.search(
            r"(?<![\w.,⁄])1 [a-z-]*(strips|squares|rectangles|units|blocks|panels|rows|lengths)\b", words
        ), line
        one = r"\b([2-9]|\d\d+) (strip|square|rectangle|unit|block|panel|row|length|pack)\b(?! sets)"
        assert not re.search(one, words), line
        assert not re.search(r"\bcells?\b|\bHSTs?\b|\bQSTs?\b", words, re.IGNORECASE), line
        assert not re.search(r"\d/\d|colour|metre|centre|grey\b", words) or "://" in words, line


@pytest.mark.parametrize(("name", "size"), BOOKLETS)
def test_every_stage_and_whole_has_its_figure(name: str, size: str) -> None:
    plan, booklet = plan_of(name), booklet_of(name, size)
    shown = {block.scene.id for block in all_blocks(booklet) if isinstance(block, Figure)}
    for index, each in enumerate(plan.sizes):
        if size in ("", each.name):
            assert {f"layout-{each.name}", f"top-{each.name}"} <= shown
            alike = [each.name] if size else [other.name for other in plan.sizes]
            assert all(any(f"{border.id}-{name}" in shown for name in alike) for border in each.borders)
            assert {f"block-{one.id}" for one in plan.assemblies if one.sizes[index]} <= shown
            assert each.backing is None or f"backing-{each.name}" in shown
    assert {"binding-join", "binding-corner", "binding-fold"} <= shown
    steps = [block for block in all_blocks(booklet) if isinstance(block, Step) and block.id.startswith("step-unit-")]
    assert all(any(isinstance(inner, Figure) for inner in step.blocks) for step in steps)


def test_a_figure_that_is_lacking_is_named() -> None:
    plan = plan_of("four-patch")
    with pytest.raises(MissingFigureError, match="cover-wall"):
        make_booklet(plan, {}, load_wording(), EDITIONS["one-size"], ("wall",))
    with pytest.raises(ValueError, match="none of the sizes twin"):
        make_booklet(plan, {}, load_wording(), EDITIONS["one-size"], ("twin",))


CAUTIONS = (
    "close the blade after every cut", "never lay the cutter down open", "away from your body", "along a ruler",
    "on a mat", "wear closed shoes", "away from children", "store it closed", "an adult", "iron and its cord out of",
    "while it is hot or cooling", "never leave it face down", "unplug the iron when it is not in use", "needle", "pins",
    "100 %",
)  # fmt: skip
INFANT = ("quilts, comforters, pillows", "loose bedding", "under 12 months", "firm, flat mattress", "fitted sheet",
          "current safe-sleep guidance")  # fmt: skip


@pytest.mark.parametrize(("name", "size"), BOOKLETS)
def test_cautions_are_there_and_the_infant_one_where_it_belongs(name: str, size: str) -> None:
    booklet, plan = booklet_of(name, size), plan_of(name)
    before = next(section for section in booklet.sections if section.id == "before")
    text = "\n".join(section_text(before)).lower()
    assert [words for words in CAUTIONS if words not in text] == []
    infant = any(each.infant for each in plan.sizes if size in ("", each.name))
    assert [words for words in INFANT if (words in text) != infant] == []


def test_infant_sizes_are_known() -> None:
    assert [size.infant for size in plan_of("rope-walk").sizes] == [True, False, False]
    assert [size.infant for size in plan_of("tide-pool").sizes] == [True, False, False]


def test_the_seam_test_is_that_of_the_house() -> None:
    inches, metric = (to_text(booklet_of(name)).replace("\u00a0", " ") for name in ("rope-walk", "tide-pool"))
    assert "three strips 1½″ × 4″" in inches
    assert "exactly 3½″ across" in inches
    assert "three strips 4 × 10 cm" in metric
    assert "exactly 9 cm across" in metric


@pytest.mark.parametrize(("name", "size"), BOOKLETS)
def test_each_thing_made_says_what_it_should_measure(name: str, size: str) -> None:
    booklet = booklet_of(name, size)
    measured = [block for block in all_blocks(booklet) if isinstance(block, Paragraph) and block.role == "measure"]
    assert all(re.search(r"unfinished|raw edges included", inline_text(block.inlines)) for block in measured)
    made = [one for one in plan_of(name).assemblies if any(one.sizes)]
    assert len(measured) >= len(made if not size else [one for one in made if one.sizes[0]])


def test_reversed_units_share_one_line() -> None:
    text = to_text(booklet_of("tide-pool", "baby"))
    assert "\nMake 12, and 12 reversed.\n" in text
    assert text.count("### Shell") == 1


def test_a_step_that_some_sizes_lack_says_so() -> None:
    booklet = booklet_of("tide-pool")
    tops = [block for block in all_blocks(booklet) if isinstance(block, Step) and block.id.startswith("step-top-")]
    only = {step.sizes for step in tops}
    assert only == {(), ("baby", "lap"), ("wall",)}
    assert "Baby and Lap only" in to_text(booklet)
    assert "Baby and Lap only" not in to_text(booklet_of("tide-pool", "baby"))
    assert "borders" not in ids(booklet_of("tide-pool", "baby"))


def test_abbreviations_are_those_that_are_used() -> None:
    inches, metric = to_text(booklet_of("rope-walk")), to_text(booklet_of("tide-pool"))
    assert "*WOF*: width of fabric" in inches
    assert "*yd*" in inches
    assert "*cm*" in metric
    assert "*m*" in inches, "amounts are told in meters too"
    assert "*yd*" in metric


def test_size_columns_carry_their_size() -> None:
    tables = [block for block in all_blocks(booklet_of("rope-walk")) if isinstance(block, Table)]
    sized = [table for table in tables if any(column.size for column in table.columns)]
    assert len(sized) > 8
    for table in sized:
        for row in table.rows:
            assert [cell.size for cell in row] == [column.size for column in table.columns]


def test_prose_with_an_unknown_value_never_reaches_a_booklet() -> None:
    plan = replace(plan_of("four-patch"), introduction=Prose("{{ nothing }}"))
    figures = figures_of("four-patch", ("wall",))
    with pytest.raises(UnfilledProseError, match="nothing"):
        make_booklet(plan, figures, load_wording(), EDITIONS["one-size"], ("wall",))


def test_hatches_are_named_in_words() -> None:
    plan, figures = plan_of("four-patch"), figures_of("four-patch", ("wall",))
    made = make_booklet(plan, figures, load_wording(), EDITIONS["one-size"], ("wall",), ("plain", "own hatch"))
    assert [swatch.hatch_name for swatch in made.swatches] == ["no hatch", "own hatch"]


def test_golden_of_a_small_booklet() -> None:
    """Read the difference as an editor would; to accept it, write the new text with PATCHWRIGHT_GOLDEN=1."""
    path = DATA / "four-patch.txt"
    text = to_text(booklet_of("four-patch", "wall"))
    if os.environ.get("PATCHWRIGHT_GOLDEN"):
        path.write_text(text, "utf-8")
    assert text == path.read_text("utf-8")


def test_the_same_text_under_other_hash_seeds() -> None:
    root = Path(__file__).parents[2]
    code = (
        "from content.compiled import booklet_of; from patchwright.typesetting.content.plain import to_text;"
        "import sys; sys.stdout.buffer.write(to_text(booklet_of('tide-pool')).encode())"
    )
    paths = os.pathsep.join(str(root / folder) for folder in ("compiler", "tests"))
    outputs = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONPATH": paths, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert outputs == {to_text(booklet_of("tide-pool")).encode()}
