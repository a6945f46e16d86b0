"""The fit on a bed that a size of a quilt asks for, and what is left open for it.

In: the house rules with their beds, and the layers of one size's quilt as declared.
Out: `Fit`, or None where a size names no bed; what is wrong with it is reported.
Never: a number of blocks; which of them reach the bed is worked out in planning.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from patchwright.core.diagnostics import Findings, nearest_names
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import System
from patchwright.design.design import Fit, Placement
from patchwright.design.finishing import declarations_of
from patchwright.design.house import native_length
from patchwright.design.mattresses import INFANT_BEDS
from patchwright.design.on_point import first
from patchwright.design.rules import Rules
from patchwright.dialect.beds import BlockCount, BorderWidth
from patchwright.dialect.declared import TopDeclaration
from patchwright.dialect.scalars import LengthText, Percent

Layers = tuple[TopDeclaration, ...]
Grid = tuple[tuple[Placement, ...], ...]
WITHIN: dict[System, Length] = {"in": Length(2), "cm": Length(5)}
"""How far a quilt may be off unless the author says otherwise; common practice, no source."""
BORDER_SHARE = Fraction(1, 2)
"""By how much proposals change borders unless the author says otherwise; our own choice."""


@dataclass(frozen=True, slots=True)
class Fits:
    """Resolves the fit of one size."""

    rules: Rules
    findings: Findings

    def resolve(self, layers: Layers, period: tuple[Grid, Grid]) -> Fit | None:
        """The fit of a size; `period` is what its arrangement repeats, the blocks and what lies between them."""
        parts = declarations_of(layers, "fit")
        bed = first(parts, "bed")
        if bed is None:
            self._refuse_open(layers)
            return None
        beds = dict(self.rules.beds)
        drop = first(parts, "drop")
        if bed.text not in beds:
            self.findings.error(
                "unknown-bed", f"there is no bed `{bed.text}`", bed.span, *nearest_names(bed.text, beds),
                "a house adds beds of its own under `beds` of its rules for inches or centimeters",
            )
        if drop is None:
            self.findings.error(
                "missing-key", f"the fit on a `{bed.text}` bed does not say how far the quilt hangs down",
                parts[0].span, "write `drop: …`, such as 12 in or 30 cm; 0 covers the mattress alone",
            )
        if bed.text not in beds or drop is None:
            return None
        hanging, foot, tuck = (self._length(first(parts, name), usual) for name, usual in (
            ("drop", ZERO), ("foot", self._length(drop, ZERO)), ("tuck", ZERO)))
        return Fit(
            bed.text, beds[bed.text], hanging, foot, tuck,
            self._length(first(parts, "within"), WITHIN[self.rules.system]),
            self._share(first(parts, "borders")), is_open(layers, "across"), is_open(layers, "down"), *period,
            parts[0].span,
        )

    def _length(self, written: LengthText | None, usual: Length) -> Length:
        return native_length(written, self.rules.system, self.findings) if written is not None else usual

    def _share(self, written: Percent | None) -> Fraction:
        if written is None:
            return BORDER_SHARE
        if written.value < 100:
            return written.value / 100
        self.findings.error(
            "border-limits", "borders that are narrowed by all of their width are gone", written.span,
            "give less than 100 %",
        )
        return BORDER_SHARE

    def _refuse_open(self, layers: Layers) -> None:
        """Report counts and widths that are left open where there is no bed that would decide them."""
        written: list[tuple[str, BlockCount | BorderWidth | None]] = [
            (name, first(layers, name)) for name in ("across", "down")
        ]
        written += [("width", border.width) for border in first(layers, "borders") or []]
        for name, value in written:
            if value is not None and is_left_open(value):
                self.findings.error(
                    "fit-without-bed", f"`{name}: fit` is left open, and no bed decides it", value.span,
                    "say which bed the quilt is made for, such as `fit: {bed: queen, drop: 12 in}`",
                )


def names_bed(layers: Layers) -> bool:
    """Whether a size is made for a bed."""
    return first(declarations_of(layers, "fit"), "bed") is not None


def for_infants(fit: Fit | None) -> bool:
    """Whether a size is made for an infant's bed."""
    return fit is not None and fit.bed in INFANT_BEDS


def is_left_open(written: BlockCount | BorderWidth) -> bool:
    """Whether an author wrote `fit` in place of a value."""
    return (written.number if isinstance(written, BlockCount) else written.length) is None


def is_open(layers: Layers, key: str) -> bool:
    """Whether a count of blocks is left to the fit: left out, or written as `fit`.

    A medallion grows by its rounds, so its center is as it is arranged unless `fit` is written.
    """
    written: BlockCount | None = first(layers, key)
    if written is None:
        return bool(first(layers, "setting") != "medallion")
    return written.number is None
