"""How long pressing takes on the demo patterns and on 200 made-up quilts, and how much of it nests.

Prints one row for each demo pattern, then medians. Every count is checked on the finished top as well.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from pathlib import Path
from statistics import median

ROOT = Path(__file__).resolve().parents[2]
sys.path[:1] = [str(ROOT / "compiler"), str(ROOT / "tests")]

from patchwright.planning.plan import Plan  # noqa: E402
from patchwright.planning.pressing.press import plan_pressing  # noqa: E402
from patchwright.planning.pressing.recount import recount  # noqa: E402
from patchwright.planning.pressing.results import PressingPlan  # noqa: E402
from patchwright.planning.pressing.variants import choose_ways  # noqa: E402
from planning.compiling import PATTERNS, plan_of  # noqa: E402
from pressing.generated import generated  # noqa: E402

QUILTS = 200


def pressed(plan: Plan) -> tuple[PressingPlan, float]:
    """The pressing plan and the seconds that it took; the count must be the same on the top."""
    start = time.perf_counter()
    made = plan_pressing(plan, "nest")
    seconds = time.perf_counter() - start
    if recount(plan, made) != tuple((size.nested, size.total) for size in made.sizes):
        sys.exit(f"{plan.title} counts differently on its top")
    return made, seconds


def main() -> None:
    """Measure the demo patterns, then the made-up quilts with one variant and with two."""
    print(f"{'pattern':16} {'seconds':>8} {'seams':>6} {'nested':>7}  proof")
    house = (ROOT / "patterns" / "house.yaml").read_text(encoding="utf-8")
    for path in [*(ROOT / "patterns").glob("*.yaml"), *PATTERNS.glob("*.yaml")]:
        if path.name != "house.yaml":
            made, seconds = pressed(plan_of(path.read_text(encoding="utf-8"), house))
            print(f"{path.stem:16} {seconds:8.3f} {len(made.seams):6} {_share(made):7.1%}  {made.proof}")
    for two_ways in (False, True):
        results = [pressed(plan_of(generated(seed, two_ways))) for seed in range(QUILTS)]
        times = [seconds for _, seconds in results]
        proofs = Counter(made.proof for made, _ in results)
        shares = [_share(made) for made, _ in results]
        print(f"{QUILTS} quilts, {'two variants' if two_ways else 'one variant'}: median {median(times):.3f} s, "
              f"most {max(times):.3f} s; nested in the median {median(shares):.1%}; {dict(proofs)}")
    _measure_choices()


def _measure_choices() -> None:
    """How long it takes to choose which blocks are pressed the second way, and how often that is proven best."""
    times, best = [], 0
    for plan in (plan_of(generated(seed)) for seed in range(QUILTS)):
        start = time.perf_counter()
        chosen = choose_ways(plan, "nest")
        times.append(time.perf_counter() - start)
        best += chosen.nested == chosen.bound
    print(f"choosing ways: median {median(times):.3f} s, most {max(times):.3f} s; {best} of {QUILTS} proven best")


def _share(made: PressingPlan) -> float:
    return float(made.nested / made.total) if made.total else 1.0


if __name__ == "__main__":
    main()
