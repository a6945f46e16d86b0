"""Checks that a size which was chosen for a bed reaches it, and that its proposals are what they say.

In: the plan.
Out: a sentence for each thing that does not agree.
Never: a function of the search; the mattress and what hangs down are added up again, borders from their proposals.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.planning.plan import Plan, PlannedSize


def bed_faults(plan: Plan, size: PlannedSize) -> Iterator[str]:
    """What is wrong with the fit of one size."""
    fit = size.fit
    if fit is None:
        return
    if (fit.bed, fit.mattress) not in plan.rules.beds:
        yield f"the mattress of a `{fit.bed}` bed is not that of the house"
    width, length = fit.mattress
    wanted = (width + fit.drop + fit.drop, length + fit.foot + fit.tuck)
    apart = [abs(side.length - asked) for side, asked in zip(size.finished, wanted, strict=True)]
    if fit.chosen and max(apart) > fit.within:
        yield f"the quilt was chosen for a `{fit.bed}` bed and misses it"
    plain = tuple(border.wide for border in size.borders if border.kind == "plain")
    own = [p for p in fit.proposals if (p.across, p.down, p.borders) == (size.across, size.down, plain)]
    if fit.chosen and (not own or own[0] != fit.proposals[0]):
        yield "the quilt is not the first of those proposed for its bed"
    if any(proposal.finished != size.finished for proposal in own):
        yield "the quilt is not as large as was proposed for its bed"
    off = [
        max(abs(side.length - asked) for side, asked in zip(proposal.finished, wanted, strict=True))
        for proposal in fit.proposals
    ]
    if off != sorted(off):
        yield "the proposals for its bed are not listed closest first"
