"""The gathering of strips for telling: need and spare, pieces told in parts, strips and ends that are joined."""

from __future__ import annotations

from patchwright.core.length import ZERO, Length
from patchwright.planning.plan import FabricSize, Strip, StripSegment, Yield
from patchwright.typesetting.content.cuts import Gained, Joined, Share, SizeCuts, size_cuts


def strip(height: str, count: int, yields: dict[str, int], joined: tuple[str, ...] = ()) -> Strip:
    """Strips alike; widths and heights of the pieces do not matter here."""
    given = tuple(Yield(piece, each, Length(1), Length(1), False) for piece, each in yields.items())
    return Strip(Length(height), count, given, tuple(StripSegment(piece, Length(9)) for piece in joined), Length(40))


def cuts_of(*strips: Strip) -> SizeCuts:
    return size_cuts(FabricSize(strips, ZERO, (), None, None, None, "plain", ZERO))


def test_strips_of_one_height_are_told_together() -> None:
    cuts = cuts_of(strip("5/2", 2, {"A1": 8}), strip("3", 1, {"A2": 5}), strip("5/2", 1, {"A1": 3, "A3": 4}))
    assert [(group.height, group.count) for group in cuts.groups] == [(Length("5/2"), 3), (Length(3), 1)]
    assert cuts.groups[0].gained == (Gained("A1", 19), Gained("A3", 4))


def test_spare_pieces_are_told_where_the_need_is_met() -> None:
    cuts = cuts_of(strip("3", 1, {"A1": 10}), strip("2", 2, {"A1": 4}), strip("1", 1, {"A1": 5}))
    shares = [cuts.share("A1", 12, group) for group in cuts.groups]
    assert shares == [Share(10, 0), Share(2, 6), Share(0, 5)]
    assert cuts.share("A2", 1, cuts.groups[0]) is None
    assert cuts.scattered == ("A1",)


def test_whole_strips_and_ends_are_counted_apart() -> None:
    cuts = cuts_of(strip("2", 3, {}, ("A4",)), strip("2", 2, {"A1": 6}, ("A4",)), strip("2", 1, {}, ("A4", "A5")))
    assert cuts.groups[0].joined == (Joined("A4", 3, 3), Joined("A5", 0, 1))
    assert cuts.groups[0].gained == (Gained("A1", 12),)
    assert cuts.scattered == ()
