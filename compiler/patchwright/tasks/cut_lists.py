"""Bare lists of pieces → cutting plans, and their layouts as drawings."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from patchwright.core.diagnostics import Diagnostic, Findings
from patchwright.core.measure import System
from patchwright.core.source import Source
from patchwright.design.house import resolve_rules
from patchwright.dialect.cutlist import read_cut_lists
from patchwright.files import FileTroubleError, installed_themes, read_source, theme_reader, whole_folder, write_file
from patchwright.planning.cutlist import ListPlan, as_plan, plan_list


@dataclass(frozen=True, slots=True)
class CutLists:
    """The cutting plans of a file of bare lists, and its messages."""

    plans: tuple[ListPlan, ...]
    diagnostics: tuple[Diagnostic, ...]
    sources: tuple[Source, ...]


def cut_lists(path: Path) -> CutLists:
    """Plan every list of a file; a list with mistakes is reported and left out."""
    source = read_source(path, str(path))
    declared, diagnostics = read_cut_lists(source)
    findings = Findings(list(diagnostics))
    plans = []
    for number, one in enumerate(declared.lists if declared is not None else [], 1):
        own = Findings()
        made = plan_list(one, number, own)
        findings.items.extend(own.items)
        if made is not None:
            plans.append(made)
    return CutLists(tuple(plans), findings.ordered(), (source,))


def draw_lists(lists: CutLists, folder: Path) -> tuple[str, ...]:
    """Draw the cutting layouts of lists as SVG files in a folder, written whole or not at all; give their names."""
    from patchwright.diagrams.figures import booklet_figures
    from patchwright.diagrams.svg import write_svg
    from patchwright.typesetting.themes import load_theme
    from patchwright.wording import load_wording

    systems: tuple[System, ...] = ("in", "cm")
    rules = {system: resolve_rules(None, None, system, Findings()) for system in systems}
    theme, _ = load_theme(rules["in"].theme, theme_reader(installed_themes()))
    if theme is None:
        raise FileTroubleError("the installed theme cannot be read")
    names = []
    with whole_folder(folder, keep_others=False) as fresh:
        for number, made in enumerate(lists.plans, 1):
            words = load_wording(rules["in"].language).measured_in(made.system)
            figures = booklet_figures(as_plan(made, rules[made.system]), words, theme.look, kinds=("cutting",))
            for part, drawn in enumerate(figures.drawn, 1):
                names.append(f"list-{number}-{part}.svg")
                write_file(fresh / names[-1], write_svg(drawn.scene, theme.look).encode("utf-8"))
    return tuple(names)
