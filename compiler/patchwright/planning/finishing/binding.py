"""How much binding one size takes, and from what it is cut: strips across the cloth or of a pack, or cloth on the bias.

In: the binding as designed, the top's unfinished size, its cloth and the rules.
Out: `BindingNeed`.
Never: cloth shared with the top; where binding is cut from a fabric of the top, the cloth plan counts it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patchwright.core.length import Cut, Length, Unfinished
from patchwright.design.design import Binding, BindingWay
from patchwright.design.rules import Rules
from patchwright.planning.finishing.bias import BiasCloth, continuous_squares, strips_across, strips_of_squares
from patchwright.planning.finishing.buying import bought_for, buy_for, joined_strips, measurable
from patchwright.planning.plan_finishing import PlannedBinding

EDGE = Length(1)
"""What is left of the usable width beside cloth for bias strips, which need not reach from edge to edge."""


@dataclass(frozen=True, slots=True)
class BindingCloth:
    """What a binding is cut from: usable width, and for a precut its usable height too."""

    width: Length
    height: Length | None = None


@dataclass(frozen=True, slots=True)
class BindingNeed:
    """How much binding a quilt takes: length around and extra, strips, and what they give joined."""

    strip: Cut
    needed: Length
    loss: Length
    strips: int
    joins: int
    made: Length
    way: BindingWay = "straight"
    cloth: tuple[Length, Length] | None = None
    """What is cut whole: a strip of a precut, or the cloth of a bias binding; None for strips across the cloth."""
    cloths: int = 0
    least: Length | None = None
    """The shortest bias strip that is joined."""
    lines: int = 0
    """Strips that are marked on one square of a continuous bias binding."""


def binding_need(
    binding: Binding, top: tuple[Unfinished, Unfinished], cloth: BindingCloth, rules: Rules, shared: bool = False
) -> BindingNeed | None:
    """Count strips with their joins; None where no bias strip can be cut from the cloth.

    A binding of cloth that is shared with the top is counted across the cloth; its cloth plan knows better.

    n strips of the usable width joined n − 1 times must reach the need. A diagonal join loses one strip width, a
    straight one two seams; strips on the bias end on the straight grain, and a join loses two seams times √2 of them.
    Common practice, no source.
    """
    around = (top[0].length + top[1].length) * 2
    needed = measurable(around + rules.binding_extra, rules.round_cuts)
    if binding.way == "straight" and cloth.height is None and not shared:
        along = _along(binding, needed, cloth, rules)
        if along is not None:
            return along
    if binding.way == "straight":
        loss = binding.strip if rules.binding_join == "diagonal" else rules.seam * 2
        if cloth.width <= loss:
            return None
        strips = joined_strips(needed, cloth.width, loss)
        made = cloth.width * strips - loss * (strips - 1)
        flat = (cloth.width, binding.strip) if cloth.height is not None else None
        return BindingNeed(
            Cut(binding.strip), needed, loss, strips, strips - 1, made, cloth=flat, cloths=strips if flat else 0
        )
    found = _bias(binding, needed, cloth, rules.seam)
    if found is None:
        return None
    return BindingNeed(
        Cut(binding.strip), needed, found.loss, found.strips, found.joins, found.made.down_to(rules.round_cuts),
        binding.way, found.size, found.count, found.least, found.lines,
    )


def strips_along(needed: Length, strips: int, loss: Length, step: Fraction) -> Length:
    """How long each of so many strips is that are cut along the cloth and joined to the length that is needed."""
    return ((needed + loss * (strips - 1)) / strips).up_to(step)


def _along(binding: Binding, needed: Length, cloth: BindingCloth, rules: Rules) -> BindingNeed | None:
    """Strips along a cloth of its own, where that is asked or buys less; of equal quantities the fewest joins."""
    strip, width = binding.strip, cloth.width
    loss = strip if rules.binding_join == "diagonal" else rules.seam * 2
    if binding.cut == "crosswise" or width <= loss:
        return None
    counts = range(1, (width / strip.rational()).floor() + 1)
    each = {count: strips_along(needed, count, loss, rules.round_cuts) for count in counts}
    if not each:
        return None
    count = min(counts, key=lambda count: (bought_for(each[count], rules), count))
    across = strip * joined_strips(needed, width, loss)
    if binding.cut == "auto" and bought_for(each[count], rules) >= bought_for(across, rules):
        return None
    made = each[count] * count - loss * (count - 1)
    return BindingNeed(
        Cut(strip), needed, loss, count, count - 1, made, cloth=(strip, each[count]), cloths=count
    )


def _bias(binding: Binding, needed: Length, cloth: BindingCloth, seam: Length) -> BiasCloth | None:
    side = cloth.width if cloth.height is None else min(cloth.width, cloth.height)
    if binding.way == "bias-strips":
        return strips_across(cloth.width - EDGE, needed, binding.strip, seam)
    if binding.way == "bias-squares":
        return strips_of_squares(side, needed, binding.strip, seam)
    return continuous_squares(side, needed, binding.strip, seam)


def plan_binding(binding: Binding, need: BindingNeed, piece: str, cloth: BindingCloth, rules: Rules) -> PlannedBinding:
    """The binding as planned; `piece` is its lettered piece where it is cut from a fabric of the top."""
    length = need.strip.length * need.strips
    if need.cloth is not None:
        across = (cloth.width / need.cloth[0].rational()).floor()
        length = need.cloth[1] * -(-need.cloths // across)
    return PlannedBinding(
        fabric=binding.fabric, piece=piece, strip=need.strip, strips=need.strips, joins=need.joins,
        length=need.needed, made=need.made, buy=None if piece else buy_for(length, rules),
        fold=binding.fold, way=need.way, loss=need.loss, cloth=need.cloth, cloths=need.cloths, least=need.least,
        lines=need.lines, width=cloth.width, net=length,
    )
