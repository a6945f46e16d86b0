"""Which blocks and units are pressed in two ways, so that they nest with their neighbors, where the house allows it.

In: a quilt before its cutting is planned, since a second way of pressing changes counts, and the house's rule.
Out: the ids of what is made in two ways: what lies on the dark squares of a chessboard is pressed the second way.
Rule: more junctions that nest are worth any number of second ways; of equal plans, the one with the fewest.
Never: a second way of what lies only on squares of one color.
"""

from __future__ import annotations

from patchwright.planning.pressing.model import make_model
from patchwright.planning.pressing.problem import make_problem
from patchwright.planning.pressing.sewn import Sewn
from patchwright.planning.pressing.solve import solve
from patchwright.planning.pressing.terms import Owner, Rule


def pressed_in_two_ways(quilt: Sewn, rule: Rule) -> frozenset[str]:
    """Ids of units and assemblies, with all assemblies that hold them."""
    if rule == "open":
        return frozenset()
    model = make_model(quilt, variants_allowed=True)
    problem = make_problem(model, rule)
    values = solve(problem).values
    found: set[str] = set()
    waiting = [owner for owner, flag in problem.flags.items() if values[flag] == 1]
    while waiting:
        owner = waiting.pop()
        if owner.id not in found:
            found.add(owner.id)
            waiting += [holder for v in (0, 1) for holder in model.holders.get(Owner(owner.kind, owner.id, v), ())]
    return frozenset(found)
