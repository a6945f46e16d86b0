"""What can be wrong with a booklet by the time that it is typeset: faults of this program, not of a pattern."""

from __future__ import annotations


class TypesettingError(Exception):
    """A booklet cannot be typeset as it stands."""


class MissingGlyphError(TypesettingError):
    """No face of the theme has a glyph for a character."""

    def __init__(self, character: str, text: str) -> None:
        super().__init__(f"no font of the theme has `{character}` (U+{ord(character):04X}), needed for {text!r}")
        self.character = character
        self.text = text


class FigureRoomError(TypesettingError):
    """A figure is larger than the place where it stands."""

    def __init__(self, figure: str, size: tuple[float, float], room: tuple[float, float], place: str) -> None:
        super().__init__(
            f"the figure `{figure}` of {size[0]:.2f} x {size[1]:.2f} in does not fit"
            f" the {room[0]:.2f} x {room[1]:.2f} in of {place}"
        )
        self.figure = figure


class MissingWordsError(TypesettingError):
    """The booklet lacks words that its writers set."""

    def __init__(self, keys: tuple[str, ...]) -> None:
        super().__init__("the booklet lacks the words " + ", ".join(f"`{key}`" for key in keys))
        self.keys = keys


class BookletStructureError(TypesettingError):
    """Two parts share an id, a link leads nowhere, or a row is not as long as its table is wide."""


class PageEngineError(TypesettingError):
    """The page engine failed, or warned; its message says why."""


class WebTemplateError(TypesettingError):
    """A theme's web template is faulty, or does what it may not."""
