"""Random small patterns, with a drawing of each that is worked out here, apart from the compiler.

A drawing is a grid of cells; a cell holds the fabrics of its north, east, south and west quarter, which is enough for
everything that these patterns are made of.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from hypothesis import strategies as st

Cell = tuple[str, str, str, str]
Drawing = tuple[tuple[Cell, ...], ...]
Side = Literal["plain", "lengthwise", "crosswise"]

FABRICS = ("red", "cream", "blue", "green")


@dataclass(frozen=True, slots=True)
class Item:
    """One item of a row: what it is, its fabrics, and how it lies."""

    kind: Literal["patch", "half", "goose", "lean"]
    fabrics: tuple[str, ...]
    mirror: bool
    turns: int
    width: int


@dataclass(frozen=True, slots=True)
class Lay:
    """A block inside another, or in the quilt."""

    mirror: bool
    turns: int


@dataclass(frozen=True, slots=True)
class Recipe:
    """What a generated pattern is made of."""

    metric: bool
    one_way: tuple[Side, ...]
    leaf: tuple[tuple[Item, ...], ...]
    nest: tuple[Lay, Lay, Lay, Lay]
    by_columns: bool
    places: tuple[tuple[Lay, ...], ...]
    across: int
    down: int
    cell: int
    """In half inches, or centimeters."""
    sash: int
    frame: bool
    borders: tuple[int, ...]
    width: int
    """Usable width, in inches or centimeters."""
    finishing: bool


# -- drawings ---------------------------------------------------------------------------------------------------------


def turned(drawing: Drawing, turns: int) -> Drawing:
    """Turned clockwise by quarter turns."""
    for _ in range(turns % 4):
        drawing = tuple(
            tuple((west, north, east, south) for north, east, south, west in reversed(column))
            for column in zip(*drawing, strict=True)
        )
    return drawing


def mirrored(drawing: Drawing) -> Drawing:
    """Left and right exchanged."""
    return tuple(tuple((n, w, s, e) for n, e, s, w in reversed(row)) for row in drawing)


def laid(drawing: Drawing, lay: Lay | Item) -> Drawing:
    return turned(mirrored(drawing) if lay.mirror else drawing, lay.turns)


def beside(*parts: Drawing) -> Drawing:
    return tuple(tuple(cell for row in rows for cell in row) for rows in zip(*parts, strict=True))


def below(*parts: Drawing) -> Drawing:
    return tuple(row for part in parts for row in part)


def _item_drawing(item: Item) -> Drawing:
    first, second = item.fabrics[0], item.fabrics[-1]
    rising: Cell = (first, second, second, first)
    drawings: dict[str, Drawing] = {
        "patch": (((first,) * 4,) * item.width,),
        "half": ((rising,),),
        "goose": (((second, first, first, second), (second, second, first, first)),),
        "lean": (((first,) * 4, (second, second, first, first)),),
    }
    return laid(drawings[item.kind], item)


def leaf_drawing(recipe: Recipe) -> Drawing:
    return below(*(beside(*(_item_drawing(item) for item in row)) for row in recipe.leaf))


def block_drawing(recipe: Recipe) -> Drawing:
    leaf = leaf_drawing(recipe)
    one, two, three, four = (laid(leaf, lay) for lay in recipe.nest)
    if recipe.by_columns:
        return beside(below(one, two), below(three, four))
    return below(beside(one, two), beside(three, four))


def placed_drawing(recipe: Recipe, row: int, column: int) -> Drawing:
    """The block at one place of the quilt."""
    line = recipe.places[row % len(recipe.places)]
    return laid(block_drawing(recipe), line[column % len(line)])


# -- texts ------------------------------------------------------------------------------------------------------------


def text_of(recipe: Recipe) -> str:
    unit = "cm" if recipe.metric else "in"
    cell = f"{recipe.cell} cm" if recipe.metric else f"{recipe.cell}/2 in"
    fabrics = "".join(
        f"  {name}: {{{'' if side == 'plain' else f'directional: {side}'}}}\n"
        for name, side in zip(FABRICS, recipe.one_way, strict=True)
    )
    nest = [f"leaf{_suffix(lay)}" for lay in recipe.nest]
    places = ", ".join("[" + ", ".join(f"nest{_suffix(lay)}" for lay in row) + "]" for row in recipe.places)
    rows = "".join("      - [" + ", ".join(_item_text(item) for item in row) + "]\n" for row in recipe.leaf)
    axis = "columns" if recipe.by_columns else "rows"
    sash = (
        f"  sashing: {{width: {recipe.sash} {unit}, fabric: cream, frame: {'yes' if recipe.frame else 'no'}, "
        f"cornerstone: blue}}\n" if recipe.sash else ""
    )
    borders = ", ".join(f"{{width: {width} {unit}, fabric: green}}" for width in recipe.borders)
    finishing = "  binding: {fabric: red}\n  backing: {}\n" if recipe.finishing else ""
    return f"""\
dialect: 1
pattern: Generated
release: 1
lengths: {"centimeters" if recipe.metric else "inches"}
fabrics:
{fabrics}units:
{_units(recipe)}blocks:
  leaf:
    rows:
{rows}  nest: {{cell: {cell}, {axis}: [[{nest[0]}, {nest[1]}], [{nest[2]}, {nest[3]}]]}}
quilt:
  arrange: [{places}]
{sash}  borders: [{borders}]
{finishing}sizes:
  only: {{across: {recipe.across}, down: {recipe.down}}}
house: {{{"centimeters" if recipe.metric else "inches"}: {{usable-width: {recipe.width} {unit}}}}}
"""


def _suffix(lay: Lay | Item) -> str:
    return ("@mirror" if lay.mirror else "") + (f"@{lay.turns * 90}" if lay.turns else "")


def _item_text(item: Item) -> str:
    first, second = item.fabrics[0], item.fabrics[-1]
    if item.kind == "patch":
        return first if item.width == 1 else f"{first} {item.width}x1"
    name = f"{first}/{second}" if item.kind == "half" else f"{item.kind}-{first}-{second}"
    return name + _suffix(item)


def _units(recipe: Recipe) -> str:
    texts = {"goose": "{{flying-geese: {{goose: {0}, sky: {1}}}}}",
             "lean": "{{flipped-corners: {{base: {0}, ne: {1}}}, size: 2 x 1}}"}
    used = {(item.kind, *item.fabrics) for row in recipe.leaf for item in row if item.kind in texts}
    made = [f"  {kind}-{one}-{two}: {texts[kind].format(one, two)}\n" for kind, one, two in sorted(used)]
    return "".join(made) or "  spare: {half-square: [red, cream]}\n"


# -- strategies -------------------------------------------------------------------------------------------------------

_fabric = st.sampled_from(FABRICS)
_pair = st.lists(_fabric, min_size=2, max_size=2, unique=True).map(tuple)
lays = st.builds(Lay, st.booleans(), st.integers(0, 3))


def _items(width: int) -> st.SearchStrategy[Item]:
    """Items one cell high and so many cells wide as they lie."""
    patch = st.builds(Item, st.just("patch"), _fabric.map(lambda name: (name,)), st.just(False), st.just(0),
                      st.just(width))
    if width == 1:
        return patch | st.builds(Item, st.just("half"), _pair, st.booleans(), st.integers(0, 3), st.just(1))
    return patch | st.builds(
        Item, st.sampled_from(["goose", "lean"]), _pair, st.booleans(), st.sampled_from([0, 2]), st.just(2)
    )


_row = st.sampled_from([(2, 2), (1, 1, 2), (1, 2, 1), (2, 1, 1), (1, 1, 1, 1)]).flatmap(
    lambda widths: st.tuples(*(_items(width) for width in widths))
)


@st.composite
def recipes(draw: st.DrawFn) -> Recipe:
    metric = draw(st.booleans())
    places = draw(st.lists(st.lists(lays, min_size=2, max_size=2).map(tuple), min_size=1, max_size=2))
    return Recipe(
        metric=metric,
        one_way=tuple(draw(st.lists(
            st.sampled_from(["plain", "plain", "plain", "lengthwise", "crosswise"]), min_size=4, max_size=4
        ))),
        leaf=draw(st.tuples(_row, _row, _row, _row)),
        nest=draw(st.tuples(lays, lays, lays, lays)),
        by_columns=draw(st.booleans()),
        places=tuple(places),
        across=draw(st.sampled_from([2, 4])), down=draw(st.integers(len(places), 4)),
        cell=draw(st.integers(3, 6)) if metric else draw(st.integers(2, 5)),
        sash=draw(st.integers(0, 2)) * (2 if metric else 1), frame=draw(st.booleans()),
        borders=tuple(draw(st.lists(st.integers(2, 5), max_size=2))),
        width=draw(st.sampled_from([100, 106, 110])) if metric else draw(st.sampled_from([36, 40, 42, 44])),
        finishing=draw(st.booleans()),
    )


def wider(recipe: Recipe, more: int) -> Recipe:
    return replace(recipe, width=recipe.width + more)


def doubled(recipe: Recipe) -> Recipe:
    return replace(recipe, across=recipe.across * 2)
