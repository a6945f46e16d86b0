"""Pressing maps of tops: every seam of every size is in the map that stands for it, and every ring that words name."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cache

from content.compiled import EvenLabels
from patchwright.diagrams.figures import booklet_figures
from patchwright.diagrams.scene import Label
from patchwright.diagrams.seam_places import places_on_top
from patchwright.planning.plan import Plan
from patchwright.planning.pressing.alike_tops import ShownTop, shown_tops
from patchwright.planning.pressing.press import plan_pressing, with_pressing
from patchwright.planning.pressing.results import PressingPlan
from patchwright.planning.pressing.terms import Seam
from patchwright.typesetting.booklet import Figure, FigureRow, Paragraph
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.content.plain import inline_text
from patchwright.typesetting.content.pressing_maps import top_maps
from patchwright.typesetting.content.pressing_remarks import nesting_words
from patchwright.typesetting.content.scope import Scope
from patchwright.wording import load_wording
from pressing.quilts import NINE_PATCH, SASHED, quilt

BLOCKS = """\
blocks:
  b: {cell: 3 in, strip-piece: no, rows: [[dark, light], [light, dark]]}
  c: {cell: 6 in, rows: [[other]]}
  t: {cell: 2 in, rows: [[light, dark]]}
quilt: {arrange: [[b, c], [c, b]]}
"""
SIZES = {
    "small": "{across: 2, down: 2}",
    "large": "{across: 5, down: 6}",
    "bordered": "{across: 2, down: 3, borders: [{width: 2 in, fabric: other}]}",
    "cornered": "{across: 4, down: 2, borders: [{width: 2 in, fabric: other, corners: dark}]}",
    "cornered-too": "{across: 3, down: 2, borders: [{width: 3 in, fabric: light, corners: other}]}",
    "pieced": "{across: 3, down: 3, borders: [{pieced: {repeat: [t], corner: dark}, coping: {fabric: other}}]}",
    "sashed": "{across: 2, down: 2, sashing: {width: 1 in, fabric: other, cornerstone: dark}}",
    "framed": "{across: 3, down: 2, sashing: {width: 1 in, fabric: other, cornerstone: dark, frame: yes}}",
    "one-row": "{across: 4, down: 1}",
    "one-column": "{across: 1, down: 4}",
    "one-block": "{across: 1, down: 1}",
}
"""Every size with the way in which its top is built."""


@cache
def mixed() -> tuple[Plan, PressingPlan]:
    made = quilt(BLOCKS + "sizes:\n" + "".join(f"  {name}: {size}\n" for name, size in SIZES.items()))
    return made, plan_pressing(made, "nest")


@cache
def shown() -> tuple[ShownTop, ...]:
    plan, pressing = mixed()
    return shown_tops(plan, pressing, range(len(plan.sizes)))


def ways_on(index: int) -> dict[Seam, tuple[int, int]]:
    """The seams that the map of a size draws, with their ways."""
    plan, pressing = mixed()
    return {seam.seam: pressing.pressed(seam.seam).halves for seam in places_on_top(plan, pressing, index).seams}


def test_every_size_with_seams_has_one_map() -> None:
    plan, _ = mixed()
    named = [plan.sizes[index].name for top in shown() for index in top.stands_for]
    assert sorted(named) == sorted(name for name in SIZES if name != "one-block")
    assert all(top.index in top.stands_for for top in shown())


def test_sizes_that_are_built_in_other_ways_share_no_map() -> None:
    """What was changed for a size alone is what its map must show."""
    plan, _ = mixed()
    groups = [{plan.sizes[index].name for index in top.stands_for} for top in shown()]
    assert {"small", "large", "one-row", "one-column"} in groups
    assert {"cornered", "cornered-too"} in groups
    for name in ("bordered", "pieced", "sashed", "framed"):
        assert {name} in groups


def test_a_map_has_the_seams_of_the_sizes_that_it_stands_for() -> None:
    """Seams that a longer row has beyond it lie as the one two places before them does."""
    for index, other in [(top.index, other) for top in shown() for other in top.stands_for]:
        own = ways_on(index)
        for seam, ways in ways_on(other).items():
            place = seam.place
            while place > 1 and replace(seam, place=place) not in own:
                place -= 2
            assert own.get(replace(seam, place=place), own.get(replace(seam, place=0))) == ways


def test_a_map_has_marks_where_the_sizes_that_it_stands_for_have_any() -> None:
    for top in shown():
        places = [places_on_top(*mixed(), index) for index in top.stands_for]
        own = places_on_top(*mixed(), top.index)
        assert bool(own.missed) == any(known.missed for known in places)
        assert bool(own.heavy) == any(known.heavy for known in places)


def test_a_row_that_goes_on_otherwise_has_a_map_of_its_own() -> None:
    """A line of two seams that lie alike says nothing of a third that lies the other way."""
    plan = with_pressing(quilt(BLOCKS + "sizes: {short: {across: 3, down: 2}, long: {across: 5, down: 2}}\n"))
    assert plan.pressing is not None
    names = [[plan.sizes[index].name for index in top.stands_for] for top in shown_tops(plan, plan.pressing, (0, 1))]
    assert names == [["short", "long"]]
    seams = tuple(
        replace(seam, halves=(-seam.halves[0], -seam.halves[1]))
        if seam.seam.owner.kind == "row" and seam.seam.place == 3 else seam for seam in plan.pressing.seams
    )
    (top,) = shown_tops(plan, replace(plan.pressing, seams=seams), (0, 1))
    assert plan.sizes[top.index].name == "long"


def scope_of(plan: Plan) -> Scope:
    drawn = booklet_figures(plan, load_wording("en"), EvenLabels(), kinds=["pressing"])
    return Scope(with_pressing(plan), drawn, load_wording("en"), EDITIONS["all-sizes"], tuple(range(len(plan.sizes))))


def told(scope: Scope) -> tuple[str, list[Figure]]:
    blocks = top_maps(scope)
    said = " ".join(inline_text(block.inlines) for block in blocks if isinstance(block, Paragraph))
    rows = [block.figures for block in blocks if isinstance(block, FigureRow)]
    return said, [block for block in blocks if isinstance(block, Figure)] + [figure for row in rows for figure in row]


def test_captions_say_which_sizes_a_map_is_for() -> None:
    _, maps = told(scope_of(mixed()[0]))
    captions = {figure.scene.id: (figure.caption, figure.sizes) for figure in maps}
    assert captions["pressing-top-bordered"] == ("Pressing of rows and borders, Bordered", ("bordered",))
    assert captions["pressing-top-cornered-too"] == (
        "Pressing of rows and borders, Cornered too; Cornered is pressed in the same way", ("cornered", "cornered-too"),
    )
    assert captions["pressing-top-sashed"] == ("Pressing of rows, Sashed", ("sashed",))


def test_seams_that_are_pressed_open_have_maps_without_rings() -> None:
    plan = with_pressing(quilt("house: {pressing: open}\n" + SASHED))
    scope = scope_of(plan)
    said, maps = told(scope)
    assert said == "Every seam of the top outside its blocks; where its arrow has two heads, it is pressed open."
    assert len(maps) == 1
    seams = places_on_top(plan, scope.pressing, 0).seams
    arrows = [item for item in maps[0].scene.items if getattr(item, "arrow", "") == "both"]
    assert len(arrows) == len(seams) > 0
    assert not [item for item in maps[0].scene.items if getattr(item, "tone", "") == "highlight"]


def test_a_top_where_nothing_meets_has_its_map() -> None:
    text = "blocks:\n  c: {cell: 3 in, rows: [[dark]]}\nquilt: {arrange: [[c]]}\nsizes: {strip: {across: 4, down: 1}}\n"
    said, maps = told(scope_of(quilt(text)))
    assert said == "Every seam of the top outside its blocks with an arrow toward the side to which it is pressed."
    assert [figure.scene.id for figure in maps] == ["pressing-top-strip"]


def test_points_of_the_top_that_do_not_nest_are_counted_by_place_and_size() -> None:
    """The counts are those of the finished top, on which every such point is found by its place."""
    plan = with_pressing(quilt(
        NINE_PATCH[: NINE_PATCH.index("sizes")] + "sizes:\n  plain: {across: 4, down: 4}\n"
        "  sashed: {across: 4, down: 4, sashing: {width: 1 in, fabric: other, cornerstone: dark}}\n"
    ))
    scope = scope_of(plan)
    counts = [len(places_on_top(plan, scope.pressing, index).missed) for index in (0, 1)]
    assert counts == [48, 0]
    places = "24 (Plain), 0 (Sashed) between neighbors of a row; 24 (Plain), 0 (Sashed) between rows. Rings mark them"
    assert f"{places} in the pressing map" in told(scope)[0]


def test_what_could_nest_at_most_is_said_where_it_is_not_reached() -> None:
    plan = with_pressing(quilt(NINE_PATCH))
    assert plan.pressing is not None
    (own,) = plan.pressing.sizes
    bound = Fraction(own.nested + 2, own.total)
    for rule, said in (
        ("nest", f"no way of pressing nests at more than {own.nested + 2}."),
        ("dark", f"no way of pressing toward the dark fabric nests at more than {own.nested + 2}."),
    ):
        pressing = replace(plan.pressing, proof="gap", bound=bound, rule=rule)  # type: ignore[arg-type]
        assert said in nesting_words(replace(scope_of(plan), plan=replace(plan, pressing=pressing)))


def test_the_legend_names_only_marks_that_maps_have() -> None:
    texts = []
    for house in ("", "house: {pressing: open}\n"):
        legend = scope_of(quilt(house + SASHED)).figures["pressing-legend"]
        texts.append([item.text for item in legend.items if isinstance(item, Label)])
    assert len(texts[0]) == 4
    assert texts[1] == texts[0][:2]
