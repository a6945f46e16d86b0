"""What builds remember of earlier ones: entries in a folder, each under the digest of everything that it was made from.

In: keys and bytes.
Out: the bytes of an entry that is whole, or nothing.
Never: an entry that is damaged or stands under another's key; a folder that grows without bound; a build that fails
for want of remembering.
"""

from __future__ import annotations

import hashlib
import os
import sys
import sysconfig
from contextlib import suppress
from functools import cache
from pathlib import Path

FOLDER = ".remembered"
"""Lies in the output folder, and may be deleted at any time."""
LARGEST_STORE = 256 << 20
LARGEST_ENTRY = 64 << 20
_HEAD = b"patchwright remembers\n"


class Store:
    """Entries below an output folder; with None, nothing is remembered."""

    def __init__(self, out: Path | None) -> None:
        self._folder = out / FOLDER if out is not None else None

    @property
    def is_on(self) -> bool:
        return self._folder is not None

    def get(self, key: str) -> bytes | None:
        """The entry of a key, if there is one and it is whole."""
        if self._folder is None:
            return None
        path = self._folder / key
        try:
            if self._folder.is_symlink() or path.stat().st_size > LARGEST_ENTRY + 200:
                return None
            written = path.read_bytes()
            os.utime(path)
        except OSError:
            return None
        head = _head(key, written[len(_HEAD) + 65 :])
        return written[len(head) :] if written.startswith(head) else None

    def put(self, key: str, content: bytes) -> None:
        """Remember an entry, whole or not at all; a disk that is full or may not be written to is no fault."""
        if self._folder is None or len(content) > LARGEST_ENTRY:
            return
        fresh = self._folder / f"{key}.new-{os.getpid()}"
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            if self._folder.is_symlink():
                return
            with fresh.open("wb") as stream:
                stream.write(_head(key, content))
                stream.write(content)
            fresh.replace(self._folder / key)
        except OSError:
            with suppress(OSError):
                fresh.unlink(missing_ok=True)

    def trim(self, limit: int = LARGEST_STORE) -> None:
        """Forget what was used longest ago until the rest is within the limit."""
        if self._folder is None or self._folder.is_symlink():
            return
        with suppress(OSError):
            found = [(entry.stat().st_mtime_ns, entry.name, entry.stat().st_size) for entry in os.scandir(self._folder)]
            total = sum(size for _, _, size in found)
            for _, name, size in sorted(found):
                if total <= limit:
                    break
                (self._folder / name).unlink(missing_ok=True)
                total -= size


@cache
def program_digest() -> str:
    """What tells this program from every other state of it: its own files, its Python, and the packages beside it."""
    digest = hashlib.blake2b(f"{sys.version}\n{sysconfig.get_platform()}\n".encode(), digest_size=32)
    package = Path(__file__).resolve().parent
    for path in sorted(package.rglob("*")):
        if "__pycache__" not in path.parts and path.is_file():
            digest.update(f"{path.relative_to(package)}\n".encode("utf-8", "surrogateescape"))
            digest.update(hashlib.blake2b(path.read_bytes()).digest())
    installed = (name for folder in sys.path if os.path.isdir(folder) for name in os.listdir(folder))
    names = sorted({name for name in installed if name.endswith((".dist-info", ".egg-info"))})
    digest.update("\n".join(names).encode("utf-8", "surrogateescape"))
    return digest.hexdigest()


def _head(key: str, content: bytes) -> bytes:
    digest = hashlib.blake2b(content, digest_size=32, key=key.encode("ascii")[:64]).hexdigest()
    return _HEAD + digest.encode("ascii") + b"\n"
