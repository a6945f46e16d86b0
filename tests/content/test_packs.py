"""Packs in a booklet: shared packs told once, prints and their places, what stays whole, other ways to buy."""

from __future__ import annotations

from functools import cache

from content.compiled import EvenLabels
from patchwright.core.source import Source
from patchwright.design.resolve import make_design
from patchwright.diagrams.figures import booklet_figures
from patchwright.dialect.parse import read_pattern
from patchwright.planning.build import make_plan
from patchwright.planning.dump import plan_json
from patchwright.planning.plan import Plan
from patchwright.planning.workings import explain
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.make import make_booklet
from patchwright.typesetting.content.plain import to_text
from patchwright.wording import load_wording

STAR_AND_HEART = """\
dialect: 1
pattern: Star and Heart
release: 1
lengths: inches
packs:
  bundle: {squares: 10 in, count: 42}
fabrics:
  deck: {color: ece7db}
  star: {name: Star prints, colors: [a9482f, 3f6f8f], cut-from: {pack: bundle}, same-print: block}
  heart: {name: Heart prints, colors: [a9482f, 3f6f8f], cut-from: {pack: bundle}, same-print: block}
blocks:
  boat:
    cell: 2 in
    rows:
      - [star 1x2, star 1x2, deck 2x2]
      - [heart 2x2, star 1x2, star 1x2]
quilt: {arrange: [[boat]], binding: {fabric: deck}}
sizes:
  wall: {across: 3, down: 3}
"""
"""Nine blocks, in each four rectangles of one print and a square of another: seven squares are least."""

ONE_KIND = STAR_AND_HEART.replace(
    "heart: {name: Heart prints, colors: [a9482f, 3f6f8f], cut-from: {pack: bundle}, same-print: block}",
    "heart: {alternatives: [{pack: bundle}, {squares: 5 in}, {fat-quarters: 2}]}",
).replace("  wall: {across: 3, down: 3}", "  wall: {across: 3, down: 3}\n  lap: {across: 4, down: 4}")


@cache
def plan_of(text: str) -> Plan:
    declared, _ = read_pattern(Source("sample.yaml", text))
    assert declared is not None
    design, _ = make_design(declared, None, "sample")
    assert design is not None
    plan, _ = make_plan(design, "best")
    assert plan is not None
    return plan


def text_of(text: str, size: str = "") -> str:
    """The booklet of one size, or of all sizes where none is named."""
    plan = plan_of(text)
    sizes = (size,) if size else tuple(one.name for one in plan.sizes)
    figures = booklet_figures(plan, load_wording(), EvenLabels(), sizes=sizes)
    made = make_booklet(plan, figures, load_wording(), EDITIONS["one-size" if size else "all-sizes"], sizes)
    return to_text(made).replace("\u00a0", " ")


def test_a_shared_pack_is_told_once_for_all_its_fabrics() -> None:
    text = text_of(STAR_AND_HEART, "wall")
    assert text.count("### Pack of 42 squares (10″ square)") == 1
    cut = "Cut up 7 precut squares; from these cut 36 rectangles 2½″ × 4½″ (B1) and 9 squares 4½″ (C1)."
    assert text.count(cut) == 1
    assert "Of 42 squares, 35 stay whole." in text
    assert "Check that you now have 36 B1." in text
    assert "Check that you now have 9 C1." in text


def test_every_place_of_a_mixed_pack_is_served_by_one_print() -> None:
    text = text_of(STAR_AND_HEART, "wall")
    _, _, table = text.partition("(Prints and what they are cut for)\n")
    rows = [line for line in table.splitlines() if line.partition(" | ")[0].isdecimal()][:7]
    assert [row.partition(" | ")[0] for row in rows] == ["1", "2", "3", "4", "5", "6", "7"]
    served: dict[str, list[int]] = {"B": [], "C": []}
    for row in rows:
        for part in row.split(" | ")[1].split("; "):
            letter, _, places = part.partition(" for boat ")
            served[letter] += [int(word) for word in places.replace(",", " ").replace("and", " ").split()]
    assert sorted(served["B"]) == sorted(served["C"]) == list(range(1, 10))


def test_prints_that_serve_alike_are_told_in_a_sentence() -> None:
    text = text_of(ONE_KIND)
    assert "Squares left whole | 37 | 34" in text
    assert "4 prints serve 2 boat blocks each and 1 print serves 1 boat block." in text
    assert "8 prints serve 2 boat blocks each." in text
    assert "Prints and what they are cut for" not in text
    assert "Strips of B" not in text


def test_other_ways_to_buy_stand_in_a_table() -> None:
    text = text_of(ONE_KIND)
    _, _, table = text.partition("(Other ways to buy)\n")
    rows = table.splitlines()[:4]
    assert rows[0] == "Fabric | Bought as | Wall | Lap"
    assert rows[1] == "▪ C · Heart | Pack of 42 squares (10″ square) | 1 pack | 1 pack"
    assert rows[2] == "▪ C · Heart | Squares (5″ square) | 9 squares | 16 squares"
    assert rows[3] == "▪ C · Heart | Fat quarters (18″ × 21″) | 2 fat quarters | 2 fat quarters"
    assert "Other ways to buy" not in text_of(STAR_AND_HEART, "wall")


def test_other_ways_to_buy_are_among_the_numbers() -> None:
    size = plan_json(plan_of(ONE_KIND))["sizes"][0]
    deck, _, heart = size["fabrics"]
    assert deck["alternatives"] == []
    assert [other["source"]["kind"] for other in heart["alternatives"]] == ["pack", "squares", "fat-quarters"]
    assert [other["precuts"]["used"] for other in heart["alternatives"]] == [3, 9, 1]
    assert all(other["serves"] for other in heart["alternatives"])


def test_packs_are_explained() -> None:
    said = explain(plan_of(STAR_AND_HEART), "bundle")
    assert [working.rule for working in said][:2] == ["pack-need", "pack-buy"]
    need = dict(said[0].values)
    assert (need["needed"], need["bound"], need["proof"]) == ("7", "7", "proven")
    assert sum(working.rule == "print-share" for working in said) == 7
    assert sum(int(dict(working.values)["count"]) for working in said if working.rule == "sheet") == 7
