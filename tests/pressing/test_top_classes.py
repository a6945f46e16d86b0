"""Which seams of a top are one class: rows that join the same kinds of parts, and no two seams between rows."""

from __future__ import annotations

from dataclasses import replace

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing
from patchwright.planning.pressing.recount import recount
from patchwright.planning.pressing.terms import Owner
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.pressing import join_words
from patchwright.typesetting.content.scope import Scope
from patchwright.wording import load_wording
from pressing.quilts import counts, quilt

PAIR = "blocks:\n  one: {cell: 3 in, rows: [[dark]]}\n  two: {cell: 3 in, rows: [[light]]}\n"
SASHED = "sashing: {width: 1 in, fabric: other, cornerstone: dark"


def checkered(sizes: str) -> Plan:
    return quilt(f"{PAIR}quilt: {{arrange: [[one, two], [two, one]]}}\nsizes: {{{sizes}}}\n")


def test_a_size_with_sashing_and_one_without_nest_as_well_as_each_alone() -> None:
    plain, sashed = "plain: {across: 4, down: 4}", f"sashed: {{across: 4, down: 4, {SASHED}}}}}"
    alone = [counts(plan_pressing(checkered(size), "nest"))[0] for size in (plain, sashed)]
    both = checkered(f"{plain}, {sashed}")
    pressing = plan_pressing(both, "nest")
    assert counts(pressing) == alone == [(9, 9), (36, 36)]
    assert recount(both, pressing) == tuple(alone)


def test_sashing_takes_the_seams_whether_it_also_runs_around_or_not() -> None:
    """Common practice, no source: seams are pressed toward the sashing."""
    framed, inner = (f"{name}: {{across: 3, down: 3, {SASHED}, frame: {frame}}}}}" for name, frame in
                     (("framed", "yes"), ("inner", "no")))
    pressing = plan_pressing(checkered(f"{framed}, {inner}"), "nest")
    assert all(nested == total for nested, total in counts(pressing))
    for owner in ("block-framed", "block-sashed"):
        seams = pressing.seams_of("row", owner)
        assert seams
        assert {seam.toward for seam in seams} == {("sashing",)}


BARRED = """\
blocks:
  one: {cell: 6 in, rows: [[other]]}
  bar: {cell: 2 in, strip-piece: no, rows: [[dark 3x1, light 3x1]]}
quilt: {arrange: [[one]], borders: [{pieced: {repeat: [bar, bar@180], corner: dark}}]}
sizes: {only: {across: 4, down: 4}}
"""


def test_seams_between_rows_lie_each_for_itself_where_more_nests_so() -> None:
    plan = quilt(BARRED)
    pressing = plan_pressing(plan, "nest")
    ((nested, total),) = counts(pressing)
    assert recount(plan, pressing) == ((nested, total),)
    ways = [seam.way for seam in pressing.seams_of("top", "top") if seam.seam.part == "between"]
    assert set(ways) == {"forward", "back"}
    for half in (1, -1):
        alike = [
            replace(seam, way="forward" if half > 0 else "back", halves=(half, half))
            if seam.seam.owner == Owner("top", "top") else seam for seam in pressing.seams
        ]
        ((fewer, _),) = recount(plan, replace(pressing, seams=tuple(alike)))
        assert fewer < nested


def test_a_seam_that_lies_otherwise_is_named() -> None:
    plan = quilt(PAIR + "quilt: {arrange: [[one]]}\nsizes: {only: {across: 4, down: 5}}\n")
    pressing = plan_pressing(plan, "nest")
    odd = [
        replace(seam, way="back", halves=(-1, -1)) if seam.seam.owner == Owner("top", "top") and seam.seam.place == 2
        else seam for seam in pressing.seams
    ]
    pressed = replace(plan, pressing=replace(pressing, seams=tuple(odd)))
    scope = Scope(pressed, {}, load_wording("en"), EDITIONS["all-sizes"], (0,))
    assert join_words(scope, scope.sizes) == "Press the seam between rows 3 and 4 up, all others down."
