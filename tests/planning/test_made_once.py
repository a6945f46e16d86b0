"""What is the same made thing turned is made once under any name; the finished quilt looks as it would otherwise."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.length import Length
from patchwright.planning import build
from patchwright.planning.made_once import made_once
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.press import with_pressing
from patchwright.planning.verify import verify
from patchwright.planning.verifying.made_once import _Shows, _turned
from planning.compiling import compile_text, design_of, sample

COLORS = """\
fabrics:
  dark: {color: 22344c, value: dark}
  light: {color: ece7db, value: light}
"""
ONE_WAY = COLORS.replace("light: {color", "light: {directional: lengthwise, color")
PAIR = "quilt: {arrange: [[a, b], [b, a]]}\nsizes: {only: {across: 2, down: 2}}\n"


def planned(text: str, colors: str = COLORS) -> tuple[Plan, list[Diagnostic]]:
    plan, found = compile_text(sample(colors + text))
    assert plan is not None, found
    return plan, [one for one in found if one.code == "made-twice"]


def made(plan: Plan) -> tuple[list[str], list[str]]:
    """What is made: the names of units and of blocks."""
    return [unit.id for unit in plan.units], [known.id for known in plan.assemblies]


def picture(plan: Plan, index: int) -> Counter[tuple[str, frozenset[tuple[Length, Length]]]]:
    """All patches of the blocks of a finished top, at their places."""
    shows = _Shows(plan)
    found: Counter[tuple[str, frozenset[tuple[Length, Length]]]] = Counter()
    for item in plan.sizes[index].items:
        if item.kind == "assembly":
            whole = next(known for known in plan.assemblies if known.id == item.ref)
            for fabric, corners in _turned(shows.assembly(whole, index), item.orientation.turns)[0]:
                found[fabric, frozenset((x + item.x, y + item.y) for x, y in corners)] += 1
    return found


ALIKE = {
    "written in rows": (
        "blocks:\n  a: {cell: 3 in, rows: [[dark/light, light/dark], [light/dark@90, dark/light@90]]}\n"
        "quilt: {arrange: [[a]]}\n", (1, 1)),
    "a name and one in a row": (
        "units: {h: {half-square: [light, dark]}}\nblocks:\n  a: {cell: 3 in, rows: [[h, dark/light]]}\n"
        "quilt: {arrange: [[a]]}\n", (1, 1)),
    "two names": (
        "units: {g: {half-square: [dark, light]}, h: {half-square: [light, dark]}}\n"
        "blocks:\n  a: {cell: 3 in, rows: [[g, h]]}\nquilt: {arrange: [[a]]}\n", (1, 1)),
    "quarter turns": (
        "units: {g: {quarter-square: [dark, light]}, h: {quarter-square: [light, dark]}}\n"
        "blocks:\n  a: {cell: 3 in, rows: [[g, h]]}\nquilt: {arrange: [[a]]}\n", (1, 1)),
    "four-patches": (
        "blocks:\n  a: {cell: 3 in, strip-piece: no, rows: [[dark, light], [light, dark]]}\n"
        "  b: {cell: 3 in, strip-piece: no, rows: [[light, dark], [dark, light]]}\n" + PAIR, (0, 1)),
    "rows and columns": (
        "blocks:\n  a: {cell: 3 in, strip-piece: no, rows: [[dark, dark], [light, dark]]}\n"
        "  b: {cell: 3 in, strip-piece: no, columns: [[dark, light], [dark, dark]]}\n" + PAIR, (0, 1)),
    "rows turned to columns": (
        "blocks:\n  a: {cell: 3 in, strip-piece: no, rows: [[dark, dark], [light, dark]]}\n"
        "  b: {cell: 3 in, strip-piece: no, columns: [[light, dark], [dark, dark]]}\n" + PAIR, (0, 1)),
    "other lines of the same look": (
        "units: {h: {half-square: [dark, light]}}\n"
        "blocks:\n  a: {cell: 3 in, strip-piece: no, rows: [[h, h@90], [dark, light]]}\n"
        "  b: {cell: 3 in, strip-piece: no, columns: [[h, dark], [h@90, light]]}\n" + PAIR, (1, 2)),
    "blocks of twin blocks": (
        "units: {g: {half-square: [dark, light]}, h: {half-square: [light, dark]}}\nblocks:\n"
        "  p: {rows: [[g, dark], [light, g]]}\n  q: {rows: [[h, light], [dark, h]]}\n"
        "  a: {cell: 1 in, rows: [[p, p@90]]}\n  b: {cell: 1 in, rows: [[q@180, q@270]]}\n"
        "  c: {cell: 2 in, rows: [[g, g]]}\n"
        "quilt: {arrange: [[a, b], [b@180, a]]}\nsizes: {only: {across: 2, down: 2}}\n", (1, 2)),
    "one made in another way": (
        "units: {g: {half-square: [dark, light], make: two-at-a-time}, h: {half-square: [light, dark], make: singly}}\n"
        "blocks:\n  a: {cell: 3 in, rows: [[g, h]]}\nquilt: {arrange: [[a]]}\n", (2, 1)),
    "mirror images": (
        "units: {g: {half-rectangle: [dark, light]}}\nblocks:\n"
        "  a: {cell: 2 in, rows: [[g 1x2, dark 1x2]]}\n  b: {cell: 2 in, rows: [[dark 1x2, g 1x2@mirror]]}\n" + PAIR,
        (2, 2)),
}
"""By what is told: a pattern, and how many units and blocks are made. Counted by hand."""


@pytest.mark.parametrize("name", ALIKE)
def test_what_is_one_thing_turned_is_made_once(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    text, counts = ALIKE[name]
    plan, warned = planned(text)
    assert (len(plan.units), len(plan.assemblies)) == counts
    assert not warned
    assert list(verify(with_pressing(plan))) == []
    monkeypatch.setattr(build, "made_once", lambda design, _: (design, ()))
    apart, _ = planned(text)
    assert picture(plan, 0) == picture(apart, 0)
    assert sum(size.need for unit in plan.units for size in unit.sizes if size) == sum(
        size.need for unit in apart.units for size in unit.sizes if size
    )
    fewer = len(plan.units) + len(plan.assemblies) < len(apart.units) + len(apart.assemblies)
    assert fewer == any("the same made thing" in fault for fault in verify(apart))


@pytest.mark.parametrize("text", [ALIKE["two names"][0], ALIKE["four-patches"][0]])
def test_one_way_prints_keep_what_is_turned_apart(text: str) -> None:
    """Turned, the print would stand on its head."""
    plan, _ = planned(text, ONE_WAY)
    assert (len(plan.units), len(plan.assemblies)) == ((2, 1) if "units" in text else (0, 2))
    assert list(verify(plan)) == []


NAMES = "units: {g: {half-square: [dark, light]}, h: {half-square: [light, dark]}}\n"
BLOCKS = """\
blocks:
  a: {cell: 3 in, strip-piece: no, rows: [[g, h], [dark, light]]}
  b: {cell: 3 in, strip-piece: no, rows: [[light, dark], [g, h]]}
"""


def test_the_name_that_the_text_is_about_stays() -> None:
    plan, warned = planned(NAMES + BLOCKS + PAIR + "text: {steps: {h: A note.}}\n")
    assert made(plan) == (["h"], ["a"])
    assert not warned
    plan, warned = planned(NAMES + BLOCKS + PAIR + "text: {introduction: 'Make {{ block.b.count }} of them.'}\n")
    assert made(plan) == (["g"], ["b"])
    assert not warned


def test_names_that_the_text_is_about_both_stay_with_a_warning() -> None:
    plan, warned = planned(NAMES + BLOCKS + PAIR + "text: {steps: {g: One., h: Other.}}\n")
    assert plan.apart == ("h", "g")
    assert made(plan)[0] == ["g", "h"]
    (warning,) = warned
    assert warning.message.startswith("`h` is `g` turned by 180 degrees")
    assert warning.hints[0].startswith("write `g@180` in place of `h`")
    assert list(verify(plan)) == []
    assert any("`g` and `h`" in fault for fault in verify(replace(plan, apart=())))


PLACED = {
    "grid": "quilt: {arrange: [[a, b@90], [b@mirror, a@180]]}\n",
    "on point": "quilt: {setting: on-point, arrange: [[a, b], [b@90, a]], "
    "setting-triangles: {fabric: dark}}\n",
    "strippy": "quilt: {setting: strippy, arrange: [[a, b], [b@90, a]], strips: {fabric: dark, width: 2 in}}\n",
    "pieced border": "quilt: {arrange: [[a]], borders: [{pieced: {repeat: [b, a], corner: b@90}, "
    "coping: {fabric: dark}}]}\n",
    "cornerstones": "quilt: {arrange: [[a]], sashing: {width: 4 in, fabric: dark, cornerstone: b}}\n",
    "corner": "quilt: {arrange: [[a]], borders: [{width: 4 in, fabric: dark, corner: b}]}\n",
    "upright corners": "quilt: {arrange: [[a]], borders: [{width: 4 in, fabric: dark, corners: b}]}\n",
}


@pytest.mark.parametrize("name", PLACED)
def test_wherever_a_name_stands_the_quilt_looks_as_it_would_otherwise(
    name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Corners and cornerstones, of which nothing says how they are turned, keep their name, and others take it."""
    text = "blocks:\n  a: {cell: 2 in, strip-piece: no, rows: [[dark, light], [light, light]]}\n"
    text += "  b: {cell: 2 in, strip-piece: no, rows: [[light, dark], [light, light]]}\n"
    text += PLACED[name] + "sizes: {only: {across: 3, down: 4}}\n"
    plan, _ = planned(text)
    kept = name in ("cornerstones", "corner", "upright corners")
    assert {known.block for known in plan.assemblies} == {"b" if kept else "a"}
    assert list(verify(with_pressing(plan))) == []
    monkeypatch.setattr(build, "made_once", lambda design, _: (design, ()))
    assert picture(plan, 0) == picture(planned(text)[0], 0)


TWO = """\
blocks:
  a: {cell: 4 in, rows: [[dark, light]]}
  b: {cell: 4 in, rows: [[light, dark]]}
quilt: {arrange: [[a, b]]BORDERS}
sizes:
  one: {across: 2, down: 2}
  two: {across: 2, down: 2, blocks: {b: {cell: CELL}}}
"""


@pytest.mark.parametrize(
    ("cell", "borders", "apart"),
    [
        ("4 in", "", ()), ("3 in", "", ("b", "a")),
        ("4 in", ", borders: [{width: 4 in, fabric: dark, corners: a}]", ()),
        ("4 in", ", borders: [{width: 4 in, fabric: dark, corners: a}, {width: 4 in, fabric: dark, corners: b}]",
         ("b", "a")),
    ],
)
def test_names_stay_where_they_grow_differently_or_stand_upright(
    cell: str, borders: str, apart: tuple[str, ...]
) -> None:
    design = design_of(sample(COLORS + TWO.replace("CELL", cell).replace("BORDERS", borders)))
    once, kept = made_once(design, Findings())
    assert kept == apart
    assert [block.id for block in once.blocks] == (["a", "b"] if apart else ["a"])


TURNS = ("", "@90", "@180", "@270")


@st.composite
def twins(draw: st.DrawFn) -> tuple[str, str]:
    """A block of two or three rows, and the same one turned, written with other names of its halves."""
    side = draw(st.integers(2, 3))
    cell = st.tuples(st.sampled_from(["dark", "light", "half"]), st.integers(0, 3))
    rows = [[draw(cell) for _ in range(side)] for _ in range(side)]
    turn = draw(st.integers(0, 3))
    lines = rows if turn in (0, 3) else rows[::-1]
    lines = lines if turn in (0, 1) else [line[::-1] for line in lines]
    swaps = draw(st.lists(st.booleans(), min_size=side * side, max_size=side * side))

    def item(part: tuple[str, int], more: int, swap: bool) -> str:
        name, own = part
        if name != "half":
            return name
        return f"{'light/dark' if swap else 'dark/light'}{TURNS[(own + more + 2 * swap) % 4]}"

    def written(axis: str, lines: list[list[tuple[str, int]]], more: int, swapped: list[bool]) -> str:
        left = iter(swapped)
        items = [[item(part, more, next(left)) for part in line] for line in lines]
        return f"{{cell: 2 in, {axis}: {items}}}".replace("'", "")

    first = written("rows", rows, 0, [False] * side * side)
    return first, written("columns" if turn % 2 else "rows", lines, turn, swaps)


@settings(max_examples=25, deadline=None)
@given(twins(), st.sampled_from(TURNS))
def test_a_block_turned_and_renamed_is_the_same_block(pair: tuple[str, str], turn: str) -> None:
    text = f"blocks:\n  a: {pair[0]}\n  b: {pair[1]}\nquilt: {{arrange: [[a, b{turn}], [b, a]]}}\n"
    text += "sizes: {only: {across: 2, down: 2}}\n"
    plan, _ = planned(text)
    assert {known.block for known in plan.assemblies} <= {"a", "a-quarter"}
    assert len([unit for unit in plan.units if unit.method == "half-square"]) <= 1
    assert list(verify(plan)) == []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(build, "made_once", lambda design, _: (design, ()))
        apart, _ = planned(text)
    assert picture(plan, 0) == picture(apart, 0)


def test_a_design_in_which_nothing_is_made_twice_is_left_as_it_is() -> None:
    design = design_of(sample(COLORS + "blocks:\n  a: {cell: 3 in, rows: [[dark, light]]}\nquilt: {arrange: [[a]]}\n"))
    assert made_once(design, Findings()) == (design, ())
