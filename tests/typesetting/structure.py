"""Reads the structure of a finished PDF."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pikepdf


def elements(node: Any) -> Iterator[Any]:
    """All structure elements below a node."""
    if isinstance(node, pikepdf.Array):
        for one in node:
            yield from elements(one)
    elif isinstance(node, pikepdf.Dictionary):
        if "/S" in node:
            yield node
        if "/K" in node:
            yield from elements(node.K)
