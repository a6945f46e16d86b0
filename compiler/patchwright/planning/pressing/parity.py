"""Whether all junctions can nest at once: two-coloring by union and find.

In: a problem.
Out: values that let every junction nest that can, or None where some pull against each other.
Never: a spun seam or a second variant; where those are needed, this finds a conflict.
"""

from __future__ import annotations

from patchwright.planning.pressing.problem import Problem


class Signs:
    """Groups of values tied by sign, each to the root of its group."""

    def __init__(self, count: int) -> None:
        self.parent = list(range(count))
        self.sign = [1] * count

    def find(self, number: int) -> tuple[int, int]:
        """The root and the sign toward it."""
        sign, path = 1, []
        while self.parent[number] != number:
            path.append(number)
            number = self.parent[number]
        for step in reversed(path):
            sign *= self.sign[step]
            self.parent[step], self.sign[step] = number, sign
        return number, sign

    def tie(self, first: int, second: int, sign: int) -> bool:
        """Tie two values; whether that agrees with the ties so far."""
        (root, of_first), (other, of_second) = self.find(first), self.find(second)
        if root == other:
            return of_first * of_second == sign
        self.parent[other], self.sign[other] = root, of_first * of_second * sign
        return True


def without_conflict(problem: Problem) -> tuple[int, ...] | None:
    """The best values where nothing pulls against anything, decided group by group."""
    signs = Signs(problem.count + 1)
    anchor = problem.count
    ties = [(pull.first, pull.second, 1 if pull.equal else -1) for pull in problem.pulls]
    ties += [(spin.before, spin.after, 1) for spin in problem.spins.values()]
    ties += [(twin.first, twin.second, 1) for twin in problem.twins]
    ties += [(anchor, number, value) for number, value in problem.fixed.items()]
    ties += [(anchor, flag, -1) for flag in problem.flags.values()]
    if not all(signs.tie(*tie) for tie in ties):
        return None
    factors = problem.factors()
    votes = [0] * (problem.count + 1)
    for reason, wish in problem.wishes:
        for number, much in wish.items():
            root, sign = signs.find(number)
            votes[root] += sign * much * factors[reason]
    chosen = [1 if vote >= 0 else -1 for vote in votes]
    fixed_root, fixed_sign = signs.find(anchor)
    chosen[fixed_root] = fixed_sign
    found = (signs.find(number) for number in range(problem.count))
    return tuple(chosen[root] * sign for root, sign in found)
