"""What a pattern and its house bring to be shown beside drawings: a photograph for the cover, and a logo.

In: pictures that are read and checked.
Out: scenes for them, with what stands in each.
Never: a size chosen here; the cover's room and the theme's tokens say how large they are.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from patchwright.core.theme import Tokens
from patchwright.diagrams.scene import Scene
from patchwright.typesetting.cover_photo import Photo, photo_body, photo_scene
from patchwright.typesetting.fitting import room
from patchwright.typesetting.house_logo import Logo, logo_body, logo_scene


@dataclass(frozen=True, slots=True)
class OwnPictures:
    """A photograph and a logo, each where there is one."""

    photo: Photo | None = None
    logo: Logo | None = None

    def scenes(self, tokens: Tokens, drawn: Mapping[str, Scene]) -> tuple[tuple[Scene, str], ...]:
        """Scenes with their finished SVG; the photograph needs the drawing of a cover whose place it takes."""
        made: list[tuple[Scene, str]] = []
        covers = [scene for id, scene in drawn.items() if id.startswith("cover-")]
        if self.photo is not None and covers:
            photo = photo_scene(self.photo, room(tokens).cover, covers[0])
            made.append((photo, photo_body(self.photo, photo)))
        if self.logo is not None:
            logo = logo_scene(self.logo, (tokens.logo.width, tokens.logo.height))
            made.append((logo, logo_body(self.logo, logo)))
        return tuple(made)


NO_PICTURES = OwnPictures()
