"""What finishing takes, for the list of requirements: cloth of binding and backing, batting as it is sold.

In: the covered sizes' binding, backing and batting.
Out: short texts and rows.
Never: an amount that the plan does not have.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from patchwright.planning.plan import BattingRoll
from patchwright.typesetting.booklet import Inline
from patchwright.typesetting.content import asides
from patchwright.typesetting.content.buying import buy_text
from patchwright.typesetting.content.scope import Scope, words
from patchwright.typesetting.content.tables import Row, size_cells, text_cell


def batting_rows(scope: Scope) -> list[Row]:
    """The smallest package, and what comes off which roll; each where some covered size has it."""
    bought = [size.batting_bought for size in scope.sizes]
    packages = [scope.wording.extent(*one.package) if one.package is not None else None for one in bought]
    rolls = [_off_roll(scope, one.roll) if one.roll is not None else None for one in bought]
    rows: list[Row] = []
    for key, texts in (("package", packages), ("off-roll", rolls)):
        if any(texts):
            head, about = scope.say("requirements.batting"), scope.say(f"requirements.about.{key}")
            rows.append((text_cell(head), text_cell(about), *size_cells(scope, texts)))
    return rows


def batting_text(scope: Scope, index: int) -> tuple[Inline, ...]:
    """The size of the batting, or how many pieces of which size where every block has its own."""
    made = scope.plan.sizes[index].by_block
    if made is None:
        return asides.batting(scope, index)
    return words(scope.wording.listed_text([
        scope.say("by-block.pieces", count=block.count, size=scope.wording.extent(*block.batting))
        for block in made.blocks
    ]))


def _off_roll(scope: Scope, roll: BattingRoll) -> str:
    key = "requirements.roll" if roll.pieces == 1 else "requirements.roll-joined"
    return scope.say(key, amount=buy_text(scope, roll.buy), width=roll.width, count=roll.pieces)


def _binding(scope: Scope) -> tuple[Inline, ...]:
    bindings = [size.binding for size in scope.sizes if size.binding is not None]
    ways = dict.fromkeys(
        "along" if binding.is_along else "straight" if binding.way == "straight" else "bias" for binding in bindings
    )
    return scope.listed([scope.inlines(f"requirements.about.binding-{way}") for way in ways])


def _backing(scope: Scope) -> tuple[Inline, ...]:
    """By the usable width, or by the width at which a wide cloth is sold."""
    cloths = dict.fromkeys(
        (size.backing.wide, size.backing.usable_width) for size in scope.sizes if size.backing is not None
    )
    texts = []
    for wide, usable in cloths:
        if wide is not None:
            texts.append(scope.inlines("requirements.about.backing-wide", width=wide))
            continue
        usual = usable == scope.plan.rules.usable_width
        texts.append(scope.inlines("requirements.about.backing", width=asides.width(scope) if usual else usable))
    return scope.listed(texts)


def _batting(scope: Scope) -> tuple[Inline, ...]:
    by_block = any(size.by_block for size in scope.sizes)
    return scope.inlines(f"requirements.about.{'batting-by-block' if by_block else 'batting'}")


ABOUT: Mapping[str, Callable[[Scope], tuple[Inline, ...]]] = {
    "binding": _binding, "backing": _backing, "batting": _batting,
}
"""What stands beside each part in the list."""
