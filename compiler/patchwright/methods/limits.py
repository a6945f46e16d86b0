"""The refusals that several methods share, with the nearest size that works.

In: a request.
Out: refusals whose messages read as diagnostics do: lower-case, sizes as an author writes them.
Never: a refusal without a reason; one without a hint only where no size of that kind can work.
"""

from __future__ import annotations

from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.methods.allowance import hint_step
from patchwright.methods.method import Recipe, Refusal, Request, TriangleRules

LARGEST_TEMPLATE = {"in": Length(36), "cm": Length(90)}
"""The longest side of a template or foundation: about thirty printed pages, and as long as a long ruler."""


def size_text(width: Length, height: Length, rules: TriangleRules) -> str:
    """A finished size as an author writes it: `2 in x 3 1/2 in`."""
    return f"{plain_length(width, rules.system)} x {plain_length(height, rules.system)}"


def refuse_unless_square(request: Request, noun: str) -> tuple[Refusal, ...]:
    """Refuse a unit whose finished width and height differ; `noun` names it with its article."""
    if request.width == request.height:
        return ()
    sides = sorted({request.width, request.height})
    message = f"{noun} must be square, but this one finishes at {_own_size(request)}"
    hints = " or ".join(f"`{size_text(side, side, request.rules)}`" for side in sides)
    return (Refusal("not-square", "size", message, (f"nearest sizes that work: {hints}",)),)


def refuse_wide_seam(request: Request, narrowest: Length, part: str, key: str = "size") -> tuple[Refusal, ...]:
    """Refuse a unit whose narrowest finished patch is narrower than the seam, so that its allowances would not fit.

    `narrowest` grows with the unit, which gives the hint: the same shape, as large as it must be.
    Common practice, no source: an allowance that reaches past the next seam is caught in it.
    """
    rules = request.rules
    if narrowest >= rules.seam:
        return ()
    system = rules.system
    message = (
        f"{part} of a unit of {_own_size(request)} is {plain_length(narrowest, system)} across, "
        f"less than the seam of {plain_length(rules.seam, system)}"
    )
    return (Refusal("seam-too-wide", key, message, _larger(request, narrowest)),)


def refuse_large_templates(request: Request, recipe: Recipe) -> tuple[Refusal, ...]:
    """Refuse a unit with a template or foundation larger than anybody glues together from pages."""
    rules, seams = request.rules, request.rules.seam * 2
    most = LARGEST_TEMPLATE[rules.system]
    found = [(max(t.width, t.height), t.seam_side()) for piece in recipe.pieces if (t := piece.template) is not None]
    if recipe.foundation:
        own = max(request.width, request.height)
        found.append((own + seams, own))
    longest, finished = max(found, default=(most, most))
    if longest <= most:
        return ()
    # Allowances stay as they are when a shape is drawn smaller, so only the finished part shrinks.
    share = (most - longest + finished).down_to(hint_step(rules)) / finished
    long = plain_length(longest.up_to(rules.step), rules.system)
    width, height = ((side * share).down_to(hint_step(rules)) for side in (request.width, request.height))
    message = (
        f"a unit of {_own_size(request)} needs a template {long} long, and pages are glued to "
        f"{plain_length(most, rules.system)} at most"
    )
    hint = f"nearest size that works: `{size_text(width, height, rules)}`"
    return (Refusal("template-too-large", "size", message, (hint,)),)


def _own_size(request: Request) -> str:
    return size_text(request.width, request.height, request.rules)


def _larger(request: Request, narrowest: Length) -> tuple[str, ...]:
    if narrowest <= ZERO or len(narrowest.terms) > 1:
        return ()
    factor, step = request.rules.seam / narrowest, hint_step(request.rules)
    width, height = (request.width * factor).up_to(step), (request.height * factor).up_to(step)
    return (f"smallest size of this shape that works: `{size_text(width, height, request.rules)}`",)
