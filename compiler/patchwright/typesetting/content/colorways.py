"""The pattern in all its colorways: a picture of each, and what its fabrics are called there."""

from __future__ import annotations

from patchwright.planning.plan import Plan
from patchwright.typesetting.booklet import Block, Column, FigureRow, Section, Table
from patchwright.typesetting.content.scope import Scope
from patchwright.typesetting.content.tables import text_cell

BESIDE = 3
"""Pictures side by side."""


def colorways(scope: Scope) -> Section | None:
    """A section where the pattern has colorways, the one that the booklet is in named."""
    ways = scope.plan.colorways
    if not ways:
        return None
    figures = [
        figure for way in ways
        for figure in scope.figure_if(f"colorway-{way.id or 'own'}", way.label or scope.say("colorways.own"))
    ]
    rows = [FigureRow(tuple(figures[start : start + BESIDE])) for start in range(0, len(figures), BESIDE)]
    words = scope.paragraph("colorways.words", name=colorway_name(scope))
    blocks: tuple[Block, ...] = (words, *rows, *_tables(scope))
    return Section("colorways", scope.say("section.colorways"), blocks)


def colorway_name(scope: Scope) -> str:
    """What the booklet's own colorway is called, or nothing where there is one only."""
    plan: Plan = scope.plan
    own = next((way for way in plan.colorways if way.id == plan.colorway), None)
    return "" if own is None else own.label or scope.say("colorways.own")


def _tables(scope: Scope) -> list[Table]:
    """The fabrics' names, three colorways to a table, each beside its letter."""
    used = [fabric.letter for fabric in scope.plan.fabrics if scope.any(fabric.sizes)]
    tables = []
    for start in range(0, len(scope.plan.colorways), BESIDE):
        ways = scope.plan.colorways[start : start + BESIDE]
        columns = (
            Column(scope.say("column.fabric"), weight=1),
            *(Column(way.label or scope.say("colorways.own"), weight=3) for way in ways),
        )
        names = [{one.letter: one.name for one in way.fabrics} for way in ways]
        rows = tuple((text_cell(letter), *(text_cell(own[letter]) for own in names)) for letter in used)
        tables.append(Table(f"table-colorways-{start // BESIDE + 1}", scope.say("colorways.table"), columns, rows))
    return tables
