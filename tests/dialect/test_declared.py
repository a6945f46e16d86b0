"""What a declaration holds: values with their spans, keys as they were written."""

from __future__ import annotations

import pytest

from cases.runner import base
from patchwright.core.codes import laid_over
from patchwright.core.source import Source, span_of
from patchwright.dialect.declared import FabricDeclaration, PatternDeclaration
from patchwright.dialect.parse import read_house, read_pattern
from patchwright.dialect.scalars import Color


def _read(fragment: str = "") -> PatternDeclaration:
    declared, found = read_pattern(Source("p.yaml", laid_over(fragment, base())))
    assert not found
    assert declared is not None
    return declared


def test_values_keep_their_spans() -> None:
    declared = _read()
    crib = declared.sizes["crib"]
    assert crib.across is not None
    assert crib.across.number == 6
    assert str(crib.across.span) == "p.yaml:20:18"
    assert str(crib.key_span("down")) == "p.yaml:20:21"
    assert crib.has("down")
    assert not crib.has("sashing")
    assert [str(span_of(name)) for name in declared.fabrics] == ["p.yaml:6:3", "p.yaml:7:3"]


def test_units_are_filled_in() -> None:
    unit = _read(
        "units:\n  turn: {half-square: [rope, deck], make: eight-at-a-time}\n"
        "  cleat: {flipped-corners: {ne: deck, base: rope}, corner: 1/2, size: 2 x 1}\n"
    ).units
    assert unit["turn"].method == "half-square"
    assert [(role, name.text) for role, name in unit["turn"].fabrics] == [("first", "rope"), ("second", "deck")]
    assert [(key, word, str(span)) for key, word, span in unit["turn"].words] == [
        ("make", "eight-at-a-time", "p.yaml:9:43")
    ]
    assert str(unit["turn"].key_span("make")) == "p.yaml:9:37"
    assert [(role, name.text) for role, name in unit["cleat"].fabrics] == [("base", "rope"), ("ne", "deck")]
    assert [(key, length.text) for key, length in unit["cleat"].extents] == [("corner", "1/2")]
    assert unit["cleat"].size is not None
    assert not unit["cleat"].size.absolute


def test_equality_is_blind_to_places() -> None:
    one, other = _read(), _read("# a comment\nfabrics:\n  rope: {color: a9482f, name: Rope prints}\n"
                                "  deck: {name: Bleached deck, color: ece7db}\n")
    assert one.fabrics["rope"].span != other.fabrics["rope"].span
    assert one == other
    assert one != _read("release: 2\n")


def test_declarations_are_frozen_and_share_nothing() -> None:
    declared, other = _read(), FabricDeclaration(color=Color("#ffffff"))
    with pytest.raises(AttributeError, match="never changed"):
        declared.release = declared.dialect
    assert other.name is None
    assert _read().packs is not declared.packs


def test_a_house_file() -> None:
    house, found = read_house(Source("house.yaml", "name: Longshore\ninches: {round-yardage: [1/8 yd, 1/3 yd]}\n"))
    assert not found
    assert house is not None
    assert house.inches is not None
    assert [str(step.measure.value) for step in house.inches.round_yardage or []] == ["9/2", "12"]
    nothing, found = read_house(Source("house.yaml", "seams: 1/4 in\n"))
    assert nothing is None
    assert [item.code for item in found] == ["unknown-key"]
