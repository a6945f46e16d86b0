"""Stand-ins for what drawings take from elsewhere: words read straight from the wording file, and plain label sizes."""

from __future__ import annotations

import re
from pathlib import Path

import yaml
from patchwright.diagrams.scene import TypeSize

WORDING = Path(__file__).parents[2] / "compiler/patchwright/wording/figures-en.yaml"
_POINTS = {"small": 7.0, "normal": 8.5, "large": 10.5}


class PlainWords:
    """Fills `{name}` and `{name|one|many}`; a missing key or value raises KeyError."""

    def __init__(self) -> None:
        self.templates = dict(_leaves("", yaml.safe_load(WORDING.read_text(encoding="utf-8"))))

    def say(self, key: str, **values: object) -> str:
        def chosen(match: re.Match[str]) -> str:
            value = values[match["name"]]
            forms = (match["forms"] or "").split("|")[1:]
            return str(value) if not forms else forms[0 if value == 1 else 1]

        return re.sub(r"\{(?P<name>[a-z]+)(?P<forms>(?:\|[^|{}]*)*)\}", chosen, self.templates[key])


def _leaves(path: str, node: object) -> list[tuple[str, str]]:
    if not isinstance(node, dict):
        return [(path, str(node))]
    return [leaf for key, value in node.items() for leaf in _leaves(f"{path}.{key}" if path else str(key), value)]


class PlainType:
    """Every character 0.55 em wide, capitals 0.72 em high."""

    def text_width(self, text: str, size: TypeSize = "normal", bold: bool = False) -> float:
        return len(text) * 0.55 * _POINTS[size] / 72

    def text_height(self, size: TypeSize = "normal", bold: bool = False) -> float:
        return 0.72 * _POINTS[size] / 72
