"""What the tests of drawings share: all figures of a pattern, and the boxes that items take."""

from __future__ import annotations

from functools import cache

from diagrams.doubles import PlainType
from diagrams.sample import sample_plan
from patchwright.diagrams.board import Board, Room, set_up
from patchwright.diagrams.figures import Figures, booklet_figures
from patchwright.diagrams.scene import Area, Item, Label, Scene
from patchwright.planning.plan import Plan
from patchwright.wording import Wording, load_wording

TYPE = PlainType()
ROOM = Room(6.48, 8.3, 5.2)
Box = tuple[float, float, float, float]


def words(plan: Plan) -> Wording:
    return load_wording().measured_in(plan.system)


def board_of(plan: Plan) -> Board:
    return set_up(plan, words(plan), TYPE, ROOM)


def figures_of(plan: Plan, sizes: tuple[str, ...] | None = None) -> Figures:
    return booklet_figures(plan, words(plan), TYPE, ROOM, sizes)


@cache
def sample_figures(name: str = "rope-walk") -> Figures:
    return figures_of(sample_plan(name))


def box_of(item: Item) -> Box:
    """Left, top, right and bottom of an item on the page."""
    if isinstance(item, Label):
        return label_box(item)
    points = item.outline if isinstance(item, Area) else item.points
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def label_box(label: Label) -> Box:
    wide, high = TYPE.text_width(label.text, label.size, label.bold), TYPE.text_height(label.size, label.bold)
    if label.turned:
        wide, high = high, wide
    x, y = label.at
    left = {"start": x, "middle": x - wide / 2, "end": x - wide}[label.anchor]
    return left, y - high / 2, left + wide, y + high / 2


def labels(scene: Scene) -> list[Label]:
    return [item for item in scene.items if isinstance(item, Label)]


def areas(scene: Scene) -> list[Area]:
    return [item for item in scene.items if isinstance(item, Area)]
