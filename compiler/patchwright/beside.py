"""What lies beside a pattern and belongs to it: pictures of its cover and house, layouts that are kept, its theme.

In: where a pattern lies, and what it and its house say.
Out: the pictures, layouts and theme, and diagnostics where they cannot be read.
Never: anything outside the pattern's root and the themes of the program.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from patchwright.core.diagnostics import Diagnostic, nearest_names
from patchwright.core.source import NOWHERE, Span
from patchwright.dialect.declared import HouseDeclaration, PatternDeclaration
from patchwright.files import (
    FileTroubleError,
    Project,
    installed_themes,
    is_file_within,
    read_photo_file,
    read_source,
    shown_path,
    theme_names,
    theme_reader,
)
from patchwright.planning.kept import Kept, read_kept

if TYPE_CHECKING:
    from patchwright.typesetting.cover_photo import Photo
    from patchwright.typesetting.house_logo import Logo
    from patchwright.typesetting.own_pictures import OwnPictures
    from patchwright.typesetting.themes import Theme


def own_pictures(
    project: Project, declared: PatternDeclaration, house: HouseDeclaration | None
) -> tuple[OwnPictures | None, tuple[Diagnostic, ...]]:
    """The pictures that a pattern and its house name; none where they name none."""
    photo, wrong_photo = _cover_photo(project, declared)
    logo, wrong_logo = _house_logo(project, declared, house)
    if photo is None and logo is None:
        return None, (*wrong_photo, *wrong_logo)
    from patchwright.typesetting.own_pictures import OwnPictures

    return OwnPictures(photo, logo), (*wrong_photo, *wrong_logo)


def _cover_photo(
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


def _house_logo(
    project: Project, declared: PatternDeclaration, house: HouseDeclaration | None
) -> tuple[Logo | None, tuple[Diagnostic, ...]]:
    """The logo that the pattern's own rules name, or else the house's; what is wrong with it is said at its name."""
    named = [rules.logo for rules in (declared.house, house) if rules is not None and rules.logo is not None]
    if not named:
        return None, ()
    from patchwright.typesetting.house_logo import LogoError, read_logo

    own = named[0]
    name = own.file.text.strip()
    try:
        return read_logo(read_photo_file(project, name), own.words.text.strip()), ()
    except LogoError as fault:
        message, hint = f"`{name}` cannot be the logo: {fault}", fault.hint
    except FileTroubleError as trouble:
        message = str(trouble)
        hint = f"put it below the folder `{project.root.name}`, and name it from there, such as `pictures/logo.svg`"
    return None, (Diagnostic("house-logo", message, own.file.span, "error", (), (hint,)),)


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


def theme_exists(project: Project, name: str) -> tuple[Diagnostic, ...]:
    """Report a theme that is in no folder of themes."""
    folders = (project.themes, installed_themes())
    known = theme_names(*folders)
    if name in known and theme_reader(*folders)(f"{name}/theme.yaml") is not None:
        return ()
    span = Span(project.shown, 1, 1, 1, 1)
    hints = nearest_names(name, known)
    return (Diagnostic("theme-missing", f"there is no theme `{name}`", span, "error", (), hints),)


def load_project_theme(project: Project, name: str) -> tuple[Theme | None, tuple[Diagnostic, ...]]:
    """The theme of a plan, its own files overridden from the project's folder of themes."""
    from patchwright.typesetting.themes import load_theme

    theme, mistakes = load_theme(name, theme_reader(project.themes, installed_themes()))
    return theme, tuple(
        Diagnostic(
            "theme-token", f"theme `{name}`: {mistake.problem} `{mistake.token}`",
            mistake.span if mistake.span != NOWHERE else Span(f"{name}/theme.yaml", 1, 1, 1, 1), "error", (),
            (f"expected {mistake.expected}" + (f", found {mistake.found}" if mistake.found else ""),),
        )
        for mistake in mistakes
    )
