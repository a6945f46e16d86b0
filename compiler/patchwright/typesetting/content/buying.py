"""What to buy, as text: amounts of cloth and packs, and the words for precuts.

In: fabrics, packs, binding and backing of the plan.
Out: short texts for tables and prose.
Never: a sum; amounts are the plan's.
"""

from __future__ import annotations

from patchwright.planning.plan import Alternative, Buy, FabricSize, PlannedFabric, PlannedPack
from patchwright.typesetting.content.scope import Scope


def buy_text(scope: Scope, buy: Buy) -> str:
    return scope.wording.amount(buy.amount, buy.unit)


def shopping_amount(scope: Scope, fabric: PlannedFabric, size: FabricSize) -> str:
    """What to buy of a fabric in one size; a fabric from a pack says so, since the pack has its own line."""
    pack = pack_of(scope, fabric)
    if size.buy is not None and pack is None:
        return buy_text(scope, size.buy)
    return scope.say("buy.from-pack" if pack is not None else "by-size.none")


def pack_of(scope: Scope, fabric: PlannedFabric) -> PlannedPack | None:
    return next((pack for pack in scope.plan.packs if pack.id == fabric.source.pack), None)


def pack_amount(scope: Scope, pack: PlannedPack, count: int) -> str:
    """`1 pack`, or the number of precuts where they are bought singly."""
    return scope.say(f"buy.single.{pack.kind}" if pack.single else "buy.packs", count=count)


def pack_text(scope: Scope, pack: PlannedPack) -> str:
    """`Pack of 42 squares, 10″ square`; a precut bought singly is named alone."""
    size = scope.extent((pack.width, pack.height))
    if pack.single:
        return scope.say(f"pack.single.{pack.kind}", size=size)
    return scope.say(f"pack.bundle.{pack.kind}", size=size, count=pack.count)


def source_text(scope: Scope, other: Alternative) -> str:
    """What another way to buy a fabric is: `yardage`, `Fat quarters (18″ × 21″)`, `Pack of 40 strips (2½″ × 42″)`."""
    kind = other.source.kind
    if kind == "yardage":
        return scope.say("alternatives.yardage")
    size = scope.extent((min(other.pack_size), max(other.pack_size)))
    if kind != "pack":
        return scope.say(f"pack.single.{kind}", size=size)
    known = next((pack.kind for pack in scope.plan.packs if pack.id == other.source.pack), None)
    key = known or ("squares" if other.pack_size[0] == other.pack_size[1] else "any")
    return scope.say(f"pack.bundle.{key}", size=size, count=other.pack_count)


def source_amount(scope: Scope, other: Alternative, size: FabricSize) -> str:
    """What to buy of it in one size."""
    if size.precuts is None:
        return buy_text(scope, size.buy) if size.buy is not None else scope.say("by-size.none")
    kind = other.source.kind
    return scope.say("buy.packs" if kind == "pack" else f"buy.single.{kind}", count=size.precuts.packs)


def use_text(scope: Scope, use: str) -> str:
    """`blocks`, `sashing`, `border 2`; a quilt with one border needs no number, and a medallion has rounds."""
    part, _, number = use.partition("-")
    if part == "border" and number:
        if any(size.medallion for size in scope.plan.sizes):
            return scope.say("use.round-number", number=int(number))
        most = max(len(size.borders) for size in scope.plan.sizes)
        return scope.say("use.border" if most == 1 else "use.border-number", number=int(number))
    return scope.say(f"use.{use}")


def purpose_text(scope: Scope, fabric: PlannedFabric) -> str:
    """The author's words for what a fabric is for, or its uses in order."""
    return fabric.purpose or scope.wording.listed_text([use_text(scope, use) for use in fabric.uses])
