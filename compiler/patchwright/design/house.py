"""House rules: the table of all rules with their defaults and ranges, and their resolution for one pattern.

In: the pattern's own `house` mapping and the house file, either of which may be missing.
Out: `Rules` in the pattern's unit.
Never: a rule without a default, or a value outside its range.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from patchwright.core.diagnostics import Findings
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import System, plain_length
from patchwright.core.source import Span
from patchwright.design.mattresses import MATTRESSES
from patchwright.design.rules import Imprint, Rules
from patchwright.dialect.declared import HouseDeclaration, SystemRules
from patchwright.dialect.scalars import Count, LengthText, PairText, Percent, Prose, Switch


@dataclass(frozen=True, slots=True)
class LengthRule:
    """A rule that is a length: where it stands, its default and its range in inches and in centimeters."""

    path: tuple[str, ...]
    inches: str
    centimeters: str
    inch_range: tuple[str, str]
    centimeter_range: tuple[str, str]

    def default(self, system: System) -> Length:
        return Length(Fraction(self.inches if system == "in" else self.centimeters))

    def bounds(self, system: System) -> tuple[Length, Length]:
        low, high = self.inch_range if system == "in" else self.centimeter_range
        return Length(Fraction(low)), Length(Fraction(high))


LENGTH_RULES: tuple[LengthRule, ...] = (
    LengthRule(("seam",), "1/4", "0.75", ("1/16", "1"), ("0.2", "2.5")),
    LengthRule(("usable-width",), "40", "105", ("8", "130"), ("20", "330")),
    LengthRule(("straightening",), "1", "2.5", ("0", "12"), ("0", "30")),
    LengthRule(("oversize",), "1/8", "0.5", ("0", "1"), ("0", "2.5")),
    LengthRule(("round-cuts",), "1/8", "0.25", ("1/32", "1/2"), ("0.05", "1")),
    LengthRule(("binding", "strip"), "5/2", "6.5", ("1", "6"), ("2.5", "15")),
    LengthRule(("binding", "single"), "5/4", "3.5", ("3/4", "4"), ("2", "10")),
    LengthRule(("binding", "extra"), "10", "25", ("0", "40"), ("0", "100")),
    LengthRule(("backing", "overage"), "4", "10", ("0", "12"), ("0", "30")),
    LengthRule(("backing", "seam"), "1/2", "1.25", ("1/8", "2"), ("0.3", "5")),
    LengthRule(("backing", "selvages"), "2", "5", ("0", "6"), ("0", "15")),
    LengthRule(("batting", "overage"), "4", "10", ("0", "12"), ("0", "30")),
    LengthRule(("miter-extra",), "6", "15", ("0", "24"), ("0", "60")),
    LengthRule(("long-seam",), "72", "180", ("12", "400"), ("30", "1000")),
    LengthRule(("hanging", "sleeve"), "9", "23", ("4", "24"), ("10", "60")),
    LengthRule(("hanging", "inset"), "1", "2.5", ("0", "6"), ("0", "15")),
    LengthRule(("hanging", "hem"), "1", "2.5", ("1/4", "3"), ("0.5", "8")),
    LengthRule(("hanging", "corner"), "5", "13", ("2", "12"), ("5", "30")),
    LengthRule(("rag", "seam"), "1/2", "1.5", ("3/8", "3/2"), ("1", "4")),
    LengthRule(("rag", "inset"), "1/4", "0.5", ("0", "2"), ("0", "5")),
    LengthRule(("quilt-as-you-go", "allowance"), "1", "2.5", ("0", "6"), ("0", "15")),
    LengthRule(("quilt-as-you-go", "stop"), "1", "2.5", ("0", "4"), ("0", "10")),
    LengthRule(("kit", "bolt"), "432", "1200", ("36", "3600"), ("100", "10000")),
)
_BY_PATH = {rule.path: rule for rule in LENGTH_RULES}
FAT_QUARTER = {"in": (Fraction(18), Fraction(21)), "cm": (Fraction(50), Fraction(55))}
FAT_EIGHTH = {"in": (Fraction(9), Fraction(21)), "cm": (Fraction(25), Fraction(55))}
YARDAGE_STEPS = {"in": (Fraction(36, 8),), "cm": (Fraction(10),)}
BATTING_PACKAGES = {
    "in": ((36, 45), (45, 60), (60, 60), (72, 90), (81, 96), (90, 108), (120, 120)),
    "cm": ((90, 115), (115, 150), (150, 150), (183, 229), (206, 244), (229, 274), (305, 305)),
}
"""Common sizes of packaged batting. Common practice, no source; 45 x 60, 72 x 90 and 90 x 108 are published too."""
BATTING_ROLLS = {"in": (45, 60, 90, 96, 120), "cm": (115, 150, 230, 245, 305)}
"""Common widths of batting off the roll. Common practice, no source."""
KITS = 12
MOST_KITS = 1000
MOST_VARIANTS = 2
SMALLEST_YARDAGE_STEP = {"in": Fraction(1), "cm": Fraction(1)}


@dataclass(slots=True)
class _Lookup:
    """Finds a rule in the pattern's own house mapping first, then in the house file."""

    layers: tuple[HouseDeclaration, ...]
    system: System
    findings: Findings

    def general(self, *path: str) -> Any:
        return self._first(self.layers, path)

    def in_system(self, *path: str) -> Any:
        key = "inches" if self.system == "in" else "centimeters"
        layers = tuple(rules for layer in self.layers if isinstance(rules := getattr(layer, key), SystemRules))
        return self._first(layers, path)

    @staticmethod
    def _first(layers: tuple[Any, ...], path: tuple[str, ...]) -> Any:
        for layer in layers:
            value = layer
            for key in path:
                value = getattr(value, key.replace("-", "_"), None)
            if value is not None:
                return value
        return None

    def length(self, *path: str) -> Length:
        rule = _BY_PATH[path]
        written: LengthText | None = self.in_system(*path)
        if written is None:
            return rule.default(self.system)
        value = native_length(written, self.system, self.findings)
        low, high = rule.bounds(self.system)
        if not low <= value <= high:
            self.findings.error(
                "house-range", f"`{written.text}` is out of range for `{' '.join(path)}`", written.span,
                f"it goes from {plain_length(low, self.system)} to {plain_length(high, self.system)}",
            )
            return rule.default(self.system)
        return value


def native_length(written: LengthText, system: System, findings: Findings) -> Length:
    """The exact length in the pattern's unit; a length in the other system is an error, since it would be converted."""
    if written.measure.system not in (None, system):
        _wrong_unit(written.text, written.span, system, findings)
    return written.measure.within(system)


def native_pair(written: PairText, system: System, findings: Findings) -> tuple[Length, Length]:
    """Width and height in the pattern's unit, as `native_length`."""
    if written.width.system not in (None, system) or written.height.system not in (None, system):
        _wrong_unit(written.text, written.span, system, findings)
    return written.width.within(system), written.height.within(system)


def _wrong_unit(text: str, span: Span, system: System, findings: Findings) -> None:
    ours, theirs = ("inches", "centimeters") if system == "in" else ("centimeters", "inches")
    findings.error(
        "wrong-unit", f"`{text}` is in {theirs}, but the pattern is designed in {ours}", span,
        f"give the length in {ours}; a pattern is designed in one system and never converted",
    )


def length_rule(path: tuple[str, ...]) -> LengthRule:
    """The rule that stands there; raise KeyError where none does."""
    return _BY_PATH[path]


def resolve_rules(
    pattern: HouseDeclaration | None, house: HouseDeclaration | None, system: System, findings: Findings
) -> Rules:
    """Lay the pattern's own rules over the house's and those over the defaults; report values out of range."""
    look = _Lookup(tuple(layer for layer in (pattern, house) if layer is not None), system, findings)
    return Rules(
        system=system,
        name=_prose(look.general("name")) or "",
        imprint=Imprint(*(_prose(look.general("imprint", key)) for key in ("address", "corrections", "copyright"))),
        theme=_or(look.general("theme"), lambda name: str(name.text), "harbor"),
        papers=tuple(dict.fromkeys(look.general("papers") or ("letter", "a4"))),
        editions=tuple(dict.fromkeys(look.general("editions") or ("all-sizes", "one-size"))),
        language=look.general("language") or "en",
        pressing=look.general("pressing") or "nest",
        binding_join=look.general("joins", "binding") or "diagonal",
        strip_join=look.general("joins", "strips") or "straight",
        shrinkage=_shrinkage(look.general("shrinkage"), findings),
        seam=look.length("seam"),
        usable_width=look.length("usable-width"),
        straightening=look.length("straightening"),
        fat_quarter=_sheet(look, "fat-quarter", FAT_QUARTER[system]),
        fat_eighth=_sheet(look, "fat-eighth", FAT_EIGHTH[system]),
        triangles=look.in_system("triangles") or ("standard" if system == "in" else "exact"),
        oversize=look.length("oversize"),
        round_cuts=look.length("round-cuts").rational(),
        round_yardage=_yardage_steps(look),
        binding_strip=look.length("binding", "strip"),
        binding_extra=look.length("binding", "extra"),
        backing_overage=look.length("backing", "overage"),
        backing_seam=look.length("backing", "seam"),
        batting_overage=look.length("batting", "overage"),
        binding_single=look.length("binding", "single"),
        binding_by=look.general("binding-by") or "either",
        backing_selvages=look.length("backing", "selvages"),
        batting_packages=_packages(look),
        batting_rolls=_rolls(look),
        miter_extra=look.length("miter-extra"),
        long_seam=look.length("long-seam"),
        sleeve=look.length("hanging", "sleeve"),
        sleeve_inset=look.length("hanging", "inset"),
        sleeve_hem=look.length("hanging", "hem"),
        hanging_corner=look.length("hanging", "corner"),
        kit_count=_kits(look),
        rag_seam=look.length("rag", "seam"),
        rag_inset=look.length("rag", "inset"),
        block_allowance=look.length("quilt-as-you-go", "allowance"),
        block_stop=look.length("quilt-as-you-go", "stop"),
        kit_bolt=look.length("kit", "bolt"),
        other_measures=_switch(look.general("other-measures"), usual=True),
        round_elsewhere=_yardage_steps(replace(look, system="cm" if system == "in" else "in")),
        spinning=look.general("spinning") or "middle",
        pressing_variants=_variants(look),
        beds=_beds(look),
    )


def _prose(value: Prose | None) -> str:
    return value.text.strip() if value is not None else ""


def _or(value: Any, read: Callable[[Any], str], default: str) -> str:
    return read(value) if value is not None else default


def _shrinkage(written: Percent | None, findings: Findings) -> Fraction:
    if written is None:
        return Fraction(0)
    if not 0 <= written.value <= 15:
        findings.error("house-range", "the shrinkage is out of range", written.span, "it goes from 0 % to 15 %")
        return Fraction(0)
    return written.value / 100


def _switch(written: Switch | None, usual: bool) -> bool:
    return written.on if written is not None else usual


def _packages(look: _Lookup) -> tuple[tuple[Length, Length], ...]:
    """Sizes of packaged batting; an empty list says that none is sold so."""
    written: list[PairText] | None = look.in_system("batting", "packages")
    if written is None:
        return tuple((Length(width), Length(height)) for width, height in BATTING_PACKAGES[look.system])
    sizes = [native_pair(size, look.system, look.findings) for size in written]
    for size, text in zip(sizes, written, strict=True):
        if min(size) <= ZERO:
            look.findings.error("house-range", f"`{text.text}` has a side of nothing", text.span)
    return tuple(size for size in sizes if min(size) > ZERO)


def _rolls(look: _Lookup) -> tuple[Length, ...]:
    """Widths of batting off the roll; an empty list says that none is sold so."""
    written: list[LengthText] | None = look.in_system("batting", "rolls")
    if written is None:
        return tuple(Length(width) for width in BATTING_ROLLS[look.system])
    widths = [native_length(width, look.system, look.findings) for width in written]
    for width, text in zip(widths, written, strict=True):
        if width <= ZERO:
            look.findings.error("house-range", f"`{text.text}` is no width", text.span, "widths are above zero")
    return tuple(width for width in widths if width > ZERO)


def _beds(look: _Lookup) -> tuple[tuple[str, tuple[Length, Length]], ...]:
    """The usual mattresses, those of the house over them, and the pattern's own over both."""
    known = {name: (Length(width), Length(length)) for name, width, length, _ in MATTRESSES[look.system]}
    for layer in reversed(look.layers):
        rules = layer.inches if look.system == "in" else layer.centimeters
        for name, written in rules.beds.items() if rules is not None else ():
            size = native_pair(written, look.system, look.findings)
            if min(size) <= ZERO:
                look.findings.error("house-range", f"`{written.text}` has a side of nothing", written.span)
            known[str(name)] = size
    return tuple(known.items())


def _kits(look: _Lookup) -> int:
    written: Count | None = look.in_system("kit", "count")
    if written is None:
        return KITS
    if written.number > MOST_KITS:
        look.findings.error(
            "house-range", f"`{written.number}` is out of range for `kit count`", written.span,
            f"it goes from 1 to {MOST_KITS}",
        )
        return KITS
    return written.number


def _variants(look: _Lookup) -> int:
    """In how many ways a block may be pressed, within what quilters keep apart."""
    written: Count | None = look.general("pressing-variants")
    if written is None:
        return 1
    if written.number > MOST_VARIANTS:
        look.findings.error(
            "house-range", f"`{written.number}` is out of range for `pressing-variants`", written.span,
            f"it goes from 1 to {MOST_VARIANTS}",
        )
        return 1
    return written.number


def _sheet(look: _Lookup, key: str, default: tuple[Fraction, Fraction]) -> tuple[Length, Length]:
    written: PairText | None = look.in_system(key)
    if written is None:
        return Length(default[0]), Length(default[1])
    width, height = native_pair(written, look.system, look.findings)
    if width <= ZERO or height <= ZERO:
        look.findings.error("house-range", f"`{written.text}` has a side of nothing", written.span)
    return width, height


def _yardage_steps(look: _Lookup) -> tuple[Length, ...]:
    written: list[LengthText] | None = look.in_system("round-yardage")
    steps = [native_length(step, look.system, look.findings) for step in written or ()]
    smallest = Length(SMALLEST_YARDAGE_STEP[look.system])
    for step, text in zip(steps, written or (), strict=True):
        if step < smallest:
            look.findings.error(
                "house-range", f"`{text.text}` is too small a step for lengths bought", text.span,
                f"steps are at least {plain_length(smallest, look.system)}",
            )
    good = tuple(sorted({step for step in steps if step >= smallest}))
    return good or tuple(Length(step) for step in YARDAGE_STEPS[look.system])
