"""What methods refuse, with the nearest size that works, and that whatever is not refused can be made and drawn."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from methods.asking import INCH, METRIC, ask, rules
from patchwright.core.geometry import double_area
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import parse_measure
from patchwright.methods.method import Method, Refusal, Request, TriangleRules
from patchwright.methods.registry import BY_NAME, METHODS

CASES: list[tuple[str, Request, str, str]] = [
    ("half-square", ask("half-square", "3", "2"), "not-square", "`2 in x 2 in` or `3 in x 3 in`"),
    ("half-square", ask("half-square", "1/4", "1/4"), "seam-too-wide", "`3/8 in x 3/8 in`"),
    ("half-square", ask("half-square", "1", "1", METRIC), "seam-too-wide", "`1.25 cm x 1.25 cm`"),
    ("quarter-square", ask("quarter-square", "3", "2"), "not-square", "`3 in x 3 in`"),
    ("patch", ask("patch", "1/8", "2"), "seam-too-wide", "`1/4 in x 4 in`"),
    ("flying-geese", ask("flying-geese", "4", "3"), "geese-not-two-to-one", "`6 in x 3 in` or `4 in x 2 in`"),
    ("flying-geese", ask("flying-geese", "1/2", "1/4"), "seam-too-wide", "`3/4 in x 3/8 in`"),
    (
        "flipped-corners",
        ask("flipped-corners", "2", "2", extents={"corner": "3/2"}),
        "corner-overlap",
        "largest corner that works: `1 in`",
    ),
    (
        "flipped-corners",
        ask("flipped-corners", "2", "2", roles=("base", "nw"), extents={"corner": "3"}),
        "corner-too-large",
        "largest corner that works: `2 in`",
    ),
    (
        "flipped-corners",
        ask("flipped-corners", "2", "2", roles=("base", "nw", "se"), extents={"corner": "2"}),
        "corner-overlap",
        "a corner smaller than `2 in` works",
    ),
    ("flipped-corners", ask("flipped-corners", "2", "2", roles=("base",)), "no-corner", "give one of"),
    ("flipped-corners", ask("flipped-corners", "2", "2", extents={"corner": "1/8"}), "seam-too-wide", ""),
    ("square-in-square", ask("square-in-square", "3", "4"), "not-square", "`4 in x 4 in`"),
    ("nested-square", ask("nested-square", "1/2", "1/2"), "seam-too-wide", "`1 in x 1 in`"),
    ("half-rectangle", ask("half-rectangle", Length.root(2, 3), "6"), "not-measurable", "give the size"),
    ("nine-patch", ask("nine-patch", "3", "4"), "not-square", "`3 in x 3 in`"),
    ("log-cabin", ask("log-cabin", "7", "7", extents={"center": "6"}), "center-too-large", "`5 1/2 in`"),
    ("strip-set", ask("strip-set", "2", "1/2", roles=("first", "second", "third")), "seam-too-wide", ""),
]


@pytest.mark.parametrize(("method", "request_", "code", "hint"), [pytest.param(*case, id=case[2]) for case in CASES])
def test_refused(method: str, request_: Request, code: str, hint: str) -> None:
    refusals = BY_NAME[method].refuse(request_)
    assert [refusal.code for refusal in refusals] == [code]
    assert hint in " ".join(refusals[0].hints)
    assert re.match(r"[a-z].*[^.]$", refusals[0].message)


@pytest.mark.parametrize(("method", "request_", "code", "hint"), [pytest.param(*case, id=case[2]) for case in CASES])
def test_hinted_sizes_work(method: str, request_: Request, code: str, hint: str) -> None:
    """Every size and every corner that a hint names is accepted."""
    (refusal,) = BY_NAME[method].refuse(request_)
    for width, height in hinted_sizes(refusal):
        assert BY_NAME[method].refuse(resized(request_, width, height, request_.extents)) == ()
    for length in re.findall(r"largest (?:corner|center) that works: `([^`]+)`", " ".join(refusal.hints)):
        extents = ((refusal.key, Length(parse_measure(length).value)),)
        assert BY_NAME[method].refuse(resized(request_, request_.width, request_.height, extents)) == ()


def hinted_sizes(refusal: Refusal) -> list[tuple[Length, Length]]:
    pairs = re.findall(r"`([^`]+) x ([^`]+)`", " ".join(refusal.hints))
    return [(Length(parse_measure(one).value), Length(parse_measure(other).value)) for one, other in pairs]


def resized(request: Request, width: Length, height: Length, extents: tuple[tuple[str, Length], ...]) -> Request:
    if "corner" in dict(extents) and width > request.width:
        extents = tuple((name, length * (width / request.width).rational()) for name, length in extents)
    return Request(width, height, request.roles, request.words, extents, request.rules)


SIDES = st.builds(Fraction, st.integers(1, 200), st.sampled_from([1, 2, 3, 4, 8, 16]))
HOUSES = st.builds(
    lambda system, kind, seam, step: rules(system, kind, seam=seam, step=step),
    st.sampled_from(["in", "cm"]),
    st.sampled_from(["standard", "exact", "trim"]),
    st.sampled_from(["1/8", "1/4", "3/8", "1/2", "3/4", "1"]),
    st.sampled_from(["1/16", "1/8", "1/4", "1/10"]),
)


@st.composite
def requests(draw: st.DrawFn) -> tuple[Method, Request]:
    method = draw(st.sampled_from(METHODS))
    width = Length(draw(SIDES))
    height = draw(st.sampled_from([width, width / 2, width * 2, Length(draw(SIDES))]))
    roles = tuple(r.name for r in method.roles if r.required or draw(st.booleans()))
    if method.listed:
        roles = tuple(r.name for r in method.roles)[: len(roles)]
    words = {key.name: draw(st.sampled_from(key.choices)) for key in method.keys if key.kind == "word"}
    extents = {key.name: Length(draw(SIDES)) for key in method.keys if key.kind == "extent"}
    return method, ask(method, width, height, draw(HOUSES), roles=roles, words=words, extents=extents)


@given(requests())
@settings(max_examples=400, deadline=None)
def test_anything_is_refused_or_made(asked: tuple[Method, Request]) -> None:
    """A refusal names a key and a reason; all else tiles its unit, and its cut sizes hold its patches."""
    method, request = asked
    refusals = method.refuse(request)
    if refusals:
        assert all(refusal.code and refusal.key and refusal.message for refusal in refusals)
        return
    recipe = method.recipe(request)
    covered = sum((double_area(patch.outline) for patch in method.patches(request)), ZERO)
    assert covered == request.width * request.height * 2
    assert all(piece.width.length > ZERO and piece.height.length > ZERO for piece in recipe.pieces)
    assert recipe.batch == len(recipe.gives) > 0
    assert recipe.rounding >= ZERO or "rounded-down" in recipe.notes
    stages = method.stages(request, recipe)
    assert all(stage.views for stage in stages)


@given(SIDES, st.sampled_from(["1/8", "3/8", "1/2"]))
def test_unusual_seams_get_the_exact_size(side: Fraction, seam: str) -> None:
    """The trade's constants hold for its own seam only: with any other, `standard` is `exact`."""
    law = [rules("in", kind, seam=seam) for kind in ("standard", "exact")]
    made = [half_square_side(Length(side), house) for house in law]
    assert made[0] == made[1] >= Length(side) + Length(seam) * 2 + Length.root(2) * Fraction(seam)


@given(SIDES)
def test_rules_are_in_order(side: Fraction) -> None:
    """`exact` is never more than `standard`, which is never more than `trim`; eight at a time is twice two."""
    law = [rules("in", kind) for kind in ("exact", "standard", "trim")]
    sizes = [half_square_side(Length(side), house) for house in law]
    assert sizes == sorted(sizes)
    two, eight = (
        BY_NAME["half-square"].recipe(ask("half-square", Length(side), Length(side), INCH, words={"make": make}))
        for make in ("two-at-a-time", "eight-at-a-time")
    )
    assert eight.pieces[0].width == two.pieces[0].width * 2


def half_square_side(side: Length, law: TriangleRules) -> Length:
    return BY_NAME["half-square"].recipe(ask("half-square", side, side, law)).pieces[0].width.length
