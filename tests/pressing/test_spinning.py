"""Seams with several crossings: where they are spun, what that gains, and what is told and drawn of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from patchwright.diagrams.seam_places import places_in
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing, with_pressing
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Owner, Seam
from patchwright.planning.verify import verify
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.pressing import joining_words
from patchwright.typesetting.content.scope import Scope
from patchwright.wording import load_wording
from pressing.quilts import NINE_PATCH, counts, quilt

SIXTEEN = """\
blocks:
  big:
    cell: 3 in
    strip-piece: no
    rows:
      - [dark, light, dark, light]
      - [light, dark, light, dark]
      - [dark, light, dark, light]
      - [light, dark, light, other]
quilt: {arrange: [[big]]}
sizes: {only: {across: 2, down: 2}}
"""


def pressed(text: str, spinning: str) -> tuple[Plan, PressingPlan]:
    plan = quilt(f"house: {{spinning: {spinning}}}\n{text}")
    pressing = plan_pressing(plan, "nest")
    made = replace(plan, pressing=pressing)
    assert not verify(made)
    return made, pressing


def test_a_seam_of_three_crossings_is_spun_in_the_middle_where_all_then_nests() -> None:
    found = {spinning: pressed(SIXTEEN, spinning)[1] for spinning in ("never", "middle", "any")}
    nested = {spinning: counts(own)[0][0] for spinning, own in found.items()}
    assert nested["never"] < nested["middle"] == nested["any"] == 49 == counts(found["any"])[0][1]
    spun = [seam for seam in found["middle"].seams if seam.way == "spun"]
    assert spun
    assert {seam.spun_at for seam in spun} == {(2, 3)}
    assert not [seam for seam in found["never"].seams if seam.way == "spun"]


def test_a_nine_patch_has_no_crossing_in_the_middle_and_is_spun_beside_it_only_where_asked() -> None:
    middle, beside = (pressed(NINE_PATCH, spinning)[1] for spinning in ("middle", "any"))
    assert not [seam for seam in middle.seams if seam.way == "spun"]
    assert counts(middle)[0][0] < counts(beside)[0][0]
    assert {seam.spun_at for seam in beside.seams if seam.way == "spun"} <= {(1, 2), (2, 2)}


@pytest.mark.parametrize("at", [(1, 3), (3, 3), (2, 2), None])
def test_a_seam_that_is_spun_in_the_wrong_place_is_found(at: tuple[int, int] | None) -> None:
    plan, pressing = pressed(SIXTEEN, "middle")
    seam = next(seam.seam for seam in pressing.seams if seam.way == "spun")
    pairs = [own.spun_at for own in pressing.seams if own.seam == seam]
    assert pairs == [(2, 3)]
    wrong = tuple(replace(own, spun_at=at) if own.seam == seam else own for own in pressing.seams)
    faults = verify(replace(plan, pressing=replace(pressing, seams=wrong)))
    expected = at is None or at[1] != 3 or _turns_otherwise(pressing, seam, at[0])
    assert bool(faults) == expected


def _turns_otherwise(pressing: PressingPlan, seam: Seam, crossing: int) -> bool:
    """Whether what comes to a crossing of a row seam of the checkered block turns against the seam."""
    rows = [pressing.pressed(Seam(seam.owner, "within", line, 3 - crossing)).halves for line in
            (seam.line, seam.line + 1)]
    # All turn clockwise where the upper seam lies right, the lower one left, and the right part of this one down.
    upper, lower, right = rows[0][1], rows[1][0], pressing.pressed(seam).halves[0]
    return not upper == -lower == right


def test_the_crossing_is_told_and_drawn() -> None:
    plan, pressing = pressed(SIXTEEN.replace("across: 2, down: 2", "across: 3, down: 2"), "any")
    plan = with_pressing(plan)
    scope = Scope(plan, {}, load_wording("en"), EDITIONS["all-sizes"], (0,))
    said = joining_words(scope, plan.assemblies[0])
    spun = [seam for seam in pressing.seams_of("assembly", "big") if seam.way == "spun" and seam.seam.part == "between"]
    for seam in spun:
        assert seam.spun_at is not None
        number = seam.spun_at[1] + 1 - seam.spun_at[0]
        assert f"between rows {seam.seam.line + 1} and {seam.seam.line + 2}, spin number {number}, counted" in said
    places = places_in(plan, pressing, "assembly", "big", 0)
    drawn = {own.seam: own.spun for own in places.seams if own.is_spun}
    assert spun
    for seam in spun:
        assert seam.spun_at is not None
        assert drawn[Seam(Owner("assembly", "big"), "between", seam.seam.line)] == seam.spun_at[0] / 4
