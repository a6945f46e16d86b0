"""Small quilts for the tests of pressing."""

from __future__ import annotations

from functools import cache

from patchwright.planning.plan import Plan
from patchwright.planning.pressing.results import PressedSeam, PressingPlan
from patchwright.planning.pressing.terms import Owner, Seam, SeamPart
from planning.compiling import CannotCompileError, compile_text, sample

_COLORS = """\
fabrics:
  dark: {color: 22344c, value: dark}
  light: {color: ece7db, value: light}
  other: {color: 6b7a3a, value: medium}
"""


@cache
def quilt(fragment: str) -> Plan:
    """The plan of a pattern of dark, light and other cloth."""
    plan, found = compile_text(sample(_COLORS + fragment))
    if plan is None:
        raise CannotCompileError(found)
    return plan


CHECKERBOARD = """\
blocks:
  board:
    cell: 2 in
    strip-piece: no
    rows:
      - [dark, light, dark, light, dark]
      - [light, dark, light, dark, light]
      - [dark, light, dark, light, dark]
      - [light, dark, light, dark, light]
      - [dark, light, dark, light, dark]
quilt: {arrange: [[board]]}
sizes: {only: {across: 1, down: 1}}
"""

NINE_PATCH = """\
blocks:
  nine: {cell: 2 in, strip-piece: no, rows: [[dark, light, dark], [light, dark, light], [dark, light, dark]]}
quilt: {arrange: [[nine]]}
sizes: {only: {across: 3, down: 2}}
"""

PINWHEEL = """\
units:
  vane: {half-square: [dark, light]}
blocks:
  wheel: {cell: 3 in, rows: [[vane@90, vane@180], [vane, vane@270]]}
quilt: {arrange: [[wheel]]}
sizes: {only: {across: 1, down: 1}}
"""

FOUR_PATCH = """\
blocks:
  four: {cell: 2 in, rows: [[dark, light], [light, dark]]}
quilt: {arrange: ARRANGE}
sizes: {only: {across: 4, down: 4}}
"""

SASHED = """\
blocks:
  four: {cell: 2 in, rows: [[dark, light], [light, dark]]}
quilt:
  arrange: [[four]]
  sashing: {width: 1 in, fabric: other, cornerstone: dark, frame: yes}
sizes: {small: {across: 3, down: 4}, large: {across: 5, down: 6}}
"""


ON_POINT = """\
blocks:
  nine: {cell: 2 in, rows: [[dark, light, dark], [light, dark, light], [dark, light, dark]]}
  four: {cell: 3 in, rows: [[dark, light], [light, dark]]}
quilt:
  setting: on-point
  arrange: [[nine]]
  alternate: four
  setting-triangles: {fabric: light, float: 1 in}
  borders: [{width: 2 in, fabric: dark, corners: light}]
sizes: {small: {across: 3, down: 3}, large: {across: 4, down: 5}}
"""


def turned_four_patches(arrange: str) -> Plan:
    return quilt(FOUR_PATCH.replace("ARRANGE", arrange))


def seam_of(pressing: PressingPlan, owner: Owner, part: SeamPart, line: int = 0, place: int = 0) -> PressedSeam:
    return pressing.pressed(Seam(owner, part, line, place))


def counts(pressing: PressingPlan) -> list[tuple[int, int]]:
    """(nested, all) of every size."""
    return [(size.nested, size.total) for size in pressing.sizes]
