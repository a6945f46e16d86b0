"""Lower bounds as integer certificates: no solver and no float takes part in what they claim.

Comes in: a checked problem, whole prices. Goes out: a length and a step that no plan of strips can beat.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import gcd
from typing import Any

from .knapsack import Knapsacks
from .patterns import Bounds, full_strips, sides, turns
from .problem import Yardage


def area_bounds(problem: Yardage) -> Bounds:
    """Return the bounds by area, and by the highest piece: weak, but at hand at once."""
    length = area_length(problem)
    return Bounds(length, problem.step(length) if length else 1, False)


def area_length(problem: Yardage) -> int:
    """Return the length that area and the highest piece demand, whether or not so much can be bought."""
    area = sum(part.width * part.height * part.count for part in problem.parts)
    lowest = [min(sides(part, turned)[1] for turned in turns(part, problem.width)) for part in problem.parts]
    for long in problem.joined:
        area += long.height * (long.total + long.loss * (full_strips(long, problem.width) - 1))
        lowest.append(long.height)
    return max([-(-area // problem.width), *lowest], default=0)


def most_worth(heights: Sequence[int], worths: Sequence[int], most: int) -> tuple[int, Any]:
    """Return a unit of length, and the most that whole strips are worth together within each multiple of it.

    `worths` are what the dearest pattern of each height is worth under some whole prices.
    """
    import numpy as np

    unit = gcd(*heights)
    room = max(0, most) // unit
    reached = np.zeros(room + 1, dtype=np.int64)
    for height, worth in zip(heights, worths, strict=True):
        span, times = height // unit, room // (height // unit)
        power = 1
        while worth and times:
            taken = min(power, times)
            shift = taken * span
            np.maximum(reached[shift:], reached[:-shift] + taken * worth, out=reached[shift:])
            times -= taken
            power *= 2
    return unit, reached


def least_length(heights: Sequence[int], worths: Sequence[int], demand: int, most: int) -> int:
    """Return the least length of strips that are together worth the demand, or `most` + 1 when that is over `most`.

    As the demand is what all that is wanted is worth under the same prices, no plan of strips can take less length,
    whatever the prices were.
    """
    import numpy as np

    unit, reached = most_worth(heights, worths, most)
    place = int(np.searchsorted(reached, demand))
    return place * unit if place < len(reached) else most + 1


def demands_of(problem: Yardage) -> tuple[list[int], list[int]]:
    """Return how many of each part are wanted, and what the segments of each joined piece must give after their losses.

    Segments r1 … rn serve a joined piece when the sum of ri − loss is at least its total − loss.
    """
    return [part.count for part in problem.parts], [long.total - long.loss for long in problem.joined]


def priced_bound(problem: Yardage, sacks: Knapsacks, prices: Sequence[int], most: int) -> int:
    """Return the length that these whole prices prove to be needed, or `most` + 1 when it is over `most`."""
    counts, rests = demands_of(problem)
    worths = sacks.price(prices, counts, rests)
    demand = sum(price * wanted for price, wanted in zip(prices, counts + rests, strict=True))
    return least_length(sacks.heights, worths, demand, most)
