"""Sashing of blocks that lie straight, in all its kinds: places by another geometry library, counts, what is refused.

Common practice, no source: a pieced strip stands upright between columns and lies turned between rows.
"""

from __future__ import annotations

from collections import Counter

import pytest
from shapely.geometry import box
from shapely.ops import unary_union

from content.compiled import EvenLabels
from patchwright.core.length import Finished, Length
from patchwright.diagrams.figures import booklet_figures
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.verify import verify
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import to_text
from patchwright.wording import load_wording
from planning.compiling import cut_sides, errors, lengths, plan_of, sample
from planning.mutating import changed

PATTERN = """\
fabrics: {{red: {{}}, cream: {{}}, blue: {{}}, gray: {{}}}}
units: {{turn: {{half-square: [red, gray]}}}}
blocks:
  one: {{size: 6 in, rows: [[turn, turn@90], [turn@270, turn@180]]}}
  rail: {{cell: 1 in, rows: [[blue 1x6, cream 1x6, blue 1x6]]}}
  nine: {{size: 3 in, rows: [[cream, blue, cream], [blue, red, blue], [cream, blue, cream]]}}
quilt:
  arrange: [[one]]
  sashing: {{{sashing}}}
sizes: {{only: {{across: 3, down: 4}}}}
house: {{inches: {{usable-width: 120 in}}}}
"""
BLOCKS = "block: rail, cornerstone: nine"
KINDS = {
    "blocks and a block": (BLOCKS, (24, 33), {"block": 12, "sashing": 17, "cornerstones": 6}),
    "framed blocks": (f"{BLOCKS}, frame: yes", (30, 39), {"block": 12, "sashing": 31, "cornerstones": 20}),
    "blocks and a fabric": ("block: rail, cornerstone: red", (24, 33), {"block": 12, "sashing": 17, "cornerstones": 6}),
    "blocks between rows": ("block: rail, between: rows", (18, 33), {"block": 12, "sashing": 9}),
    "strips between rows": ("width: 2 in, fabric: blue, between: rows", (18, 30), {"block": 12, "sashing": 3}),
    "framed above and below": (
        "width: 2 in, fabric: blue, between: rows, frame: yes", (18, 34), {"block": 12, "sashing": 5}
    ),
    "strips between columns": ("width: 2 in, fabric: blue, between: columns", (22, 24), {"block": 12, "strips": 2}),
    "framed at the sides": (
        "width: 2 in, fabric: blue, between: columns, frame: yes", (26, 24), {"block": 12, "strips": 4}
    ),
    "two widths": ("width: 1 in, height: 2 in, fabric: blue", (20, 30), {"block": 12, "sashing": 11}),
    "two widths and cornerstones": (
        "width: 1 in, height: 2 in, fabric: blue, cornerstone: red", (20, 30),
        {"block": 12, "sashing": 17, "cornerstones": 6},
    ),
    "a cornerstone that is a block": (
        "width: 3 in, fabric: blue, cornerstone: nine", (24, 33), {"block": 12, "sashing": 17, "cornerstones": 6}
    ),
}


def text(sashing: str) -> str:
    return sample(PATTERN.format(sashing=sashing))


@pytest.mark.parametrize("name", KINDS)
def test_the_pieces_tile_the_stated_quilt(name: str) -> None:
    sashing, finished, counts = KINDS[name]
    plan = plan_of(text(sashing))
    size = plan.sizes[0]
    assert [float(side) for side in size.finished] == list(finished)
    places = [tuple(float(side) for side in (i.x, i.y, i.x + i.width, i.y + i.height)) for i in size.items]
    shapes = [box(*place) for place in places]
    assert unary_union(shapes).symmetric_difference(box(0, 0, *finished)).area == 0
    assert sum(one.area for one in shapes) == finished[0] * finished[1]
    assert Counter(item.part for item in size.items) == counts


def test_strips_of_three_fabrics_are_cut_from_strip_sets() -> None:
    """31 strips of 3 by 6: sets of strips 1 1/2 in high, cut every 6 1/2 in."""
    plan = plan_of(text(f"{BLOCKS}, frame: yes"))
    rail = next(unit for unit in plan.units if unit.row_of == ("rail", 1))
    assert rail.method == "strip-set"
    made = rail.sizes[0]
    assert made is not None
    assert made.need == 31
    assert {side.length for side in made.unfinished} == set(lengths("3 1/2", "6 1/2"))


def test_strips_between_rows_have_a_width_of_their_own() -> None:
    plan = plan_of(text("width: 1 in, height: 2 in, fabric: blue, cornerstone: red"))
    assert {tuple(sorted(sides)) for sides in cut_sides(plan, "blue")} == {
        lengths("1 1/2", "6 1/2"), lengths("2 1/2", "6 1/2")
    }
    assert lengths("1 1/2", "2 1/2") in {tuple(sorted(sides)) for sides in cut_sides(plan, "red")}
    size = plan.sizes[0]
    assert (size.sash_width, size.sash_height) == (Finished("1"), Finished("2"))


def test_a_size_may_take_plain_strips_instead() -> None:
    plan = plan_of(text(BLOCKS).replace(
        "down: 4}}", "down: 4}, plain: {across: 2, down: 2, sashing: {width: 1 in, fabric: blue, cornerstone: red}}}"
    ))
    assert [size.sash_width for size in plan.sizes] == [Finished("3"), Finished("1")]


@pytest.mark.parametrize("name", KINDS)
def test_pressing_is_recounted_on_the_finished_top(name: str) -> None:
    plan = plan_of(text(KINDS[name][0]))
    pressing = plan_pressing(plan, "nest")
    assert [(size.nested, size.total) for size in pressing.sizes] == list(recount(plan, pressing))


def told(plan: Plan, language: str = "en") -> str:
    words = load_wording(language)
    figures = booklet_figures(plan, words, EvenLabels())
    booklet = make_booklet(plan, figures, words, EDITIONS["one-size"], ("only",))
    return " ".join(to_text(booklet).replace("\u00a0", " ").split())


@pytest.mark.parametrize(("name", "said"), [
    ("framed blocks", "4 cornerstones. In each, sashing strips (rail block) and cornerstones (nine block) alternate"),
    ("blocks between rows", "Make 3 rows of 3 strips. Sew the sashing strips (rail block) of each end to end."),
    ("strips between rows", "Sew the blocks of each row together."),
    ("framed at the sides", "Pin the columns to the strips between them and at both sides"),
])
def test_the_steps_tell_how_it_is_sewn(name: str, said: str) -> None:
    assert said in told(plan_of(text(KINDS[name][0]), effort="best"))


REFUSED = {
    "a strip of another length": (
        text(BLOCKS).replace("blue 1x6, cream 1x6, blue 1x6", "blue 1x5, cream 1x5, blue 1x5"), "block-size-mismatch",
        "make the strip 6 in high",
    ),
    "a cornerstone of another size": (
        text(BLOCKS).replace("nine: {size: 3 in", "nine: {size: 4 1/2 in"), "block-size-mismatch",
        "make it 3 in by 3 in",
    ),
    "a width of a block": (text(f"{BLOCKS}, width: 3 in"), "sashing-says-nothing", "take `width` out"),
    "a height between columns": (
        text("width: 1 in, height: 2 in, fabric: blue, between: columns"), "sashing-says-nothing", "take `height` out"
    ),
    "blocks that cross": (text("block: rail"), "sashing-without-crossings", "give `cornerstone: …`"),
    "blocks between columns": (text("block: rail, between: columns"), "sashing-without-crossings", "give `fabric`"),
    "stones between rows": (
        text("width: 1 in, fabric: blue, between: rows, cornerstone: red"), "sashing-without-crossings",
        "take `cornerstone` out",
    ),
    "no height": (text("width: 1 in, height: 0 in, fabric: blue"), "sashing-width-zero", "above zero"),
    "no such block": (text("block: rial, cornerstone: red"), "unknown-name", "rail"),
    "blocks on point": (
        text(BLOCKS).replace("quilt:\n", "quilt:\n  setting: on-point\n  alternate: red\n"
                             "  setting-triangles: {fabric: cream}\n"), "sashing-on-point", "take `block` out",
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_is_refused_with_what_would_work(name: str) -> None:
    wrong, code, hint = REFUSED[name]
    found = errors(wrong)
    assert {item.code for item in found} == {code}, found
    assert found[0].span.line > 1
    assert any(hint in text for item in found for text in item.hints), found[0].hints


def test_wrong_sashing_is_named() -> None:
    plan = plan_of(text("width: 1 in, height: 2 in, fabric: blue, cornerstone: red"))
    for field, said in (("sash_width", "between columns"), ("sash_height", "between rows")):
        wrong = changed(plan, ("sizes", 0, field), lambda width: width + Finished("1"))
        assert any(f"sashing {said} is not as wide" in fault for fault in verify(wrong))
    missing = changed(plan, ("sizes", 0, "sash_width"), lambda _: None)
    assert any("not stated" in fault for fault in verify(missing))
    assert verify(plan) == ()
    assert plan.sizes[0].sash_height != Finished(Length(1))
