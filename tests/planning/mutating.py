"""Frozen data changed in one place deep inside, to see whether a check notices."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import is_dataclass, replace
from typing import Any

Step = str | int | Callable[[Any], bool]
"""A field's name, a place in a tuple, or what is true of the first part of a tuple that is meant."""


def changed(value: Any, path: tuple[Step, ...], change: Callable[[Any], Any]) -> Any:
    """A copy in which the part at a path is what `change` makes of it."""
    if not path:
        return change(value)
    step, rest = path[0], path[1:]
    if isinstance(step, str):
        if not is_dataclass(value) or isinstance(value, type):
            raise TypeError(f"{type(value).__name__} has no field {step}")
        return replace(value, **{step: changed(getattr(value, step), rest, change)})
    place = step if isinstance(step, int) else next(index for index, part in enumerate(value) if step(part))
    return (*value[:place], changed(value[place], rest, change), *value[place + 1 :])


def named(name: str) -> Callable[[Any], bool]:
    """The part with this id."""
    return lambda part: bool(part.id == name)
