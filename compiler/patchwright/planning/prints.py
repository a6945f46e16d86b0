"""Which patches must share a print: groups of pieces that are each cut from one cloth of a pack.

In: the instances, the top of one size, and each fabric's rule for prints.
Out: groups with the pieces they need, what is left loose, and how many batches of each unit that takes.
Never: a sheet or a layout; the cutting plan assigns prints to groups.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field, replace

from patchwright.core.length import Length
from patchwright.design.design import Design, Fabric, Pack
from patchwright.methods.method import Recipe
from patchwright.planning.instances import BlockKey, Instances, PatchKey, UnitKey
from patchwright.planning.top import Top, TopPart

Part = PatchKey | UnitKey
Content = Counter[Part]


@dataclass(frozen=True, slots=True)
class Holder:
    """A place in the quilt whose patches of a fabric share a print."""

    label: str
    """What a booklet calls it: `lantern 3`."""
    apart: tuple[str, ...]
    """Words that keep groups off one print where they share one: the block of the top, pairs of touching blocks."""
    content: tuple[tuple[Part, int], ...]


@dataclass(slots=True)
class PrintRules:
    """Finds the holders of every fabric that is cut from a pack."""

    design: Design
    instances: Instances
    _contents: dict[BlockKey, Content] = field(default_factory=dict)

    def shares_by_place(self, fabric: str) -> bool:
        """Whether a fabric's patches share prints place by place, which splits batches of units between places."""
        found = self._fabric(fabric)
        return bool(found.pack) and found.same_print not in ("none", "unit", "quilt")

    def holders(self, fabric: Fabric, top: Top, batches: dict[UnitKey, tuple[int, int]]) -> tuple[Holder, ...]:
        """The places of one size whose patches of a fabric each share a print.

        `batches` tells for every unit how many batches are made and how many units a batch gives.
        """
        if fabric.same_print == "unit":
            return tuple(
                Holder(f"{key.unit} {number + 1}", (), ((key, batch),))
                for key, (count, batch) in batches.items() if self._uses(key, fabric.id) for number in range(count)
            )
        if fabric.same_print == "quilt":
            return (self._whole_quilt(fabric, top),)
        made: list[Holder] = []
        number: Counter[str] = Counter()
        blocks = [part for part in top.parts if isinstance(part.key, BlockKey) and part.part == "block"]
        touching = _touching(blocks) if fabric.apart == "touching" else {}
        for part in blocks:
            place = f"{part.x},{part.y}"
            apart = () if fabric.apart == "none" else (place, *touching.get(place, ()))
            for key in self._shared(part.key, fabric) if isinstance(part.key, BlockKey) else ():
                name = key.unit if isinstance(key, UnitKey) else key.block
                number[name] += 1
                own = self._content(key) if isinstance(key, BlockKey) else Counter({key: 1})
                content = tuple((thing, count) for thing, count in own.items() if self._uses(thing, fabric.id))
                if content:
                    made.append(Holder(f"{name} {number[name]}", apart, content))
        return tuple(made)

    def _whole_quilt(self, fabric: Fabric, top: Top) -> Holder:
        """All of a fabric as one holder, which stands in every block that has some of it."""
        places = [
            f"{part.x},{part.y}" for part in top.parts
            if isinstance(part.key, BlockKey) and part.part == "block"
            and any(self._uses(thing, fabric.id) for thing in self._content(part.key))
        ]
        return Holder(fabric.id, () if fabric.apart == "none" else tuple(places), ())

    def _shared(self, block: BlockKey, fabric: Fabric) -> list[BlockKey | UnitKey]:
        """What in one block of the top holds a print together: the block itself, or every part of the named kind."""
        if fabric.same_print == "block":
            return [block]
        found: list[BlockKey | UnitKey] = [block] if block.block == fabric.same_print else []
        if found:
            return found
        for line in self.instances.blocks[block].lines:
            for placed in line:
                if isinstance(placed.key, UnitKey) and placed.key.unit == fabric.same_print:
                    found.append(placed.key)
                elif isinstance(placed.key, BlockKey):
                    found += self._shared(placed.key, fabric)
        return found

    def _content(self, block: BlockKey) -> Content:
        """All units and patches of a block, nested ones included."""
        known = self._contents.get(block)
        if known is None:
            known = Counter()
            for line in self.instances.blocks[block].lines:
                for placed in line:
                    known.update(self._content(placed.key) if isinstance(placed.key, BlockKey) else {placed.key: 1})
            self._contents[block] = known
        return known

    def _uses(self, part: Part, fabric: str) -> bool:
        if isinstance(part, PatchKey):
            return part.fabric == fabric
        return any(own == fabric for _, own in self.instances.units[part].unit.fabrics)

    def batches_by_place(self, unit: UnitKey, recipe: Recipe, top: Top, least: int) -> int:
        """Batches of a unit where each place that shares a print makes its own; at least those that the count asks."""
        fabrics = [fabric for _, fabric in self.instances.units[unit].unit.fabrics]
        most = least
        for fabric in dict.fromkeys(fabrics):
            if not self.shares_by_place(fabric):
                continue
            placed = 0
            batches = 0
            for holder in self.holders(self._fabric(fabric), top, {}):
                count = dict(holder.content).get(unit, 0)
                placed += count
                batches += -(-count // recipe.batch)
            rest = self._count(unit, top) - placed
            most = max(most, batches + -(-rest // recipe.batch))
        return most

    def _count(self, unit: UnitKey, top: Top) -> int:
        return sum(self._content(part.key)[unit] for part in top.parts if isinstance(part.key, BlockKey))

    def _fabric(self, name: str) -> Fabric:
        return next(fabric for fabric in self.design.fabrics if fabric.id == name)


def _touching(blocks: list[TopPart]) -> dict[str, tuple[str, ...]]:
    """For every block of the top the pairs that it forms with blocks whose edges it touches."""
    edges: dict[tuple[str, Length, Length], list[TopPart]] = {}
    for part in blocks:
        for edge in (("left", part.x, part.y), ("top", part.y, part.x)):
            edges.setdefault(edge, []).append(part)
    pairs: dict[str, list[str]] = {}
    for part in blocks:
        right, bottom = part.x + part.width, part.y + part.height
        if part.on_point:
            middle, half = part.x + part.width / 2, part.y - part.height / 2
            beside = edges.get(("left", middle, half), [])
            below = edges.get(("left", middle, half + part.height), [])
        else:
            beside = edges.get(("left", right, part.y), [])
            below = edges.get(("top", bottom, part.x), [])
        for other in (*beside, *below):
            pair = f"{part.x},{part.y} and {other.x},{other.y}"
            for one in (part, other):
                pairs.setdefault(f"{one.x},{one.y}", []).append(pair)
    return {place: tuple(found) for place, found in pairs.items()}


@dataclass(frozen=True, slots=True)
class PrintGroup:
    """Pieces that one print must give together."""

    key: str
    needs: tuple[tuple[str, int], ...]
    """(piece, count) of lettered pieces."""
    pile: str
    apart: tuple[str, ...]
    """Words that keep groups off one print where they share one; the first names its block of the top."""
    whole: bool = False
    """Whether it is all that the quilt has of its fabric."""


def joined_by_match(groups: list[PrintGroup], pack: Pack, fabrics: dict[str, str]) -> list[PrintGroup]:
    """Join groups of one block whose fabrics the pack matches; `fabrics` tells each group's fabric by its key."""
    if not pack.match:
        return groups
    made: list[PrintGroup] = []
    joined: dict[str, PrintGroup] = {}
    whole = any(group.whole and fabrics[group.key] in pack.match for group in groups)
    for group in groups:
        if fabrics[group.key] not in pack.match:
            made.append(group)
            continue
        place = "" if whole else group.apart[0] if group.apart else group.key.partition(" ")[2]
        known = joined.get(place)
        if known is None:
            joined[place] = group
        else:
            needs = Counter(dict(known.needs)) + Counter(dict(group.needs))
            apart = tuple(dict.fromkeys((*known.apart, *group.apart))) if whole else known.apart
            joined[place] = replace(known, needs=tuple(sorted(needs.items())), apart=apart)
    return made + list(joined.values())
