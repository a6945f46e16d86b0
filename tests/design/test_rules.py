"""House rules: layers, ranges, systems of measure; and lengths in the other system."""

from __future__ import annotations

from fractions import Fraction

import pytest

from design.looking import only, shown
from patchwright.core.length import Length
from patchwright.design.rules import Rules
from planning.compiling import design_of, sample

METRIC = "lengths: centimeters\nblocks: {one: {cell: 8 cm, rows: [[red]]}}\n"


def rules(pattern: str = "", house: str = "") -> Rules:
    return design_of(sample(pattern), house).rules


def test_defaults_in_inches() -> None:
    made = rules()
    assert (made.seam, made.usable_width, made.binding_extra) == (Length("1/4"), Length(40), Length(10))
    assert (made.triangles, made.round_cuts) == ("standard", Fraction(1, 8))


def test_defaults_in_centimeters() -> None:
    made = rules(METRIC)
    assert (made.seam, made.triangles, made.round_cuts) == (Length("3/4"), "exact", Fraction(1, 4))


def test_the_pattern_overrides_the_house_and_the_house_the_defaults() -> None:
    house = "inches: {usable-width: 42 in, straightening: 2 in, binding: {strip: 2 1/4 in, extra: 12 in}}\n"
    made = rules("house: {inches: {straightening: 0 in, binding: {extra: 8 in}}}\n", house)
    assert (made.usable_width, made.straightening) == (Length(42), Length())
    assert (made.binding_strip, made.binding_extra) == (Length("9/4"), Length(8))


def test_general_rules_are_layered_key_by_key() -> None:
    house = "name: Longshore\njoins: {binding: straight, strips: diagonal}\nimprint: {address: Quay, copyright: Ours}\n"
    made = rules("house: {joins: {binding: diagonal}, imprint: {copyright: Mine}}\n", house)
    assert (made.binding_join, made.strip_join) == ("diagonal", "diagonal")
    assert (made.name, made.imprint.address, made.imprint.copyright) == ("Longshore", "Quay", "Mine")


def test_rules_of_the_other_system_do_not_count() -> None:
    assert rules("", "centimeters: {usable-width: 150 cm}\n").usable_width == Length(40)


def test_lengths_bought_may_go_by_several_steps() -> None:
    assert rules("house: {inches: {round-yardage: [1/3 yd, 1/8 yd]}}\n").round_yardage == (Length("9/2"), Length(12))


@pytest.mark.parametrize(
    ("written", "at", "hint"),
    [
        ("seam: 2 in", "2 in", "from 1/16 in to 1 in"), ("usable-width: 4 in", "4 in", "from 8 in to 130 in"),
        ("binding: {extra: 41 in}", "41 in", "from 0 in to 40 in"),
        ("round-yardage: [1/64 yd]", "1/64 yd", "at least 1 in"),
    ],
)
def test_a_rule_out_of_range(written: str, at: str, hint: str) -> None:
    found = only(sample(f"house: {{inches: {{{written}}}}}\n"))
    assert (found.code, found.at) == ("house-range", at)
    assert hint in found.hints


def test_a_mistake_of_the_house_is_shown_in_the_house_file() -> None:
    found = only(sample(), "inches:\n  seam: 2 in\n")
    assert (found.path, found.at) == ("house.yaml", "2 in")


def test_a_rule_in_the_other_system_is_refused() -> None:
    found = only(sample("house: {inches: {seam: 0.75 cm}}\n"))
    assert (found.code, found.at) == ("wrong-unit", "0.75 cm")


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("blocks: {one: {cell: 8 cm, rows: [[red]]}}\n", "8 cm"),
        ("blocks: {one: {size: 8 cm x 8 cm, rows: [[red]]}}\n", "8 cm x 8 cm"),
        ("units: {turn: {half-square: [red, cream], size: 5 cm x 5 cm}}\n", "5 cm x 5 cm"),
        ("quilt: {arrange: [[one]], borders: [{width: 50 mm, fabric: red}]}\n", "50 mm"),
        ("quilt: {arrange: [[one]], sashing: {width: 2 cm, fabric: red}}\n", "2 cm"),
    ],
)
def test_a_length_of_the_design_in_the_other_system_is_refused(text: str, at: str) -> None:
    found = next(one for one in shown(sample(text)) if one.code == "wrong-unit")
    assert found.at == at
    assert "never converted" in found.hints


def test_a_pack_in_the_other_system_converts_exactly() -> None:
    pack = design_of(sample("packs: {bundle: {squares: 25 cm, count: 20}}\n")).packs[0]
    assert pack.width == Length(Fraction(2500, 254))
    metric = design_of(sample(METRIC + "packs: {bundle: {strips: 2 1/2 in x 42 in, count: 40}}\n")).packs[0]
    assert (metric.height, metric.width) == (Length("6.35"), Length("106.68"))


def test_precuts_bought_singly_have_the_sizes_of_the_house() -> None:
    text = "fabrics: {red: {cut-from: {fat-quarters: 3}}}\nhouse: {inches: {fat-quarter: 17 in x 20 in}}\n"
    pack = design_of(sample(text)).packs[0]
    assert (pack.width, pack.height, pack.count, pack.single) == (Length(20), Length(17), 3, True)
