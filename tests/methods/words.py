"""The methods' English words, read as a translator would read them: one text for every dotted key."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

import yaml

import patchwright


@cache
def method_words() -> dict[str, str]:
    path = Path(patchwright.__file__).parent / "wording" / "methods-en.yaml"
    return dict(_flat(yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader), ""))


def _flat(node: object, prefix: str) -> Iterator[tuple[str, str]]:
    if isinstance(node, dict):
        for key, value in node.items():
            yield from _flat(value, f"{prefix}.{key}" if prefix else str(key))
    else:
        yield prefix, str(node)
