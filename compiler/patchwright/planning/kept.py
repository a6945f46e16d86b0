"""Cutting plans that an author keeps beside a pattern, so that a printed layout does not change without cause.

In: cutting problems with their plans; or the text that was kept.
Out: that text; or the plans by their problem's fingerprint.
Never: a plan for another problem than its own: any change of width, pieces or counts has another fingerprint. A kept
plan is an input like any other, checked again each time with everything else.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from patchwright.planning import cutting

FORMAT = 1
Solver = Callable[[cutting.Yardage], cutting.YardagePlan]


@dataclass(slots=True)
class Kept:
    """Kept plans, and all plans that were used, to keep them in turn."""

    plans: Mapping[str, cutting.YardagePlan] = field(default_factory=dict)
    used: dict[str, cutting.YardagePlan] = field(default_factory=dict)

    def solver(self, solve: Solver) -> Solver:
        """A solver that takes a kept plan where there is one for the very problem."""

        def first_kept(problem: cutting.Yardage) -> cutting.YardagePlan:
            key = fingerprint(problem)
            plan = self.plans.get(key)
            if plan is None or not _serves(problem, plan):
                plan = solve(problem)
            self.used[key] = plan
            return plan

        return first_kept


def fingerprint(problem: cutting.Yardage) -> str:
    """What tells a cutting problem from every other: its width, pieces, counts and the lengths that can be bought."""
    told = (
        problem.width,
        sorted((part.key, part.width, part.height, part.count, part.turn) for part in problem.parts),
        sorted((long.key, long.height, long.total, long.loss, long.least) for long in problem.joined),
        problem.purchasable,
    )
    return hashlib.sha256(repr(told).encode("utf-8")).hexdigest()[:24]


def _serves(problem: cutting.Yardage, plan: cutting.YardagePlan) -> bool:
    """Whether a kept plan gives what its problem asks, on its width and within the step that it claims."""
    given: dict[str, int] = {}
    reached: dict[str, list[int]] = {}
    for strip in plan.strips:
        used = sum(cut.width * cut.columns for cut in strip.cuts) + sum(part.length for part in strip.segments)
        if used > problem.width or any(cut.height * cut.stack > strip.height for cut in strip.cuts):
            return False
        for cut in strip.cuts:
            given[cut.key] = given.get(cut.key, 0) + cut.each * strip.count
        for part in strip.segments:
            reached.setdefault(part.key, []).extend([part.length] * strip.count)
    length = sum(strip.height * strip.count for strip in plan.strips)
    if length != plan.length or not 0 < plan.step <= len(problem.purchasable):
        return False
    return (
        length <= problem.purchasable[plan.step - 1]
        and all(given.get(part.key, 0) >= part.count for part in problem.parts)
        and all(
            sum(lengths := reached.get(long.key, [])) - long.loss * (len(lengths) - 1) >= long.total
            for long in problem.joined
        )
    )


def kept_text(used: Mapping[str, cutting.YardagePlan]) -> str:
    """The plans as stable text, for a file beside the pattern."""
    rows = {
        key: {
            "strips": [
                [
                    strip.height, strip.count, strip.used,
                    [[cut.key, cut.each, cut.width, cut.height, cut.turned, cut.stack] for cut in strip.cuts],
                    [[part.key, part.length] for part in strip.segments],
                ]
                for strip in plan.strips
            ],
            "numbers": [plan.length, plan.step, plan.length_bound, plan.step_bound, plan.smallest_width],
            "proof": plan.proof,
            "made": dict(plan.made),
            "joins": dict(plan.joins),
        }
        for key, plan in sorted(used.items())
    }
    return json.dumps({"format": FORMAT, "plans": rows}, ensure_ascii=False, indent=1) + "\n"


def read_kept(text: str) -> dict[str, cutting.YardagePlan]:
    """The kept plans of a text; raise ValueError where it is none of ours."""
    try:
        data = json.loads(text)
        if data["format"] != FORMAT:
            raise ValueError(f"format {data['format']} is not known")
        return {str(key): _plan(row) for key, row in data["plans"].items()}
    except (KeyError, TypeError, AttributeError, RecursionError) as fault:
        raise ValueError(f"not a file of kept layouts: {fault}") from None


def _plan(row: dict[str, Any]) -> cutting.YardagePlan:
    strips = tuple(
        cutting.Strip(
            height=int(height), count=int(count), used=int(used),
            cuts=tuple(
                cutting.Cut(str(key), int(each), int(width), int(high), bool(turned), int(stack))
                for key, each, width, high, turned, stack in cuts
            ),
            segments=tuple(cutting.Segment(str(key), int(length)) for key, length in segments),
        )
        for height, count, used, cuts, segments in row["strips"]
    )
    length, step, length_bound, step_bound, smallest = (int(number) for number in row["numbers"])
    return cutting.YardagePlan(
        strips, length, step, length_bound, step_bound, str(row["proof"]),
        tuple((str(key), int(count)) for key, count in row["made"].items()),
        tuple((str(key), int(count)) for key, count in row["joins"].items()), smallest,
    )
