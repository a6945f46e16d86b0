"""What a build may take over from earlier ones instead of making it again: plans, drawings, pages, whole builds.

In: everything that a result is made from, and the results.
Out: a result that was made from just the same by just this program; or nothing.
Never: a result under a key that leaves out something it depends on, so that remembering cannot change a byte.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from patchwright.core.diagnostics import Diagnostic
from patchwright.core.packed import UnpackError, fingerprint_and_spans, moved_spans, pack, unpack
from patchwright.design.design import Design
from patchwright.planning.kept import Kept
from patchwright.planning.plan import Plan
from patchwright.reading import Read
from patchwright.store import Store, program_digest

if TYPE_CHECKING:
    from patchwright.planning.laying import Effort


class Memory:
    """Values by kind and key; what another state of the program made is not known here."""

    def __init__(self, out: Path | None = None) -> None:
        """Keep values below an output folder, or nothing at all."""
        self._store = Store(out)

    @property
    def is_on(self) -> bool:
        return self._store.is_on

    def recall(self, kind: str, key: str) -> Any:
        """A value, or None."""
        if not self.is_on:
            return None
        content = self._store.get(self._name(kind, key))
        try:
            return unpack(content) if content is not None else None
        except UnpackError:
            return None

    def keep(self, kind: str, key: str, value: object) -> None:
        if self.is_on:
            self._store.put(self._name(kind, key), pack(value))

    def trim(self) -> None:
        """Keep within bounds, at the end of a build."""
        self._store.trim()

    def _name(self, kind: str, key: str) -> str:
        return hashlib.blake2b(f"{program_digest()} {kind} {key}".encode(), digest_size=24).hexdigest()


NOTHING = Memory()
"""Remembers nothing."""


@dataclass(frozen=True, slots=True)
class WholeBuild:
    """A finished build of one pattern."""

    reads: tuple[tuple[Read, str], ...]
    """All that it read, with digests."""
    files: tuple[tuple[str, str], ...]
    """All that it wrote, with digests."""
    pages: tuple[tuple[str, int], ...]
    plan: Plan
    diagnostics: tuple[Diagnostic, ...]


def planned(
    design: Design, effort: Effort, kept: Kept, memory: Memory
) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    """Design → Plan, planned anew unless it was planned before with other prose, or on other lines."""
    from patchwright.planning.build import make_plan

    if not memory.is_on:
        return make_plan(design, effort, kept)
    bare = replace(design, introduction=None, steps=(), finishing=None, about=None)
    key, spans = fingerprint_and_spans(bare, effort, sorted(kept.plans.items()))
    known = memory.recall("plan", key)
    moved = moved_spans(known[0], spans) if known is not None else None
    if moved is not None:
        try:
            plan, diagnostics = unpack(known[1], moved)
            return _with_prose(plan, design), diagnostics
        except UnpackError:
            pass
    made, diagnostics = make_plan(bare, effort, kept)
    if made is None:
        return None, diagnostics
    memory.keep("plan", key, (spans, pack((made, diagnostics))))
    return _with_prose(made, design), diagnostics


def _with_prose(plan: Plan, design: Design) -> Plan:
    return replace(
        plan, introduction=design.introduction, notes=design.steps, finishing=design.finishing, about=design.about
    )


def without_prose(plan: Plan) -> Plan:
    """The plan as drawings see it: no word of the author's is drawn."""
    return replace(plan, introduction=None, notes=(), finishing=None, about=None)
