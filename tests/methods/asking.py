"""Requests as the compiler would make them, and the words of methods, for the tests of this folder."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from patchwright.core.length import Length
from patchwright.core.measure import System
from patchwright.methods.method import Method, Request, TriangleRules
from patchwright.methods.registry import BY_NAME

TINY = Fraction(1, 10**15)
"""A step so small that exact sizes stay exact for floating-point comparison."""

INCH = TriangleRules("in", Length("1/4"), "standard", Fraction(1, 8), Length("1/8"))
METRIC = TriangleRules("cm", Length("3/4"), "exact", Fraction(1, 4), Length("1/2"))


def rules(
    system: System = "in", triangles: str = "standard", *, seam: str = "", step: str | Fraction = "", oversize: str = ""
) -> TriangleRules:
    """House rules; what is not given is the usual of the system."""
    usual = INCH if system == "in" else METRIC
    if triangles not in ("standard", "exact", "trim"):
        raise ValueError(triangles)
    return TriangleRules(
        system,
        Length(seam) if seam else usual.seam,
        "standard" if triangles == "standard" else "exact" if triangles == "exact" else "trim",
        Fraction(step) if step else usual.step,
        Length(oversize) if oversize else usual.oversize,
    )


EXACT = rules("in", "exact", step=TINY)


def ask(
    method: str | Method,
    width: str | Length,
    height: str | Length,
    house: TriangleRules = INCH,
    *,
    roles: tuple[str, ...] = (),
    words: Mapping[str, str] | None = None,
    extents: Mapping[str, str | Length] | None = None,
) -> Request:
    """A request for one unit of this finished size; defaults of words are filled in, extents default to one."""
    made = BY_NAME[method] if isinstance(method, str) else method
    chosen = {key.name: key.default for key in made.keys if key.kind != "extent"} | dict(words or {})
    given = {key.name: _length(key.default or "1") for key in made.keys if key.kind == "extent"}
    given |= {name: _length(value) for name, value in (extents or {}).items()}
    return Request(
        _length(width),
        _length(height),
        tuple(role.name for role in made.roles if not roles or role.name in roles),
        tuple(chosen.items()),
        tuple(given.items()),
        house,
    )


def _length(value: str | Length) -> Length:
    return value if isinstance(value, Length) else Length.parse(value)
