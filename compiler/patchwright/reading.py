"""How files are read, so that a build can tell later whether it would read just the same again.

In: a kind of reading, and the paths that it takes.
Out: what was found, noted with its digest while a build asks for that.
Never: a pipe or a device read, or a file that a link leads out of the folder that it must lie in.
"""

from __future__ import annotations

import hashlib
import os
import stat
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

LARGEST_TEXT = 1 << 20
LARGEST_PHOTO = 30 << 20
"""Bytes of a photograph for a cover."""

Read = tuple[str, ...]
"""Something that was read: its kind, and the paths that its reader takes."""


@contextmanager
def noted_reads() -> Iterator[dict[Read, str]]:
    """Note all that a build reads meanwhile, with the digest of what was found; for that it reads by `noted` alone."""
    notes: dict[Read, str] = {}
    before = _notes.set(notes)
    try:
        yield notes
    finally:
        _notes.reset(before)


def reads_the_same(notes: Iterable[tuple[Read, str]]) -> bool:
    """Whether everything that was noted would be read just so again."""
    try:
        return all(content_digest(_READERS[read[0]](*read[1:])) == digest for read, digest in notes)
    except (OSError, RuntimeError):
        return False


def noted(kind: str, *paths: str) -> bytes | None:
    """Read by the reader of a kind (see `_READERS`), and note what was found; raise OSError as it does."""
    content = _READERS[kind](*paths)
    notes = _notes.get()
    if notes is not None:
        notes[(kind, *paths)] = content_digest(content)
    return content


def content_digest(content: bytes | None) -> str:
    """What tells a file's content from every other; nothing stands for a file that is not there."""
    return hashlib.blake2b(content, digest_size=32).hexdigest() if content is not None else ""


def _text(path: str) -> bytes | None:
    """The start of an ordinary file; a pipe or a device, which could keep a reader waiting for ever, gives nothing."""
    if not stat.S_ISREG(os.stat(path).st_mode):
        return None
    with open(path, "rb") as stream:
        return stream.read(LARGEST_TEXT + 1)


def _within(path: str, folder: str) -> bytes | None:
    file = Path(path)
    return b"" if file.is_file() and file.resolve().is_relative_to(folder) else None


def _theme_file(root: str, path: str) -> bytes | None:
    file = (Path(root) / path).resolve()
    return file.read_bytes() if file.is_relative_to(root) and file.is_file() else None


def _theme_names(folder: str) -> bytes | None:
    names = sorted(file.parent.name for file in Path(folder).glob("*/theme.yaml"))
    return "\n".join(names).encode("utf-8", "surrogateescape")


def _photo(path: str, root: str) -> bytes | None:
    """An ordinary file that lies within the root, its first bytes up to one more than a photograph may have."""
    file = Path(path).resolve()
    if not file.is_relative_to(root) or not file.is_file():
        return None
    with file.open("rb") as stream:
        return stream.read(LARGEST_PHOTO + 1)


_READERS: Mapping[str, Callable[..., bytes | None]] = {
    "text": _text, "within": _within, "theme": _theme_file, "themes": _theme_names, "photo": _photo,
}
_notes: ContextVar[dict[Read, str] | None] = ContextVar("notes", default=None)
