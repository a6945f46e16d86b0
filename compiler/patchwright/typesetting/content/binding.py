"""Binding: its strips and lengths by size, how cloth is cut on the bias, and the steps from joining to the back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from patchwright.planning.plan import PlannedBinding
from patchwright.typesetting.booklet import Block, Column, Figure, Paragraph, Step, Subheading, Table
from patchwright.typesetting.content.scope import Scope, each, mark
from patchwright.typesetting.content.tables import size_cells, size_table, text_cell

STEPS = ("join", "fold", "sew", "corner", "close", "turn")
ROWS = ("cloth", "strips", "joins", "length", "made")


def binding(scope: Scope) -> list[Block]:
    """Strips, joins and length by size, then the steps."""
    blocks: list[Block] = [Subheading(scope.say("finishing.binding.title"), "part-binding"), _table(scope)]
    for number, (words, figures, sizes) in enumerate(_steps(scope), 1):
        blocks.append(Step(f"step-binding-{number}", number, (words, *figures), sizes=sizes))
    return blocks


def _steps(scope: Scope) -> Iterator[tuple[Paragraph, tuple[Figure, ...], tuple[str, ...]]]:
    """Words, drawings, and the sizes that a step is for where not all have it."""
    bindings = [size.binding for size in scope.sizes]
    yield from _cutting(scope, bindings)
    rules = scope.plan.rules
    pieces = [
        mark(one.piece) for one in bindings
        if one is not None and one.piece and (one.cloth is None or one.is_along)
    ]
    listed = scope.listed(list(dict.fromkeys(pieces)))
    named = scope.inlines("finishing.binding.pieces", pieces=listed) if listed else ()
    width = scope.by_size_inline(_valued(scope, bindings), lambda one: scope.wording.length(one.strip))
    for key in STEPS:
        for variant, figure, using in _variants(scope, key, bindings):
            if not any(using):
                continue
            sizes = scope.names_with(using)
            own = sizes if len(sizes) < len(scope.sizes) else ()
            start = _only(scope, using) if own else ""
            words = scope.inlines(
                variant, seam=rules.seam, tail=rules.binding_extra, pieces=named, width=width,
                start=start,
            )
            yield Paragraph(words), scope.figure_if(figure), own


def _variants(
    scope: Scope, key: str, bindings: Sequence[PlannedBinding | None]
) -> Iterator[tuple[str, str, Sequence[PlannedBinding | None]]]:
    """(wording key, figure, the bindings that it is for) of a step, by the house's rules and by how strips are made."""
    rules = scope.plan.rules
    if key == "join":
        straight = [one if one is not None and one.joins and one.way == "straight" else None for one in bindings]
        slanted = [one if one is not None and one.joins and one.way != "straight" else None for one in bindings]
        yield f"finishing.binding.join.{rules.binding_join}", "binding-join", straight
        yield "finishing.binding.join.bias", "binding-join-bias", slanted
    elif key == "fold":
        for fold, figure in (("double", "binding-fold"), ("single", "binding-fold-single")):
            folded = [one if one is not None and one.fold == fold else None for one in bindings]
            yield f"finishing.binding.fold.{fold}", figure, folded
    elif key == "close":
        yield f"finishing.binding.close.{rules.binding_join}", "binding-close", bindings
    elif key == "turn":
        yield f"finishing.binding.turn.{rules.binding_by}", "binding-turn", bindings
    else:
        yield f"finishing.binding.{key}", f"binding-{key}", bindings


def _cutting(
    scope: Scope, bindings: Sequence[PlannedBinding | None]
) -> Iterator[tuple[Paragraph, tuple[Figure, ...], tuple[str, ...]]]:
    """How cloth is cut on the bias, one way after the other."""
    ways = dict.fromkeys(one.way for one in bindings if one is not None and one.way != "straight")
    for way in ways:
        using = [one if one is not None and one.way == way else None for one in bindings]
        sizes = scope.names_with(using)
        own = sizes if len(sizes) < len(scope.sizes) else ()
        valued = _valued(scope, using)
        cloth = scope.by_size_inline(valued, lambda one: _cloth(scope, one))
        counts = scope.by_size_inline(valued, lambda one: scope.wording.number(one.strips))
        lines = scope.by_size_inline(valued, lambda one: scope.wording.number(one.lines))
        width = scope.by_size_inline(valued, lambda one: scope.wording.length(one.strip))
        least = scope.by_size_inline(valued, lambda one: scope.wording.length(one.least) if one.least else "")
        keys = ("square", "shape", "tube") if way == "continuous" else ("cut",)
        for number, key in enumerate(keys):
            words = scope.inlines(
                f"finishing.binding.{way}.{key}", cloth=cloth, count=counts, width=width, least=least, lines=lines,
                seam=scope.plan.rules.seam, start=_only(scope, using) if own and not number else "",
            )
            yield Paragraph(words), scope.figure_if(f"binding-cut-{way}") if number == len(keys) - 1 else (), own


def _only(scope: Scope, using: Sequence[PlannedBinding | None]) -> str:
    labels = [size.label for size, one in zip(scope.sizes, using, strict=True) if one is not None]
    return scope.say("only-for", sizes=scope.wording.listed_text(labels))


def _valued(
    scope: Scope, bindings: Sequence[PlannedBinding | None]
) -> tuple[tuple[str, PlannedBinding], ...]:
    return tuple((size.label, one) for size, one in zip(scope.sizes, bindings, strict=True) if one is not None)


def _cloth(scope: Scope, one: PlannedBinding) -> str:
    """`1 square 29″`, `2 rectangles 39″ × 12″`, `7 strips 2½″ × 42″`."""
    if one.cloth is None:
        return scope.say("by-size.none")
    square = "square" if one.cloth[0] == one.cloth[1] else "rectangle"
    kind = "along" if one.is_along else "strip" if one.way == "straight" else square
    return scope.say(
        f"finishing.binding.cloth.{kind}", count=one.cloths, size=scope.wording.extent(*sorted(one.cloth)),
        side=one.cloth[0],
    )


def _strips(scope: Scope, one: PlannedBinding) -> str:
    """Strips across the cloth, or how many are cut from it; a spiral is one long strip for each square."""
    key = "strips" if one.cloth is None else "spirals" if one.way == "continuous" else "strips-cut"
    return scope.say(f"finishing.binding.{key}", count=one.strips, width=one.strip)


def _table(scope: Scope) -> Table:
    bindings = [size.binding for size in scope.sizes]
    number, length = scope.wording.number, scope.wording.length
    values: dict[str, Sequence[str | None]] = {
        "cloth": each(bindings, lambda one: _cloth(scope, one)) if any(one and one.cloth for one in bindings) else (),
        "strips": each(bindings, lambda one: _strips(scope, one)),
        "joins": each(bindings, lambda one: number(one.joins)),
        "length": each(bindings, lambda one: length(one.length)),
        "made": each(bindings, lambda one: length(one.made)),
    }
    rows = [
        (text_cell(scope.say(f"finishing.binding.table-{key}")), *size_cells(scope, values[key]))
        for key in ROWS if values[key]
    ]
    caption, heads = scope.say("finishing.binding.caption"), (Column(scope.say("finishing.binding.head")),)
    return size_table(scope, "table-binding", caption, heads, "", rows)
