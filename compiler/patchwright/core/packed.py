"""Finished data as bytes: a fingerprint to tell equal from different, and a form to keep it in between runs.

In: frozen data of the stages.
Out: fingerprints that spans take no part in; bytes, and the data again with its spans moved to where they are now.
Never: a class from outside the package (but for fractions), and so no code, out of bytes that anyone may have written.
"""

from __future__ import annotations

import hashlib
import io
import pickle
from collections.abc import Mapping
from typing import Any

from patchwright.core.source import NOWHERE, Span

_PROTOCOL = 5
_OUTSIDE = {("fractions", "Fraction"), ("builtins", "frozenset"), ("builtins", "set")}


class UnpackError(ValueError):
    """Bytes that hold nothing of ours, or a span that is not known any more."""


def fingerprint(*values: object) -> str:
    """What tells these values from all others; where they were written takes no part.

    Two equal values may have different fingerprints (a set in another order), but never the other way round.
    """
    return fingerprint_and_spans(*values)[0]


def fingerprint_and_spans(*values: object) -> tuple[str, tuple[Span, ...]]:
    """The fingerprint, and every span that was met, in an order that equal values share."""
    out = io.BytesIO()
    pickler = _Fingerprinter(out, _PROTOCOL)
    # Without its memory a pickler writes equal things alike, whether or not they are the same object.
    pickler.fast = True
    pickler.dump(values)
    return hashlib.blake2b(out.getbuffer(), digest_size=32).hexdigest(), tuple(pickler.spans)


def pack(value: object) -> bytes:
    """The value as bytes."""
    out = io.BytesIO()
    _Packer(out, _PROTOCOL).dump(value)
    return out.getvalue()


def unpack(content: bytes, moved: Mapping[Span, Span] | None = None) -> Any:
    """The value again, its spans replaced by those of `moved`, or as they were where that is None.

    Raise UnpackError where the bytes are not ours or a span has no place in `moved`.
    """
    try:
        return _Unpacker(io.BytesIO(content), moved).load()
    except UnpackError:
        raise
    except Exception as fault:
        # Damaged bytes can raise nearly anything.
        raise UnpackError(f"{type(fault).__name__}: {fault}") from None


def moved_spans(old: tuple[Span, ...], new: tuple[Span, ...]) -> dict[Span, Span] | None:
    """Where each span is now, by the spans of two values of one fingerprint; None where that cannot be told."""
    if len(old) != len(new):
        return None
    moved = dict(zip(old, new, strict=True))
    return moved if all(moved[before] == now for before, now in zip(old, new, strict=True)) else None


class _Fingerprinter(pickle.Pickler):
    def __init__(self, out: io.BytesIO, protocol: int) -> None:
        super().__init__(out, protocol)
        self.spans: list[Span] = []

    def persistent_id(self, value: object) -> object:
        if type(value) is Span:
            self.spans.append(value)
            return "span"
        return None


class _Packer(pickle.Pickler):
    def persistent_id(self, value: object) -> object:
        if type(value) is Span:
            return (value.path, value.line, value.column, value.end_line, value.end_column)
        return None


class _Unpacker(pickle.Unpickler):
    def __init__(self, source: io.BytesIO, moved: Mapping[Span, Span] | None) -> None:
        super().__init__(source)
        self._moved = moved

    def persistent_load(self, told: Any) -> Span:
        span = Span(*told)
        if self._moved is None or span == NOWHERE:
            return span
        if span not in self._moved:
            raise UnpackError(f"nothing is known of {span}")
        return self._moved[span]

    def find_class(self, module: str, name: str) -> Any:
        if (module, name) not in _OUTSIDE and module.partition(".")[0] != "patchwright":
            raise UnpackError(f"{module}.{name} is no part of what is kept")
        found = super().find_class(module, name)
        if not isinstance(found, type):
            raise UnpackError(f"{module}.{name} is no class")
        return found
