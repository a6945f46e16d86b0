"""All piecing methods, in the order in which guides and schemas list them; a new one is a file and a line here."""

from __future__ import annotations

from patchwright.methods.eight_point_star import EIGHT_POINT_STAR
from patchwright.methods.flipped_corners import FLIPPED_CORNERS
from patchwright.methods.flying_geese import FLYING_GEESE
from patchwright.methods.foundation import FOUNDATION
from patchwright.methods.half_rectangle import HALF_RECTANGLE
from patchwright.methods.half_square import HALF_SQUARE
from patchwright.methods.kaleidoscope import KALEIDOSCOPE
from patchwright.methods.log_cabin import COURTHOUSE_STEPS, LOG_CABIN
from patchwright.methods.method import Method
from patchwright.methods.nested_square import NESTED_SQUARE
from patchwright.methods.parallelogram import PARALLELOGRAM
from patchwright.methods.patch import PATCH
from patchwright.methods.patch_grids import FOUR_PATCH, NINE_PATCH, SIXTEEN_PATCH
from patchwright.methods.polygon import POLYGON
from patchwright.methods.quarter_circle import QUARTER_CIRCLE
from patchwright.methods.quarter_square import QUARTER_SQUARE
from patchwright.methods.slanted_rows import HEXAGON, TRIANGLE_60
from patchwright.methods.split_square import SPLIT_SQUARE
from patchwright.methods.square_in_square import SQUARE_IN_SQUARE
from patchwright.methods.strip_set import STRIP_SET

METHODS: tuple[Method, ...] = (
    PATCH,
    HALF_SQUARE,
    QUARTER_SQUARE,
    SPLIT_SQUARE,
    HALF_RECTANGLE,
    FLYING_GEESE,
    FLIPPED_CORNERS,
    SQUARE_IN_SQUARE,
    NESTED_SQUARE,
    FOUR_PATCH,
    NINE_PATCH,
    SIXTEEN_PATCH,
    STRIP_SET,
    LOG_CABIN,
    COURTHOUSE_STEPS,
    QUARTER_CIRCLE,
    KALEIDOSCOPE,
    POLYGON,
    FOUNDATION,
    PARALLELOGRAM,
    EIGHT_POINT_STAR,
    TRIANGLE_60,
    HEXAGON,
)

BY_NAME: dict[str, Method] = {method.name: method for method in METHODS}
