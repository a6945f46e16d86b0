"""The numbers of a plan as lines of plain text, one thing a line, for a terminal.

In: what `plan_json` gives.
Out: lines without their ends.
Never: a number that is not in it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from patchwright.core.length import Length
from patchwright.core.measure import decimal_text, fraction_text, printed_length


def plan_lines(numbers: dict[str, Any]) -> Iterator[str]:
    """The numbers as plain text, one thing a line."""
    yield f"{numbers['title']}, release {numbers['release']}"
    for size in numbers["sizes"]:
        yield ""
        yield f"{size['label']}: {_by(size['finished-text'])} finished, {_by(size['unfinished-text'])} unfinished"
        yield "  blocks"
        for block in size["blocks"]:
            yield f"    {block['id']}: {block['count']}, {_by(block['unfinished-text'])} unfinished"
        yield "  units"
        for unit in size["units"]:
            yield (
                f"    {unit['id']}: {unit['need']} ({unit['method']}, {unit['how']}), "
                f"{_by(unit['unfinished-text'])} unfinished"
            )
        yield "  pieces"
        for piece in size["pieces"]:
            spare = f", {piece['spare']} spare" if piece["spare"] else ""
            then = "" if piece["then"] == "none" else f", then cut {piece['then']} on the diagonal"
            yield f"    {piece['piece']}: {piece['need']} {piece['fabric']} {_by(piece['cut-text'])}{spare}{then}"
        if size["pressing"] is not None:
            pressing = size["pressing"]
            proof = numbers["pressing"]["proof"]
            yield f"  pressing: {pressing['nested']} of {pressing['junctions']} junctions nest ({proof})"
        yield from _cloth_lines(size)
        yield from _hanging_lines(size)
        yield from _batting_lines(size)


def _cloth_lines(size: dict[str, Any]) -> Iterator[str]:
    yield "  cloth"
    for fabric in size["fabrics"]:
        if fabric["precuts"] is not None:
            used = fabric["precuts"]
            yield f"    {fabric['letter']} {fabric['name']}: {used['used']} of {fabric['source']['pack']}"
            continue
        yield (
            f"    {fabric['letter']} {fabric['name']}: {_amount(fabric['buy'])} "
            f"(strips take {fabric['length-text']}, {fabric['proof']})"
        )
        for strip in fabric["strips"]:
            gives = [f"{part['each']} {part['piece']}" for part in strip["yields"]]
            gives += [f"a length of {part['piece']}" for part in strip["segments"]]
            yield f"      {strip['count']} × {strip['height-text']}: {', '.join(gives)}"
    if size["binding"] is not None:
        binding = size["binding"]
        own = f", {_amount(binding['buy'])}" if binding["buy"] else ""
        yield f"  binding: {binding['strips']} strips {binding['strip-text']}{own}"
    if size["backing"] is not None:
        backing = size["backing"]
        own = f", {_amount(backing['buy'])}" if backing["buy"] else ""
        yield f"  backing: {_by(backing['size-text'])}, {len(backing['panels'])} panels{own}"


def _hanging_lines(size: dict[str, Any]) -> Iterator[str]:
    for part in size["hanging"]:
        yield f"  {part['part'].removeprefix('hanging-')}: {part['count']} {part['piece']}"


def _batting_lines(size: dict[str, Any]) -> Iterator[str]:
    if size["by-block"] is None:
        yield f"  batting: {_by(size['batting']['size-text'])}"
        return
    for block in size["by-block"]["blocks"]:
        yield f"  layers: {block['count']} blocks, backs {block['piece']}, batting {_by(block['batting'])}"


def _by(pair: Sequence[str]) -> str:
    return " x ".join(pair)


def _amount(buy: dict[str, str] | None) -> str:
    if buy is None:
        return "nothing"
    amount = Fraction(buy["amount"])
    decimal = buy["unit"] == "m" and 10000 % amount.denominator == 0
    return f"{decimal_text(amount) if decimal else fraction_text(amount)} {buy['unit']}"


def list_lines(numbers: dict[str, Any]) -> Iterator[str]:
    """A bare list's plan as plain text."""
    def shown(length: str) -> str:
        return printed_length(Length(Fraction(length)), numbers["unit"])

    yield f"{numbers['name']}: {shown(numbers['width'])} wide"
    for piece in numbers["pieces"]:
        yield f"  {piece['piece']}: {piece['count']} of {_by([shown(side) for side in piece['cut']])}"
    for long in numbers["joined"]:
        lost = shown(long["loss"])
        yield f"  {long['piece']}: {shown(long['total'])} joined, {shown(long['height'])} high, {lost} lost at a join"
    if "k" in numbers:
        yield (
            f"  buy {_amount(numbers['buy'])}: {numbers['k']} steps of {shown(numbers['step'])} ({numbers['proof']}, "
            f"at least {numbers['k-bound']}); strips take {shown(numbers['length'])} "
            f"(at least {shown(numbers['length-bound'])})"
        )
        yield f"  works from a usable width of {shown(numbers['smallest-usable-width'])}"
        for strip in numbers["strips"]:
            gives = [
                f"{part['each']} {part['piece']}{' turned' if part['turned'] else ''}" for part in strip["cuts"]
            ]
            gives += [f"{shown(part['length'])} of {part['piece']}" for part in strip["segments"]]
            yield f"    {strip['count']} × {shown(strip['height'])}: {', '.join(gives)}"
    if "sheets" in numbers:
        yield (
            f"  {numbers['used']} precuts of {_by([shown(numbers[side]) for side in ('width', 'height')])} used, "
            f"{numbers['left']} left ({numbers['proof']}, at least {numbers['needed-bound']})"
        )
        for sheet in numbers["sheets"]:
            counts = Counter(part["piece"] for part in sheet["cuts"])
            yield f"    {sheet['count']} ×: {', '.join(f'{count} {piece}' for piece, count in counts.items())}"
