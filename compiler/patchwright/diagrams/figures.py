"""All drawings of a booklet: Plan → Scenes, kind by kind.

In: a plan, the words of one language, the sizes of the theme's labels, the room on a page, and the sizes to show.
Out: drawings with what they are about, in the order in which a booklet shows them, and by id.
Never: a page, a caption's number or a place in the text.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from patchwright.core.length import Length
from patchwright.diagrams.assembly import assembly_scene
from patchwright.diagrams.backing import backing_scene
from patchwright.diagrams.binding import binding_scenes
from patchwright.diagrams.block import block_scene
from patchwright.diagrams.board import Board, LabelSizes, Room, Say, set_up
from patchwright.diagrams.borders import border_scene, border_way
from patchwright.diagrams.by_block import by_block_scenes
from patchwright.diagrams.coloring import coloring_scene
from patchwright.diagrams.colorways import colorway_scenes
from patchwright.diagrams.columns import columns_scene
from patchwright.diagrams.cutting import cutting_scenes
from patchwright.diagrams.diagonal_rows import column_scene, diagonal_rows_scene
from patchwright.diagrams.foundations import foundation_scenes
from patchwright.diagrams.hanging import hanging_scenes
from patchwright.diagrams.key import key_scene
from patchwright.diagrams.layout import cover_scene, layout_scene
from patchwright.diagrams.mitered import mitered_scene
from patchwright.diagrams.names import exists
from patchwright.diagrams.pressing import AssemblyPressing
from patchwright.diagrams.pressing_map import block_map, legend_scene, top_map, unit_map
from patchwright.diagrams.quarters import quarters_scene
from patchwright.diagrams.scene import Scene
from patchwright.diagrams.sheets import sheet_scenes
from patchwright.diagrams.steps import step_scenes, unit_scale
from patchwright.diagrams.templates import is_shown, template_scenes
from patchwright.diagrams.top import top_scene
from patchwright.planning.plan import Plan, PlannedSize
from patchwright.planning.pressing.press import with_pressing


@dataclass(frozen=True, slots=True)
class Drawn:
    """A scene and what it shows."""

    kind: str
    """A kind of `KINDS`: `cover`, `layout`, `cutting` …"""
    about: str
    """The id of the unit, assembly, border or the letter of the fabric; nothing for the whole quilt."""
    size: str
    """The name of the size that it is for; nothing where it serves all."""
    scene: Scene


Draw = Callable[[Board], Iterator[Drawn]]


@dataclass(frozen=True, slots=True)
class Figures:
    """All drawings of one booklet."""

    drawn: tuple[Drawn, ...]
    _by_id: Mapping[str, Scene] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_by_id", {entry.scene.id: entry.scene for entry in self.drawn})

    def __contains__(self, id: object) -> bool:
        return id in self._by_id

    def __getitem__(self, id: str) -> Scene:
        """The scene of an id; raise KeyError if there is none."""
        return self._by_id[id]

    def of(self, kind: str, about: str | None = None, size: str | None = None) -> tuple[Scene, ...]:
        """Scenes of a kind in order, of one thing and one size where these are given."""
        return tuple(
            entry.scene
            for entry in self.drawn
            if entry.kind == kind and about in (None, entry.about) and size in (None, entry.size)
        )


def booklet_figures(
    plan: Plan,
    wording: Say,
    type: LabelSizes,
    room: Room | None = None,
    sizes: Sequence[str] | None = None,
    kinds: Iterable[str] | None = None,
    pressing: Mapping[str, AssemblyPressing] | None = None,
) -> Figures:
    """Draw the named kinds (all by default) for the named sizes (all by default)."""
    board = set_up(with_pressing(plan), wording, type, room, sizes, pressing)
    wanted = tuple(KINDS) if kinds is None else tuple(kinds)
    return Figures(tuple(drawn for kind in KINDS if kind in wanted for drawn in KINDS[kind](board)))


def _per_size(kind: str, draw: Callable[[Board, int], Scene | None]) -> Draw:
    """One drawing of the whole quilt for each shown size."""

    def drawings(board: Board) -> Iterator[Drawn]:
        for index in board.shown:
            scene = draw(board, index)
            if scene is not None:
                yield Drawn(kind, "", board.size(index).name, scene)

    return drawings


def _cover(board: Board) -> Iterator[Drawn]:
    """The largest size, which a cover shows."""
    index = max(board.shown, key=lambda shown: _area(board.size(shown)), default=None)
    if index is not None:
        yield Drawn("cover", "", board.size(index).name, cover_scene(board, index))


def _area(size: PlannedSize) -> Length:
    return size.finished[0].length * size.finished[1].length


def _key(board: Board) -> Iterator[Drawn]:
    yield Drawn("key", "", "", key_scene(board))


def _cutting(board: Board) -> Iterator[Drawn]:
    for index in board.shown:
        for fabric in board.plan.fabrics:
            strips = tuple(cutting_scenes(board, fabric, index))
            for scene in (*strips, *sheet_scenes(board, fabric, index, len(strips) + 1)):
                yield Drawn("cutting", fabric.letter, board.size(index).name, scene)


def _steps(board: Board) -> Iterator[Drawn]:
    scale = unit_scale(board)
    for unit in board.plan.units:
        if exists(board, unit.sizes):
            for scene in step_scenes(board, unit, scale):
                yield Drawn("steps", unit.id, "", scene)


def _blocks(board: Board) -> Iterator[Drawn]:
    for assembly in board.plan.assemblies:
        if exists(board, assembly.sizes):
            yield Drawn("block", assembly.id, "", block_scene(board, assembly))


def _assemblies(board: Board) -> Iterator[Drawn]:
    for assembly in board.plan.assemblies:
        if exists(board, assembly.sizes):
            yield Drawn("assembly", assembly.id, "", assembly_scene(board, assembly))


def _pressing(board: Board) -> Iterator[Drawn]:
    """Maps of all units and blocks, of the top of every size, and what their marks mean."""
    yield Drawn("pressing", "", "", legend_scene(board))
    for unit in board.plan.units:
        if exists(board, unit.sizes) and board.pressed.seams_of("unit", unit.id):
            yield Drawn("pressing", unit.id, "", unit_map(board, unit))
    for assembly in board.plan.assemblies:
        if exists(board, assembly.sizes) and board.pressed.seams_of("assembly", assembly.id):
            yield Drawn("pressing", assembly.id, "", block_map(board, assembly))
    for index in board.shown:
        if board.size(index).by_block is None:
            yield Drawn("pressing", "", board.size(index).name, top_map(board, index))


def _borders(board: Board) -> Iterator[Drawn]:
    """Each border once for sizes in a row that sew it alike, named for the first of them."""
    last: dict[str, object] = {}
    for index in board.shown:
        size = board.size(index)
        for number, border in enumerate(size.borders, 1):
            way = border_way(border, number)
            if border.joined:
                if border.id == border.joined[-1]:
                    yield Drawn("border", border.id, size.name, mitered_scene(board, index, number))
            elif last.get(border.id) != way:
                yield Drawn("border", border.id, size.name, border_scene(board, index, number))
            last[border.id] = way


def _templates(board: Board) -> Iterator[Drawn]:
    for template in board.plan.templates:
        if is_shown(board, template):
            for scene in template_scenes(board, template):
                yield Drawn("template", template.id, "", scene)


def _foundations(board: Board) -> Iterator[Drawn]:
    for unit in board.plan.units:
        for scene in foundation_scenes(board, unit):
            yield Drawn("foundation", unit.id, "", scene)


def _coloring(board: Board) -> Iterator[Drawn]:
    """One page to color, of the first size."""
    if board.shown:
        yield Drawn("coloring", "", board.size(board.shown[0]).name, coloring_scene(board, board.shown[0]))


def _rows(board: Board, index: int) -> Scene | None:
    """The rows pulled apart; nothing where blocks are joined with their layers, which has drawings of its own."""
    if board.size(index).by_block is not None:
        return None
    if board.size(index).quarters is not None:
        return quarters_scene(board, index)
    ways = {"straight": top_scene, "on-point": diagonal_rows_scene, "strippy": columns_scene}
    return ways[board.size(index).setting](board, index)


def _binding(board: Board) -> Iterator[Drawn]:
    for scene in binding_scenes(board):
        yield Drawn("binding", scene.id, "", scene)


def _by_block(board: Board) -> Iterator[Drawn]:
    for scene in by_block_scenes(board):
        yield Drawn("by-block", scene.id, "", scene)


def _hanging(board: Board) -> Iterator[Drawn]:
    for scene in hanging_scenes(board):
        yield Drawn("hanging", scene.id, "", scene)


def _colorways(board: Board) -> Iterator[Drawn]:
    for scene in colorway_scenes(board):
        yield Drawn("colorway", scene.id, "", scene)


KINDS: Mapping[str, Draw] = {
    "cover": _cover,
    "key": _key,
    "layout": _per_size("layout", layout_scene),
    "cutting": _cutting,
    "steps": _steps,
    "block": _blocks,
    "assembly": _assemblies,
    "pressing": _pressing,
    "top": _per_size("top", _rows),
    "column": _per_size("column", column_scene),
    "border": _borders,
    "backing": _per_size("backing", backing_scene),
    "by-block": _by_block,
    "hanging": _hanging,
    "binding": _binding,
    "template": _templates,
    "foundation": _foundations,
    "colorway": _colorways,
    "coloring": _coloring,
}
"""Every kind of drawing in the order of a booklet; a new kind is a module and a line here."""
