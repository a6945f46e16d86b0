"""The independent check of prints: good plans pass, and a print that cannot give what it is for is named."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from patchwright.planning.plan import Plan
from patchwright.planning.verify import verify
from planning.compiling import plan_of, sample
from planning.mutating import changed

QUILT = """\
packs: {bundle: {squares: 10 in, count: 42, prints: 14}}
fabrics:
  deck: {}
  star: {cut-from: {pack: bundle}, same-print: SHARE}
  heart: {cut-from: {pack: bundle}, same-print: block}
units: {turn: {half-square: [star, deck]}}
blocks:
  boat:
    cell: 2 in
    rows:
      - [star 2x2, heart 2x2]
      - [turn, turn, turn, turn]
quilt: {arrange: [[boat]]}
sizes: {wall: {across: 3, down: 3}}
"""
PACK = ("packs", 0, "sizes", 0)


def of(share: str) -> Plan:
    return plan_of(sample(QUILT.replace("SHARE", share)))


@pytest.mark.parametrize("share", ["block", "quilt", "unit", "turn"])
def test_a_plan_with_shared_prints_adds_up(share: str) -> None:
    plan = of(share)
    use = plan.packs[0].sizes[0]
    assert use is not None
    assert all(share.layouts for share in use.shares if share.places)
    assert verify(plan) == ()


def fewer(sheets: Any) -> Any:
    return tuple(replace(sheet, yields=tuple(replace(part, each=part.each - 1) for part in sheet.yields))
                 for sheet in sheets)


def with_print(change: Callable[[Any], Any]) -> Callable[[Any], Any]:
    return lambda shares: (change(shares[0]), *shares[1:])


CASES: dict[str, tuple[tuple[str | int, ...], Callable[[Any], Any], str]] = {
    "a print that lost a precut": (
        (*PACK, "shares"), with_print(lambda share: replace(share, layouts=share.layouts[1:])), "does not give what"
    ),
    "layouts that give less": ((*PACK, "sheets"), fewer, "does not give what"),
    "a place served twice": (
        (*PACK, "shares"), lambda shares: (*shares, shares[0]), "is served by 2 prints"
    ),
    "a layout used more often than it is cut": (
        (*PACK, "shares"), with_print(lambda share: replace(share, layouts=share.layouts * 50)), "times and used by"
    ),
    "more loose pieces than there are": (
        (*PACK, "shares"), with_print(lambda share: replace(share, loose=(("B1", 99),))), "loose pieces"
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_a_wrong_print_is_named(name: str) -> None:
    path, change, words = CASES[name]
    faults = verify(changed(of("block"), path, change))
    assert any(words in fault for fault in faults), faults
