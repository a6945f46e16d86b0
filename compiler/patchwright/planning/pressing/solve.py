"""The best pressing of a problem: by parity, by elimination, or by an integer program, in this order.

In: a problem.
Out: `Solution`: values, how they were proven best, and the most that could nest.
Never: a start handed to a solver, or a clock.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.planning.pressing.elimination import eliminate
from patchwright.planning.pressing.parity import without_conflict
from patchwright.planning.pressing.problem import Problem
from patchwright.planning.pressing.terms import Proof


@dataclass(frozen=True, slots=True)
class Solution:
    values: tuple[int, ...]
    proof: Proof
    nested: int
    bound: int
    """Weights of junctions: those that nest, and the most that could."""


def solve(problem: Problem) -> Solution:
    """Solve exactly wherever that is possible."""
    if problem.levels[0] == "nest":
        values = without_conflict(problem)
        if values is not None:
            return _proven(problem, values, "parity")
    values = eliminate(problem)
    if values is not None:
        return _proven(problem, values, "elimination")
    from patchwright.planning.pressing.integer import solve_program

    found = solve_program(problem)
    nested = problem.nested(found.values)
    return Solution(found.values, "program" if found.bound == nested else "gap", nested, found.bound)


def _proven(problem: Problem, values: tuple[int, ...], proof: Proof) -> Solution:
    if not problem.is_possible(values):
        raise RuntimeError("a way of pressing that cannot be pressed")
    nested = problem.nested(values)
    return Solution(values, proof, nested, nested)
