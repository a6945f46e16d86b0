"""A pattern that asks more of pages than any demo does: many sizes and fabrics, names without a break, a long title."""

from __future__ import annotations

TITLE = "The Extraordinarily Long Title of a Quilt That Nobody Could Say in One Breath at the Market by the Harbor"
UNBROKEN = "Harborfestivalanniversaryindigobatikcloth" * 2


def hard_pattern(sizes: int, fabrics: int) -> str:
    """The text of a pattern of so many sizes and fabrics."""
    names = {1: UNBROKEN, 3: "Cloth 4 of the collection, woven for the harbor festival and dyed twice"}
    lines = [f"pattern: {TITLE}", "dialect: 1", "release: 1", "summary: Everything at once.", "lengths: inches"]
    lines.append("fabrics:")
    for number in range(fabrics):
        name = names.get(number, f"Cloth {number + 1}")
        lines.append(f"  f{number}: {{name: '{name}', color: {(number * 1234567 + 0x305060) % 0xFFFFFF:06x}}}")
    cells = [f"f{number % fabrics}" for number in range(-(-fabrics // 6) * 6)]
    rows = ["[" + ", ".join(cells[start : start + 6]) + "]" for start in range(0, len(cells), 6)]
    lines += ["blocks:", f"  big: {{cell: 2 in, rows: [{', '.join(rows)}]}}"]
    lines.append("quilt: {arrange: [[big]], binding: {fabric: f0}, backing: {}, borders: [{width: 3 in, fabric: f2}]}")
    lines.append("sizes:")
    for number in range(sizes):
        across, down = number // 3 + 1, number // 3 + 2 + number % 3
        name = f"Size {'Extra-' * (number % 3)}{number + 1}"
        lines.append(f"  s{number}: {{name: {name}, across: {across}, down: {down}}}")
    return "\n".join(lines) + "\n"
