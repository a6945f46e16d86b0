"""The edition of templates alone: a short head, what to check and mind first, then every template at true size."""

from __future__ import annotations

from pathlib import Path

import pypdfium2

from driver.running import run
from methods.test_templates import CURVES


def test_templates_begin_with_the_scale_check(tmp_path: Path) -> None:
    (tmp_path / "curves.yaml").write_text(CURVES.replace("SIDE", "4").replace("RADIUS", "3"), "utf-8")
    asked = ("--edition", "templates", "--paper", "letter", "--out", tmp_path / "out")
    done = run("build", tmp_path / "curves.yaml", *asked, folder=tmp_path)
    assert done.returncode == 0, done.stderr
    document = pypdfium2.PdfDocument(tmp_path / "out" / "curves" / "curves-templates-throw-letter.pdf")
    pages = [" ".join(page.get_textpage().get_text_range().split()) for page in document]
    assert "Templates for Curves, Throw" in pages[0]
    assert "Check the print scale" in pages[0]
    assert "Rotary cutter" in pages[0]
    text = " ".join(pages)
    assert "Template T1: A1, cut 4" in text
    assert "Template T2: B1, cut 4" in text
