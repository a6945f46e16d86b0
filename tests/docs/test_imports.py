"""Imports run one way through the layers, and no modules import each other in a circle."""

from __future__ import annotations

from graphlib import CycleError, TopologicalSorter

from docs.modules import HANDS, LAYERS, LOADER, Import, imports, layer, modules


def test_every_module_is_in_a_layer() -> None:
    assert {layer(name) for name in modules() if name} == {*LAYERS, LOADER, HANDS}


def test_imports_run_one_way() -> None:
    """Imports inside functions count as well, and so do those for the type checker."""
    assert [str(found) for found in imports() if not _allowed(found)] == []


def _allowed(found: Import) -> bool:
    importer, imported = layer(found.importer), layer(found.imported)
    if importer == LOADER:
        return imported in (LOADER, "core")
    if imported == LOADER:
        return importer != "core"
    if importer == HANDS:
        return imported in (HANDS, "core")
    if imported == HANDS:
        return importer in ("driver", "cli")
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


def test_imports_are_found_at_all() -> None:
    """So that the tests above cannot pass by reading nothing."""
    found = {(one.importer, one.imported) for one in imports()}
    assert ("cli", "files") in found
    assert ("methods.half_square", "methods.method") in found
    assert ("driver", "planning.build") in found
    assert {one.scope for one in imports()} == {"module", "function", "typing"}
