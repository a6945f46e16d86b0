"""Where themes lie, and a reader that never leaves those folders.

In: folders of themes, the first one that has a file winning.
Out: bytes of files inside them.
Never: a file that a link leads to outside its folder.
"""

from __future__ import annotations

from pathlib import Path

from patchwright.typesetting.themes import Read

_PACKAGE = Path(__file__).resolve().parents[1]


def installed_themes() -> Path:
    """The themes of the installed package, or of the repository when it runs from a checkout."""
    packed = _PACKAGE / "themes"
    return packed if packed.is_dir() else _PACKAGE.parents[1] / "themes"


def theme_reader(*folders: Path) -> Read:
    """A reader over folders of themes, such as the `themes` beside the patterns and then the installed ones."""
    roots = tuple(folder.resolve() for folder in folders)

    def read(path: str) -> bytes | None:
        for root in roots:
            file = (root / path).resolve()
            if file.is_relative_to(root) and file.is_file():
                return file.read_bytes()
        return None

    return read


def theme_names(*folders: Path) -> tuple[str, ...]:
    """The names of all themes in these folders, in order of the alphabet."""
    found = (file.parent.name for folder in folders if folder.is_dir() for file in folder.glob("*/theme.yaml"))
    return tuple(sorted(set(found)))
