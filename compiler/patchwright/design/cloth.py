"""Fabrics and packs: Declared → Design.

In: the declared fabrics and packs, and the rules.
Out: fabrics lettered in order of use with color, value and hatch; packs with true sizes in the pattern's unit.
Never: how many packs or how much cloth is needed.
"""

from __future__ import annotations

from dataclasses import replace

from patchwright.core.diagnostics import Findings, nearest_names
from patchwright.core.length import ZERO, Length
from patchwright.core.source import span_of
from patchwright.design.design import Fabric, Pack, PackKind, Value
from patchwright.design.house import native_length, native_pair
from patchwright.design.names import Names
from patchwright.design.rules import Rules
from patchwright.dialect.declared import FabricDeclaration, PackDeclaration, SourceDeclaration
from patchwright.dialect.scalars import Name, PairText

PACK_KINDS: tuple[PackKind, ...] = ("squares", "strips", "fat-quarters", "fat-eighths")
DEFAULT_COLORS = (
    "#e9e2d0", "#b5523b", "#2e4a62", "#d9a441", "#5d7d6a", "#8c6a8e", "#9fb8c4", "#4a4a4a",
    "#c98f7a", "#6f8f3f", "#3f6f8f", "#d8c3a5",
)
SAME_PRINT_WORDS = ("none", "unit", "block", "quilt")
_LIGHT_FROM, _DARK_BELOW = 170, 90


def resolve_packs(packs: dict[str, PackDeclaration], rules: Rules, findings: Findings) -> tuple[Pack, ...]:
    """Check each bundle's shape and turn its sizes into the pattern's unit."""
    made = [_pack(name, declared, rules, findings) for name, declared in packs.items()]
    return tuple(pack for pack in made if pack is not None)


def _pack(name: str, declared: PackDeclaration, rules: Rules, findings: Findings) -> Pack | None:
    shapes = [(kind, shape) for kind in PACK_KINDS if (shape := getattr(declared, kind.replace("-", "_"))) is not None]
    if len(shapes) != 1:
        code, message = (
            ("pack-two-shapes", f"the pack `{name}` has more than one shape")
            if shapes else ("pack-without-shape", f"the pack `{name}` does not say what it holds")
        )
        findings.error(code, message, span_of(name), "give one of " + ", ".join(f"`{kind}`" for kind in PACK_KINDS))
        return None
    kind, shape = shapes[0]
    width, height = _sheet_size(shape, rules)
    if width <= ZERO or height <= ZERO:
        findings.error("size-out-of-range", f"`{shape.text}` has a side of nothing", shape.span, "sizes are above zero")
        return None
    usable = declared.usable.measure.within(rules.system) if declared.usable is not None else None
    if usable is not None and declared.usable is not None and not ZERO < usable <= width:
        findings.error(
            "size-out-of-range", f"`{declared.usable.text}` cannot be what is usable of `{shape.text}`",
            declared.usable.span, "the usable side is above zero and not more than the side",
        )
        usable = None
    count = declared.count.number
    return Pack(
        id=str(name), kind=kind, width=width, height=height,
        usable_width=min(usable, width) if usable is not None else width,
        usable_height=min(usable, height) if usable is not None and kind == "squares" else height,
        count=count, prints=min(declared.prints.number, count) if declared.prints is not None else count,
        piles=tuple((str(pile), number.number) for pile, number in declared.piles.items()),
        match=tuple(fabric.text for fabric in declared.match or ()), span=span_of(name),
    )


def _sheet_size(shape: PairText, rules: Rules) -> tuple[Length, Length]:
    """Width across the cloth and height along it: the longer side is the width, as precuts are laid out to cut."""
    sides = (shape.width.within(rules.system), shape.height.within(rules.system))
    return max(sides), min(sides)


def resolve_fabrics(
    fabrics: dict[str, FabricDeclaration], packs: tuple[Pack, ...], names: Names, rules: Rules, findings: Findings
) -> tuple[tuple[Fabric, ...], tuple[Pack, ...]]:
    """Letter the fabrics in order of use; return them and the packs, those bought singly added."""
    known = {pack.id: pack for pack in packs}
    made = []
    for index, (name, declared) in enumerate(fabrics.items()):
        pack = _source(name, declared.cut_from, known, rules, findings)
        others = tuple(
            "" if other.yardage is not None and other.yardage.on else _source(name, other, known, rules, findings)
            for other in declared.alternatives or ()
        )
        made.append(replace(_fabric(index, name, declared, pack, names, rules, findings), alternatives=others))
    return tuple(made), tuple(known.values())


def letter(index: int) -> str:
    """A, B … Z, AA, AB …"""
    text = ""
    index += 1
    while index:
        index, digit = divmod(index - 1, 26)
        text = chr(ord("A") + digit) + text
    return text


def _fabric(
    index: int, name: str, declared: FabricDeclaration, pack: str, names: Names, rules: Rules, findings: Findings
) -> Fabric:
    colors = _colors(index, declared, findings)
    same = declared.same_print
    if same is not None and same.text not in SAME_PRINT_WORDS:
        names.find(same.text, same.span, "unit", "block")
    usable = rules.usable_width
    if declared.usable_width is not None:
        usable = native_length(declared.usable_width, rules.system, findings)
    return Fabric(
        id=str(name), letter=letter(index),
        name=declared.name.text.strip() if declared.name is not None else str(name).replace("-", " ").capitalize(),
        colors=colors, value=declared.value or value_of(colors), hatch=index, pack=pack,
        pile=declared.cut_from.pile.text if declared.cut_from is not None and declared.cut_from.pile else "",
        direction=declared.directional or "none", same_print=same.text if same is not None else "none",
        apart=declared.apart or "block", usable_width=usable,
        purpose=declared.purpose.text.strip() if declared.purpose is not None else "", span=span_of(name),
        repeat=_repeat(name, declared, usable, rules, findings),
    )


def _repeat(
    name: str, declared: FabricDeclaration, usable: Length, rules: Rules, findings: Findings
) -> tuple[Length, Length] | None:
    """The repeat by which patches or borders are cut, of cloth that lies in one piece."""
    keys = [key for key in ("fussy", "stripe") if declared.has(key)]
    if not keys:
        return None
    span = declared.key_span(keys[-1])
    if len(keys) > 1 or declared.cut_from is not None or declared.alternatives is not None:
        what = "`fussy` and `stripe`" if len(keys) > 1 else f"`{keys[0]}` and precuts or other ways to buy it"
        findings.error(
            "repeat-of-precut", f"`{name}` has both {what}", span,
            "matching a print takes yardage: keep one of `fussy` and `stripe`, without `cut-from` and `alternatives`",
        )
        return None
    if declared.stripe is not None and declared.directional is not None:
        findings.error(
            "stripe-directional", f"`{name}` is striped and `directional`", declared.key_span("directional"),
            "borders of a stripe are cut along it on all four sides; leave `directional` out",
        )
    across, along = ZERO, ZERO
    if declared.fussy is not None:
        across, along = native_pair(declared.fussy, rules.system, findings)
    elif declared.stripe is not None:
        across = native_length(declared.stripe, rules.system, findings)
    if not ZERO < across * 2 <= usable or (declared.fussy is not None and along <= ZERO):
        findings.error(
            "size-out-of-range", f"the cloth of `{name}` does not hold two repeats side by side", span,
            "a repeat is above zero and at most half of the usable width",
        )
        return None
    return across, along


def _colors(index: int, declared: FabricDeclaration, findings: Findings) -> tuple[str, ...]:
    if declared.color is not None and declared.colors is not None:
        findings.error(
            "color-count", "a fabric has both `color` and `colors`", declared.key_span("colors"),
            "keep `color` for one cloth, `colors` for a fabric that is many prints",
        )
    if declared.colors:
        return tuple(color.value for color in declared.colors)
    if declared.color is not None:
        return (declared.color.value,)
    return (DEFAULT_COLORS[index % len(DEFAULT_COLORS)],)


def value_of(colors: tuple[str, ...]) -> Value:
    """Light, medium or dark by the colors' mean luma (ITU-R BT.601 weights on the coded values)."""
    total = 0
    for color in colors:
        red, green, blue = (int(color[start : start + 2], 16) for start in (1, 3, 5))
        total += 299 * red + 587 * green + 114 * blue
    luma = total // (1000 * len(colors))
    return "light" if luma >= _LIGHT_FROM else "dark" if luma < _DARK_BELOW else "medium"


def _source(
    fabric: str, declared: SourceDeclaration | None, packs: dict[str, Pack], rules: Rules, findings: Findings
) -> str:
    """The pack that a fabric is cut from, making one for precuts bought singly; nothing for yardage."""
    if declared is None:
        return ""
    ways = [key for key in ("pack", "fat-quarters", "fat-eighths", "strips", "squares") if declared.has(key)]
    if len(ways) != 1:
        findings.error(
            "source-not-one", f"`cut-from` of `{fabric}` names {len(ways) or 'no'} sources", declared.span,
            "give one of `pack`, `fat-quarters`, `fat-eighths`, `strips` or `squares`, or leave `cut-from` out "
            "for yardage",
        )
        return ""
    if declared.pack is not None:
        return _named_pack(declared.pack, declared.pile, packs, findings)
    made = _single(str(fabric), declared, rules)
    while made.id in packs and packs[made.id] != made:
        made = replace(made, id=f"{made.id}-2")
    packs[made.id] = made
    return made.id


def _named_pack(name: Name, pile: Name | None, packs: dict[str, Pack], findings: Findings) -> str:
    pack = packs.get(name.text)
    if pack is None:
        findings.error(
            "unknown-pack", f"there is no pack `{name.text}`", name.span, *nearest_names(name.text, packs)
        )
        return ""
    if pile is not None and pile.text not in dict(pack.piles):
        findings.error(
            "unknown-pile", f"the pack `{name.text}` has no pile `{pile.text}`", pile.span,
            *nearest_names(pile.text, dict(pack.piles)),
        )
    return pack.id


def _single(fabric: str, declared: SourceDeclaration, rules: Rules) -> Pack:
    """Precuts bought singly for one fabric, as a pack of its own; 0 as count where none was stated."""
    kind: PackKind
    if declared.fat_quarters is not None:
        kind, size, count = "fat-quarters", rules.fat_quarter, declared.fat_quarters.number
    elif declared.fat_eighths is not None:
        kind, size, count = "fat-eighths", rules.fat_eighth, declared.fat_eighths.number
    elif declared.strips is not None:
        kind, size, count = "strips", _sheet_size(declared.strips, rules), 0
    else:
        square = declared.squares
        kind, size, count = "squares", _sheet_size(square, rules) if square is not None else (ZERO, ZERO), 0
    width, height = max(size), min(size)
    return Pack(
        id=f"{fabric}-{kind}", kind=kind, width=width, height=height, usable_width=width, usable_height=height,
        count=count, prints=count, single=True, span=declared.span,
    )
