"""One kind of strip: its pieces side by side across the width of fabric, its waste, and the order of its cuts.

In: a strip of the plan, the fabric that it is cut from, the size and the scale.
Out: a picture whose body is the strip.
Never: a layout made here; pieces lie in the plan's order from the left, each at the strip's upper edge.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from patchwright.core.length import Length
from patchwright.diagrams.board import Board
from patchwright.diagrams.cut_pieces import Box, cut_piece, parted, uncovered
from patchwright.diagrams.letters import letter_box
from patchwright.diagrams.phrases import printed
from patchwright.diagrams.picture import Body, Picture, corners, padded
from patchwright.diagrams.scene import Area, Item, Label, Line
from patchwright.planning.plan import PlannedFabric, Strip, StripSegment, Yield

_NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class StripCutter:
    """Draws the strips of one fabric in one size at one scale."""

    board: Board
    fabric: PlannedFabric
    index: int
    scale: float

    @property
    def width(self) -> Length:
        """The usable width of fabric."""
        return self.fabric.source.size[0]

    def strip(self, strip: Strip) -> Picture:
        """The strip with the numbers of its cuts; 1 is the cut that makes the strip."""
        wide, high = float(self.width) * self.scale, float(strip.height) * self.scale
        runs = list(self._runs(strip))
        items: list[Item] = [Area(corners(0, 0, wide, high), "waste", style="outline")]
        for run in runs:
            items.extend(self._yielded(run) if isinstance(run.source, Yield) else self._joined(run, run.source))
        uprights = [edge for run in runs for edge in run.edges() if edge < wide - _NEAR]
        items.extend(Line(((run.x, level), (run.right, level)), "cut") for run in runs for level in run.levels(high))
        items.extend(self._level_numbers(runs, high, len(uprights) + 2))
        items.extend(Line(((end, 0), (end, high)), "edge") for end in (0.0, wide))
        return self._numbered(Picture(wide, high, tuple(items), Body(0, 0, wide, high)), uprights)

    def _runs(self, strip: Strip) -> Iterator[_Run]:
        """Pieces of one kind side by side, in order from the left."""
        x = 0.0
        for part in strip.yields:
            columns = -(-part.each // part.stack)
            run = _Run(part, x, float(part.width) * self.scale, float(part.height) * self.scale, columns, part.stack)
            yield run
            x = run.right
        for segment in strip.segments:
            high = float(min(strip.height, self._segment_height(segment, strip))) * self.scale
            run = _Run(segment, x, float(segment.length) * self.scale, high, 1, 1)
            yield run
            x = run.right

    def _segment_height(self, segment: StripSegment, strip: Strip) -> Length:
        """How high a joined piece is cut, which may be less than the strip that it comes from."""
        size = self.board.piece(segment.piece).sizes[self.index]
        return min(size.width.length, size.height.length) if size else strip.height

    def _yielded(self, run: _Run) -> Iterator[Item]:
        """Every piece of a run, column by column and from the top, with its name or, if small, the run's once."""
        if not isinstance(run.source, Yield):
            return
        wide, high = letter_box(run.source.piece, self.board.type, "small")
        named = (wide < run.wide and high < run.high) or self.board.piece(run.source.piece).then != "none"
        for place in range(run.source.each):
            column, row = divmod(place, run.stack)
            box = (run.x + column * run.wide, row * run.high, run.wide, run.high)
            if self.fabric.repeat is not None:
                yield Area(corners(box[0], box[1], box[0] + box[2], box[1] + box[3]), "waste", style="seam")
                box = self._centered(run.source, box)
            yield from cut_piece(self.board, run.source, self.fabric.letter, box, named=named)
        if not named:
            yield from self._run_name(run, run.source)

    def _centered(self, part: Yield, box: Box) -> Box:
        """The piece in the middle of the repeats that it takes."""
        own = uncovered(self.board, self.index, part)
        wide, high = float(own.width) * self.scale, float(own.height) * self.scale
        return box[0] + (box[2] - wide) / 2, box[1] + (box[3] - high) / 2, wide, high

    def _run_name(self, run: _Run, part: Yield) -> Iterator[Item]:
        """How many pieces a run has and their name, or the name alone, over the middle of the run."""
        middle = (run.x + run.right) / 2, run.high * min(run.stack, part.each) / 2
        counted = self.board.say("counted", count=part.each, name=part.piece)
        for text in (counted, part.piece) if part.each > 1 else (part.piece,):
            if letter_box(text, self.board.type, "small")[0] < run.right - run.x:
                yield Label(middle, text, "small", over="cloth")
                return

    def _joined(self, run: _Run, segment: StripSegment) -> Iterator[Item]:
        """A part of a strip that is joined with others, with its length where there is room."""
        board = self.board
        yield Area(parted(board, corners(run.x, 0, run.right, run.high)), "fabric", self.fabric.letter)
        text = board.say("cutting.segment", piece=segment.piece, length=printed(board, segment.length))
        for words in (text, segment.piece):
            fits = board.type.text_width(words, "small") + board.em < run.right - run.x
            if fits and board.type.text_height("small") < run.high:
                yield Label(((run.x + run.right) / 2, run.high / 2), words, "small", over="cloth")
                return

    def _level_numbers(self, runs: Sequence[_Run], high: float, first: int) -> Iterator[Item]:
        """The numbers of cuts along the strip, which come last, where the waste below them has room."""
        number = first
        for run in runs:
            for level in run.levels(high):
                tall = self.board.type.text_height("small") * 1.5
                below = high if level + _NEAR >= run.high * run.stack else level + run.high
                if below == high and below - level > tall and run.right - run.x > 2 * self.board.em:
                    y = level + min((below - level) / 2, self.board.em)
                    yield Label(((run.x + run.right) / 2, y), str(number), "small")
                number += 1

    def _numbered(self, picture: Picture, uprights: Sequence[float]) -> Picture:
        """Numbers of the cuts across the strip, from the left above it; crowded ones are left out."""
        board = self.board
        room = 1.5 * board.em
        grown = padded(picture, top=room)
        labels, free = [], -board.em
        for number, cut in enumerate(uprights, 2):
            half = board.type.text_width(str(number), "small") / 2 + board.em * 0.2
            if cut - half >= free:
                labels.append(Label((cut, room * 0.45), str(number), "small"))
                free = cut + half
        return grown.with_items(labels)


@dataclass(frozen=True, slots=True)
class _Run:
    """Pieces alike, side by side and perhaps in several rows, on the page."""

    source: Yield | StripSegment
    x: float
    wide: float
    high: float
    columns: int
    stack: int

    @property
    def right(self) -> float:
        return self.x + self.wide * self.columns

    def edges(self) -> Iterator[float]:
        """The right edge of every column."""
        for column in range(self.columns):
            yield self.x + (column + 1) * self.wide

    def levels(self, high: float) -> Iterator[float]:
        """The cuts along the strip: between rows, and where the last row ends above the strip's edge."""
        for row in range(1, self.stack + 1):
            if row * self.high < high - _NEAR:
                yield row * self.high
