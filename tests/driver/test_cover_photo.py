"""A photograph on the cover: written anew and small, nothing of its file but pixels, and every mistake said."""

from __future__ import annotations

import io
import re
import zlib
from pathlib import Path

import pikepdf
import pypdfium2
import pypdfium2.raw as pdfium
import pytest
from PIL import Image

from driver.running import SMALL, exit_code
from patchwright import driver
from patchwright.files import find_patterns
from patchwright.typesetting.cover_photo import MOST_PIXELS, PhotoError, read_photo

KEY = "cover: {photo: pictures/quilt.jpg, words: A red and cream quilt over a jetty rail.}\n"


def picture(width: int, height: int, format: str = "JPEG", **options: object) -> bytes:
    made = io.BytesIO()
    Image.radial_gradient("L").convert("RGB").resize((width, height)).save(made, format, **options)
    return made.getvalue()


def written(folder: Path, content: bytes | None, text: str = SMALL + KEY) -> Path:
    (folder / "pictures").mkdir(parents=True, exist_ok=True)
    if content is not None:
        (folder / "pictures" / "quilt.jpg").write_bytes(content)
    (folder / "sail.yaml").write_text(text, encoding="utf-8")
    return folder / "sail.yaml"


def messages(path: Path) -> list[tuple[str, str, int]]:
    (project,) = find_patterns((path,))
    return [(one.code, one.message, one.span.line) for one in driver.compile_project(project, "plain").diagnostics]


def images(pdf: pikepdf.Pdf) -> list[pikepdf.Stream]:
    return [one for one in pdf.objects if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image"]


def whole_on_the_page(pdf: Path) -> float:
    """The share of the first page's width that its photograph takes, which stands whole on it and is not distorted."""
    page = pypdfium2.PdfDocument(pdf)[0]
    (image,) = page.get_objects(filter=[pdfium.FPDF_PAGEOBJ_IMAGE], max_depth=5)
    left, bottom, right, top = image.get_bounds()
    assert 0 < left < right < page.get_width()
    assert 0 < bottom < top < page.get_height()
    assert (right - left) / (top - bottom) == pytest.approx(1.5, abs=0.01)
    return float((right - left) / page.get_width())


def test_a_photograph_stands_on_the_cover_with_its_words(tmp_path: Path) -> None:
    path = written(tmp_path, picture(3000, 2000))
    wanted = ("--edition", "all-sizes", "--edition", "low-ink", "--edition", "fold", "--paper", "letter")
    assert exit_code("build", path, "--out", tmp_path / "out", *wanted) == 0
    for name in ("sail-letter", "sail-fold-throw-letter-pages"):
        assert whole_on_the_page(tmp_path / "out" / "sail" / f"{name}.pdf") > 0.35
        with pikepdf.open(tmp_path / "out" / "sail" / f"{name}.pdf") as pdf:
            (image,) = images(pdf)
            assert (int(image.Width), int(image.Height)) == (MOST_PIXELS, MOST_PIXELS * 2 // 3)
            words = {str(one.Alt) for one in pdf.objects if isinstance(one, pikepdf.Dictionary) and "/Alt" in one}
            assert "A red and cream quilt over a jetty rail." in words
    with pikepdf.open(tmp_path / "out" / "sail" / "sail-low-ink-letter.pdf") as pdf:
        assert not images(pdf), "an edition in lines shows the drawn quilt"
    html = (tmp_path / "out" / "sail" / "sail.html").read_text("utf-8")
    assert "data:image/jpeg;base64," in html
    assert "A red and cream quilt over a jetty rail." in html


def test_nothing_of_the_file_but_its_pixels_is_kept() -> None:
    """Orientation is applied, place and camera are dropped."""
    exif = Image.Exif()
    exif[0x0112] = 6
    exif[0x010F] = "Secret Camera"
    photo = read_photo(picture(1200, 800, exif=exif), "Words.")
    assert (photo.width, photo.height) == (800, 1200), "turned as the camera was held"
    made = Image.open(io.BytesIO(photo.jpeg))
    assert not dict(made.getexif())
    assert b"Secret Camera" not in photo.jpeg
    assert "icc_profile" not in made.info


def test_the_same_file_gives_the_same_bytes() -> None:
    content = picture(1000, 1000, "PNG")
    assert read_photo(content, "Words.") == read_photo(content, "Words.")


def test_a_transparent_picture_stands_on_white() -> None:
    made = io.BytesIO()
    Image.new("RGBA", (400, 400), (255, 0, 0, 0)).save(made, "PNG")
    assert Image.open(io.BytesIO(read_photo(made.getvalue(), "Words.").jpeg)).getpixel((200, 200)) == (255, 255, 255)


def bomb() -> bytes:
    """A PNG of few bytes that says it has four billion pixels."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return len(data).to_bytes(4, "big") + kind + data + zlib.crc32(kind + data).to_bytes(4, "big")

    head = (65000).to_bytes(4, "big") * 2 + bytes([8, 2, 0, 0, 0])
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (None, "there is no file"),
        (b"not a picture", "no photograph that can be read"),
        (picture(400, 400)[:2000], "no photograph that can be read"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no photograph that can be read"),
        (picture(400, 400, "GIF"), "no photograph that can be read"),
        (picture(120, 80), "only 120 x 80 pixels"),
        (bomb(), "pixels"),
        (b"\0" * ((30 << 20) + 1), "larger than 30 megabytes"),
    ],
    ids=["missing", "text", "torn", "svg", "gif", "small", "bomb", "huge"],
)
def test_what_cannot_stand_on_a_cover_is_said_at_its_name(tmp_path: Path, content: bytes | None, reason: str) -> None:
    (found,) = [one for one in messages(written(tmp_path, content)) if one[0] == "cover-photo"]
    assert reason in found[1]
    assert found[2] == len(SMALL.splitlines()) + 1


@pytest.mark.parametrize("name", ["../quilt.jpg", "/etc/passwd", "pictures", "pictures/link.jpg"])
def test_nothing_outside_the_root_is_read(tmp_path: Path, name: str) -> None:
    folder = tmp_path / "house"
    path = written(folder, picture(400, 400), SMALL + KEY.replace("pictures/quilt.jpg", name))
    (tmp_path / "quilt.jpg").write_bytes(picture(400, 400))
    (folder / "pictures" / "link.jpg").symlink_to(tmp_path / "quilt.jpg")
    assert "cover-photo" in [code for code, _, _ in messages(path)]


def test_both_keys_are_needed(tmp_path: Path) -> None:
    text = SMALL + re.sub(r", words: .*\}", "}", KEY)
    assert [code for code, _, _ in messages(written(tmp_path, picture(400, 400), text))] == ["missing-key"]
    empty = SMALL + KEY.replace("A red and cream quilt over a jetty rail.", "' '")
    assert [code for code, _, _ in messages(written(tmp_path, picture(400, 400), empty))] == ["empty-value"]


def test_a_photograph_that_cannot_be_read_is_an_error_of_its_own() -> None:
    with pytest.raises(PhotoError) as fault:
        read_photo(b"", "Words.")
    assert "JPEG or PNG" in fault.value.hint
