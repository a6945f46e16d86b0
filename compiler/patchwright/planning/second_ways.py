"""What is pressed the second of two ways: things of their own, made as the first ones are.

In: the instances of a layout, with what is pressed in two ways among them.
Out: the second way of a block, with the second ways of all that is in it, entered among the instances.
Never: a choice of what lies the second way.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from patchwright.planning.instances import BlockKey, Instances, PatchKey, UnitInstance, UnitKey

Key = TypeVar("Key", UnitKey, BlockKey)
Made = TypeVar("Made")


def second_way(instances: Instances, key: BlockKey) -> BlockKey:
    """The same assembly pressed the second way; as it is where nothing of it is pressed in two ways."""
    if key not in instances.pressed_twice:
        return key
    second = replace(key, variant=1)
    if second not in instances.blocks:
        known = instances.blocks[key]
        lines = tuple(
            tuple(replace(part, key=_of_part(instances, part.key)) for part in line) for line in known.lines
        )
        instances.blocks[second] = replace(known, key=second, lines=lines, counts=[0] * instances.size_count)
    return second


def _of_part(instances: Instances, key: UnitKey | BlockKey | PatchKey) -> UnitKey | BlockKey | PatchKey:
    if isinstance(key, BlockKey):
        return second_way(instances, key)
    if isinstance(key, PatchKey) or key not in instances.pressed_twice:
        return key
    second = replace(key, variant=1)
    unit = instances.units[key].unit
    instances.units.setdefault(second, UnitInstance(second, unit, [0] * instances.size_count))
    return second


def put_after_firsts(instances: Instances) -> None:
    """Order what is made so that the second way of each thing follows its first."""
    instances.units = _paired(instances.units)
    instances.blocks = _paired(instances.blocks)


def _paired(made: dict[Key, Made]) -> dict[Key, Made]:
    firsts = [key for key in made if not key.variant]
    return {key: made[key] for first in firsts for key in (first, replace(first, variant=1)) if key in made}
