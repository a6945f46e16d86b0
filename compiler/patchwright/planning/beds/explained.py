"""How the fit of one size on its bed is explained: what is asked for, what the quilt reaches, and what else would.

In: a planned size.
Out: (wording key, values) in the order of telling.
Never: a sentence, or a search made anew.
"""

from __future__ import annotations

from collections.abc import Iterator

from patchwright.core.length import Finished, Length
from patchwright.core.measure import System, plain_length
from patchwright.planning.plan import PlannedSize

Told = tuple[str, dict[str, object]]


def explained_fit(size: PlannedSize, system: System) -> Iterator[Told]:
    """Nothing for a size that is made for no bed."""
    fit = size.fit
    if fit is None:
        return
    yield "fit-asked", {
        "bed": fit.bed, "width": fit.mattress[0], "length": fit.mattress[1], "drop": fit.drop, "foot": fit.foot,
        "tuck": fit.tuck, "target_width": fit.target[0], "target_length": fit.target[1],
    }
    drop, foot = fit.drops(size.finished)
    yield "fit-reached", {
        "bed": fit.bed, "across": size.across, "down": size.down, "width": size.finished[0],
        "length": size.finished[1], "drop": drop, "foot": foot,
    } | _apart(size.finished, fit.target, system)
    for number, one in enumerate(fit.proposals, 1):
        key = "fit-proposal" if one.borders else "fit-proposal-plain"
        yield key, {
            "number": number, "across": one.across, "down": one.down, "width": one.finished[0],
            "length": one.finished[1],
            "borders": ", ".join(plain_length(width.length, system) for width in one.borders),
        } | _apart(one.finished, fit.target, system)


def _apart(
    finished: tuple[Finished, Finished], target: tuple[Length, Length], system: System
) -> dict[str, object]:
    """By how much width and length differ, with their signs."""
    sides = zip(("wider", "longer"), finished, target, strict=True)
    return {name: _signed(own.length - asked, system) for name, own, asked in sides}


def _signed(length: Length, system: System) -> str:
    sign = "+" if length.sign() > 0 else "-" if length.sign() < 0 else ""
    return f"{sign}{plain_length(abs(length), system)}".replace("+about ", "about +").replace("-about ", "about -")
