"""Log cabin and courthouse steps: strips sewn round after round to a square in the middle.

A log cabin goes around clockwise from the top, two sides in each of two fabrics; courthouse steps take top and bottom
first, then both sides. Every log finishes as wide as every other: what the center leaves, shared by the rounds.
Cut size of each log: its finished size + 2 seams (common practice).
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from itertools import pairwise

from patchwright.core.geometry import moved
from patchwright.core.length import ZERO, Length
from patchwright.core.measure import plain_length
from patchwright.methods.limits import refuse_unless_square, refuse_wide_seam, size_text
from patchwright.methods.method import (
    OUTWARD,
    Key,
    Method,
    PatchSeam,
    Recipe,
    Refusal,
    Request,
    Role,
    Stage,
    StageView,
    UnitPatch,
)
from patchwright.methods.pressed import chained, pressing_view, seam_between
from patchwright.methods.staging import back, face, finished_stage, mark, peek, view
from patchwright.methods.straight import Tile, raw, sewn, sewn_size

_ROUNDS = tuple(str(count) for count in range(1, 13))

_Round = Callable[[Length, Length, Length], tuple[Tile, ...]]
"""From a square's place and side and the width of a log to the four logs around it, in sewing order."""


def _around(start: Length, side: Length, log: Length) -> tuple[Tile, ...]:
    """Clockwise from the top, each log reaching over the one before."""
    low, high = start - log, start + side
    return (
        Tile("first", start, low, side, log),
        Tile("first", high, low, log, side + log),
        Tile("second", start, high, side + log, log),
        Tile("second", low, low, log, side + log * 2),
    )


def _steps(start: Length, side: Length, log: Length) -> tuple[Tile, ...]:
    """Top and bottom, then left and right over both."""
    low, high = start - log, start + side
    return (
        Tile("first", start, low, side, log),
        Tile("first", start, high, side, log),
        Tile("second", low, low, log, side + log * 2),
        Tile("second", high, low, log, side + log * 2),
    )


def _tiles(each: _Round, request: Request) -> tuple[Tile, ...]:
    """The center, then the logs in sewing order."""
    rounds, side = int(request.word("rounds")), request.extent("center")
    log = (request.width - side) / (rounds * 2)
    start = log * rounds
    tiles = [Tile("center", start, start, side, side)]
    for _ in range(rounds):
        tiles += each(start, side, log)
        start, side = start - log, side + log * 2
    return tuple(tiles)


def _refuse(each: _Round, noun: str, request: Request) -> tuple[Refusal, ...]:
    refused = refuse_unless_square(request, noun) or _refuse_center(request)
    if refused:
        return refused
    log = _tiles(each, request)[1].height
    return refuse_wide_seam(request, min(log, request.extent("center")), "the center or a log")


def _refuse_center(request: Request) -> tuple[Refusal, ...]:
    """The center has to leave room for all rounds, each at least as wide as the seam."""
    center, rules = request.extent("center"), request.rules
    largest = request.width - rules.seam * 2 * int(request.word("rounds"))
    if center <= largest:
        return ()
    size, text = size_text(request.width, request.height, rules), plain_length(center, rules.system)
    message = f"a center of {text} leaves no room for {request.word('rounds')} rounds in a unit of {size}"
    hint = f"largest center that works: `{plain_length(largest, rules.system)}`"
    return (Refusal("center-too-large", "center", message, (hint,) if largest >= rules.seam else ()),)


def _patches(each: _Round, request: Request) -> tuple[UnitPatch, ...]:
    return tuple(tile.patch() for tile in _tiles(each, request))


def _recipe(each: _Round, request: Request) -> Recipe:
    center, *logs = _tiles(each, request)
    seam = request.rules.seam
    pieces = (center.piece("center", seam, 1), *(log.piece(f"log-{n}", seam, 1) for n, log in enumerate(logs, 1)))
    return Recipe("strips", pieces, batch=1, gives=(0,), trim=False, rounding=ZERO)


def _seams(each: _Round, request: Request) -> tuple[PatchSeam, ...]:
    return chained(range(len(_tiles(each, request))))


def _stages(each: _Round, name: str, request: Request, recipe: Recipe) -> tuple[Stage, ...]:
    """The first log with its seam, the rest of the first round log by log, then a stage for every further round."""
    tiles, seam, key = _tiles(each, request), request.rules.seam, f"{name}.strips."
    stages = [
        Stage("sew", key + "start", _started(tiles, seam), ("log-1", "center"), (("seam", seam),)),
        Stage("sew", key + "first-round", _grown(tiles, (2, 3, 4, 5), seam), _logs(2, 4), _size(tiles[:5], seam)),
    ]
    for end in range(9, len(tiles) + 1, 4):
        views, lengths = _grown(tiles, (end - 4, end), seam), _size(tiles[:end], seam)
        stages.append(Stage("sew", key + "next-round", views, _logs(end - 4, end - 1), lengths))
    return (*stages, finished_stage(f"{name}.finished", sewn(tiles, seam), sewn_size(tiles, seam)[0]))


def _logs(first: int, last: int) -> tuple[str, ...]:
    return tuple(f"log-{number}" for number in range(first, last + 1))


def _started(tiles: tuple[Tile, ...], seam: Length) -> tuple[StageView, ...]:
    """The first log right sides together on the center, and opened."""
    center, log = tiles[:2]
    step = peek(min(log.width, log.height))
    under = raw(center, seam)
    beneath = face(center.role, moved(under, step, step))
    over = raw(Tile(log.role, center.x, center.y, log.width, log.height), seam)
    stitch = mark("stitch", under[0].moved(ZERO, seam), under[1].moved(ZERO, seam))
    return view((beneath, back(log.role, over)), stitch), *_grown(tiles, (1, 2), seam)


def _grown(tiles: tuple[Tile, ...], ends: tuple[int, ...], seam: Length) -> tuple[StageView, ...]:
    """The unit after so many tiles each, with the seams since the first of them."""
    outlines = [tile.patch().outline for tile in tiles]
    made = []
    for before, end in pairwise(ends):
        marks = [seam_between(outlines, tuple(range(log)), (log,), seam, seam) for log in range(before, end)]
        made.append(pressing_view(sewn(tiles[:end], seam), *marks))
    return tuple(made)


def _size(tiles: tuple[Tile, ...], seam: Length) -> tuple[tuple[str, Length], ...]:
    return (("seam", seam), ("size", sewn_size(tiles, seam)[0]))


def _cabin(name: str, noun: str, doc: str, each: _Round, first: str, second: str) -> Method:
    return Method(
        name=name,
        doc=doc,
        roles=(Role("center", "The square in the middle."), Role("first", first), Role("second", second)),
        listed=True,
        keys=(
            Key("rounds", "How many rounds of logs.", "word", choices=_ROUNDS, default="3"),
            Key("center", "The finished side of the center.", "extent", default="1"),
        ),
        default_size=(Fraction(7), Fraction(7)),
        refuse=partial(_refuse, each, noun),
        patches=partial(_patches, each),
        recipe=partial(_recipe, each),
        stages=partial(_stages, each, name),
        seams=partial(_seams, each),
        pressed_away=(("strips", OUTWARD),),
    )


LOG_CABIN = _cabin(
    "log-cabin",
    "a log cabin",
    "Logs around a square, clockwise from the top; listed center, first, second.",
    _around,
    "The logs at the top and right.",
    "The logs at the bottom and left.",
)
COURTHOUSE_STEPS = _cabin(
    "courthouse-steps",
    "a courthouse steps unit",
    "Logs at top and bottom, then at both sides, of a square; listed center, first, second.",
    _steps,
    "The logs at top and bottom.",
    "The logs at both sides.",
)
