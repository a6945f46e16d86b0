"""A small plan made by hand: two blocks in a straight setting with sashing, cornerstones, two borders, two sizes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from patchwright.core.geometry import UPRIGHT, Orientation
from patchwright.core.length import ZERO, Cut, Finished, Length, Unfinished
from patchwright.design.rules import Imprint, Rules
from patchwright.methods.method import Request, Then
from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import (
    Assembly,
    AssemblySize,
    Buy,
    FabricSize,
    FabricSource,
    Piece,
    PieceSize,
    Placed,
    PlacedKind,
    Plan,
    PlannedBacking,
    PlannedBinding,
    PlannedBorder,
    PlannedFabric,
    PlannedPack,
    PlannedSize,
    PlannedUnit,
    Precuts,
    SheetCut,
    Strip,
    StripSegment,
    TopItem,
    UnitPiece,
    UnitSize,
    Yield,
)

CELLS = (Length(2), Length("9/4"))
SEAM = Length("1/4")
RULES = Rules(
    system="in", name="Longshore Patterns", imprint=Imprint("", "", ""), theme="harbor", papers=("letter", "a4"),
    language="en", pressing="nest", binding_join="diagonal", strip_join="straight", shrinkage=Fraction(0), seam=SEAM,
    usable_width=Length(40), straightening=Length(1), fat_quarter=(Length(18), Length(21)),
    fat_eighth=(Length(9), Length(21)), triangles="standard", oversize=ZERO, round_cuts=Fraction(1, 8),
    round_yardage=(Length("9/2"),), binding_strip=Length("5/2"), binding_extra=Length(10),
    backing_overage=Length(4), backing_seam=Length("1/2"), batting_overage=Length(4), miter_extra=Length(6),
)  # fmt: skip


def unit(
    name: str,
    method: str,
    fabrics: Sequence[tuple[str, str]],
    cells: tuple[int, int],
    pieces: Sequence[tuple[str, str, int]],
    hand: Literal["as-drawn", "reversed"] = "as-drawn",
    extents: int = 0,
) -> PlannedUnit:
    """A unit in both sizes; `extents` is the corner's leg in cells where the method asks for one."""
    sizes = []
    for cell in CELLS:
        width, height = cell * cells[0], cell * cells[1]
        how = BY_NAME[method]
        words = tuple((key.name, key.default) for key in how.keys if key.kind == "word")
        legs = tuple((key.name, cell * extents) for key in how.keys if key.kind == "extent")
        request = Request(width, height, tuple(role for role, _ in fabrics), words, legs, RULES.triangle_rules)
        recipe = how.recipe(request)
        finished = Finished(width), Finished(height)
        raw = finished[0].unfinished(SEAM), finished[1].unfinished(SEAM)
        sizes.append(UnitSize(finished, raw, 8, 8 // recipe.batch, 8, request, recipe))
    made = tuple(UnitPiece(*piece) for piece in pieces)
    how_made = sizes[0].recipe.how
    return PlannedUnit(name, name, method, how_made, tuple(fabrics), hand, 0, made, tuple(sizes))


def placed(kind: PlacedKind, ref: str, cells: tuple[int, int], turns: int = 0) -> Placed:
    """A part of so many cells before turning."""
    lay = Orientation(turns)
    sizes = []
    for cell in CELLS:
        width, height = lay.size(cell * cells[0], cell * cells[1])
        sizes.append((Finished(width), Finished(height)))
    return Placed(kind, ref, lay, tuple(sizes))


def assembly(name: str, lines: Sequence[Sequence[Placed]], cells: int, count: int, nested: bool = False) -> Assembly:
    sizes = []
    for cell in CELLS:
        side = Finished(cell * cells)
        raw = side.unfinished(SEAM)
        sizes.append(AssemblySize(count, (side, side), (raw, raw)))
    return Assembly(name, name, "rows", "as-drawn", 0, nested, tuple(map(tuple, lines)), tuple(sizes))


def piece(id: str, fabric: str, kind: str, width: Length, height: Length, uses: Sequence[str], then: Then = "none") -> Piece:
    size = PieceSize(Cut(width), Cut(height), 8, 8, 0)
    return Piece(id, fabric, then, kind, tuple(uses), False, (size, size))  # type: ignore[arg-type]


def _units() -> tuple[PlannedUnit, ...]:
    return (
        unit("turn", "half-square", [("first", "rope"), ("second", "deck")], (1, 1),
             [("first", "B1", 1), ("second", "A1", 1)]),
        unit("wave", "flying-geese", [("goose", "tar"), ("sky", "deck")], (2, 1), [("goose", "C1", 1), ("sky", "A2", 2)]),
        unit("cleat", "flipped-corners", [("base", "rope"), ("ne", "deck")], (2, 2),
             [("base", "B3", 1), ("corner-ne", "A2", 1)], extents=1),
        unit("cleat-reversed", "flipped-corners", [("base", "rope"), ("ne", "deck")], (2, 2),
             [("base", "B3", 1), ("corner-ne", "A2", 1)], "reversed", extents=1),
    )  # fmt: skip


def _assemblies() -> tuple[Assembly, ...]:
    rope, deck = placed("piece", "B2", (1, 1)), placed("piece", "A2", (1, 1))
    bar, post = placed("piece", "A3", (2, 1)), placed("piece", "A3", (1, 2))

    def turn(turns: int) -> Placed:
        return placed("unit", "turn", (1, 1), turns)

    def wave(turns: int) -> Placed:
        return placed("unit", "wave", (2, 1), turns)

    hub = assembly("hub", [[rope, deck], [deck, rope]], 2, 2, nested=True)
    middle = placed("assembly", "hub", (2, 2))
    coil = assembly(
        "coil", [[turn(0), wave(0), turn(1)], [wave(3), middle, wave(1)], [turn(3), wave(2), turn(2)]], 4, 2
    )
    cleat = placed("unit", "cleat", (2, 2))
    chain = assembly("chain", [[rope, bar, rope], [post, cleat, post], [rope, bar, rope]], 4, 2)
    return hub, coil, chain


def _pieces() -> tuple[Piece, ...]:
    side, seams = CELLS[0], SEAM * 2
    plain = side + seams
    return (
        piece("A1", "deck", "unit", side + Length("7/8"), side + Length("7/8"), ["turn"]),
        piece("A2", "deck", "unit", plain, plain, ["wave", "hub"]),
        piece("A3", "deck", "patch", plain, side * 2 + seams, ["chain"]),
        piece("A4", "deck", "sashing", Length("3/2"), side * 4 + seams, ["sashing"]),
        piece("B1", "rope", "unit", side + Length("7/8"), side + Length("7/8"), ["turn"]),
        piece("B2", "rope", "patch", plain, plain, ["hub", "chain"]),
        piece("B3", "rope", "unit", side * 2 + seams, side * 2 + seams, ["cleat"]),
        piece("C1", "tar", "unit", side * 2 + seams, plain, ["wave"]),
        piece("C2", "tar", "cornerstone", Length("3/2"), Length("3/2"), ["cornerstones"]),
        piece("C3", "tar", "border", Length(20), Length(2), ["border-1"]),
        piece("C4", "tar", "border", Length(23), Length(2), ["border-1"]),
        piece("C5", "tar", "binding", Length(150), Length("5/2"), ["binding"]),
        piece("D1", "sea", "border", Length(23), Length("11/2"), ["border-2"]),
        piece("D2", "sea", "border", Length(33), Length("11/2"), ["border-2"]),
    )


def _top(cell: Length, across: int, down: int) -> tuple[tuple[TopItem, ...], Length, Length]:
    """Blocks in turn, with sashing 1 and a frame, and borders 1½ and 5."""
    side, sash, inset = cell * 4, Length(1), Length("13/2")
    step = side + sash
    blocks, strips = [], []
    for row in range(down):
        for column in range(across):
            name = "coil" if (row + column) % 2 == 0 else "chain"
            x, y = inset + sash + step * column, inset + sash + step * row
            blocks.append(TopItem("assembly", name, "block", Orientation((row + column) % 4), x, y, side, side))
    for row in range(down + 1):
        for column in range(across + 1):
            x, y = inset + step * column, inset + step * row
            strips.append(TopItem("piece", "C2", "cornerstones", UPRIGHT, x, y, sash, sash))
            if column < across:
                strips.append(TopItem("piece", "A4", "sashing", UPRIGHT, x + sash, y, side, sash))
            if row < down:
                strips.append(TopItem("piece", "A4", "sashing", UPRIGHT, x, y + sash, sash, side))
    width, height = step * across + sash, step * down + sash
    borders = []
    for names, wide in ((("C3", "C4"), Length("3/2")), (("D1", "D2"), Length(5))):
        inset -= wide
        part = f"border-{1 if names[0] == 'C3' else 2}"
        for x in (inset, inset + wide + width):
            borders.append(TopItem("piece", names[0], part, UPRIGHT, x, inset + wide, wide, height))
        width, height = width + wide * 2, height + wide * 2
        for y in (inset, inset + height - wide):
            borders.append(TopItem("piece", names[1], part, UPRIGHT, inset, y, width, wide))
    return (*blocks, *strips, *borders), width, height


def planned_size(name: str, cell: Length, across: int, down: int) -> PlannedSize:
    items, width, height = _top(cell, across, down)
    raw = Unfinished(width + SEAM * 2), Unfinished(height + SEAM * 2)
    center = width - Length(13), height - Length(13)

    def grown(by: int | str) -> tuple[Unfinished, Unfinished]:
        more = Length(by) if isinstance(by, int) else Length(by)
        return Unfinished(center[0] + more + SEAM * 2), Unfinished(center[1] + more + SEAM * 2)

    borders = (
        PlannedBorder("border-1", "tar", Finished("3/2"), "crosswise", "C3", "C4", grown(0), grown(3)),
        PlannedBorder("border-2", "sea", Finished(5), "crosswise", "D1", "D2", grown(3), grown(13)),
    )
    around = (raw[0].length + raw[1].length) * 2
    binding = PlannedBinding("tar", "C5", Cut("5/2"), 5, 4, around + Length(10), Length(190), None)
    backing_size = raw[0].length + Length(8), raw[1].length + Length(8)
    half = (backing_size[0] + Length(1)) / 2
    panels = ((half, backing_size[1]), (half, backing_size[1]))
    backing = PlannedBacking("", backing_size, "lengthwise", panels, backing_size[1] * 2, Buy(Fraction(3), "yd"))
    side = Finished(cell * 4)
    return PlannedSize(
        name, name.title(), across, down, (Finished(width), Finished(height)), raw, grown(0), (side,) * across,
        (side,) * down, items, Finished(1), True, True, borders, binding, backing, backing_size, name == "crib",
    )  # fmt: skip


def _strips(*strips: Strip) -> FabricSize:
    total = ZERO
    for strip in strips:
        total += strip.height * strip.count
    return FabricSize(strips, total, (), Buy(Fraction(5, 4), "yd"), Length("77/2"), None, "proven", total)


def strip(height: str, count: int, *yields: tuple[str, int, str, str], stack: int = 1) -> Strip:
    made = tuple(
        Yield(name, each, Length(width), Length(high), False, stack if place == len(yields) - 1 else 1)
        for place, (name, each, width, high) in enumerate(yields)
    )
    used = ZERO
    for part in made:
        used += part.width * (part.each // part.stack)
    return Strip(Length(height), count, made, (), used)


def _fabric(id: str, letter: str, name: str, colors: Sequence[str], value: str, hatch: int, size: FabricSize) -> PlannedFabric:
    precut = size.precuts is not None
    source = FabricSource(
        "pack" if precut else "yardage", "bundle" if precut else "", (Length(10 if precut else 40), Length(10 if precut else 0))
    )
    return PlannedFabric(
        id, letter, name, tuple(colors), value, hatch, "none", source, "", ("blocks",), (size, size)  # type: ignore[arg-type]
    )


def _fabrics() -> tuple[PlannedFabric, ...]:
    sheets = (
        SheetCut(4, (Yield("B3", 4, Length("9/2"), Length("9/2"), False),),
                 tuple(("B3", Length(x), Length(y), Length("9/2"), Length("9/2")) for x in (0, "9/2") for y in (0, "9/2"))),
        SheetCut(2, (Yield("B1", 6, Length("23/8"), Length("23/8"), False), Yield("B2", 3, Length("5/2"), Length("5/2"), False))),
    )  # fmt: skip
    joined = Strip(
        Length(2), 3, (), (StripSegment("C3", Length(20)), StripSegment("C4", Length(15))), Length(35)
    )
    precuts = FabricSize((), ZERO, (), Buy(Fraction(1), "pack"), None, Precuts(6, 1, 36, sheets), "plain", ZERO)
    deck = _strips(
        strip("9/2", 2, ("A3", 14, "5/2", "9/2"), ("A2", 2, "5/2", "5/2")),
        strip("23/8", 3, ("A1", 10, "23/8", "23/8"), ("A4", 4, "17/2", "3/2"), stack=1),
        strip("5/2", 4, ("A2", 16, "5/2", "5/2")),
    )
    tar = _strips(strip("5/2", 3, ("C1", 8, "9/2", "5/2")), strip("3/2", 1, ("C2", 24, "3/2", "3/2")), joined)
    return (
        _fabric("deck", "A", "Bleached deck", ["#ece7db"], "light", 0, deck),
        _fabric("rope", "B", "Rope prints", ["#c9772f", "#e0a458", "#a9482f", "#d98e73"], "medium", 1, precuts),
        _fabric("tar", "C", "Tar", ["#2b2f36"], "dark", 2, tar),
        _fabric("sea", "D", "Sea stripe", ["#2f6f7e"], "dark", 3, _strips(strip("11/2", 4, ("D1", 1, "23", "11/2")))),
    )


def sample_plan(across: int = 2, down: int = 3) -> Plan:
    return Plan(
        id="rope-walk", title="Rope Walk", release=1, summary="", skill="", system="in", rules=RULES,
        packs=(PlannedPack("bundle", "squares", Length(10), Length(10), 42, False, (1, 1)),),
        fabrics=_fabrics(), pieces=_pieces(), units=_units(), assemblies=_assemblies(),
        sizes=(planned_size("crib", CELLS[0], across, down), planned_size("throw", CELLS[1], across + 1, down + 1)),
        workings=(), introduction=None, notes=(), finishing=None, about=None,
    )  # fmt: skip
