"""What a maker must know of pressing beside the directions: what does not nest, where seams pile up, and second ways.

In: the plan's pressing.
Out: sentences for the steps of units, blocks and the top.
Never: a direction; those are told with the seams.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, floor

from patchwright.methods.registry import BY_NAME
from patchwright.planning.plan import Assembly, PlannedSize, PlannedUnit
from patchwright.planning.pressing.bulk import followed
from patchwright.planning.pressing.results import HeavyPoint
from patchwright.planning.pressing.terms import Owner
from patchwright.typesetting.content.scope import Scope

_PARTS = ("unit", "assembly")
"""Owners of seams that are sewn before the top."""
_Advice = tuple[str, int]
"""What is advised for a point, and how many seams meet in it."""


def missed_words(scope: Scope, assembly: Assembly) -> str:
    """Where seams within one block do not nest, by its joining lines."""
    index, made = next((at, size) for at, size in enumerate(assembly.sizes) if size is not None)
    owner = Owner("assembly", assembly.id)
    counts: dict[tuple[str, int], int] = {}
    for junction in scope.pressing.junctions:
        line = junction.line
        if line.owner == owner and not junction.nests and scope.plan.rules.pressing != "open":
            key = (line.part, line.line)
            counts[key] = counts.get(key, 0) + junction.counts[index]
    places = [
        scope.say(f"press.missed.{part}.{assembly.axis}", count=-(-count // made.count), first=number + 1,
                  second=number + 2)
        for (part, number), count in counts.items() if count
    ]
    return scope.say("press.missed.block", places=scope.wording.listed_text(places)) if places else ""


def heavy_words(scope: Scope, *owners: Owner) -> str:
    """What to do where more than six seams of a unit or block meet in one point, and what follows for nesting.

    Owners that are pressed alike there are told together, with what follows for all of them.
    """
    found: dict[_Advice, list[HeavyPoint]] = {}
    for point in _heavy(scope):
        if point.line.owner in owners:
            found.setdefault((point.advice, point.seams), []).append(point)
    kind = "unit" if owners[0].kind == "unit" else "block"
    return " ".join(
        scope.say(f"press.heavy.{kind}.{advice}", seams=seams, after=_after(scope, points),
                  where=_where(scope, owners[0], points) if kind == "block" else "")
        for (advice, seams), points in found.items()
    )


def advice_of(scope: Scope, owner: Owner) -> frozenset[_Advice]:
    """What is advised where seams of a unit pile up: units of the same advice are told together."""
    return frozenset((point.advice, point.seams) for point in _heavy(scope) if point.line.owner == owner)


def _where(scope: Scope, owner: Owner, points: Sequence[HeavyPoint]) -> str:
    """The seams of a block on which points lie: `the seam between rows 1 and 2`."""
    axis = scope.assembly(owner.id).axis
    named = dict.fromkeys(
        scope.say(f"press.heavy.where.{seam.part}.{axis}", first=seam.line + 1, second=seam.line + 2)
        for seam in (point.line for point in points)
    )
    return scope.wording.listed_text(list(named))


def _heavy(scope: Scope) -> Iterator[HeavyPoint]:
    """Heavy points of the covered sizes; where the house presses open, there is nothing left to advise."""
    for point in scope.pressing.heavy if scope.plan.rules.pressing != "open" else ():
        if any(point.counts[index] for index in scope.chosen):
            yield point


def _after(scope: Scope, points: Sequence[HeavyPoint]) -> str:
    """How many junctions of the quilt nest less, or more, where the advice for these points is followed."""
    fewer, more = (
        tuple((size.label, changed[index]) for size, index in zip(scope.sizes, scope.chosen, strict=True))
        for changed in followed(scope.pressing, points)
    )
    told = [scope.by_size_inline(counts, scope.wording.number) for counts in (fewer, more)]
    found = [any(count for _, count in counts) for counts in (fewer, more)]
    key = "both" if all(found) else "loses" if found[0] else "gains" if found[1] else "same"
    return scope.say(f"press.heavy.after.{key}", fewer=told[0], more=told[1])


def heavy_on_top(scope: Scope) -> str:
    """The same for rows, the joined rows and the borders together."""
    points = [point for point in _heavy(scope) if point.line.owner.kind not in _PARTS]
    if not points:
        return ""
    counts = tuple(
        (size.label, sum(point.counts[index] for point in points))
        for size, index in zip(scope.sizes, scope.chosen, strict=True)
    )
    return scope.say(
        "press.heavy.top", seams=max(point.seams for point in points), after=_after(scope, points),
        counts=scope.by_size_inline(counts, scope.wording.number),
    )


def remarks(scope: Scope, assembly: Assembly) -> tuple[str, str]:
    """Where seams of a block do not nest, and what to do where they pile up."""
    return missed_words(scope, assembly), heavy_words(scope, Owner("assembly", assembly.id))


def nests_on_lines(scope: Scope, assembly: Assembly) -> bool:
    """Whether anything nests where the rows (or columns) of a block are joined."""
    owner = Owner("assembly", assembly.id)
    return any(
        junction.nests and (junction.line.owner, junction.line.part) == (owner, "between")
        for junction in scope.pressing.junctions
    )


def nests_on_top(scope: Scope) -> bool:
    """Whether anything nests where rows of the top are joined."""
    return any(
        junction.nests and junction.line.owner.kind in ("quarter", "top") for junction in scope.pressing.junctions
    )


def nesting_words(scope: Scope) -> str:
    """How many junctions nest, by size, and the owners of those that do not."""
    counts = tuple((size.label, scope.pressing.sizes[index]) for size, index in zip(scope.sizes, scope.chosen,
                                                                                    strict=True))
    if scope.plan.rules.pressing == "open" or not any(own.total for _, own in counts):
        return ""
    told = scope.by_size_inline(counts, lambda own: scope.say("press.count.of", nested=own.nested, total=own.total))
    if all(own.nested == own.total for _, own in counts):
        proof = scope.say("press.count.all", counts=told)
    else:
        spinning = scope.plan.rules.spinning
        limit = "" if spinning == "any" else scope.say(f"press.count.spinning.{spinning}")
        proof = " ".join([_proof(scope, told), limit]).strip()
    said = proof, _missed_on_top(scope), heavy_on_top(scope)
    return " ".join(text for text in said if text)


def _proof(scope: Scope, counts: str) -> str:
    """That no more can nest, or the most that could: of one size as a number, of several in percent, rounded up."""
    rule = scope.pressing.rule
    if scope.pressing.is_best:
        return scope.say(f"press.count.{rule}.best", counts=counts)
    choice = scope.pressing.choice
    bound = scope.pressing.bound if choice is None or choice.most is None else choice.most
    totals = [size.total for size in scope.pressing.sizes if size.total]
    if len(totals) == 1:
        return scope.say(f"press.count.{rule}.gap", counts=counts, most=floor(bound * totals[0]))
    return scope.say(f"press.count.{rule}.gap-sizes", counts=counts, most=ceil(bound * 100 / len(totals)))


def _missed_on_top(scope: Scope) -> str:
    """How many junctions do not nest on which joins of the top."""
    found: dict[str, list[int]] = {}
    for junction in scope.pressing.junctions:
        here = [junction.counts[index] for index in scope.chosen]
        if not junction.nests and any(here) and junction.line.owner.kind not in _PARTS:
            owner = junction.line.owner
            kind: str = "top" if owner.kind == "quarter" else owner.kind
            if owner == Owner("top", "quarters"):
                kind = "quarter"
            if kind == "row" and all(size.setting == "strippy" and size.float is None for size in scope.sizes):
                kind = "column"
            known = found.setdefault(kind, [0] * len(here))
            found[kind] = [count + more for count, more in zip(known, here, strict=True)]
    labels = [size.label for size in scope.sizes]
    places = [
        scope.say("press.missed.at", place=scope.say(f"press.missed.top.{kind}"),
                  counts=scope.by_size_inline(tuple(zip(labels, counts, strict=True)), scope.wording.number))
        for kind, counts in found.items()
    ]
    return scope.say("press.missed.on-top", places=scope.say("press.and").join(places)) if places else ""


def second_way_key(scope: Scope, sizes: Sequence[PlannedSize]) -> str:
    """The sentence that tells where blocks of the second way lie; nothing where there are none."""
    refs = {item.ref for size in sizes for item in size.items if item.part == "block"}
    choice = scope.pressing.choice
    if choice is None or not any(made.second_of for made in scope.plan.assemblies if made.id in refs):
        return ""
    by_turns = dict(zip((size.name for size in scope.plan.sizes), choice.chessboard, strict=True))
    return "top.second-way" if all(by_turns[size.name] for size in sizes) else "top.second-way-marked"


def two_hands_words(scope: Scope, unit: PlannedUnit) -> str:
    """What to know of a unit that comes in two hands of sewing, where its seams meet others."""
    ends = [
        end.seam.owner.id for junction in scope.pressing.junctions if not junction.can_nest
        for end in (junction.first, junction.second) if any(junction.counts[index] for index in scope.chosen)
    ]
    hands = unit.how in BY_NAME[unit.method].two_hands and scope.plan.rules.pressing != "open"
    return scope.say("press.unit.two-hands") if hands and unit.id in ends else ""
