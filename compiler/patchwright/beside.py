"""What lies beside a pattern and belongs to it: the photograph for its cover, and the cutting layouts that are kept.

In: where a pattern lies, and what it says.
Out: the photograph and the layouts, and diagnostics where they cannot be read.
Never: anything outside the pattern's root.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from patchwright.core.diagnostics import Diagnostic
from patchwright.core.source import Span
from patchwright.dialect.declared import PatternDeclaration
from patchwright.files import FileTroubleError, Project, is_file_within, read_photo_file, read_source, shown_path
from patchwright.planning.kept import Kept, read_kept

if TYPE_CHECKING:
    from patchwright.typesetting.cover_photo import Photo


def cover_photo(
    project: Project, declared: PatternDeclaration
) -> tuple[Photo | None, tuple[Diagnostic, ...]]:
    """The photograph that a pattern names for its cover; what is wrong with it is reported at its name."""
    cover = declared.cover
    if cover is None:
        return None, ()
    from patchwright.typesetting.cover_photo import PhotoError, read_photo

    name = cover.photo.text.strip()
    try:
        content = read_photo_file(project, name)
        return read_photo(content, cover.words.text.strip()), ()
    except PhotoError as fault:
        message, hint = f"`{name}` cannot stand on the cover: {fault}", fault.hint
    except FileTroubleError as trouble:
        message = str(trouble)
        hint = f"put it below the folder `{project.root.name}`, and name it from there, such as `pictures/quilt.jpg`"
    return None, (Diagnostic("cover-photo", message, cover.photo.span, "error", (), (hint,)),)


def kept_layouts(project: Project) -> tuple[Kept, tuple[Diagnostic, ...]]:
    """The cutting layouts that the author keeps beside the pattern, if there are any."""
    path = project.layouts
    if not is_file_within(path, project.root):
        return Kept(), ()
    shown = shown_path(path)
    try:
        return Kept(read_kept(read_source(path, shown).text)), ()
    except ValueError as fault:
        place = Span(shown, 1, 1, 1, 1)
        hint = "write the file anew with `patchwright plan … --keep-layouts`, or remove it"
        message = f"the kept layouts cannot be read: {fault}"
        return Kept(), (Diagnostic("kept-layouts", message, place, "error", (), (hint,)),)
