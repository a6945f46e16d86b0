"""The independent check: a good plan passes it, and every single wrong number is named."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from patchwright.core.geometry import Orientation
from patchwright.core.length import Cut, Finished, Length, Unfinished
from patchwright.planning.plan import Buy, Plan
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.verify import verify
from planning.compiling import plan_of, sample
from planning.mutating import Step, changed, named
from pressing.quilts import SASHED, quilt

QUILT = """\
packs: {bundle: {squares: 10 in, count: 42}}
fabrics:
  red: {cut-from: {pack: bundle}}
  cream: {}
  blue: {directional: lengthwise}
  green: {}
units:
  turn: {half-square: [red, cream]}
  goose: {flying-geese: {goose: cream, sky: green}}
  lean: {flipped-corners: {base: cream, ne: green}, size: 2 x 1}
blocks:
  hub: {rows: [[red, cream], [cream, red]]}
  one:
    cell: 2 in
    rows:
      - [turn,      goose,     turn@90]
      - [goose@270, hub,       goose@90]
      - [turn@270,  goose@180, turn@180]
  two:
    cell: 2 in
    rows:
      - [lean, lean@mirror]
      - [blue 2x3, green 1x3, blue 1x3]
quilt:
  arrange: [[one, two], [two, one]]
  sashing: {width: 1 in, fabric: cream, cornerstone: green, frame: yes}
  borders:
    - {width: 2 in, fabric: green, corners: cream}
    - {width: 4 in, fabric: cream, cut: crosswise}
  binding: {fabric: green}
  backing: {fabric: green}
sizes:
  small: {across: 4, down: 6}
  large: {across: 6, down: 8}
"""


@cache
def good() -> Plan:
    """A plan with every kind of part."""
    return plan_of(sample(QUILT))


@cache
def apart() -> Plan:
    """The same with binding and backing of cloths of their own."""
    return plan_of(sample(QUILT.replace("binding: {fabric: green}", "binding: {}").replace(
        "backing: {fabric: green}", "backing: {}"
    )))


def longer(amount: str) -> Callable[[Any], Any]:
    """More of a length of any kind."""
    return lambda value: value + (Length(amount) if isinstance(value, Length) else type(value)(amount))


def more(number: int) -> Callable[[Any], Any]:
    return lambda value: value + number


def dropped(value: Any) -> Any:
    return value[1:]


def less_bought(buy: Any) -> Any:
    return Buy(buy.amount / 2, buy.unit)


def is_part(part: str) -> Callable[[Any], bool]:
    return lambda item: bool(item.part == part)


def of_kind(kind: str) -> Callable[[Any], bool]:
    return lambda item: bool(item.kind == kind)


def has_segments(strip: Any) -> bool:
    return bool(strip.segments)


def has_yields(strip: Any) -> bool:
    return bool(strip.yields and not strip.segments)


def upright(piece: Any) -> bool:
    return bool(piece.upright)


SMALL = ("sizes", 0)
CREAM = ("fabrics", named("cream"), "sizes", 0)
GREEN = ("fabrics", named("green"), "sizes", 0)
RED = ("fabrics", named("red"), "sizes", 0)
TURN = ("units", named("turn"), "sizes", 0)
ONE = ("assemblies", named("one"), "sizes", 0)
STRIP = (*CREAM, "strips", has_yields)
JOINED = (*CREAM, "strips", has_segments)

CASES: dict[str, tuple[tuple[Step, ...], Callable[[Any], Any], str]] = {
    # The drawing.
    "a block moved": ((*SMALL, "items", is_part("block"), "x"), longer("1"), "a gap or an overlap"),
    "a sash too short": ((*SMALL, "items", is_part("sashing"), "height"), longer("-1/2"), "a gap or an overlap"),
    "a part lost": (
        (*SMALL, "items"), lambda items: [item for item in items if item.part != "border-2"],
        "not reach from edge to edge",
    ),
    "a side lost": ((*SMALL, "items"), lambda items: items[:-3] + items[-2:], "the right edge"),
    "the top is said to be higher": ((*SMALL, "finished", 1), longer("1"), "the unfinished top is not"),
    "the raw top is said to be wider": ((*SMALL, "unfinished", 0), longer("1/4"), "the unfinished top is not"),
    "another block in its place": (
        (*SMALL, "items", is_part("block"), "ref"), lambda ref: "hub", "`hub` does not fit its place in the top"
    ),
    "a unit in place of another": (
        ("assemblies", named("one"), "lines", 0, 1, "ref"), lambda ref: "turn", "`turn` does not fit its place in `one`"
    ),
    "a unit not turned": (
        ("assemblies", named("one"), "lines", 1, 0, "orientation"), lambda lay: Orientation(), "does not fit its place"
    ),
    "an edge that does not match": (
        ("assemblies", named("one"), "lines", 0, 0, "sizes", 0), lambda size: (Finished(3), Finished(3)),
        "edges of a line of `one` do not match",
    ),
    "a line too short": (("assemblies", named("one"), "lines", 0), dropped, "a line of `one` is not as long"),
    "a line lost": (("assemblies", named("one"), "lines"), dropped, "the lines of `one` do not add up"),
    "a part without a size": (
        ("assemblies", named("one"), "lines", 0, 0, "sizes", 0), lambda size: None, "a part of it has no size"
    ),
    "a block's raw size": ((*ONE, "unfinished", 0), lambda side: Unfinished("33/4"), "unfinished size of `one`"),
    "a unit's raw size": ((*TURN, "unfinished", 0), longer("1/8"), "unfinished size of `turn`"),
    "a unit of another size": ((*TURN, "request", "width"), longer("1/2"), "the patches of `turn` do not add up"),
    # Counts.
    "one block more": ((*ONE, "count"), more(1), "`one` is drawn"),
    "one unit less": ((*TURN, "need"), more(-1), "`turn` is drawn 48 times"),
    "one batch less": ((*TURN, "batches"), more(-1), "the batches of `turn`"),
    "units that no batch gives": ((*TURN, "made"), more(2), "the batches of `turn`"),
    "too few pieces to a batch": (
        ("units", named("goose"), "pieces", 1, "per_batch"), more(-1), "the pieces of `goose`"
    ),
    "a unit from the wrong cloth": (
        ("units", named("lean"), "fabrics"), lambda fabrics: (("base", "blue"), ("ne", "green")), "the pieces of `lean`"
    ),
    "a square cut too small": (
        ("units", named("turn"), "pieces", 0, "piece"), lambda piece: "B1", "the pieces of `turn`"
    ),
    "one piece more": (("pieces", of_kind("patch"), "sizes", 0, "need"), more(1), "and cut for"),
    "fewer made than needed": (("pieces", of_kind("patch"), "sizes", 0, "made"), lambda made: 0, "are needed"),
    "a sash too few": (("pieces", of_kind("sashing"), "sizes", 0, "need"), more(-1), "and cut for"),
    # Cut sizes.
    "a patch cut without seams": (
        ("pieces", of_kind("patch"), "sizes", 0, "width"), longer("-1/2"), "does not fit its place"
    ),
    "a one-way patch cut sideways": (
        ("pieces", upright, "sizes", 0),
        lambda size: type(size)(size.height, size.width, size.need, size.made, size.joins), "does not fit its place",
    ),
    "a border cut too short": (("pieces", of_kind("border"), "sizes", 0, "height"), longer("-1"), "does not fit"),
    # Cloth.
    "a strip too low": ((*STRIP, "height"), longer("-1/4"), "is higher than its strip"),
    "a strip too few": ((*STRIP, "count"), more(-1), "the strips do not add up"),
    "more in a strip than fit": ((*STRIP, "yields", 0, "each"), more(40), "more than the width of the cloth"),
    "a piece cut in another size": ((*STRIP, "yields", 0, "width"), longer("-1/4"), "cut in another size"),
    "a piece that the strips do not give": ((*STRIP, "yields", 0, "each"), more(-1), "the list says"),
    "less width used than it is": ((*STRIP, "used"), longer("-1"), "said to use less width"),
    "narrower cloth would do": ((*CREAM, "smallest_width"), lambda width: Length(5), "the smallest usable width"),
    "a joined strip too short": ((*JOINED, "segments", 0, "length"), longer("-30"), "joined strips are too short"),
    "a joined strip too narrow": ((*JOINED, "height"), longer("-2"), "is wider than the strip"),
    "a net length too short": ((*CREAM, "length"), longer("-1"), "do not add up to the net length"),
    "too little bought": ((*CREAM, "buy"), less_bought, "does not cover what is cut"),
    "nothing bought": ((*CREAM, "buy"), lambda buy: None, "nothing is bought"),
    "narrower cloth": (
        ("fabrics", named("cream"), "source", "size"), lambda size: (Length(20), size[1]), "the width of the cloth"
    ),
    "a fabric that a size lacks": (("fabrics", named("blue"), "sizes", 0), lambda size: None, "does not have"),
    # Precuts.
    "fewer precuts used than cut": ((*RED, "precuts", "used"), more(-1), "the precuts used do not add up"),
    "fewer sheets used than cut": (("packs", 0, "sizes", 0, "used"), more(-1), "do not add up to those used"),
    "no pack bought": (("packs", 0, "sizes", 0, "packs"), lambda packs: 0, "and 0 packs bought"),
    "a piece outside its precut": (
        (*RED, "precuts", "sheets", 0, "places", 0), lambda place: (place[0], Length(9), *place[2:]),
        "outside its precut",
    ),
    "pieces that overlap": (
        (*RED, "precuts", "sheets", 0, "places"), lambda places: (places[0], *places[:-1]), "overlap on a precut"
    ),
    "a layout that shows less": ((*RED, "precuts", "sheets", 0, "places"), dropped, "does not show what it gives"),
    "a precut that gives less": (
        (*RED, "precuts", "sheets", 0, "yields", 0, "each"), more(-1), "the precuts give"
    ),
    # Finishing.
    "batting smaller than the top": ((*SMALL, "batting", 0), lambda side: Length(30), "the batting is smaller"),
    "a binding too short": ((*SMALL, "binding", "made"), longer("-60"), "the binding is shorter"),
    "a join too few": ((*SMALL, "binding", "joins"), more(-1), "the joins of the binding"),
    "a strip of binding too few": ((*SMALL, "binding", "strips"), more(-1), "are cut for it"),
    "a backing too small": ((*SMALL, "backing", "size", 0), longer("-1"), "the backing is smaller"),
    "a panel too few": ((*SMALL, "backing", "panels"), dropped, "panels do not cover it"),
    "a backing that is not cut": ((*GREEN, "extra"), lambda extra: (), "the length for the backing"),
    "a border that begins elsewhere": (
        (*SMALL, "borders", 1, "before", 0), longer("1/4"), "border-2 does not begin where the last one ends"
    ),
    "a border of another width": ((*SMALL, "borders", 1, "width"), longer("1"), "do not add up to the top"),
    "another center": ((*SMALL, "center", 0), longer("1"), "border-1 does not begin"),
}
APART: dict[str, tuple[tuple[Step, ...], Callable[[Any], Any], str]] = {
    "a strip of binding too few": ((*SMALL, "binding", "strips"), more(-1), "do not give the length"),
    "too little bought for the binding": ((*SMALL, "binding", "buy"), less_bought, "bought for the binding"),
    "too little bought for the backing": ((*SMALL, "backing", "buy"), less_bought, "bought for the backing"),
    "panels longer than what is counted": ((*SMALL, "backing", "length"), longer("-70"), "panels are longer"),
}


def faults(plan: Plan, path: tuple[Step, ...], change: Callable[[Any], Any]) -> str:
    wrong = changed(plan, path, change)
    assert wrong != plan
    return "\n".join(verify(wrong))


@pytest.mark.parametrize("plan", [good, apart])
def test_a_good_plan_adds_up(plan: Callable[[], Plan]) -> None:
    assert verify(plan()) == ()


@pytest.mark.parametrize("case", CASES)
def test_what_is_wrong_is_named(case: str) -> None:
    path, change, words = CASES[case]
    assert words in faults(good(), path, change)


@pytest.mark.parametrize("case", APART)
def test_what_is_wrong_with_cloths_of_their_own_is_named(case: str) -> None:
    path, change, words = APART[case]
    assert words in faults(apart(), path, change)


def test_the_size_at_fault_is_named() -> None:
    found = faults(good(), ("sizes", 1, "batting", 0), lambda side: Length(30))
    assert found.startswith("large: ")


def test_a_cut_is_compared_as_a_cut() -> None:
    assert Cut(3) != Finished(3)


def pressed_plan() -> Plan:
    """A sashed quilt with all seams decided."""
    made = quilt(SASHED)
    return replace(made, pressing=plan_pressing(made, "nest"))


def test_pressing_that_counts_differently_on_the_top_is_refused() -> None:
    made = pressed_plan()
    assert made.pressing is not None
    assert verify(made) == ()
    turned = tuple(
        replace(seam, halves=(-seam.halves[0], -seam.halves[1]), way="back" if seam.way == "forward" else "forward")
        if seam.seam.owner.id.startswith("strip") else seam
        for seam in made.pressing.seams
    )
    assert "junctions nest on the top" in verify(replace(made, pressing=replace(made.pressing, seams=turned)))[0]
    claimed = tuple(replace(size, nested=size.nested - 1) for size in made.pressing.sizes)
    assert "the plan says" in verify(replace(made, pressing=replace(made.pressing, sizes=claimed)))[0]


def test_pressing_that_leaves_a_seam_out_or_contradicts_itself_is_refused() -> None:
    made = pressed_plan()
    assert made.pressing is not None
    strips = tuple(seam for seam in made.pressing.seams if not seam.seam.owner.id.startswith("strip"))
    assert "no direction" in verify(replace(made, pressing=replace(made.pressing, seams=strips)))[0]
    said = tuple(replace(seam, way="open") for seam in made.pressing.seams)
    assert any(" is open and lies " in fault for fault in verify(
        replace(made, pressing=replace(made.pressing, seams=said))))


def test_points_where_seams_pile_up_are_counted_again() -> None:
    pinwheel = "units: {t: {half-square: [dark, light]}}\n" \
        "blocks: {one: {cell: 3 in, rows: [[t, t@90], [t@270, t@180]]}}\nquilt: {arrange: [[one]]}\n"
    made = quilt(pinwheel)
    pressing = plan_pressing(made, "nest")
    assert pressing.heavy
    assert verify(replace(made, pressing=pressing)) == ()
    assert "more than six" in verify(replace(made, pressing=replace(pressing, heavy=())))[0]
