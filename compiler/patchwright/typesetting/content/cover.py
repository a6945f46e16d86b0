"""The cover: the picture, the sizes, and what a buyer looks for."""

from __future__ import annotations

from patchwright.planning.plan import PlannedSize
from patchwright.typesetting.booklet import Cover
from patchwright.typesetting.content.buying import pack_text
from patchwright.typesetting.content.colorways import colorway_name
from patchwright.typesetting.content.names import method_name, skill_text
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.cover_photo import SCENE


def make_cover(scope: Scope) -> Cover:
    """The cover, with the author's photograph, or the largest size covered, which shows most of the design."""
    plan = scope.plan
    return Cover(
        title=plan.title,
        summary=plan.summary,
        figure=scope.figure(SCENE if SCENE in scope.figures else f"cover-{_largest(scope).name}"),
        facts=_facts(scope),
        sizes=tuple((size.label, scope.wording.extent(*size.finished)) for size in scope.sizes),
        publisher=plan.rules.name,
        compact=scope.edition.compact,
    )


def _largest(scope: Scope) -> PlannedSize:
    return max(scope.sizes, key=lambda size: size.finished[0].length * size.finished[1].length)


def _facts(scope: Scope) -> tuple[tuple[str, str], ...]:
    plan = scope.plan
    facts = (
        ("skill", skill_text(scope)),
        ("fabric", _cloth(scope)),
        ("piecing", scope.wording.listed_text([method_name(scope, name) for name in _methods(scope)])),
        ("colorway", colorway_name(scope)),
        ("release", scope.wording.number(plan.release)),
    )
    return tuple((scope.say(f"cover.{key}"), text) for key, text in facts if text)


def _cloth(scope: Scope) -> str:
    """In what form the cloth is bought: packs and precuts first, then yardage."""
    packs = [pack_text(scope, pack) for pack in scope.plan.packs if scope.any(pack.sizes)]
    yardage = any(fabric.source.kind == "yardage" and scope.any(fabric.sizes) for fabric in scope.plan.fabrics)
    return scope.say("cover.between").join([*packs, *([scope.say("cover.yardage")] if yardage else [])])


def _methods(scope: Scope) -> tuple[str, ...]:
    """The piecing methods used, each once."""
    return tuple(dict.fromkeys(unit.method for unit in scope.plan.units if scope.any(unit.sizes)))
