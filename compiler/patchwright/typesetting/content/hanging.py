"""What hangs a quilt and names it: the steps for corners, sleeve and label, before the binding covers their edges."""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.planning.plan import PlannedHanging
from patchwright.typesetting.booklet import Block, Paragraph, Step, Subheading
from patchwright.typesetting.content.scope import Scope, mark

STEPS = (("hanging-corners", "corners"), ("hanging-sleeve", "sleeve-hem"), ("hanging-sleeve", "sleeve-sew"),
         ("hanging-label", "label"))  # fmt: skip


def hanging(scope: Scope) -> list[Block]:
    """The steps of each part that a covered size has; nothing where none has any."""
    if not any(size.hanging for size in scope.sizes):
        return []
    steps = list(_steps(scope))
    title = Subheading(scope.say("finishing.hanging.title"), "part-hanging")
    return [title, *(Step(f"step-hanging-{n}", n, blocks, sizes) for n, (blocks, sizes) in enumerate(steps, 1))]


def _steps(scope: Scope) -> Iterator[tuple[tuple[Block, ...], tuple[str, ...]]]:
    for part, key in STEPS:
        own = [_part(size.hanging, part) for size in scope.sizes]
        found = [one for one in own if one is not None]
        if not found:
            continue
        names = scope.names_with(own)
        only = names if len(names) < len(scope.sizes) else ()
        labels = [size.label for size, one in zip(scope.sizes, own, strict=True) if one is not None]
        start = scope.say("only-for", sizes=scope.wording.listed_text(labels)) if only else ""
        pieces = scope.listed([mark(piece) for piece in dict.fromkeys(one.piece for one in found)])
        bound = any(size.binding is not None for size in scope.sizes)
        rules = scope.plan.rules
        words = scope.inlines(
            f"finishing.hanging.{key}", pieces=pieces, start=start, hem=rules.sleeve_hem / 2, inset=rules.sleeve_inset,
            seam=rules.seam, edge=scope.say("finishing.hanging.bound" if bound else "finishing.hanging.unbound"),
        )
        figures = scope.figure_if(part) if key != "sleeve-hem" else ()
        yield (Paragraph(words), *figures), only


def _part(parts: tuple[PlannedHanging, ...], name: str) -> PlannedHanging | None:
    return next((one for one in parts if one.part == name), None)
