"""Reads the strip lists and makes seeded lists of pieces, all on one grid."""

from __future__ import annotations

import random
from fractions import Fraction
from math import lcm
from pathlib import Path

import yaml

from patchwright.planning.cutting import Joined, Part, Yardage

DATA = Path(__file__).parent / "data"


def on_grid(
    width: object,
    items: list[list[object]],
    joined: list[list[object]],
    turn: bool,
    step: object = "4.5",
    least: object = "6",
) -> tuple[Yardage, int]:
    """Return the problem in whole grid units and how many of them make an inch."""
    exact = [Fraction(str(width)), Fraction(str(step)), Fraction(str(least))]
    exact += [Fraction(str(side)) for item in items for side in item[:2]]
    exact += [Fraction(str(length)) for long in joined for length in long]
    grid = lcm(*(value.denominator for value in exact))

    def units(value: object) -> int:
        return int(Fraction(str(value)) * grid)

    parts = tuple(
        Part(f"p{i}", units(item[0]), units(item[1]), int(str(item[2])), turn) for i, item in enumerate(items)
    )
    longs = tuple(
        Joined(f"j{i}", units(h), units(t), units(loss), units(least)) for i, (h, t, loss) in enumerate(joined)
    )
    tallest = sum(part.count * max(part.width, part.height) for part in parts) + sum(
        long.height * (2 + 2 * long.total // units(width)) for long in longs
    )
    bought = units(step)
    purchasable = tuple(bought * k for k in range(1, 2 + tallest // bought))
    return Yardage(units(width), parts, longs, purchasable), grid


def strip_lists() -> list[dict[str, object]]:
    """Return the open strip lists as they stand in the data file."""
    lists: list[dict[str, object]] = yaml.safe_load((DATA / "strip-lists.yaml").read_text())["lists"]
    return lists


def strip_list(entry: dict[str, object]) -> tuple[Yardage, int]:
    """Return one open strip list as a problem, and the grid per inch."""
    return on_grid(entry["width"], entry["items"], entry.get("join", []), bool(entry["turn"]))  # type: ignore[arg-type]


def everyday(seed: int) -> Yardage:
    """Return a list of 2 to 8 sizes and 40 to 800 pieces, as one fabric of one quilt has."""
    return _random_list(random.Random(f"everyday {seed}"), (2, 8), (40, 800))


def extreme(seed: int) -> Yardage:
    """Return a list of 5 to 30 sizes and up to 4,000 pieces."""
    return _random_list(random.Random(f"extreme {seed}"), (5, 30), (400, 4000))


def _random_list(chance: random.Random, sizes: tuple[int, int], pieces: tuple[int, int]) -> Yardage:
    number = chance.randint(*sizes)
    total = chance.randint(*pieces)
    weights = [chance.random() + 0.05 for _ in range(number)]
    items: list[list[object]] = []
    for weight in weights:
        count = max(1, int(total * weight / sum(weights)))
        short = Fraction(chance.randint(8, 68), 8)
        kind = chance.random()
        long = (
            short if kind < 0.4 else short * 2 - Fraction(1, 2) if kind < 0.6 else Fraction(chance.randint(12, 108), 8)
        )
        items.append([long, short, count] if chance.random() < 0.5 else [short, long, count])
    joined: list[list[object]] = []
    if chance.random() < 0.4:
        joined.append([Fraction(5, 2), chance.randint(100, 450), Fraction(5, 2)])
    if chance.random() < 0.2:
        height = Fraction(chance.randint(12, 52), 8)
        joined.append([height, chance.randint(120, 380), Fraction(1, 2)])
    return on_grid(chance.choice([40, 40, 42, 42, 43]), items, joined, chance.random() < 0.75)[0]
