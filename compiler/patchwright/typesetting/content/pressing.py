"""How seams are pressed, in words: a rule that can be said in a sentence where there is one, else seam by seam.

In: the plan's pressing.
Out: sentences for the steps of units, blocks and tops.
Never: a direction chosen here.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import pairwise

from patchwright.methods.method import Stage
from patchwright.planning.plan import Assembly, PlannedSize, PlannedUnit, TopItem
from patchwright.planning.pressing.drawing import (
    DrawnWay,
    LineWays,
    as_assembly_pressing,
    as_row_pressing,
    as_rows_pressing,
)
from patchwright.planning.pressing.in_stages import pressed_in
from patchwright.planning.pressing.results import PressedSeam
from patchwright.planning.pressing.terms import Owner, SeamPart
from patchwright.planning.pressing.tops import SIDES, Side, TopRow, first_chain, quarter_rows, sewn_rows, top_rows
from patchwright.typesetting.content.names import plain_name
from patchwright.typesetting.content.scope import Scope

Ways = Sequence[Sequence[DrawnWay]]
_FEW = 3
"""So many seams that lie another way than all others are named; of more, the arrows tell."""
TURNS = ("odd", "even")
"""Rows of the top take turns."""


def sewing_words(scope: Scope, assembly: Assembly) -> str:
    """How the seams within the rows (or columns) of a block are pressed; nothing where there are none."""
    ways = as_assembly_pressing(scope.plan, scope.pressing, assembly.id).within
    toward = _toward_dark(scope, assembly) if any(ways) else ""
    said = toward or lines_words(scope, ways, assembly.axis)
    return " ".join([said, *spun_words(scope, assembly, "within")]).strip()


def joining_words(scope: Scope, assembly: Assembly) -> str:
    """How the seams between the rows (or columns) of a block are pressed."""
    made = as_assembly_pressing(scope.plan, scope.pressing, assembly.id)
    said = between_words(scope, made, "columns" if assembly.axis == "rows" else "rows", assembly.axis)
    return " ".join([said, *spun_words(scope, assembly, "between")]).strip()


def spun_words(scope: Scope, assembly: Assembly, part: SeamPart) -> Iterator[str]:
    """At which of its crossings a seam is spun that has several, counted from the left or from the top."""
    for pressed in scope.pressing.seams_of("assembly", assembly.id):
        if pressed.seam.part == part and pressed.spun_at is not None and pressed.spun_at[1] > 1:
            at, count = pressed.spun_at
            level = (part == "between") == (assembly.axis == "rows")  # Such a seam starts at the right.
            line, place = pressed.seam.line + 1, pressed.seam.place + 1
            yield scope.say(
                f"press.spun-at.{part}.{assembly.axis}", first=line, second=line + 1 if part == "between" else place,
                at=count + 1 - at if level else at, count=count,
            )


def lines_words(scope: Scope, ways: Ways, axis: str, by_turns: bool = False) -> str:
    """`Press the seams of the odd rows to the right, those of the even rows to the left.`

    `by_turns` where the two lines stand for all odd and all even rows.
    """
    found = [way for line in ways for way in line]
    if not found:
        return ""
    if len(set(found)) == 1:
        return scope.say(f"press.{'all' if len(found) > 1 else 'one'}", way=way_words(scope, found[0], axis))
    rules = [_rule(line) for line in ways if line]
    if len(rules) > 1 and len(set(rules)) == 1 and rules[0]:
        return scope.say("press.all", way=way_words(scope, rules[0], axis))
    halves = [{_rule(line) for line in ways[start::2] if line} for start in (0, 1)]
    if all(len(half) == 1 and "" not in half for half in halves):
        first, second = (way_words(scope, half.pop(), axis) for half in halves)
        return scope.say(f"press.alternate.{axis}", first=first, second=second)
    return scope.say("press.by-line", lines=scope.say("press.and").join(_by_line(scope, ways, axis, by_turns)))


def _rule(line: Sequence[DrawnWay]) -> str:
    """The one way of all seams of a line, or `outward` and `inward` from its middle; nothing where none tells."""
    if len(set(line)) == 1:
        return line[0]
    half, odd = divmod(len(line), 2)
    halves = set(line[:half]), set(line[half:])
    if odd or halves not in (({"back"}, {"forward"}), ({"forward"}, {"back"})):
        return ""
    return "outward" if line[0] == "back" else "inward"


def _by_line(scope: Scope, ways: Ways, axis: str, by_turns: bool) -> Iterator[str]:
    """Lines that are pressed alike together, and each other line with its seams by number."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for number, line in enumerate(ways, 1):
        if line:
            rule = _rule(line)
            key: tuple[str, ...] = (rule,) if rule else tuple(line)
            alike.setdefault(key, []).append(str(number))
    for key, numbers in alike.items():
        named = scope.say(f"press.line.{axis}", count=len(numbers), numbers=scope.wording.listed_text(numbers))
        if by_turns:
            every = "press.turns.columns" if axis == "columns" else "press.turns.all"
            named = scope.say(every if len(numbers) > 1 else f"press.turns.{TURNS[int(numbers[0]) - 1]}")
        if len(key) == 1:
            yield scope.say("press.whole-line", line=named, way=way_words(scope, key[0], axis))
        else:
            yield scope.say("press.seams-of-line", line=named, seams=_seams(scope, key, axis))


def _seams(scope: Scope, ways: Sequence[str], axis: str) -> str:
    """`seams 1 and 3 to the right, seam 2 to the left`."""
    return scope.say("press.and").join(
        scope.say("press.seams", count=len(numbers), numbers=scope.wording.listed_text(numbers),
                  way=way_words(scope, way, axis))
        for way, numbers in _numbered(ways)
    )


def _numbered(ways: Sequence[str]) -> Iterator[tuple[str, list[str]]]:
    for way in dict.fromkeys(ways):
        yield way, [str(number) for number, other in enumerate(ways, 1) if other == way]


def way_words(scope: Scope, way: str, axis: str) -> str:
    """Seams within rows lie right or left, those within columns down or up."""
    return scope.say("press.way.open" if way == "open" else f"press.way.{axis}.{way}")


def between_words(scope: Scope, made: LineWays, axis: str, lines: str) -> str:
    """How the seams that join rows (or columns) are pressed; a spun one says which half goes where."""
    straight = [way for way in made.between if not way.startswith("spun")]
    said = []
    if len(set(straight)) == 1 and len(straight) == len(made.between):
        key = "press.all" if len(straight) > 1 else "press.one"
        said.append(scope.say(key, way=way_words(scope, straight[0], axis)))
    elif straight:
        groups = []
        for way in dict.fromkeys(straight):
            numbers = [
                scope.say("press.pair", first=number + 1, second=number + 2)
                for number, other in enumerate(made.between) if other == way
            ]
            named = scope.wording.listed_text(numbers)
            groups.append(scope.say(f"press.between.{lines}", count=len(numbers), pairs=named,
                                    way=way_words(scope, way, axis)))
        said.append(scope.say("press.by-line", lines=scope.say("press.and").join(groups)))
    for number, way in enumerate(made.between):
        if not way.startswith("spun"):
            continue
        first, second = ("forward", "back") if way == "spun-forward" else ("back", "forward")
        said.append(scope.say(
            f"press.spin.{lines}", first=number + 1, second=number + 2,
            begin=scope.say(f"press.way.{axis}.{first}"), end=scope.say(f"press.way.{axis}.{second}"),
        ))
    return " ".join(said)


def _toward_dark(scope: Scope, assembly: Assembly) -> str:
    """The rule of thumb, where all parts are plain patches and every seam lies toward the darker of its two."""
    values = {fabric.id: ("light", "medium", "dark").index(fabric.value) for fabric in scope.plan.fabrics}
    ways = as_assembly_pressing(scope.plan, scope.pressing, assembly.id).within
    for line, own in zip(assembly.lines, ways, strict=True):
        for place, way in enumerate(own):
            pair = line[place], line[place + 1]
            if any(part.kind != "piece" for part in pair):
                return ""
            before, after = (values[scope.piece(part.ref).fabric] for part in pair)
            if way != ("forward" if after > before else "back") or before == after:
                return ""
    return scope.say("press.toward-dark")


def unit_words(scope: Scope, unit: PlannedUnit) -> str:
    """How the seams of a unit are pressed that its way of making leaves free; nothing where it leaves none."""
    return _seams_words(scope, unit, scope.pressing.seams_of("unit", unit.id))


def stage_press_words(scope: Scope, unit: PlannedUnit, stage: Stage) -> str:
    """The same of the seams that the drawings of one stage press."""
    (pressed,) = pressed_in(scope.pressing.seams_of("unit", unit.id), (stage,))
    return _seams_words(scope, unit, [seam.pressed for seam in pressed])


def _seams_words(scope: Scope, unit: PlannedUnit, every: Sequence[PressedSeam]) -> str:
    seams = [seam for seam in every if seam.reason != "fixed"]
    if not seams:
        return ""
    if all(seam.way == "open" for seam in seams):
        return scope.say("press.unit.open", count=len(seams))
    fabrics = dict(unit.fabrics)
    sides = [_fabrics(fabrics, seam) for seam in seams]
    for key, index in (("toward", 0), ("away", 1)):
        found = {side[index] for side in sides}
        other = {name for side in sides for name in side[1 - index]}
        named = next(iter(found))
        if len(found) == 1 and len(named) == 1 and not other & set(named):
            (fabric,) = named
            return scope.say(f"press.unit.{key}", count=len(seams), fabric=scope.fabric_text(fabric))
    spun = any(seam.way == "spun" for seam in seams)
    return scope.say("press.unit.arrows-spun" if spun else "press.unit.arrows", count=len(seams))


def rows_nest_words(scope: Scope, unit: PlannedUnit) -> str:
    """Where the seams of a unit's rows nest wherever rows meet, the sentence that says so."""
    own = [junction for junction in scope.pressing.junctions if junction.line.owner == Owner("unit", unit.id)]
    return scope.say("press.unit.rows-nest") if own and all(junction.nests for junction in own) else ""


def _fabrics(fabrics: dict[str, str], seam: PressedSeam) -> tuple[tuple[str, ...], tuple[str, ...]]:
    toward, away = (
        tuple(sorted({fabrics[role] for role in roles if role in fabrics})) for roles in (seam.toward, seam.away)
    )
    return toward, away


def has_heavy_points(scope: Scope, unit: PlannedUnit) -> bool:
    """Whether more than six seams meet in a point of a unit, and are not pressed open."""
    owners = {point.line.owner for point in scope.pressing.heavy}
    return Owner("unit", unit.id) in owners and scope.plan.rules.pressing != "open"


def needs_map(scope: Scope, unit: PlannedUnit) -> bool:
    """Whether words alone do not tell how a unit is pressed, or where its seams pile up."""
    if has_heavy_points(scope, unit):
        return True
    return unit_words(scope, unit) in {
        scope.say(key, count=count) for key in ("press.unit.arrows", "press.unit.arrows-spun") for count in (1, 2)
    }


def row_words(scope: Scope, sizes: Sequence[PlannedSize], strips: bool) -> str:
    """How the seams of the top's rows are pressed: of rows of blocks, or of sashing."""
    ways: dict[int, tuple[DrawnWay, ...]] = {}
    toward: dict[TopItem, None] = {}
    away: dict[TopItem, None] = {}
    on_point = any(size.float is not None for size in sizes)
    columns = any(size.setting == "strippy" for size in sizes) and not on_point
    for size in sizes:
        # The rows of a top on point are of many lengths; the corners are no rows.
        rows = [row for row in first_chain(size) or sewn_rows(size) if row.is_strip == strips and not row.is_corner]
        joined: dict[int, tuple[DrawnWay, ...]] = {}
        for row in rows:
            own = as_row_pressing(scope.pressing, row)
            joined[row.number] = (*joined.get(row.number, ()), *own)
            for at, way in enumerate(own):
                this, other = row.items[at], row.items[at + 1]
                toward[this if way == "back" else other] = None
                away[other if way == "back" else this] = None
        for number, own in joined.items():
            # Columns are pressed alike, so that one stands for the odd and for the even ones.
            for place in (0, 1) if columns else ((number + (on_point and strips)) % 2,):
                if len(own) >= len(ways.get(place, ())):
                    ways[place] = own
    lines = [ways[place] for place in sorted(ways, key=lambda place: (place + on_point) % 2)]
    if not any(lines):
        return ""
    axis = "columns" if columns else "diagonal" if on_point else "rows"
    if any(way == "open" for line in lines for way in line):
        return lines_words(scope, lines, "rows")
    said = _parts_words(scope, list(toward), list(away))
    if not said and any(size.quarters for size in sizes) and not all(_rule(line) for line in lines):
        return scope.say("press.arrows")
    return said or lines_words(scope, lines, axis, by_turns=True)


def _parts_words(scope: Scope, toward: Sequence[TopItem], away: Sequence[TopItem]) -> str:
    """Where all seams lie toward the sashing, or toward or away from one kind of part, the sentence that says so."""
    to, off = ({(item.part, item.ref) for item in items} for items in (toward, away))
    if {part for part, _ in to} == {"sashing"} and "sashing" not in {part for part, _ in off}:
        return scope.say("press.toward-sashing")
    for key, found, others, items in (("toward", to, off, toward), ("away", off, to, away)):
        if len(found) == 1 and not found & others:
            item = items[0]
            if item.kind == "piece":
                return scope.say(f"press.{key}-parts", parts=item.ref)
            name = plain_name(scope.assembly(item.ref).block if item.kind == "assembly" else item.ref)
            part = "block" if item.kind == "assembly" else "unit"
            return scope.say(f"press.{key}-parts", parts=scope.say(f"press.part.{part}", name=name))
    for key, found, others in (("toward", to, off), ("away", off, to)):
        if {part for part, _ in found} == {"block"} and "block" not in {part for part, _ in others}:
            return scope.say(f"press.{key}-parts", parts=scope.say("press.part.blocks"))
    return ""


def join_words(scope: Scope, sizes: Sequence[PlannedSize]) -> str:
    """How the seams between the rows of the top are pressed, and those of the corners of a top on point.

    In a strippy quilt on point the rows and corners are those of a column.
    """
    on_point = any(size.float is not None for size in sizes)
    return _joins(scope, [first_chain(size) or top_rows(size) for size in sizes], on_point)


def long_strips_words(scope: Scope, sizes: Sequence[PlannedSize]) -> str:
    """How the seams between the columns of a strippy quilt and its strips are pressed."""
    return _joins(scope, [top_rows(size) for size in sizes], False)


def quarter_words(scope: Scope, sizes: Sequence[PlannedSize]) -> str:
    """How the seams between the rows of quarters are pressed, on the left side of the top and on the right one."""
    said = [_joins(scope, [half[at] for size in sizes for half in quarter_rows(size)], False, side)
            for at, side in enumerate(SIDES)]
    if said[0] == said[1]:
        return said[0]
    ways = [_side_way(scope, [half[at] for size in sizes for half in quarter_rows(size)], side)
            for at, side in enumerate(SIDES)]
    return scope.say("press.quarters.sides", left=ways[0], right=ways[1]) if all(ways) else scope.say("press.arrows")


def _side_way(scope: Scope, quarters: Sequence[tuple[TopRow, ...]], side: Side) -> str:
    """Where all seams between the rows of some quarters lie; nothing where that takes more than a few words."""
    ways: dict[DrawnWay, None] = {}
    toward: dict[bool | None, None] = {}
    for rows in quarters:
        made = as_rows_pressing(scope.pressing, rows, side).between
        for (this, other), way in zip(pairwise(rows), made, strict=True):
            ways[way] = None
            strip = this.is_strip if way == "back" else other.is_strip
            toward[strip if this.is_strip != other.is_strip and way != "open" else None] = None
    if len(ways) == 1:
        return way_words(scope, next(iter(ways)), "columns")
    found = next(iter(toward)) if len(toward) == 1 else None
    return "" if found is None else scope.say(f"press.quarters.{'toward' if found else 'away'}-sashing")


def _joins(
    scope: Scope, centers: Sequence[tuple[TopRow, ...]], on_point: bool, side: Side | None = None
) -> str:
    """How the seams between rows, or between columns and strips, are pressed, and those of corners."""
    found: dict[DrawnWay, None] = {}
    corners: dict[str, None] = {}
    toward = True
    for rows in centers:
        made = as_rows_pressing(scope.pressing, rows, side)
        for number, way in enumerate(made.between):
            this, other = rows[number], rows[number + 1]
            if this.is_corner or other.is_corner:
                corners["out" if way == ("back" if this.is_corner else "forward") else "in"] = None
                continue
            toward = toward and this.is_strip != other.is_strip and way == ("forward" if other.is_strip else "back")
            found[way] = None
    said = []
    columns = any(row.is_column for rows in centers for row in rows)
    if found and toward:
        said.append(scope.say("press.toward-strips" if columns else "press.toward-sashing"))
    elif len(found) == 1:
        axis = "across-diagonal" if on_point else "rows" if columns else "columns"
        said.append(scope.say("press.all", way=way_words(scope, next(iter(found)), axis)))
    elif found:
        plain = not on_point and not any(row.is_strip for rows in centers for row in rows)
        said.append((_but(scope, centers, side) if plain else "") or scope.say("press.arrows"))
    if len(corners) == 1 and "open" not in found:
        said.append(scope.say(f"press.corners.{next(iter(corners))}"))
    return " ".join(said)


def _but(scope: Scope, centers: Sequence[tuple[TopRow, ...]], side: Side | None) -> str:
    """Where all seams between rows but a few lie one way, the sentence that names those few; else nothing."""
    ways: dict[int, DrawnWay] = {}
    for rows in centers:
        made = as_rows_pressing(scope.pressing, rows, side).between
        ways |= {row.place: way for row, way in zip(rows, made, strict=False)}
    counts = Counter(ways.values())
    (most, _), (few, count) = (*counts.most_common(2), ("", 0))[:2]
    if len(counts) != 2 or count > _FEW:
        return ""
    pairs = [
        scope.say("press.pair", first=place + 1, second=place + 2) for place in sorted(ways) if ways[place] == few
    ]
    axis = "rows" if any(row.is_column for rows in centers for row in rows) else "columns"
    return scope.say(
        f"press.but.{'columns' if axis == 'rows' else 'rows'}", count=count, pairs=scope.wording.listed_text(pairs),
        few=way_words(scope, few, axis), most=way_words(scope, most, axis),
    )
