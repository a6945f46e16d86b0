"""Medallions: a center with rounds, places checked by another geometry library, hand-worked sizes, what is refused.

Common practice, no source: a center on point is trimmed to a size; spacers or coping make whole repeats fit around it.
"""

from __future__ import annotations

import pytest
from shapely.geometry import Polygon, box
from shapely.ops import unary_union

from content.compiled import EvenLabels
from patchwright.core.length import ROOT_TWO, Length
from patchwright.diagrams.figures import booklet_figures
from patchwright.planning.plan import Plan, TopItem
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.verify import verify
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import to_text
from patchwright.wording import load_wording
from planning.compiling import cut_sides, errors, lengths, piece_size, plan_of, sample
from planning.mutating import changed

PATTERN = """\
fabrics: {{red: {{}}, cream: {{}}, blue: {{}}, gray: {{}}}}
units: {{turn: {{half-square: [red, gray]}}}}
blocks:
  heart: {{size: 12 in, rows: [[turn, turn@90], [turn@270, turn@180]]}}
  tooth: {{size: {tooth} in, rows: [[turn]]}}
  knot: {{size: {tooth} in, rows: [[red, gray], [gray, red]]}}
quilt:
  setting: medallion
  arrange: [[heart]]
{triangles}
  borders: [{rounds}]
sizes: {{only: {{}}}}
house: {{inches: {{usable-width: 120 in}}}}
"""
TRIANGLES = "  setting-triangles: {fabric: cream, trim-to: 18 in}"
PLAIN = "{width: 2 in, fabric: blue}"


def text(rounds: str = PLAIN, triangles: str = TRIANGLES, tooth: str = "2 1/2") -> str:
    return sample(PATTERN.format(rounds=rounds, triangles=triangles, tooth=tooth))


def pieced(more: str) -> str:
    return f"{{pieced: {{repeat: [tooth]{more}}}}}"


SPACED = pieced(", spacers: {fabric: blue}")
MIDDLE = pieced(", middle: knot, spacers: {fabric: blue}")
INNER = pieced(", corner: gray, spacers: {fabric: blue, at: middle}")
BESIDE = pieced(", middle: red, corner: gray, spacers: {fabric: blue, at: middle, least: 1 in}")
COPED = "{pieced: {repeat: [tooth], turn-at: middle}, coping: {fabric: blue}}"
TWO_SIDED = tuple(
    one[:-1] + f", along: {along}}}" for along in ("sides", "ends")
    for one in ("{width: 3 in, fabric: red}", SPACED, INNER.replace(", corner: gray", ""), COPED)
)
ROUNDS = (SPACED, MIDDLE, INNER, BESIDE, COPED, "{width: 3 in, fabric: blue, corners: mitered}", *TWO_SIDED)


def shape(item: TopItem) -> Polygon:
    if item.outline:
        return Polygon([(float(corner.x), float(corner.y)) for corner in item.outline])
    x, y, width, height = (float(side) for side in (item.x, item.y, item.width, item.height))
    return box(x, y, x + width, y + height)


@pytest.mark.parametrize("triangles", ["", TRIANGLES, "  setting-triangles: {fabric: cream}"])
@pytest.mark.parametrize("one", ROUNDS)
def test_the_pieces_tile_the_stated_quilt(one: str, triangles: str) -> None:
    plan = plan_of(text(f"{PLAIN}, {one}, {PLAIN}", triangles))
    size = plan.sizes[0]
    width, height = (float(side) for side in size.finished)
    shapes = [shape(item) for item in size.items]
    assert unary_union(shapes).symmetric_difference(box(0, 0, width, height)).area == pytest.approx(0, abs=1e-9)
    assert sum(one.area for one in shapes) == pytest.approx(width * height)
    assert size.medallion
    afters = [[float(side) - 0.5 for side in border.after] for border in size.borders]
    assert afters == sorted(afters)
    assert afters[-1] == pytest.approx([width, height])
    assert (width == height) == ("along" not in one)


def test_a_center_is_trimmed_to_a_size() -> None:
    """A 12-inch block is 16.97 from point to point; trimmed to 18, the edges lie 0.515 beyond its points.

    The corners are 18 less half of 16.97 on their short sides, 9.515; with 7/8 that is 10.39, so squares are 10 1/2.
    """
    plan = plan_of(text())
    size = plan.sizes[0]
    assert size.float is not None
    assert size.float.length == (Length(18) - ROOT_TWO * 12) / 2
    assert [side.length for side in size.center] == list(lengths("18 1/2", "18 1/2"))
    corner = next(piece for piece in plan.pieces if piece.then == "once" and piece.fabric == "cream")
    assert (piece_size(corner).width.length, piece_size(corner).need) == (*lengths("10 1/2"), 2)


def spacers(plan: Plan, number: int = 0) -> list[Length]:
    """The shorter finished sides of the spacers of a round, one of each."""
    border = plan.sizes[0].borders[number]
    made = [next(piece for piece in plan.pieces if piece.id == own) for own in border.spacers]
    sizes = [piece_size(piece) for piece in made]
    return [min(own.width, own.height).length - plan.rules.seam * 2 for own in sizes]


CASES = {
    # 18 takes seven of 2 1/2, 17 1/2; half an inch is left, a quarter at each end: too narrow, so six and 1 1/2 each.
    "at the ends": (SPACED, 6, "1 1/2"),
    # One in the middle: three to each side, 15, and 3 are left; it is wider than the border, so the piece lies across.
    "in the middle": (INNER, 6, "2 1/2"),
    # A block in the middle, 2 1/2, and three to each side, 15: half an inch is left; two to each side leave 2 3/4 each.
    "beside the middle": (MIDDLE, 4, "2 1/2"),
}


@pytest.mark.parametrize("name", CASES)
def test_spacers_fill_the_rows(name: str) -> None:
    one, blocks, narrow = CASES[name]
    plan = plan_of(text(one))
    border = plan.sizes[0].borders[0]
    counts = dict(border.side_units)
    assert counts["tooth"] + counts.get("tooth-reversed", 0) == blocks
    assert counts == dict(border.end_units)
    assert spacers(plan) == list(lengths(narrow))
    longs = {max(sides) for sides in cut_sides(plan, "blue")}
    assert {"at the ends": Length("3"), "in the middle": Length("7/2"), "beside the middle": Length("13/4")}[
        name] in longs


def test_no_spacer_where_whole_repeats_fit() -> None:
    plan = plan_of(text(SPACED, tooth="3"))
    assert plan.sizes[0].borders[0].spacers == ()
    assert dict(plan.sizes[0].borders[0].side_units) == {"tooth": 6}


def test_spacers_around_a_center_of_no_ruler_size_are_cut_larger() -> None:
    """16.97 takes six of 2 1/2 and leaves 1.97, 0.985 at each end: cut 1 1/2 with its seams and trimmed."""
    plan = plan_of(text(SPACED, "  setting-triangles: {fabric: cream}"))
    assert spacers(plan) == list(lengths("1"))
    assert verify(plan) == ()


@pytest.mark.parametrize("one", TWO_SIDED)
def test_rounds_on_two_sides_are_counted_and_told(one: str) -> None:
    plan = plan_of(text(f"{PLAIN}, {one}, {PLAIN}"), effort="best")
    assert plan.pressing is not None
    assert [(size.nested, size.total) for size in plan.pressing.sizes] == list(recount(plan, plan.pressing))
    border = next(border for border in plan.sizes[0].borders if not (border.sides and border.ends))
    assert (border.sides, border.ends) == (bool(border.width.length), bool(border.high.length))
    assert bool(border.side_piece or border.side_units) == border.sides
    assert bool(border.end_piece or border.end_units) == border.ends
    assert border.corner_kind == "none"
    for language in ("en", "de"):
        words = load_wording(language)
        figures = booklet_figures(plan, words, EvenLabels())
        told = to_text(make_booklet(plan, figures, words, EDITIONS["all-sizes"], ("only",)))
        said = {"en": ("along the two sides only", "along top and bottom only"),
                "de": ("nur an den beiden Seiten", "nur oben und unten")}[language]
        assert [part in told for part in said] == ["along: sides" in one, "along: ends" in one]


@pytest.mark.parametrize("rule", ["nest", "open"])
def test_pressing_is_recounted_on_the_finished_top(rule: str) -> None:
    plan = plan_of(text(f"{PLAIN}, {MIDDLE}, {INNER}").replace("house: {", f"house: {{pressing: {rule}, "))
    pressing = plan_pressing(plan, rule)  # type: ignore[arg-type]
    assert [(size.nested, size.total) for size in pressing.sizes] == list(recount(plan, pressing))


@pytest.mark.parametrize(("language", "said"), [
    ("en", ("Rounds", "With round 2", "Trim the center to exactly 18½″ × 18½″", "at both ends", "23″ × 23″")),
    ("de", ("Runden", "Mit Runde 2", "auf genau 18½″ × 18½″", "an beiden Enden", "23″ × 23″")),
])
def test_the_booklet_speaks_of_rounds_and_their_measures(language: str, said: tuple[str, ...]) -> None:
    plan = plan_of(text(f"{{width: 2 1/4 in, fabric: blue}}, {SPACED}"), effort="best")
    words = load_wording(language)
    figures = booklet_figures(plan, words, EvenLabels())
    told = to_text(make_booklet(plan, figures, words, EDITIONS["one-size"], ("only",))).replace("\u00a0", " ")
    assert [part for part in said if part not in told] == []


REFUSED = {
    "no rounds": (text(PLAIN).replace(f"  borders: [{PLAIN}]\n", ""), "medallion-without-rounds", ""),
    "trimmed too small": (
        text().replace("trim-to: 18 in", "trim-to: 16 in"), "trim-to-does-not-fit", "the least that would do is 17 in"
    ),
    "trimmed unevenly": (
        text().replace("trim-to: 18 in", "trim-to: 18 in x 20 in"), "trim-to-does-not-fit", "the least that would do"
    ),
    "trimmed and floating": (text().replace("18 in}", "18 in, float: 1 in}"), "trim-and-float", "keep one"),
    "coping and spacers": (
        text(SPACED[:-1] + ", coping: {fabric: red}}"), "coping-and-spacers", "keep one"
    ),
    "corners on two sides": (
        text("{width: 2 in, fabric: blue, corners: red, along: ends}"), "border-along-with-corners",
        "take its corners out",
    ),
    "no whole repeat along the ends": (
        text(pieced("")[:-1] + ", along: ends}"), "pieced-border-does-not-fit", "17 1/2 in or 20 in wide and 18 in high"
    ),
    "no whole repeat": (
        text(pieced("")), "pieced-border-does-not-fit", "17 1/2 in or 20 in wide and 17 1/2 in or 20 in high"
    ),
    "too short for spacers": (
        text(pieced(", spacers: {fabric: blue, least: 8 in}")), "pieced-border-does-not-fit",
        "one of 18 1/2 in or more with spacers of at least 8 in",
    ),
    "a middle of another height": (text(pieced(", middle: heart")), "block-size-mismatch", "as high as it is wide"),
    "an unknown middle": (text(pieced(", middle: hart")), "unknown-name", "heart"),
    "alternate without triangles": (
        text(triangles="  alternate: red"), "only-on-point", "take the key out"
    ),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_be_is_refused_with_what_would_work(name: str) -> None:
    wrong, code, hint = REFUSED[name]
    found = errors(wrong)
    assert [item.code for item in found] == [code], found
    assert found[0].span.line > 1
    assert any(hint in text for text in (*found[0].hints, "")), found[0].hints


def test_a_wrong_round_is_named() -> None:
    plan = plan_of(text(f"{PLAIN}, {SPACED}"))
    spacer = plan.sizes[0].borders[1].spacers[0]
    shorter = changed(plan, ("pieces", lambda piece: piece.id == spacer, "sizes", 0, "width"),
                      lambda side: side - type(side)("1/2"))
    assert any("does not fit its place" in fault for fault in verify(shorter))
    fewer = changed(plan, ("pieces", lambda piece: piece.id == spacer, "sizes", 0, "need"), lambda need: need - 1)
    assert any("is drawn" in fault for fault in verify(fewer))
    one_sided = changed(plan, ("sizes", 0, "borders", 0, "sides"), lambda _: False)
    assert any("does not run along" in fault for fault in verify(one_sided))
