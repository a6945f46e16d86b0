"""Writes the small pattern that an author starts from."""

from __future__ import annotations

from pathlib import Path

from patchwright.files import write_new_file
from patchwright.wording import read_package_file


def start_pattern(path: Path, title: str, metric: bool) -> Path:
    """Write the pattern and give its path; raise FileTroubleError where a file is there already."""
    target = path if path.suffix in (".yaml", ".yml") else path.with_suffix(".yaml")
    text = read_package_file("start-metric.yaml" if metric else "start-inches.yaml")
    quoted = '"' + title.replace("\\", "\\\\").replace('"', '\\"') + '"'
    write_new_file(target, text.replace("TITLE", quoted))
    return target
