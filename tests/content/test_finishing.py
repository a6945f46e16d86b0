"""Finishing in booklets: every number of the plan stands there, and each step only where its size has it."""

from __future__ import annotations

import pytest

from content.compiled import booklet_of, plan_of
from patchwright.core.measure import printed_length
from patchwright.typesetting.content.plain import to_text

NAME = "gallery-wall"


def text(size: str = "") -> str:
    return to_text(booklet_of(NAME, size))


def test_cloth_strips_and_lengths_of_the_binding_stand_in_the_booklet() -> None:
    for size in plan_of(NAME).sizes:
        binding = size.binding
        assert binding is not None
        assert binding.cloth is not None
        said = text(size.name)
        for length in (binding.cloth[0], binding.length, binding.made, binding.strip.length):
            assert printed_length(length, "in") in said


@pytest.mark.parametrize(
    ("size", "there", "missing"),
    [
        ("wall", ("binding-cut-bias-squares", "binding-fold-single", "hanging-sleeve"), ("binding-cut-continuous",)),
        ("lap", ("binding-cut-continuous", "[binding-fold]"), ("binding-join-bias", "hanging-sleeve", "Hanging")),
    ],
)
def test_a_booklet_of_one_size_has_its_own_steps(size: str, there: tuple[str, ...], missing: tuple[str, ...]) -> None:
    said = text(size)
    assert [name for name in there if name not in said] == []
    assert [name for name in missing if name in said] == []


def test_steps_of_some_sizes_say_so() -> None:
    lines = text().splitlines()
    assert any("Wall only" in line and "bias" in line for line in lines)
    assert any("Lap only" in line and "diagonal" in line for line in lines)
    assert any("Wall only" in line and "upper" in line and "corners" in line for line in lines)


def test_supplies_follow_from_the_finishing() -> None:
    wall, lap = text("wall"), text("lap")
    assert "45° line" in wall
    assert "lines of the bias" not in wall
    assert "lines of the bias" in lap
    assert "rod to hang" in wall
    assert "rod to hang" not in lap
    assert "see-through" in wall


def test_batting_is_told_as_it_is_sold() -> None:
    for size in plan_of(NAME).sizes:
        bought = size.batting_bought
        assert bought.package is not None
        assert bought.roll is not None
        said = text(size.name)
        assert "\u00a0×\u00a0".join(printed_length(side, "in") for side in bought.package) in said
        assert f"{printed_length(bought.roll.width, 'in')} wide" in said


def test_matched_cloth_says_how_it_is_cut() -> None:
    said = text("lap")
    assert "centered on a motif" in said
    assert "same place of the repeat" in said
