"""Quilts made up by a seeded generator, as pattern texts that go through all the real passes."""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random

_FABRICS = {
    "night": "{color: 22344c, value: dark}", "wine": "{color: 6b2737, value: dark}",
    "moss": "{color: 6b7a3a, value: medium}", "fog": "{color: e9e6dc, value: light}",
    "sand": "{color: eadfc8, value: light}",
}
_GEESE = ("flipped", "four-at-a-time", "cut")
_HALVES = ("two-at-a-time", "singly")
_TURNS = ("", "@90", "@180", "@270")


@dataclass
class _Writer:
    """Writes one pattern; every choice comes from its own numbers."""

    random: Random
    units: dict[str, str] = field(default_factory=dict)
    blocks: dict[str, str] = field(default_factory=dict)

    def fabrics(self, count: int) -> list[str]:
        return self.random.sample(list(_FABRICS), count)

    def unit(self, text: str) -> str:
        name = f"unit{len(self.units) + 1}"
        self.units[name] = text
        return name

    def make_units(self) -> None:
        one, two, three = self.fabrics(3)
        choose = self.random.choice
        self.unit(f"{{half-square: [{one}, {two}], make: {choose(_HALVES)}}}")
        self.unit(f"{{quarter-square: [{one}, {two}{choose(['', ', ' + three])}]}}")
        self.unit(f"{{split-square: [{two}, {one}, {three}]}}")
        self.unit(f"{{flying-geese: {{goose: {two}, sky: {three}}}, make: {choose(_GEESE)}}}")
        self.unit(f"{{half-rectangle: [{one}, {three}]}}")
        corners = ", ".join(f"{corner}: {three}" for corner in self.random.sample(["nw", "ne", "se", "sw"], 2))
        self.unit(f"{{flipped-corners: {{base: {one}, {corners}}}, size: 2 x 2}}")
        self.unit(f"{{square-in-square: {{center: {two}, corners: {one}}}, make: {choose(['cut', 'flipped'])}}}")
        self.unit(f"{{nested-square: {{center: {two}, inner: {one}, corners: {three}}}, size: 2 x 2}}")

    def item(self, width: int, height: int) -> str:
        """One thing of a size in cells."""
        choose = self.random.choice
        plain = choose(self.fabrics(2)) + (f" {width}x{height}" if (width, height) != (1, 1) else "")
        if self.random.random() < 0.3:
            return plain
        if (width, height) == (1, 1):
            return choose(["unit1", "unit1", "unit2", "unit3"]) + choose(["", "@mirror"]) + choose(_TURNS)
        if (width, height) == (2, 1):
            return choose([plain, "unit4", "unit4@180", "unit5@90", "unit5@mirror@90"])
        if (width, height) == (1, 2):
            return choose([plain, "unit4@90", "unit4@270", "unit5", "unit5@mirror"])
        inner = [f"{name} 2x2{choose(_TURNS)}" for name in self.blocks if name.startswith("inner")]
        return choose(["unit6", "unit7", "unit8", *inner]) + ("" if inner else choose(_TURNS))

    def block(self, name: str, cells: int, shapes: tuple[int, ...]) -> None:
        """A block of so many cells square, in rows or columns."""
        axis = self.random.choice(["rows", "columns"])
        lines = []
        left = cells
        while left:
            high = self.random.choice([shape for shape in shapes if shape <= left])
            left -= high
            lines.append("[" + ", ".join(self._line(cells, high, shapes, axis == "rows")) + "]")
        size = "" if name.startswith("inner") else f"size: {cells * 2} in, "
        self.blocks[name] = f"{{{size}strip-piece: no, {axis}: [{', '.join(lines)}]}}"

    def _line(self, cells: int, high: int, shapes: tuple[int, ...], level: bool) -> list[str]:
        items = []
        left = cells
        while left:
            wide = self.random.choice([shape for shape in shapes if shape <= left])
            left -= wide
            items.append(self.item(wide, high) if level else self.item(high, wide))
        return items

    def text(self) -> str:
        choose = self.random.choice
        self.make_units()
        if self.random.random() < 0.5:
            self.block("inner", 2, (1,))
        cells = choose([2, 3, 4, 4, 5, 6])
        shapes = choose([(1,), (1, 2), (1, 2)]) if cells > 2 else choose([(1,), (1, 2)])
        names = [f"block{number}" for number in range(1, choose([1, 2, 2, 3]) + 1)]
        for name in names:
            self.block(name, cells, shapes)
        self.blocks["trim"] = "{size: 2 in, rows: [[unit1, unit1@90], [unit1@270, unit3]]}"
        parts = [
            "dialect: 1\npattern: Made up\nrelease: 1\nlengths: inches\nfabrics:",
            *(f"  {name}: {text}" for name, text in _FABRICS.items()),
            "units:", *(f"  {name}: {text}" for name, text in self.units.items()),
            "blocks:", *(f"  {name}: {text}" for name, text in self.blocks.items()),
            "quilt:", f"  arrange: {self._arrangement(names)}", *self._around(names),
            "sizes:", *(f"  {name}: {{across: {a}, down: {d}}}" for name, a, d in self._sizes()),
        ]
        return "\n".join(parts) + "\n"

    def _arrangement(self, names: list[str]) -> str:
        rows = self.random.randint(1, 2)
        columns = self.random.randint(1, 3)
        turned = self.random.random() < 0.6
        turns = _TURNS if turned else ("",)
        choose = self.random.choice
        lines = [[choose(names) + choose(turns) for _ in range(columns)] for _ in range(rows)]
        return "[" + ", ".join(f"[{', '.join(line)}]" for line in lines) + "]"

    def _around(self, names: list[str]) -> list[str]:
        """What lies between and around the blocks: on point or sashed or neither, then borders."""
        made = []
        one, two, three = self.fabrics(3)
        kind = self.random.random()
        if kind < 0.2:
            made += ["  setting: on-point", f"  alternate: {self.random.choice([*names, one])}"]
            made.append(f"  setting-triangles: {{fabric: {two}, float: {self.random.choice(['0 in', '1 in'])}}}")
        elif kind < 0.6:
            stone = self.random.choice(["", f", cornerstone: {two}", f", cornerstone: {two}"])
            made.append(f"  sashing: {{width: 1 in, fabric: {one}{stone}, frame: {self.random.choice(['yes', 'no'])}}}")
        if self.random.random() < 0.6:
            made.append(f"  borders: [{', '.join(self._borders(one, two, three))}]")
        return made

    def _borders(self, one: str, two: str, three: str) -> list[str]:
        kind = self.random.choice(["butted", "corners", "mitered", "pieced"])
        if kind == "pieced":
            corner = self.random.choice(["trim", two])
            pieced = f"{{pieced: {{repeat: [trim], corner: {corner}}}, coping: {{fabric: {one}}}}}"
            return [pieced, f"{{width: 2 in, fabric: {three}, corners: {two}}}"]
        corners = {"butted": "", "corners": f", corners: {two}", "mitered": ", corners: mitered"}[kind]
        return [f"{{width: 2 in, fabric: {three}{corners}}}", f"{{width: 4 in, fabric: {one}}}"]

    def _sizes(self) -> list[tuple[str, int, int]]:
        count = self.random.randint(1, 3)
        return [
            (name, self.random.randint(2, 4) + 2 * number, self.random.randint(2, 5) + 2 * number)
            for number, name in enumerate(["small", "middle", "large"][:count])
        ]


ALLOWED = "house: {pressing-variants: 2}\n"


def generated(seed: int, two_ways: bool = False) -> str:
    """The pattern of a seed, the same for ever; by a house that allows two ways of pressing, or one."""
    text = _Writer(Random(seed)).text()
    return text.replace("lengths: inches\n", "lengths: inches\n" + ALLOWED) if two_ways else text
