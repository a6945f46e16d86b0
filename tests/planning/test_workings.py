"""Numbers explained and summed up as text."""

from __future__ import annotations

from dataclasses import replace

import pytest

from patchwright.planning.dump import plan_json
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import plan_pressing, with_pressing
from patchwright.planning.summary import plan_lines
from patchwright.planning.workings import explain, known_names
from planning.compiling import plan_of, plan_of_file, sample
from pressing.quilts import SASHED, quilt

METRIC = """\
lengths: centimeters
blocks: {one: {cell: 8 cm, rows: [[red]]}}
quilt: {arrange: [[one]], backing: {}, binding: {fabric: cream}}
"""


@pytest.fixture(scope="module")
def example() -> Plan:
    return plan_of_file("rope-walk")


def test_every_name_is_explained_in_every_size_that_has_it(example: Plan) -> None:
    for name in known_names(example):
        workings = explain(example, name)
        assert workings
        assert {working.size for working in workings} <= {size.name for size in example.sizes}


def test_an_explanation_may_be_of_one_size(example: Plan) -> None:
    assert {working.size for working in explain(example, "binding", "throw")} == {"throw"}


def test_what_is_not_there_has_no_explanation(example: Plan) -> None:
    assert explain(example, "Z9") == ()
    assert explain(example, "binding", "king") == ()


def test_counts_of_an_explained_piece_add_up(example: Plan) -> None:
    """The uses of a plain piece are its need."""
    for piece in example.pieces:
        for index, size in enumerate(example.sizes):
            cut = piece.sizes[index]
            if cut is None or piece.kind == "binding":
                continue
            rules = ("plain-patch", "plain-cloth", "unit-piece", "unit-piece-rounded")
            uses = [dict(working.values) for working in explain(example, piece.id, size.name) if working.rule in rules]
            assert sum(int(values["count"]) for values in uses) == cut.need


def test_meters_are_decimal() -> None:
    plan = plan_of(sample(METRIC))
    workings = [dict(working.values) for name in ("red", "backing") for working in explain(plan, name)]
    amounts = [values["amount"].removesuffix(" m") for values in workings if "amount" in values]
    assert amounts
    assert all("/" not in amount for amount in amounts)
    assert not [line for line in plan_lines(plan_json(plan)) if "⁄" in line]


def test_pressing_is_explained_with_its_counts_and_proof() -> None:
    made = quilt(SASHED)
    assert "pressing" not in known_names(made)
    pressed = replace(made, pressing=plan_pressing(made, "nest"))
    assert pressed.pressing is not None
    assert "pressing" in known_names(pressed)
    for index, size in enumerate(pressed.sizes):
        told = explain(pressed, "pressing", size.name)
        own = pressed.pressing.sizes[index]
        assert (told[0].rule, dict(told[0].values)["nested"]) == ("pressing-nested", str(own.nested))
        assert told[1].rule == f"pressing-proof-{pressed.pressing.proof}"
        assert sum(working.rule.startswith("pressing-seam") for working in told) == len(pressed.pressing.seams)


def test_by_the_rule_dark_nothing_is_said_of_ways_that_are_less_toward_the_dark() -> None:
    """`nest` lets more of these seams nest, so that only ways toward the dark can be what none nests more than."""
    text = """\
blocks: {c: {cell: 3 in, strip-piece: no, rows: [[dark, light], [dark, light], [light, other]]}}
quilt: {arrange: [[c]]}
sizes: {only: {across: 2, down: 2}}
"""
    dark = with_pressing(quilt("house: {pressing: dark}\n" + text))
    nest = with_pressing(quilt(text))
    assert dark.pressing is not None
    assert nest.pressing is not None
    assert dark.pressing.nested < nest.pressing.nested
    assert explain(dark, "pressing", "only")[1].rule == f"pressing-proof-dark-{dark.pressing.proof}"
    assert explain(nest, "pressing", "only")[1].rule == f"pressing-proof-{nest.pressing.proof}"


def test_a_pack_is_explained_by_what_is_usable_of_its_pieces() -> None:
    """Squares of 10 of which 9 7/8 are usable: four of 4 1/2 from each, so 8 make 32."""
    plan = plan_of(sample("""\
packs: {bundle: {squares: 10 in, count: 42, usable: 9 7/8 in}}
fabrics: {red: {cut-from: {pack: bundle}}, cream: {}}
blocks: {one: {cell: 4 in, rows: [[red, cream], [cream, red]]}}
sizes: {only: {across: 4, down: 4}}
"""))
    need = next(working for working in explain(plan, "bundle") if working.rule == "pack-need")
    assert {key: value for key, value in need.values if key in ("width", "height", "needed")} == {
        "width": "9 7/8 in", "height": "9 7/8 in", "needed": "8",
    }
