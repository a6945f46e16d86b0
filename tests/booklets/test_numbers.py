"""Every number of a plan, for every size, stands in the text that comes back from its PDF."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from booklets.built import PAPERS, Built, page_texts

pytestmark = [pytest.mark.slow, pytest.mark.xdist_group("booklets")]

GLYPHS = {
    Fraction(1, 2): "½", Fraction(1, 4): "¼", Fraction(3, 4): "¾", Fraction(1, 8): "⅛", Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝", Fraction(7, 8): "⅞", Fraction(1, 3): "⅓", Fraction(2, 3): "⅔",
}  # fmt: skip


def printed(value: str, unit: str) -> str:
    """A length of the plan as a booklet prints it: `13½″`, `34.5 cm`."""
    number = Fraction(value)
    if unit == "cm":
        return f"{float(number):g} cm"
    whole, part = divmod(number, 1)
    return f"{whole if whole or not part else ''}{GLYPHS[part] if part else ''}″"


def bought(buy: dict[str, str]) -> str:
    number = Fraction(buy["amount"])
    whole, part = divmod(number, 1)
    figures = f"{float(number):g}" if buy["unit"] == "m" else f"{whole or ''}{GLYPHS[part] if part else ''}"
    return f"{figures} {buy['unit']}"


def numbers(size: dict[str, Any], unit: str) -> Iterator[tuple[str, str]]:
    """(what, text) of everything that a maker of a size reads."""
    for key in ("finished", "unfinished"):
        for text in size[f"{key}-text"]:
            yield f"quilt {key}", text
    for block in size["blocks"]:
        yield f"blocks {block['id']}", str(block["count"])
        yield from ((f"block {block['id']}", text) for text in block["unfinished-text"])
    for made in size["units"]:
        yield f"units {made['id']}", str(made["need"])
        yield from ((f"unit {made['id']}", text) for text in made["unfinished-text"])
        taken: Counter[str] = Counter()
        for piece in made["pieces"]:
            taken[piece["piece"]] += piece["per-batch"] * made["batches"]
        yield from ((f"pieces of {made['id']}", f"{count} {piece}") for piece, count in taken.items())
    for piece in size["pieces"]:
        yield "piece", piece["piece"]
        if not piece["joins"]:
            yield f"need of {piece['piece']}", str(piece["need"])
            yield from ((f"cut {piece['piece']}", text) for text in piece["cut-text"])
    for fabric in size["fabrics"]:
        yield from _cloth(fabric, unit)
    yield from _finishing(size, unit)


def _cloth(fabric: dict[str, Any], unit: str) -> Iterator[tuple[str, str]]:
    yield "fabric", fabric["name"]
    if fabric["buy"] and fabric["buy"]["unit"] in ("yd", "m"):
        yield f"buy {fabric['fabric']}", bought(fabric["buy"])
    for strip in fabric["strips"]:
        yield f"strip of {fabric['fabric']}", strip["height-text"]
        yield f"strips of {fabric['fabric']}", str(strip["count"])
        yield f"used of {fabric['fabric']}", printed(strip["used"], unit)
        for given in strip["yields"]:
            yield f"each of {fabric['fabric']}", f"{given['each']} {given['piece']}"


def _finishing(size: dict[str, Any], unit: str) -> Iterator[tuple[str, str]]:
    yield from (("batting", text) for text in size["batting"]["size-text"])
    for border in size["borders"]:
        yield border["id"], printed(border["width"], unit)
    binding, backing = size["binding"], size["backing"]
    if binding:
        yield "binding strips", f"{binding['strips']} strips {binding['strip-text']}"
        yield "binding joins", str(binding["joins"])
        yield "binding length", printed(binding["length"], unit)
    if backing:
        yield from (("backing", text) for text in backing["size-text"])
        yield "backing length", printed(backing["length"], unit)
        yield from (("panel", printed(side, unit)) for panel in backing["panels"] for side in panel)
        if backing["buy"]:
            yield "buy backing", bought(backing["buy"])


def stands(text: str, inside: str) -> bool:
    """Whether a text stands there and is not part of another number; a metric extent names its unit once."""
    wanted = re.escape(text.replace("\u00a0", " ")).replace(r"\ cm", r"(?:\ cm|\ ×)").replace(r"\ ", r"\s?")
    return re.search(rf"(?<![\d.,⁄½⅓⅔¼¾⅛⅜⅝⅞]){wanted}(?![\d⁄½⅓⅔¼¾⅛⅜⅝⅞])", inside) is not None


@pytest.mark.parametrize("paper", PAPERS)
def test_all_sizes_booklet_has_every_number(built: Built, paper: str) -> None:
    text = " ".join(page_texts(built.pdf("", paper)))
    missing = [
        (size["size"], *entry)
        for size in built.plan["sizes"]
        for entry in numbers(size, built.plan["unit"])
        if not stands(entry[1], text)
    ]
    assert missing == []


@pytest.mark.parametrize("paper", PAPERS)
def test_one_size_booklet_has_every_number_of_its_size(built: Built, paper: str) -> None:
    for size in built.plan["sizes"]:
        text = " ".join(page_texts(built.pdf(size["size"], paper)))
        missing = [entry for entry in numbers(size, built.plan["unit"]) if not stands(entry[1], text)]
        assert missing == [], size["size"]


def test_packs_are_counted(built: Built) -> None:
    text = " ".join(page_texts(built.pdf("", "letter")))
    for pack in built.plan.get("packs", ()):
        for use in pack["sizes"]:
            if use:
                assert stands(f"{use['packs']} pack" + ("s" if use["packs"] > 1 else ""), text)
