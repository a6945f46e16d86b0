"""Design → Design with every size that is made for a bed decided, and what the plan says of it.

In: a design whose sizes may leave numbers of blocks and widths of borders open.
Out: the same design with nothing left open; for each size what it was fitted to, with the best proposals.
Never: a number that the author wrote changed. What is written and misses the bed is reported with what would reach it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from patchwright.core.diagnostics import Findings
from patchwright.core.length import Finished, Length
from patchwright.core.measure import plain_length
from patchwright.design.design import Border, Design, Fit, Size
from patchwright.design.on_point import repeated
from patchwright.design.sizes import MOST_ACROSS, MOST_PLACEMENTS
from patchwright.planning.beds.measuring import TopMeasures, can_be_laid, measured_top
from patchwright.planning.beds.search import BORDER_STEP, Choice, Limits, Search
from patchwright.planning.instances import Instances, cells_of_blocks
from patchwright.planning.plan_beds import BedProposal, LeftOpen, PlannedFit
from patchwright.planning.symmetry import symmetric_counts

PROPOSED = 4


def fitted(design: Design, findings: Findings) -> tuple[Design, tuple[PlannedFit | None, ...]]:
    """Decide what every size leaves open for its bed; a bed that nothing reaches is an error."""
    if all(size.fit is None for size in design.sizes):
        return design, (None,) * len(design.sizes)
    instances = Instances(design, Findings())
    cells = cells_of_blocks(design)
    sizes: list[Size] = []
    fits: list[PlannedFit | None] = []
    for index, size in enumerate(design.sizes):
        fit = size.fit
        measures = measured_top(instances, cells, size, fit, index) if fit is not None else None
        if fit is None or measures is None:
            sizes.append(size)
            fits.append(_planned(fit, size, ()) if fit is not None else None)
            continue
        fitting = _Fitting(
            design, findings, size, fit, measures, symmetric_counts(instances, cells, size),
            can_be_laid(instances, cells, size, index),
        )
        own, planned = fitting.decided()
        sizes.append(own)
        fits.append(planned)
    return replace(design, sizes=tuple(sizes)), tuple(fits)


@dataclass(frozen=True, slots=True)
class _Fitting:
    """One size and its bed."""

    design: Design
    findings: Findings
    size: Size
    fit: Fit
    measures: TopMeasures
    symmetric: Callable[[int, int], bool]
    laid: Callable[[int, int], bool]

    def decided(self) -> tuple[Size, PlannedFit]:
        fit, size = self.fit, self.size
        open_borders = any(border.limits is not None for border in size.borders)
        if not (fit.open_across or fit.open_down or open_borders):
            proposals = self._proposals()
            self._warn(proposals)
            return size, _planned(fit, size, proposals)
        choices = self._search(free=False).best(PROPOSED)
        if not choices or not choices[0].reaches(fit):
            self._report(choices)
            return size, _planned(fit, size, choices)
        return _chosen(size, fit, choices[0]), _planned(fit, size, choices)

    def _proposals(self) -> tuple[Choice, ...]:
        """What would come closest if the author left everything open."""
        return self._search(free=True).best(PROPOSED)

    def _search(self, free: bool) -> Search:
        """Over what is left open; `free` leaves open what is written too, borders within the share of their width."""
        fit, size = self.fit, self.size
        wide, high = len(fit.blocks[0]), _rows(size, fit)
        counts = free and not size.medallion
        across = _counts(wide, size.across, fit.open_across, counts)
        down = _counts(high, size.down, fit.open_down, counts)
        limits = [_limits(border, fit, free) for border in size.borders]
        return Search(self.measures, fit, self.design.system, across, down, limits, self._may_be)

    def _may_be(self, across: int, down: int) -> bool:
        blocks = across * down + ((across - 1) * (down - 1) if self._is_diagonal() else 0)
        return blocks <= MOST_PLACEMENTS and self.symmetric(across, down) and self.laid(across, down)

    def _is_diagonal(self) -> bool:
        """Whether there are blocks between the blocks."""
        return self.size.on_point is not None and self.size.strips is None

    def _warn(self, proposals: Sequence[Choice]) -> None:
        """Tell how far a size that leaves nothing open lies from its bed, where that is too far."""
        fit, size = self.fit, self.size
        finished = self.measures.finished(size.across, size.down, tuple(border.width for border in size.borders))
        if finished is None:
            return
        own = Choice(size.across, size.down, (), finished)
        if not own.reaches(fit):
            self.findings.warning(
                "bed-missed",
                f"{self._asked()}, and `{size.name}` finishes {self._pair(finished)}, {self._apart(own)}",
                fit.span, *(self._told(choice) for choice in proposals),
            )

    def _report(self, choices: Sequence[Choice]) -> None:
        """Say what comes nearest, and what would come nearer with more left open."""
        fit, size = self.fit, self.size
        hints = [f"nearest with what is left open: {self._told(choice)}" for choice in choices[:1]]
        hints += [f"with everything left open: {self._told(choice)}" for choice in self._proposals()
                  if choice.reaches(fit) and choice not in choices]
        if choices:
            most = choices[0].off(fit.target).up_to(BORDER_STEP[self.design.system])
            hints.append(f"or allow more with `within: {self._text(most)}`")
        self.findings.error(
            "bed-not-reached",
            f"{self._asked()}, and nothing that is left open brings `{size.name}` "
            f"within {self._text(fit.within)} of that",
            fit.span, *hints or (
                f"at most {MOST_ACROSS} blocks a side and {MOST_PLACEMENTS} in all are tried; make the blocks larger",
            ),
        )

    def _asked(self) -> str:
        fit = self.fit
        foot = f" and of {self._text(fit.foot)} at the foot" if fit.foot != fit.drop else ""
        tuck = f" and {self._text(fit.tuck)} to tuck under pillows" if fit.tuck else ""
        return (
            f"a `{fit.bed}` bed with a drop of {self._text(fit.drop)}{foot}{tuck} asks for {self._pair(fit.target)}"
        )

    def _told(self, choice: Choice) -> str:
        """A choice as an author would write it, and how far off it is."""
        plain = [self._text(width) for width, border in zip(choice.widths, self.size.borders, strict=True)
                 if border.kind == "plain"]
        borders = f" with {'borders' if len(plain) > 1 else 'a border'} of {', '.join(plain)}" if plain else ""
        return (
            f"{choice.across} by {choice.down} blocks{borders} finish {self._pair(choice.finished)}, "
            f"{self._apart(choice)}"
        )

    def _apart(self, choice: Choice) -> str:
        """`2 in wider and 1 in shorter`."""
        words = []
        for own, wanted, more, less in zip(
            choice.finished, self.fit.target, ("wider", "longer"), ("narrower", "shorter"), strict=True
        ):
            if own != wanted:
                words.append(f"{self._text(abs(own - wanted))} {more if own > wanted else less}")
        return " and ".join(words) or "as asked"

    def _pair(self, pair: tuple[Length, Length]) -> str:
        return " by ".join(self._text(side) for side in pair)

    def _text(self, length: Length) -> str:
        return plain_length(length, self.design.system)


def _rows(size: Size, fit: Fit) -> int:
    """The rows of blocks of the whole arrangement; on point without `alternate`, every other row is one between."""
    rows = len(fit.blocks)
    diagonal = size.on_point is not None and size.strips is None
    return (rows + 1) // 2 if diagonal and len(fit.between) != 1 else rows


def _counts(whole: int, written: int, is_open: bool, free: bool) -> Sequence[int]:
    """The numbers of blocks that may be chosen: at least the whole arrangement, or what is written."""
    if not (is_open or free):
        return (written,)
    return range(whole if is_open else min(whole, written), MOST_ACROSS + 1)


def _limits(border: Border, fit: Fit, free: bool) -> Limits:
    """Between which widths a border may be chosen."""
    if border.limits is not None:
        return border.limits
    if not free or border.kind != "plain" or border.corner_kind == "block":
        return border.width, border.width
    return border.width * (1 - fit.border_share), border.width * (1 + fit.border_share)


def _chosen(size: Size, fit: Fit, choice: Choice) -> Size:
    """The size with nothing left open."""
    borders = tuple(
        replace(border, width=width, limits=None) if border.limits is not None else border
        for border, width in zip(size.borders, choice.widths, strict=True)
    )
    on_point = size.on_point
    if on_point is not None and size.strips is None:
        on_point = replace(on_point, between=repeated(fit.between, choice.across - 1, choice.down - 1))
    return replace(
        size, across=choice.across, down=choice.down, grid=repeated(fit.blocks, choice.across, choice.down),
        borders=borders, on_point=on_point,
    )


def _planned(fit: Fit, size: Size, choices: Sequence[Choice]) -> PlannedFit:
    """What the plan says of a fit."""
    plain = [number for number, border in enumerate(size.borders) if border.kind == "plain"]
    left_open: tuple[tuple[LeftOpen, bool], ...] = (
        ("across", fit.open_across), ("down", fit.open_down),
        ("borders", any(border.limits is not None for border in size.borders)),
    )
    return PlannedFit(
        bed=fit.bed, mattress=fit.mattress, drop=fit.drop, foot=fit.foot, tuck=fit.tuck, within=fit.within,
        chosen=tuple(name for name, is_open in left_open if is_open),
        proposals=tuple(
            BedProposal(
                choice.across, choice.down, tuple(Finished(choice.widths[number]) for number in plain),
                (Finished(choice.finished[0]), Finished(choice.finished[1])),
            )
            for choice in choices
        ),
    )
