"""Published values of contrast and of large print, each with its source in `data/legibility.yaml`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml

from patchwright.core.theme import POINTS_PER_INCH
from patchwright.typesetting.changes import changed_theme
from patchwright.typesetting.content.editions import EDITIONS
from patchwright.typesetting.contrast import LINE, TEXT, contrast
from typesetting.test_contrast import THEMES, theme

ROWS: dict[str, dict[str, Any]] = {
    row["id"]: row for row in yaml.safe_load((Path(__file__).parent / "data" / "legibility.yaml").read_text("utf-8"))
}
PAIRS = [id for id, row in ROWS.items() if "text" in row["inputs"]]


def color(written: str) -> str:
    """The last color of a text, with two digits for each part."""
    digits = written.rpartition("#")[2]
    return "#" + (digits if len(digits) == 6 else "".join(digit * 2 for digit in digits))


@pytest.mark.parametrize("row_id", PAIRS)
def test_published_ratio(row_id: str) -> None:
    """Test cases of the rule for text, and the limits of grays on white; some pages cut digits off."""
    row = ROWS[row_id]
    ratio = contrast(color(row["inputs"]["text"]), color(row["inputs"]["background"]))
    assert ratio == pytest.approx(row["expected"], abs=row["tolerance"])


def test_limits_are_those_of_level_aa() -> None:
    """4.5 for text, of which none is let off for being large, and 3 for what is no text."""
    assert ROWS["wcag-aa"]["expected"] == TEXT
    assert ROWS["wcag-aa-large"]["expected"] == LINE
    assert contrast("#777777", "#ffffff") < TEXT, "4.48 is not rounded to 4.5"


@pytest.mark.parametrize("name", THEMES)
@pytest.mark.parametrize("row_id", ["aph-18", "ukaaf-large", "nls-14"])
def test_large_print_is_large_by_every_definition(name: str, row_id: str) -> None:
    tokens = changed_theme(theme(name), EDITIONS["large-print"].changes).tokens
    assert tokens.type.minimum >= ROWS[row_id]["expected"]


def test_points_are_those_of_type() -> None:
    assert ROWS["pt-inch-type"]["expected"] == POINTS_PER_INCH
