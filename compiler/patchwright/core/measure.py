"""Lengths as people write and read them.

In: `2 1/2 in`, `2½`, `6 cm`, `0.75 cm`, `1/8 yd` as text; exact lengths.
Out: exact lengths with the unit that was written; text with fraction glyphs for booklets.
Never: a rounded number that does not say so.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from patchwright.core.length import Length

System = Literal["in", "cm"]

UNITS_OF_LENGTH = {
    "in": ("in", Fraction(1)), "inch": ("in", Fraction(1)), "inches": ("in", Fraction(1)), '"': ("in", Fraction(1)),
    "″": ("in", Fraction(1)), "yd": ("in", Fraction(36)), "yard": ("in", Fraction(36)), "yards": ("in", Fraction(36)),
    "cm": ("cm", Fraction(1)), "mm": ("cm", Fraction(1, 10)), "m": ("cm", Fraction(100)),
}
CENTIMETERS_PER_INCH = Fraction(254, 100)

GLYPHS = {
    Fraction(1, 2): "½", Fraction(1, 3): "⅓", Fraction(2, 3): "⅔", Fraction(1, 4): "¼", Fraction(3, 4): "¾",
    Fraction(1, 8): "⅛", Fraction(3, 8): "⅜", Fraction(5, 8): "⅝", Fraction(7, 8): "⅞",
}
_VALUES = {glyph: value for value, glyph in GLYPHS.items()} | {"⅙": Fraction(1, 6), "⅚": Fraction(5, 6)}
FRACTION_SLASH = "⁄"
NARROW_SPACE = "\u202f"
NO_BREAK_SPACE = "\u00a0"

_NUMBER = re.compile(
    r"(?P<sign>-?)(?:(?P<whole>\d{1,9})(?:\s+|(?=[½⅓⅔¼¾⅛⅜⅝⅞⅙⅚])|$|(?=[^\d/.,⁄])))?"
    r"(?:(?P<top>\d{1,9})\s*[/⁄]\s*(?P<bottom>\d{1,9})|(?P<glyph>[½⅓⅔¼¾⅛⅜⅝⅞⅙⅚])|(?P<decimal>\d{1,9}[.,]\d{1,9}))?"
)


@dataclass(frozen=True, slots=True)
class Measure:
    """A length as written: the exact value in its system's base unit (inch or centimeter), and that system if named."""

    value: Fraction
    system: System | None

    def within(self, system: System) -> Length:
        """The length in `system`'s unit, converted exactly (1 in = 2.54 cm); a bare number is already in it."""
        if self.system is None or self.system == system:
            return Length(self.value)
        return Length(self.value * CENTIMETERS_PER_INCH if system == "cm" else self.value / CENTIMETERS_PER_INCH)


def parse_number(text: str) -> Fraction:
    """Read `3`, `1/2`, `2 1/2`, `2½`, `2.5` or `2,5`; raise ValueError otherwise."""
    number, rest = _leading_number(text.strip())
    if rest.strip():
        raise ValueError(f"`{text}` is not a number")
    return number


def parse_measure(text: str) -> Measure:
    """Read a number with or without a unit of length; raise ValueError with a reason otherwise."""
    number, rest = _leading_number(text.strip())
    unit = rest.strip()
    if not unit:
        return Measure(number, None)
    if unit not in UNITS_OF_LENGTH:
        raise ValueError(f"`{unit}` is not a unit of length")
    name, factor = UNITS_OF_LENGTH[unit]
    return Measure(number * factor, "in" if name == "in" else "cm")


def _leading_number(text: str) -> tuple[Fraction, str]:
    match = _NUMBER.match(text)
    if match is None or not any(match[part] for part in ("whole", "top", "glyph", "decimal")):
        raise ValueError(f"`{text}` does not begin with a number")
    if match["decimal"] and match["whole"]:
        raise ValueError(f"`{text}` has two numbers")
    total = Fraction(match["whole"] or 0)
    if match["top"]:
        if int(match["bottom"]) == 0:
            raise ValueError("a fraction cannot have 0 below the line")
        total += Fraction(int(match["top"]), int(match["bottom"]))
    elif match["glyph"]:
        total += _VALUES[match["glyph"]]
    elif match["decimal"]:
        total += Fraction(match["decimal"].replace(",", "."))
    return (-total if match["sign"] else total), text[match.end() :]


def plain_number(value: Fraction) -> str:
    """Write a number as an author types it: `2 1/2`; whole numbers and quarters alike."""
    whole, rest = divmod(abs(value), 1)
    sign = "-" if value < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def plain_length(length: Length, system: System) -> str:
    """Write a length as an author types it, for messages: `2 1/2 in`, `6.5 cm`; roots to the nearest 1/16 or mm."""
    exact = on_grid(length, system)
    value = length if exact else length.nearest(Fraction(1, 16) if system == "in" else Fraction(1, 10))
    mark = "" if exact else "about "
    if system == "cm":
        return f"{mark}{decimal_text(value.rational())} cm"
    return f"{mark}{plain_number(value.rational())} in"


def on_grid(length: Length, system: System) -> bool:
    """Whether a length can be printed without rounding: a 64th or a third of an inch, a hundredth of a centimeter."""
    if not length.is_rational:
        return False
    bottom = length.rational().denominator
    return (100 if system == "cm" else 192) % bottom == 0


def decimal_text(value: Fraction, places: int = 4, mark: str = ".") -> str:
    """Write a fraction whose decimals end, without trailing zeros; raise ValueError if they do not end in time."""
    scaled = value * 10**places
    if scaled.denominator != 1:
        raise ValueError(f"{value} has more than {places} decimals")
    sign = "-" if scaled < 0 else ""
    whole, rest = divmod(abs(scaled.numerator), 10**places)
    decimals = f"{rest:0{places}d}".rstrip("0")
    return f"{sign}{whole}{mark}{decimals}" if decimals else f"{sign}{whole}"


def fraction_text(value: Fraction) -> str:
    """Write a rational with fraction glyphs: 2½, and 2 13⁄16 with a narrow no-break space and the fraction slash."""
    whole, rest = divmod(abs(value), 1)
    sign = "−" if value < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    if rest in GLYPHS:
        return f"{sign}{whole or ''}{GLYPHS[rest]}"
    fraction = f"{rest.numerator}{FRACTION_SLASH}{rest.denominator}"
    return f"{sign}{whole}{NARROW_SPACE}{fraction}" if whole else f"{sign}{fraction}"


def printed_number(length: Length, system: System, mark: str = ".") -> str:
    """The number a booklet prints, without its unit; a length off the printable grid is rounded and led by ≈."""
    exact = on_grid(length, system)
    value = (length if exact else length.nearest(Fraction(1, 8) if system == "in" else Fraction(1, 10))).rational()
    text = fraction_text(value) if system == "in" else decimal_text(value, mark=mark)
    return text if exact else f"≈{NARROW_SPACE}{text}"


def printed_length(length: Length, system: System, mark: str = ".") -> str:
    """The number with its unit, as a booklet prints it: 2½″, 6.5 cm (no-break space)."""
    number = printed_number(length, system, mark)
    return f"{number}″" if system == "in" else f"{number}{NO_BREAK_SPACE}cm"
