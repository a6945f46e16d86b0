"""Imports run one way through the layers, and no modules import each other in a circle."""

from __future__ import annotations

import ast
import builtins
from graphlib import CycleError, TopologicalSorter
from pathlib import Path

from docs.modules import HANDS, LAYERS, LOADER, Import, imports, layer, modules


def test_every_module_is_in_a_layer() -> None:
    assert {layer(name) for name in modules() if name} == {*LAYERS, LOADER, *HANDS}


def test_imports_run_one_way() -> None:
    """Imports inside functions count as well, and so do those for the type checker."""
    assert [str(found) for found in imports() if not _allowed(found)] == []


def _allowed(found: Import) -> bool:
    importer, imported = layer(found.importer), layer(found.imported)
    if importer == LOADER:
        return imported in (LOADER, "core")
    if imported == LOADER:
        return importer != "core"
    if importer in HANDS:
        return imported in (*HANDS, "core")
    if imported in HANDS:
        return importer in ("remembering", "beside", "driver", "tasks", "commands", "cli")
    return LAYERS.index(imported) <= LAYERS.index(importer)


def test_no_modules_import_each_other_in_a_circle() -> None:
    """Imports inside functions are left out, since they run only once everything is loaded."""
    graph: dict[str, set[str]] = {name: set() for name in modules()}
    for found in imports():
        if found.scope == "module":
            graph[found.importer].add(found.imported)
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as error:
        raise AssertionError(" imports ".join(reversed(error.args[1]))) from None


_TOUCHING = frozenset({
    "copy2", "copytree", "exists", "glob", "is_dir", "is_file", "iterdir", "mkdir", "open", "read_bytes",
    "read_text", "rename", "rglob", "rmtree", "rmdir", "stat", "symlink_to", "touch", "unlink", "write_bytes",
    "write_text",
})
_PRINTING = frozenset({"print", "echo", "secho", "stdout"})
_EXCUSED = {
    "wording": "reads its own data in the package", "typesetting.fonts": "reads the files of font packages",
    "commands.options": "writes help by a method that is called like one of files",
    "typesetting.cover_photo": "opens a picture from bytes that it is given",
    "typesetting.house_logo": "opens a picture from bytes that it is given",
    "cli": "opens the device that swallows what nobody reads",
}


def _called(path: Path) -> set[str]:
    """The names of all methods and built-in functions that a module calls, and of all attributes of `sys`."""
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            names.add(node.func.attr)
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and hasattr(builtins, node.func.id):
            names.add(node.func.id)
        elif isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id == "sys":
            names.add(node.attr)
    return names


def test_only_the_hands_touch_files() -> None:
    touching = {name: found for name, path in modules().items() if (found := _called(path) & _TOUCHING)}
    assert "read_bytes" in touching["typesetting.fonts"]
    assert "rename" in touching["files"]
    assert touching.keys() - {*HANDS, *_EXCUSED} == set()


def test_only_the_command_line_prints() -> None:
    printing = {name for name, path in modules().items() if _called(path) & _PRINTING}
    assert "commands.messages" in printing
    assert {layer(name) for name in printing} <= {"commands", "cli"}


def test_imports_are_found_at_all() -> None:
    """So that the tests above cannot pass by reading nothing."""
    found = {(one.importer, one.imported) for one in imports()}
    assert ("cli", "files") in found
    assert ("commands.registry", "commands.build") in found
    assert ("methods.half_square", "methods.method") in found
    assert ("remembering", "planning.build") in found
    assert {one.scope for one in imports()} == {"module", "function", "typing"}
