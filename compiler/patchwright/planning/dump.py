"""The plan as JSON: the public form of its numbers, and a full stable text dump for comparisons.

Lengths are exact strings in the pattern's unit, as `str(Length)` writes them; a key with `-text` beside it carries the
length as the booklet prints it.
Never: a number that is not in the plan.
"""

from __future__ import annotations

import json
from dataclasses import fields, is_dataclass
from typing import Any

from patchwright.core.length import Length
from patchwright.core.measure import printed_length
from patchwright.core.source import Span
from patchwright.design.rules import Rules
from patchwright.planning.plan import (
    Alternative,
    Buy,
    FabricSize,
    FabricSource,
    Plan,
    PlannedByBlock,
    PlannedFabric,
    PlannedSize,
)
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import seam_name

FORMAT = 1
Json = dict[str, Any]


def plan_json(plan: Plan, size_name: str | None = None) -> Json:
    """The numbers of a plan, of all sizes or of one."""
    return {
        "format": FORMAT,
        "pattern": plan.id,
        "title": plan.title,
        "release": plan.release,
        "colorway": plan.colorway or None,
        "unit": plan.system,
        "house": rules_json(plan.rules),
        "pressing": _pressing(plan.pressing),
        "sizes": [
            _size(plan, index, size)
            for index, size in enumerate(plan.sizes) if size_name is None or size.name == size_name
        ],
    }


def rules_json(rules: Rules) -> Json:
    """The rules in force, by the names that an author writes."""
    made: Json = {}
    for field in fields(rules):
        value = getattr(rules, field.name)
        made[field.name.replace("_", "-")] = _plain(value)
    return made


def text_dump(value: object) -> str:
    """Any frozen representation as stable text, spans left out, for goldens and comparisons."""
    return json.dumps(_plain(value), indent=1, ensure_ascii=False) + "\n"


def _plain(value: object) -> Any:
    if value is None or isinstance(value, bool | int | str):
        return value
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    if is_dataclass(value):
        return {
            field.name.replace("_", "-"): _plain(getattr(value, field.name))
            for field in fields(value) if not isinstance(getattr(value, field.name), Span)
        }
    return str(value)


def _pair(plan: Plan, key: str, pair: tuple[Any, Any]) -> Json:
    """A width and height: exact, and as printed."""
    lengths = [side if isinstance(side, Length) else side.length for side in pair]
    return {key: [str(side) for side in lengths], f"{key}-text": [printed_length(s, plan.system) for s in lengths]}


def _one(plan: Plan, key: str, length: Length | None) -> Json:
    if length is None:
        return {key: None}
    return {key: str(length), f"{key}-text": printed_length(length, plan.system)}


def _size(plan: Plan, index: int, size: PlannedSize) -> Json:
    made: Json = {"size": size.name, "label": size.label, "across": size.across, "down": size.down,
                  "setting": size.setting, "medallion": size.medallion}
    made |= _pair(plan, "finished", size.finished) | _pair(plan, "unfinished", size.unfinished)
    made["blocks"] = [
        {"id": assembly.id, "count": own.count}
        | _pair(plan, "finished", own.finished) | _pair(plan, "unfinished", own.unfinished)
        for assembly in plan.assemblies if (own := assembly.sizes[index]) is not None
    ]
    made["units"] = [
        {
            "id": unit.id, "unit": unit.name or unit.id, "method": unit.method, "how": unit.how,
            "fabrics": [fabric for _, fabric in unit.fabrics], "hand": unit.hand, "second-of": unit.second_of or None,
        }
        | _pair(plan, "finished", made_unit.finished) | _pair(plan, "unfinished", made_unit.unfinished)
        | {
            "need": made_unit.need, "made": made_unit.made, "batches": made_unit.batches,
            "pieces": [{"piece": part.piece, "per-batch": part.per_batch} for part in unit.pieces],
        }
        for unit in plan.units if (made_unit := unit.sizes[index]) is not None
    ]
    made["pieces"] = [
        {"piece": piece.id, "fabric": piece.fabric}
        | _pair(plan, "cut", (cut.width, cut.height))
        | {
            "need": cut.need, "made": cut.made, "spare": cut.spare, "then": piece.then, "joins": cut.joins,
            "template": cut.template or None,
            "for": list(piece.uses),
        }
        for piece in plan.pieces if (cut := piece.sizes[index]) is not None
    ]
    made["fabrics"] = [
        _fabric(plan, fabric, cloth) | {"alternatives": [_alternative(other, index) for other in fabric.alternatives]}
        for fabric in plan.fabrics if (cloth := fabric.sizes[index]) is not None
    ]
    made["pressing"] = _nesting(plan.pressing, index)
    if plan.pressing is not None and plan.pressing.variants:
        made["pressing"] |= _second_ways(plan, size)
    made["fit"] = _fit(plan, size)
    quarters = size.quarters
    made["quarters"] = {"x": str(quarters.x), "y": str(quarters.y)} if quarters is not None else None
    return made | _finishing(plan, size)


def _fit(plan: Plan, size: PlannedSize) -> Json | None:
    """The bed that a size is made for, what it asks for and what comes closest to it."""
    fit = size.fit
    if fit is None:
        return None
    drop, foot = fit.drops(size.finished)
    return (
        {"bed": fit.bed, "chosen": list(fit.chosen)}
        | _pair(plan, "mattress", fit.mattress)
        | {"drop": str(fit.drop), "foot": str(fit.foot), "tuck": str(fit.tuck), "within": str(fit.within)}
        | _pair(plan, "target", fit.target) | _one(plan, "drop-reached", drop) | _one(plan, "foot-reached", foot)
        | {
            "proposals": [
                {"across": one.across, "down": one.down, "borders": [str(width) for width in one.borders]}
                | _pair(plan, "finished", one.finished)
                for one in fit.proposals
            ]
        }
    )


def _pressing(pressing: PressingPlan | None) -> Json | None:
    """One plan of pressing for all sizes: its proof, and every seam with the reason for its way."""
    if pressing is None:
        return None
    most = pressing.choice.most if pressing.choice is not None else None
    return {
        "rule": pressing.rule, "proof": pressing.proof, "nested": str(pressing.nested), "bound": str(pressing.bound),
        "total": str(pressing.total),
        "variants": [
            {"kind": known.kind, "first": known.id, "second": known.second_id} for known in pressing.variants
        ],
        "seams": [
            {
                "id": seam_name(pressed.seam), "way": pressed.way, "toward": list(pressed.toward),
                "away": list(pressed.away), "reason": pressed.reason,
                "spun-at": list(pressed.spun_at) if pressed.spun_at is not None else None,
            }
            for pressed in pressing.seams
        ],
    } | ({"most": str(most)} if most is not None else {})


def _second_ways(plan: Plan, size: PlannedSize) -> Json:
    """The blocks of one size that are pressed the second way, by their upper left corners in the finished top."""
    seconds = {assembly.id for assembly in plan.assemblies if assembly.second_of}
    lying = [item for item in size.items if item.part == "block" and item.ref in seconds]
    return {"second-way": [{"id": item.ref, "x": str(item.x), "y": str(item.y)} for item in lying]}


def _nesting(pressing: PressingPlan | None, index: int) -> Json | None:
    """How many junctions of one size nest, those that do not by their joining line, and where seams pile up."""
    if pressing is None:
        return None
    own = pressing.sizes[index]
    missed: dict[str, int] = {}
    for junction in pressing.junctions:
        if not junction.nests and junction.counts[index]:
            name = seam_name(junction.line)
            missed[name] = missed.get(name, 0) + junction.counts[index]
    return {
        "junctions": own.total, "nested": own.nested,
        "not-nested": [{"id": name, "count": count} for name, count in missed.items()],
        "heavy-points": [
            {"id": seam_name(point.line), "seams": point.seams, "count": point.counts[index], "advice": point.advice,
             "loses": point.loses[index], "gains": point.gains[index]}
            for point in pressing.heavy if point.counts[index]
        ],
    }


def _fabric(plan: Plan, fabric: PlannedFabric, own: FabricSize) -> Json:
    made: Json = {
        "fabric": fabric.id, "letter": fabric.letter, "name": fabric.name,
        "source": _source(fabric.source),
        "strips": [
            _one(plan, "height", strip.height)
            | {
                "count": strip.count,
                "yields": [{"piece": part.piece, "each": part.each} for part in strip.yields],
                "segments": [{"piece": part.piece, "length": str(part.length)} for part in strip.segments],
                "used": str(strip.used),
            }
            for strip in own.strips
        ],
    }
    made["repeat"] = [str(side) for side in fabric.repeat] if fabric.repeat is not None else None
    made["extra"] = [{"for": use, "length": str(length)} for use, length in own.extra]
    made |= _one(plan, "length", own.length)
    made["buy"] = _buy(own.buy)
    made |= _one(plan, "smallest-usable-width", own.smallest_width)
    made |= {"proof": own.proof, "length-bound": str(own.bound)}
    return made | {"precuts": _precuts(own)}


def _source(source: FabricSource) -> Json:
    return {"kind": source.kind, "size": [str(side) for side in source.size], "pack": source.pack or None}


def _precuts(own: FabricSize) -> Json | None:
    if own.precuts is None:
        return None
    return {
        "used": own.precuts.used, "packs": own.precuts.packs, "left": own.precuts.left,
        "sheets": [
            {"count": sheet.count, "yields": [{"piece": p.piece, "each": p.each} for p in sheet.yields]}
            for sheet in own.precuts.sheets
        ],
    }


def _alternative(other: Alternative, index: int) -> Json:
    """Another way to buy a fabric: its length and what to buy, or its precuts; `serves` is false where it cannot."""
    own = other.sizes[index]
    made: Json = {
        "source": _source(other.source), "serves": own is not None,
        "pack-size": [str(side) for side in other.pack_size] if other.pack_count or other.source.pack else None,
        "pack-count": other.pack_count or None,
    }
    if own is None:
        return made
    return made | {"length": str(own.length), "buy": _buy(own.buy), "precuts": _precuts(own)}


def _buy(buy: Buy | None) -> Json | None:
    return None if buy is None else {"amount": str(buy.amount), "unit": buy.unit}


def _finishing(plan: Plan, size: PlannedSize) -> Json:
    made: Json = {"binding": None, "backing": None}
    if size.binding is not None:
        binding = size.binding
        made["binding"] = (
            {"fabric": binding.fabric or None, "piece": binding.piece or None}
            | _one(plan, "strip", binding.strip.length)
            | {"strips": binding.strips, "joins": binding.joins, "fold": binding.fold, "way": binding.way}
            | {"cloth": [str(side) for side in binding.cloth] if binding.cloth is not None else None}
            | {"cloths": binding.cloths, "lines": binding.lines, "made": str(binding.made)}
            | _one(plan, "length", binding.length) | {"buy": _buy(binding.buy)}
        )
    if size.backing is not None:
        backing = size.backing
        made["backing"] = (
            {"fabric": backing.fabric or None}
            | _pair(plan, "size", backing.size)
            | {
                "panels": [[str(side) for side in panel] for panel in backing.panels],
                "seams": backing.seams, "length": str(backing.length), "buy": _buy(backing.buy),
                "lengths": backing.lengths, "usable-width": str(backing.usable_width),
                "wide": str(backing.wide) if backing.wide is not None else None,
            }
        )
    made["hanging"] = [
        {"part": part.part, "fabric": part.fabric, "piece": part.piece, "count": part.count,
         "cut": [str(side) for side in part.cut]}
        for part in size.hanging
    ]
    made["by-block"] = _by_block(size.by_block) if size.by_block is not None else None
    made["borders"] = [
        {"id": border.id, "kind": border.kind, "fabric": border.fabric or None, "width": str(border.width),
         "end-width": str(border.high), "cut": border.cut, "side": border.side_piece or None,
         "end": border.end_piece or None}
        for border in size.borders
    ]
    made["strips"] = [
        {"place": strip.place, "piece": strip.piece, "width": str(strip.width), "count": strip.count, "cut": strip.cut}
        for strip in size.strips
    ]
    package, roll = size.batting_bought.package, size.batting_bought.roll
    made["batting"] = _pair(plan, "size", size.batting) | {
        "package": [str(side) for side in package] if package is not None else None,
        "roll": {"width": str(roll.width), "length": str(roll.length), "pieces": roll.pieces, "buy": _buy(roll.buy)}
        if roll is not None else None,
    }
    return made


def _by_block(made: PlannedByBlock) -> dict[str, Any]:
    """Blocks that have their own batting and backs."""
    return {
        "way": made.way, "inset": str(made.inset), "allowance": str(made.allowance), "fabric": made.fabric,
        "blocks": [
            {"count": block.count, "piece": block.piece}
            | {name: [str(side) for side in pair] for name, pair in (
                ("finished", block.finished), ("front", block.front), ("batting", block.batting), ("back", block.back),
            )}
            for block in made.blocks
        ],
    }
