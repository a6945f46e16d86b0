"""What differs between two states of a pattern, number by number, for corrections and for proofreading.

In: the numbers of two plans, as `plan_json` gives them.
Out: every value that was changed, added or taken away, by size and thing.
Never: a judgment which of the two is right.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

NAMES = ("size", "id", "piece", "fabric")
"""Keys whose value names an entry of a list, so that entries are compared with their namesakes and not by place."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One value: where it stands, what it was, and what it is; an empty text where it was or is not there."""

    place: tuple[str, ...]
    old: str
    new: str


def compare(old: dict[str, Any], new: dict[str, Any]) -> tuple[Difference, ...]:
    """All differences, in the order of the new plan, what was taken away last."""
    before, after = dict(_values(old, ())), dict(_values(new, ()))
    made = [
        Difference(place, before.get(place, ""), value) for place, value in after.items() if before.get(place) != value
    ]
    made += [Difference(place, value, "") for place, value in before.items() if place not in after]
    return tuple(made)


def _values(value: Any, place: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str]]:
    """Every single value with the names that lead to it; printed forms repeat the exact ones and are left out."""
    if isinstance(value, dict):
        for key, inner in value.items():
            if f"{key}-text" in value:
                yield (*place, key), _text(value[f"{key}-text"])
            elif not key.endswith("-text"):
                yield from _values(inner, (*place, key))
    elif isinstance(value, list) and any(isinstance(entry, dict) for entry in value):
        for number, entry in enumerate(value, 1):
            yield from _values(entry, (*place, _name(entry, number)))
    else:
        yield place, _text(value)


def _name(entry: Any, number: int) -> str:
    if isinstance(entry, dict):
        for key in NAMES:
            if isinstance(entry.get(key), str):
                return str(entry[key])
    return str(number)


def _text(value: Any) -> str:
    if isinstance(value, list):
        return " x ".join(_text(entry) for entry in value)
    return "none" if value is None else str(value)
