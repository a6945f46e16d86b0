"""The modules of the package and what they import from it, read from their text alone."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).parents[2] / "compiler" / "patchwright"
LAYERS = (
    "core", "methods", "dialect", "design", "planning", "diagrams", "typesetting", "proofing", "workers",
    "remembering", "composing", "beside", "driver", "tasks", "commands", "cli",
)
"""A module imports from its own layer and from those before it."""
LOADER, HANDS = "wording", ("reading", "files", "store")
"""`wording` is data with a loader that imports `core` only; the others are the driver's hands."""


@dataclass(frozen=True, slots=True)
class Import:
    """One import of a module of the package by another."""

    importer: str
    imported: str
    line: int
    scope: str
    """`module`; `function`, run when it is called; or `typing`, never run."""

    def __str__(self) -> str:
        return f"{self.importer}:{self.line} imports {self.imported}"


@cache
def modules() -> dict[str, Path]:
    """Every module by its dotted name below the package; a package stands for its `__init__`, the root for nothing."""
    made = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        parts = path.relative_to(PACKAGE).with_suffix("").parts
        made[".".join(parts[:-1] if parts[-1] == "__init__" else parts)] = path
    return made


@cache
def imports() -> tuple[Import, ...]:
    """Every import within the package."""
    return tuple(found for name, path in modules().items() for found in _imports(name, path))


def layer(module: str) -> str:
    return module.partition(".")[0]


def _imports(importer: str, path: Path) -> Iterator[Import]:
    for node, scope in _statements(ast.parse(path.read_text(encoding="utf-8")), "module"):
        for name in _names(node, importer, path):
            if name in modules() and name not in ("", importer):
                yield Import(importer, name, node.lineno, scope)


def _statements(node: ast.AST, scope: str) -> Iterator[tuple[ast.Import | ast.ImportFrom, str]]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Import | ast.ImportFrom):
            yield child, scope
        elif isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda):
            yield from _statements(child, "function")
        elif isinstance(child, ast.If) and "TYPE_CHECKING" in ast.dump(child.test):
            yield from _statements(child, "typing")
        else:
            yield from _statements(child, scope)


def _names(node: ast.Import | ast.ImportFrom, importer: str, path: Path) -> Iterator[str]:
    """The modules of the package that a statement may name, without the package's own name."""
    if isinstance(node, ast.Import):
        yield from (_within(name.name) or "" for name in node.names)
        return
    source = node.module or ""
    if node.level:
        package = importer.split(".") if path.name == "__init__.py" else importer.split(".")[:-1]
        kept = package[: len(package) - node.level + 1]
        source = ".".join(["patchwright", *kept, *([source] if source else [])])
    within = _within(source)
    if within is not None:
        submodules = [f"{within}.{name.name}".strip(".") for name in node.names]
        yield from (name for name in submodules if name in modules())
        if any(name not in modules() for name in submodules):
            yield within


def _within(name: str) -> str | None:
    """A module's name below the package, or nothing if it is another's."""
    if name == "patchwright":
        return ""
    return name.removeprefix("patchwright.") if name.startswith("patchwright.") else None
