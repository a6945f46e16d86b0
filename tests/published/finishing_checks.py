"""Checks of binding, backing and batting. Each names the rules that its source assumes."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Literal

from patchwright.core.length import Length, Unfinished
from patchwright.design.design import Backing, Binding
from patchwright.design.house import LENGTH_RULES
from patchwright.design.rules import Rules
from patchwright.planning.finishing.backing import plan_backing
from patchwright.planning.finishing.batting import batting_size
from patchwright.planning.finishing.bias import continuous_squares, strip_lengths
from patchwright.planning.finishing.binding import BindingCloth, binding_need
from planning.compiling import design_of, plan_of, sample
from published.values import Row, checks, exclude

Top = tuple[Unfinished, Unfinished]


def rules() -> Rules:
    """The rules in force where nobody sets any."""
    return design_of(sample()).rules


def top(sides: list[float]) -> Top:
    width, height = (Unfinished(Fraction(str(side))) for side in sides)
    return width, height


def strips(
    row: Row, usable: str, extra: str, strip: str = "5/2", join: Literal["diagonal", "straight"] = "diagonal"
) -> int:
    """How many strips the plan takes by these rules."""
    own = replace(rules(), binding_extra=Length(extra), binding_join=join)
    need = binding_need(Binding("", Length(strip)), top(row.inputs["quilt"]), BindingCloth(Length(usable)), own)
    assert need is not None
    return need.strips


@checks("bind-salsa", "bind-vision", "bind-onepiece")
def magazine_binding(row: Row) -> None:
    """Strips of 2 1/2 at 42 usable, 10 extra, diagonal joins that each lose a strip's width."""
    assert strips(row, "42", "10") == row.expected


@checks("bind-40x50")
def binding_without_extra(row: Row) -> None:
    """40 usable, nothing extra; the count stands with joins too."""
    assert strips(row, "40", "0") == row.expected


@checks("bind-40x50-in")
def length_for_binding(row: Row) -> None:
    """Strips side by side, nothing for straightening; the plan buys the next eighth of a yard."""
    width = Length(Fraction(str(row.inputs["width"])))
    assert width * row.inputs["strips"] == Length(Fraction(str(row.expected)))


@checks("bind-50x60-38")
def binding_with_joins_taken_off_the_width(row: Row) -> None:
    """40 usable less 2 for every join: strips of 2 with diagonal joins, nothing extra."""
    assert strips(row, "40", "0", strip="2") == row.expected


@checks("bind-38_5")
def binding_of_a_small_quilt(row: Row) -> None:
    """42 usable, nothing extra."""
    assert strips(row, "42", "0") == row.expected


@checks("bind-96x110")
def binding_without_join_loss(row: Row) -> None:
    """40 usable, 12 extra, straight joins; diagonal joins take one strip more."""
    assert strips(row, "40", "12", join="straight") == row.expected
    assert strips(row, "40", "12") == row.expected + 1


@checks("bias-20")
def bias_of_a_square(row: Row) -> None:
    """The published 200 is the square's area over the strip's width; whole strips, joined, stay below it."""
    side, strip = Length(row.inputs["square"]), Length(row.inputs["strip"])
    tube = continuous_squares(side, Length(1), strip, Length("1/4"))
    assert tube is not None
    cut = sum(float(length) for length in strip_lengths(side, side, strip))
    assert max(cut, float(tube.made)) <= float(row.expected)


@checks("bias-500", "bias-350")
def square_for_continuous_bias(row: Row) -> None:
    """Published squares follow from area; counted in whole rounds with their seams, the square is that or larger."""
    need, strip = Length(row.inputs["length"]), Length(Fraction(str(row.inputs["strip"])))
    made = continuous_squares(Length(40), need, strip, Length("1/4"))
    assert made is not None
    assert Length(row.expected) <= made.size[0] <= Length(row.expected + 5)


@checks("batt-crib", "batt-twin", "batt-queen")
def packaged_batting(row: Row) -> None:
    width, height = row.expected
    assert (Length(width), Length(height)) in rules().batting_packages


@checks("bind-allow-10")
def usual_extra(row: Row) -> None:
    assert rules().binding_extra == Length(row.expected if isinstance(row.expected, int) else int(row.expected))


@checks("bind-allow-24")
def large_extra(row: Row) -> None:
    """A house may set it."""
    extra = int(row.expected)
    plan = plan_of(sample(f"""\
quilt: {{arrange: [[one]], binding: {{}}}}
house: {{inches: {{binding: {{extra: {extra} in}}}}}}
"""))
    binding = plan.sizes[0].binding
    assert binding is not None
    assert binding.length == Length(4) * Fraction(13, 2) + Length(extra)


@checks(
    "bind-width-suite-1-4", "bind-width-suite-1-2", "bind-width-suite-3-4", "bind-width-ct-double",
    "bind-width-ct-single",
)
def strip_width_may_be_chosen(row: Row) -> None:
    """Rules for the strip's width differ from teacher to teacher; each width may be set and is then used."""
    plan = plan_of(sample(f"quilt: {{arrange: [[one]], binding: {{strip: {row.text} in}}}}\n"))
    binding = plan.sizes[0].binding
    assert binding is not None
    assert binding.strip.length == Length(Fraction(str(row.expected)))


@checks("bind-width-common")
def usual_strip(row: Row) -> None:
    assert {"2 1/4", "2 1/2"} == set(row.expected.split(" or "))
    assert rules().binding_strip in (Length("9/4"), Length("5/2"))




@checks("batt-bigblock", "batt-vision", "batt-onepiece", "batt-salsa")
def magazine_batting(row: Row) -> None:
    """The extra on each side that the magazine adds, rounded up to whole inches."""
    own = replace(rules(), batting_overage=Length(row.inputs["extra each side"]))
    assert batting_size(top(row.inputs["quilt"]), own) == tuple(Length(side) for side in row.expected)


@checks("back-vision", "back-onepiece", "back-salsa")
def magazine_backing(row: Row) -> None:
    """42 usable, the extra on each side that the magazine adds, lengths by eighths or thirds, no straightening."""
    own = replace(
        rules(), backing_overage=Length(row.inputs["extra each side"]), straightening=Length(),
        round_yardage=(Length("9/2"), Length(12)),
    )
    backing = plan_backing(Backing("", Length(42), "none"), top(row.inputs["quilt"]), own)
    assert len(backing.panels) == row.inputs["panels across 42 in fabric"]
    assert backing.length == Length(Fraction(str(row.inputs["panel length"]))) * len(backing.panels)
    assert backing.buy is not None
    assert abs(float(backing.buy.amount) - row.expected) <= row.tolerance


@checks("back-60x70", "back-50x50", "back-55x70")
def backing_size(row: Row) -> None:
    """The extra on each side that the source adds."""
    own = replace(rules(), backing_overage=Length(row.inputs["extra each side"]))
    backing = plan_backing(Backing("", Length(42), "none"), top(row.inputs["quilt"]), own)
    assert backing.size == tuple(Length(side) for side in row.expected)


@checks("back-40x45")
def backing_of_one_panel(row: Row) -> None:
    """Cloth of 44 inches, 2 extra on each side, no straightening."""
    own = replace(rules(), backing_overage=Length(2), straightening=Length())
    backing = plan_backing(Backing("", Length(44), "none"), top(row.inputs["quilt"]), own)
    assert backing.seams == "none"
    assert backing.buy is not None
    assert abs(float(backing.buy.amount) - row.expected) <= row.tolerance


exclude(
    "the table does not say which sizes its beds have",
    "back-guild-twin", "back-guild-double", "back-guild-queen", "back-guild-king",
)


@checks("batt-margin")
def usual_batting(row: Row) -> None:
    low, high = (int(side) for side in row.expected.split("-"))
    assert Length(low) <= rules().batting_overage * 2 <= Length(high)
    batting = next(rule for rule in LENGTH_RULES if rule.path == ("batting", "overage"))
    least, most = batting.bounds("in")
    assert least * 2 <= Length(low)
    assert most * 2 >= Length(high)
