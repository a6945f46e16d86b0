"""How the center of one size is built, read from the places of its parts.

In: a planned size.
Out: `Grid`: which pieces lie between blocks, how many to a row, how many sashing rows.
Never: a count that was not counted in the drawing.
"""

from __future__ import annotations

from dataclasses import dataclass

from patchwright.planning.plan import PlannedSize, TopItem


@dataclass(frozen=True, slots=True)
class Grid:
    way: str
    """`plain`, `long`, `stones` or `strips` (pieced, between rows alone), followed by `-frame` where sashing also runs
    around the outside.
    """
    squares: tuple[str, ...]
    """Plain pieces in blocks' places."""
    in_rows: tuple[str, ...]
    """Sashing between the blocks of a row: ids of pieces, or of assemblies that are strips."""
    strips_in_row: int
    between: tuple[str, ...]
    """Sashing of the sashing rows."""
    stones: tuple[str, ...]
    sash_rows: int
    strips_between: int
    stones_between: int

    @property
    def frame(self) -> bool:
        return self.way.endswith("-frame")


def read_grid(size: PlannedSize) -> Grid:
    """Sort the sashing of one size into what lies in rows of blocks and what lies between rows."""
    sashing = [item for item in size.items if item.part == "sashing"]
    stones = [item for item in size.items if item.part == "cornerstones"]
    tops = {item.y for item in size.items if item.part in ("block", "setting")}
    in_rows = [item for item in sashing if item.y in tops]
    between = [item for item in sashing if item.y not in tops]
    first_row = [item for item in in_rows if item.y == in_rows[0].y]
    first_between = [item for item in between if item.y == between[0].y]
    first_stones = [item for item in stones if item.y == stones[0].y]
    return Grid(
        way=_way(size),
        squares=_pieces([item for item in size.items if item.part == "setting"]),
        in_rows=_refs(in_rows),
        strips_in_row=len(first_row),
        between=_refs(between),
        stones=_refs(stones),
        sash_rows=len({item.y for item in between}),
        strips_between=len(first_between),
        stones_between=len(first_stones),
    )


def _way(size: PlannedSize) -> str:
    if size.sash_width is None:
        return "plain"
    pieced = any(item.part == "sashing" and item.kind == "assembly" for item in size.items)
    way = "stones" if size.cornerstones else "strips" if pieced else "long"
    return way + ("-frame" if size.sash_frame else "")


def _refs(items: list[TopItem]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(item.ref for item in items))


def _pieces(items: list[TopItem]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(item.ref for item in items if item.kind == "piece"))
