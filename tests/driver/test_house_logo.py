"""The logo of a house: shapes and pixels alone, on the pages where the theme has it, and every mistake said."""

from __future__ import annotations

import io
import re
from pathlib import Path

import pikepdf
import pypdfium2
import pytest
from PIL import Image

from driver.running import SMALL, exit_code
from patchwright import driver
from patchwright.files import find_patterns
from patchwright.typesetting.house_logo import MOST_PIXELS, LogoError, logo_body, logo_scene, read_logo

WORDS = "A sail in a ring."
HOUSE = f"name: Quay\nlogo: {{file: pictures/logo.svg, words: {WORDS}}}\n"
SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20">{}</svg>'
SAIL = SVG.format('<g style="fill:#1f5673;stroke:none"><path d="M2 18 L20 2 L20 18 Z" id="a"/></g><title>x</title>')


def png(width: int, height: int) -> bytes:
    made = io.BytesIO()
    Image.new("RGBA", (width, height), (200, 0, 0, 128)).save(made, "PNG")
    return made.getvalue()


def written(folder: Path, content: bytes | None, house: str = HOUSE, pattern: str = SMALL) -> Path:
    (folder / "pictures").mkdir(parents=True, exist_ok=True)
    if content is not None:
        (folder / "pictures" / "logo.svg").write_bytes(content)
    (folder / "house.yaml").write_text(house, encoding="utf-8")
    (folder / "sail.yaml").write_text(pattern, encoding="utf-8")
    return folder / "sail.yaml"


def faults(path: Path) -> list[tuple[str, str, str, int]]:
    (project,) = find_patterns((path,))
    found = driver.compile_project(project, "plain").diagnostics
    return [(one.code, one.message, Path(one.span.path).name, one.span.line) for one in found]


def pages_with_logo(pdf: Path) -> list[int]:
    """Pages whose structure holds the logo's words, as an independent reader of PDF sees them."""
    with pikepdf.open(pdf) as document:
        numbers = {page.obj.objgen: number for number, page in enumerate(document.pages, 1)}
        told = [one for one in document.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one]
        return sorted(numbers[one.Pg.objgen] for one in told if str(one.Alt) == WORDS)


def test_the_theme_says_where_a_logo_stands(tmp_path: Path) -> None:
    """On the cover and the last page in one theme, on the cover alone in another; none where lines are black alone."""
    path = written(tmp_path, SAIL.encode())
    wanted = ("--edition", "one-size", "--edition", "low-ink", "--size", "throw", "--paper", "letter")
    for theme, count in (("harbor", 2), ("kiln", 1)):
        assert exit_code("build", path, "--theme", theme, "--out", tmp_path / theme, *wanted) == 0
        pages = pages_with_logo(tmp_path / theme / "sail" / "sail-throw-letter.pdf")
        assert pages[0] == 1
        assert len(pages) == count
        low = next((tmp_path / theme / "sail").glob("*low-ink*.pdf"))
        assert pages_with_logo(low) == []


def test_a_web_page_holds_the_logo(tmp_path: Path) -> None:
    path = written(tmp_path, png(900, 300))
    assert exit_code("build", path, "--edition", "all-sizes", "--paper", "letter", "--out", tmp_path / "out") == 0
    html = next((tmp_path / "out" / "sail").glob("*.html")).read_text("utf-8")
    assert html.count('<div class="logo">') == 2
    assert html.count("data:image/png;base64,") == 1, "the picture stands once and is shown twice"
    assert WORDS in html
    with pypdfium2.PdfDocument(tmp_path / "out" / "sail" / "sail-letter.pdf") as pdf:
        assert len(pdf) > 3


def test_a_pattern_may_have_a_logo_of_its_own(tmp_path: Path) -> None:
    own = SMALL + "house: {logo: {file: pictures/own.svg, words: A ring.}}\n"
    assert faults(written(tmp_path, SAIL.encode(), pattern=own)) == [
        ("house-logo", "there is no file `pictures/own.svg` in the folder of the house file, or of the pattern",
         "sail.yaml", len(own.splitlines())),
    ]  # fmt: skip
    (tmp_path / "pictures" / "own.svg").write_text(SAIL)
    assert faults(tmp_path / "sail.yaml") == []


def test_a_logo_fits_its_room_and_keeps_its_shape() -> None:
    logo = read_logo(SAIL.encode(), WORDS)
    scene = logo_scene(logo, (1.5, 0.55))
    assert (scene.width, scene.height) == pytest.approx((1.1, 0.55))
    assert logo_body(logo, scene).startswith('<g transform="scale(1.98) translate(')
    assert 'id="a"' not in logo.shapes, "names could meet others of the page"


def test_a_picture_keeps_its_clear_parts_and_nothing_of_its_file() -> None:
    logo = read_logo(png(3000, 1000), WORDS)
    picture = Image.open(io.BytesIO(logo.picture))
    assert picture.size == (MOST_PIXELS, round(MOST_PIXELS / 3))
    pixel = picture.getpixel((10, 10))
    assert isinstance(pixel, tuple)
    assert pixel[3] == 128
    assert read_logo(png(3000, 1000), WORDS) == logo, "the same bytes every time"


UNSAFE = {
    "<script>alert(1)</script>": "holds `script`",
    "<text>Quay</text>": "holds `text`",
    '<image href="http://example.com/a.png"/>': "holds `image`",
    '<use href="#a"/>': "holds `use`",
    "<style>.a{fill:red}</style>": "holds `style`",
    "<foreignObject/>": "holds `foreignObject`",
    '<path d="M0 0h9" onclick="alert(1)"/>': "style sheet or a script",
    '<path d="M0 0h9" class="a"/>': "style sheet or a script",
    '<path d="M0 0h9" fill="url(#a)"/>': "`fill` of a shape refers to something else",
    '<path d="M0 0h9" style="fill:url(http://example.com)"/>': "`fill` of a shape refers",
    '<path d="M0 0h9" clip-path="url(#a)"/>': "cut out",
    "<defs/>": "no shapes",
    "<path/>" * 2001: "more than 2000 shapes",
    "<g>" * 60 + "</g>" * 60: "beyond reason",
    f'<path d="{"L1 1" * 80000}"/>': "too many points",
}


@pytest.mark.parametrize("inside", UNSAFE, ids=list(UNSAFE.values()))
def test_what_is_no_plain_shape_is_refused(inside: str) -> None:
    with pytest.raises(LogoError, match=re.escape(UNSAFE[inside])) as fault:
        read_logo(SVG.format(inside).encode(), WORDS)
    assert fault.value.hint


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (None, "there is no file"),
        (b"not a picture", "no drawing and no picture"),
        (b"<svg", "not well formed"),
        (b"<?xml version='1.0'?><html/>", "no SVG"),
        (b'<!DOCTYPE svg [<!ENTITY a "aaaa">]>' + SAIL.encode(), "document type"),
        (SAIL.replace('viewBox="0 0 40 20"', "").encode(), "how large it is"),
        (SAIL.replace("40 20", "400 20").encode(), "twelve times"),
        (png(60, 40), "only 60 x 40 pixels"),
        (png(400, 400)[:300], "no drawing and no picture"),
        (b" " * (3 << 20), "larger than 2 megabytes"),
    ],
    ids=["missing", "text", "torn", "html", "entities", "no-size", "long", "small", "torn-png", "huge"],
)
def test_what_cannot_be_a_logo_is_said_at_its_name(tmp_path: Path, content: bytes | None, reason: str) -> None:
    (found,) = faults(written(tmp_path, content))
    assert found[0] == "house-logo"
    assert reason in found[1]
    assert found[2:] == ("house.yaml", 2)


def test_a_changed_logo_is_noticed(tmp_path: Path) -> None:
    """A remembered build is no longer taken where the logo's file is another."""
    path = written(tmp_path, SAIL.encode())
    (project,) = find_patterns((path,))
    request = driver.BuildRequest(editions=("labels",), papers=("letter",), out=tmp_path / "out", remember=True)
    assert not driver.build_project(project, request).compiled.failed
    assert driver.earlier_build(project, request) is not None
    (tmp_path / "pictures" / "logo.svg").write_bytes(SAIL.replace("#1f5673", "#a23b22").encode())
    assert driver.earlier_build(project, request) is None
