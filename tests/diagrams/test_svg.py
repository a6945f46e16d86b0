"""SVG: well formed, in real units, few paths, ids of its own, labels where they belong."""

from __future__ import annotations

import re
import time
from functools import cache
from typing import get_args
from xml.etree import ElementTree

from patchwright.core.theme import LABEL_SIZES, LINE_STYLES
from patchwright.diagrams.look import Look
from patchwright.diagrams.picture import bare, padded
from patchwright.diagrams.scene import XY, Area, Item, Label, Line, LineStyle, Scene, Swatch, TypeSize
from patchwright.diagrams.svg import write_svg
from patchwright.files import installed_themes, theme_names, theme_reader
from patchwright.typesetting.themes import load_theme

NAMESPACE = "{http://www.w3.org/2000/svg}"
SWATCHES = (
    Swatch("A", "Deck", ("#ece7db",), "light", 0),
    Swatch("B", "Rope", ("#c9772f", "#e0a458"), "medium", 1),
    Swatch("C", "Tar", ("#2b2f36",), "dark", 2),
)


@cache
def look() -> Look:
    folder = installed_themes()
    theme, mistakes = load_theme(theme_names(folder)[0], theme_reader(folder))
    assert theme is not None, mistakes
    return theme.look


def square(x: float, y: float, side: float = 1) -> tuple[XY, ...]:
    return ((x, y), (x + side, y), (x + side, y + side), (x, y + side))


def drawn(*items: Item, name: str = "sample") -> ElementTree.Element:
    scene = Scene(name, 4, 3, items, SWATCHES, "A title & more", "A <description>.")
    return ElementTree.fromstring(write_svg(scene, look()))


def paths(svg: ElementTree.Element) -> list[ElementTree.Element]:
    return list(svg.iter(f"{NAMESPACE}path"))


def test_theme_words_are_the_words_of_scenes() -> None:
    assert set(LINE_STYLES) == set(get_args(LineStyle))
    assert set(LABEL_SIZES) == set(get_args(TypeSize))


def test_size_title_and_description() -> None:
    svg = drawn(Area(square(0, 0), "paper"))
    assert (svg.get("width"), svg.get("height"), svg.get("viewBox")) == ("4in", "3in", "0 0 288 216")
    assert svg.findtext(f"{NAMESPACE}title") == "A title & more"
    assert svg.findtext(f"{NAMESPACE}desc") == "A <description>."
    ids = [element.get("id") for element in svg.iter() if element.get("id")]
    assert svg.get("aria-labelledby", "").split() == ids == ["sample-title", "sample-desc"]


def test_one_path_for_each_cloth_print_and_side() -> None:
    areas = [Area(square(column, row), "fabric", "B", column % 2, row == 2) for row in range(3) for column in range(4)]
    fills = [path for path in paths(drawn(*areas)) if path.get("fill") != "none"]
    assert len(fills) == 4
    assert sum(path.get("d", "").count("M") for path in fills) == 12


def test_wrong_side_is_paler_and_has_no_hatch() -> None:
    right, wrong = drawn(Area(square(0, 0), "fabric", "C")), drawn(Area(square(0, 0), "fabric", "C", wrong_side=True))
    assert [len(paths(right)), len(paths(wrong))] == [2, 1]
    assert paths(right)[0].get("fill") == "#2b2f36"
    assert paths(wrong)[0].get("fill", "") > "#a0a0a0"


def test_what_lies_over_comes_later() -> None:
    fills = [
        path.get("fill")
        for path in paths(
            drawn(*(Area(square(0.1 * place, 0), "fabric", letter) for place, letter in enumerate("ACA")))
        )
        if path.get("fill") != "none"
    ]
    assert fills == ["#ece7db", "#2b2f36", "#ece7db"]


def test_neighbors_share_one_layer_whatever_their_shape() -> None:
    triangles = [
        Area(((x, y), (x + 1, y), (x, y + 1)) if half else ((x + 1, y), (x + 1, y + 1), (x, y + 1)), "fabric", letter)
        for x in range(3)
        for y in range(3)
        for half, letter in ((0, "A"), (1, "B"))
    ]
    assert len([path for path in paths(drawn(*triangles)) if path.get("fill") != "none"]) == 2


def test_arrowheads_end_at_the_tip() -> None:
    shaft, head = paths(drawn(Line(((0, 1), (2, 1)), "press", "end")))
    assert head.get("fill") == look().drawing.stroke("press").color
    assert head.get("d", "").startswith("M144 72")
    assert float(re.findall(r"h([\d.]+)", shaft.get("d", ""))[0]) < 144


def test_arrows_over_cloth_have_a_light_edge_below_them() -> None:
    backing, shaft, head = paths(drawn(Line(((0, 1), (2, 1)), "press", "end", "cloth")))
    tokens = look().drawing
    assert backing.get("stroke") == tokens.backing
    assert float(backing.get("stroke-width", "0")) > tokens.stroke("press").width
    assert backing.get("d", "") == shaft.get("d", "") + head.get("d", "")


def test_labels_are_plain_text_on_computed_baselines() -> None:
    svg = drawn(
        Area(square(0, 0), "fabric", "C"),
        Label((0.5, 0.5), "C1 & ½", bold=True, over="cloth"),
        Label((2, 1), "6\u202f13⁄16″", "small", "start", turned=True),
    )
    first, second = svg.iter(f"{NAMESPACE}text")
    assert (first.text, second.text) == ("C1 & ½", "6\u202f13⁄16″")
    assert first.get("text-anchor") == "middle"
    assert second.get("text-anchor") is None
    assert second.get("transform") == "rotate(-90 144 72)"
    height = look().text_height("normal", bold=True) * 72
    assert abs(float(first.get("y", "")) - (36 + height / 2)) < 0.02
    (backing,) = svg.iter(f"{NAMESPACE}rect")
    wide, tall = look().label_box("C1 & ½", "normal", bold=True)
    assert abs(float(backing.get("width", "")) - wide * 72) < 0.02
    assert abs(float(backing.get("height", "")) - tall * 72) < 0.02


def test_nothing_that_renderers_disagree_about() -> None:
    text = write_svg(Scene("all", 4, 3, _everything(), SWATCHES, "T", "D"), look())
    for word in ("<pattern", "clip", "tspan", "dominant-baseline", "style=", "href", "script"):
        assert word not in text
    assert not re.search(r"\d\.\d{5}", text)


def test_same_text_every_time_and_instances_apart() -> None:
    scene = Scene("all", 4, 3, _everything(), SWATCHES, "T", "D")
    assert write_svg(scene, look()) == write_svg(scene, look())
    assert 'id="all-2-title"' in write_svg(scene, look(), "-2")


def test_three_thousand_areas_are_quick() -> None:
    areas = tuple(
        Area(square(column * 0.1, row * 0.1, 0.1), "fabric", "ABC"[(row + column) % 3], column % 2)
        for row in range(60)
        for column in range(50)
    )
    start = time.process_time()
    text = write_svg(Scene("cover", 5, 6, areas, SWATCHES, "T", "D"), look())
    assert time.process_time() - start < 1
    assert text.count("<path") <= 7


def _everything() -> tuple[Item, ...]:
    lines = [Line(((0, y / 5), (3, y / 5)), style, "both") for y, style in enumerate(get_args(LineStyle))]
    return (
        Area(square(0, 0), "fabric", "B"),
        Area(square(1, 0), "waste"),
        Area(square(2, 0), "highlight"),
        Area(square(0, 1), "fabric", "C", wrong_side=True),
        *lines,
        Label((1, 1), "A1", over="cloth"),
    )


def test_what_is_moved_keeps_its_light_edge() -> None:
    moved = bare(1, 1, [Line(((0, 0), (1, 1)), "press", "end", "cloth")])
    (line,) = padded(moved, left=1).items
    assert isinstance(line, Line)
    assert (line.over, line.points[0][0]) == ("cloth", 1)
