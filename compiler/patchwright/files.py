"""The driver's hands: finding and reading patterns, and writing outputs whole or not at all.

In: paths that a person named.
Out: texts with the names that messages give them; folders of finished files.
Never: a file outside the project's root and the package, a half-written output, a lost earlier one.
"""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from patchwright.core.source import Source
from patchwright.reading import LARGEST_PHOTO, Read, content_digest, noted

HOUSE_FILE = "house.yaml"
PATTERN_ENDINGS = (".yaml", ".yml")
LARGEST_CARD = 1 << 23
_PACKAGE = Path(__file__).resolve().parent
LARGEST_FOLDER = 2000
"""Most patterns that one folder may hold."""
_MOST_SWAPS = 5


class FileTroubleError(Exception):
    """Something with files that the pattern's text cannot mend; its message is one plain line."""


@dataclass(frozen=True, slots=True)
class Project:
    """One pattern file and the folder that everything it needs must lie in."""

    pattern: Path
    shown: str
    """The path as messages show it."""
    root: Path
    house: Path | None

    @property
    def id(self) -> str:
        """The pattern's name in files: the stem of its own, in letters, digits, hyphens and inner dots."""
        return re.sub(r"[^\w.]+|_", "-", self.pattern.stem.lower()).strip("-.") or "pattern"

    @property
    def themes(self) -> Path:
        return self.root / "themes"

    @property
    def layouts(self) -> Path:
        """Where the author keeps cutting layouts, beside the pattern."""
        return self.pattern.with_name(f"{self.pattern.stem}.layouts.json")


def find_patterns(paths: tuple[Path, ...]) -> tuple[Project, ...]:
    """The patterns that files and folders name, each once, in the order of their paths."""
    found: dict[Path, Project] = {}
    for path in paths:
        try:
            for file in _pattern_files(path):
                real = file.resolve()
                if real not in found:
                    found[real] = _project(file, real)
        except (OSError, ValueError, RuntimeError) as trouble:
            # A name that is too long, a link in a circle, a disk that cannot be read.
            reason = _reason(trouble) if isinstance(trouble, OSError) else "this path cannot be followed"
            raise FileTroubleError(f"{path}: {reason}") from None
    if not found:
        raise FileTroubleError("no pattern found: patterns are .yaml files other than " + HOUSE_FILE)
    return tuple(found.values())


def _pattern_files(path: Path) -> Iterator[Path]:
    if path.is_dir():
        files = sorted(
            file for file in path.rglob("*")
            if file.suffix in PATTERN_ENDINGS and file.name != HOUSE_FILE
            and not any(part.startswith(".") or part == "themes" for part in file.relative_to(path).parts)
        )
        if len(files) > LARGEST_FOLDER:
            raise FileTroubleError(f"{path}: more than {LARGEST_FOLDER} patterns in one folder")
        yield from (file for file in files if file.is_file())
    elif path.exists():
        yield path
    else:
        raise FileTroubleError(f"{path}: there is no such file or folder")


def _project(shown: Path, real: Path) -> Project:
    """Walk up from the pattern to the house file; its folder is the root, or else the pattern's own."""
    for folder in real.parents:
        house = folder / HOUSE_FILE
        if os.path.lexists(house):
            if not house.is_file():
                raise FileTroubleError(f"{shown_path(house)}: this is no file that can be read as house rules")
            if not house.resolve().is_relative_to(folder):
                raise FileTroubleError(f"{house}: a house file may not be a link that leads outside its folder")
            return Project(real, str(shown), folder, house)
    return Project(real, str(shown), real.parent, None)


def built_cards(out: Path, ending: str) -> tuple[tuple[str, str, tuple[tuple[str, int], ...]], ...]:
    """Every built pattern's id, its card's text, and the names and sizes of its files, in the order of ids."""
    found = []
    for folder in sorted(out.iterdir())[: LARGEST_FOLDER + 1] if out.is_dir() else ():
        card = folder / f"{folder.name}{ending}"
        if folder.is_dir() and not folder.is_symlink() and card.is_file() and card.stat().st_size <= LARGEST_CARD:
            files = sorted(file for file in folder.iterdir() if file.is_file())
            text = card.read_text(encoding="utf-8", errors="replace")
            found.append((folder.name, text, tuple((file.name, file.stat().st_size) for file in files)))
    return tuple(found)


def replace_own_file(path: Path, content: bytes, mark: str) -> None:
    """Write a file in the place of an earlier one that has the mark; refuse to replace a file that has not."""
    try:
        earlier = path.read_bytes() if os.path.lexists(path) else None
    except OSError as trouble:
        raise FileTroubleError(f"{path}: {_reason(trouble)}") from None
    if earlier is not None and mark.encode() not in earlier:
        raise FileTroubleError(f"{path}: no build wrote this, so it stays; move it, or choose another `--out`")
    if earlier != content:
        replace_file(path, content)


def read_source(path: Path, shown: str) -> Source:
    """A text file as a Source; undecodable bytes are kept as surrogates, for the reader to report."""
    try:
        content = noted("text", str(path))
    except OSError as trouble:
        raise FileTroubleError(f"{shown}: {_reason(trouble)}") from None
    if content is None:
        raise FileTroubleError(f"{shown}: this is no ordinary file")
    return Source(shown, content.decode("utf-8", "surrogateescape"))


def read_photo_file(project: Project, name: str) -> bytes:
    """The bytes of a photograph that a pattern names, which lies within the project's root."""
    try:
        content = noted("photo", str(project.root / name), str(project.root))
    except (OSError, ValueError, RuntimeError):
        content = None
    if content is None:
        raise FileTroubleError(f"there is no file `{name}` in the folder of the house file, or of the pattern")
    if len(content) > LARGEST_PHOTO:
        raise FileTroubleError(f"`{name}` is larger than {LARGEST_PHOTO >> 20} megabytes")
    return content


def read_plan(path: Path) -> dict[str, Any]:
    """The numbers that a build wrote as `plan.json`."""
    try:
        loaded = json.loads(path.read_text(encoding="utf-8"))
    except OSError as trouble:
        raise FileTroubleError(f"{path}: {_reason(trouble)}") from None
    except (ValueError, RecursionError):
        raise FileTroubleError(f"{path}: this is no plan.json") from None
    if not isinstance(loaded, dict) or "sizes" not in loaded:
        raise FileTroubleError(f"{path}: this is no plan.json")
    return loaded


def is_file_within(path: Path, folder: Path) -> bool:
    """Whether there is such a file, and no link leads it out of the folder."""
    return noted("within", str(path), str(folder)) is not None


def shown_path(path: Path) -> str:
    """A path as messages show it: from the current folder where it lies below it."""
    try:
        return str(path.relative_to(Path.cwd()))
    except ValueError:
        return str(path)


@contextmanager
def whole_folder(folder: Path, keep_others: bool) -> Iterator[Path]:
    """Give a fresh folder to write into, which takes the place of `folder` at the end, or never existed.

    With `keep_others` the files of the earlier folder that are not written again stay.
    """
    recover(folder)
    _refuse_foreign(folder)
    fresh = folder.with_name(f".{folder.name}.new-{os.getpid()}")
    old = _old_name(folder)
    try:
        fresh.mkdir(parents=True)
        yield fresh
        if keep_others and folder.is_dir():
            _carry_over(folder, fresh)
        _swap(fresh, folder, old)
    except OSError as trouble:
        raise FileTroubleError(f"{folder}: {_reason(trouble)}; what was there is unchanged") from None
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _refuse_foreign(folder: Path) -> None:
    """Only what builds wrote may be replaced: their files are named after the folder, which is named after a pattern.

    A folder of that name that holds anything else is a person's own, and would be lost.
    """
    if not os.path.lexists(folder):
        return
    if not folder.is_dir():
        raise FileTroubleError(f"{folder}: this is no folder, and a build does not replace it")
    for entry in sorted(folder.iterdir()):
        if entry.name != "plan.json" and not entry.name.startswith((f"{folder.name}-", f"{folder.name}.")):
            raise FileTroubleError(
                f"{entry}: no build wrote this, and building would remove it; move it, or choose another `--out`"
            )


def write_file(path: Path, content: bytes) -> None:
    """Write and flush one file of a fresh folder."""
    path.parent.mkdir(parents=True, exist_ok=True)
    _write_flushed(path, content)


def write_new_file(path: Path, text: str) -> None:
    """Write a text where there is no file yet."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        raise FileTroubleError(f"{path}: this file is there already and stays as it is") from None
    except OSError as trouble:
        raise FileTroubleError(f"{path}: {_reason(trouble)}") from None


def written_files(folder: Path) -> tuple[str, ...]:
    """The files below a folder, by their paths within it, in order."""
    return tuple(sorted(str(file.relative_to(folder)) for file in folder.rglob("*") if file.is_file()))


def replace_file(path: Path, content: bytes) -> None:
    """Write a file whole under another name and put it in the place of an earlier one."""
    fresh = path.with_name(f".{path.name}.new-{os.getpid()}")
    try:
        _write_flushed(fresh, content)
        fresh.replace(path)
    except OSError as trouble:
        raise FileTroubleError(f"{path}: {_reason(trouble)}; what was there is unchanged") from None
    finally:
        fresh.unlink(missing_ok=True)


def _write_flushed(path: Path, content: bytes) -> None:
    with path.open("xb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def recover(folder: Path) -> None:
    """Undo what an interrupted run left: put an earlier folder back, sweep unfinished ones."""
    old = _old_name(folder)
    try:
        if old.is_dir():
            if folder.exists():
                shutil.rmtree(old, ignore_errors=True)
            else:
                old.rename(folder)
        if folder.parent.is_dir():
            for orphan in folder.parent.glob(f".{folder.name}.new-*"):
                if not _is_running(orphan.name.rpartition("-")[2]):
                    shutil.rmtree(orphan, ignore_errors=True)
    except OSError as trouble:
        raise FileTroubleError(f"{folder}: {_reason(trouble)}") from None


def _old_name(folder: Path) -> Path:
    return folder.with_name(f".{folder.name}.old")


def _is_running(process: str) -> bool:
    if not process.isdecimal():
        return False
    if int(process) == os.getpid():
        return False
    try:
        os.kill(int(process), 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def _carry_over(folder: Path, fresh: Path) -> None:
    for file in sorted(folder.rglob("*")):
        target = fresh / file.relative_to(folder)
        if file.is_file() and not target.exists():
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(file, target)


def _swap(fresh: Path, folder: Path, old: Path) -> None:
    """Two renames; a run that dies between them is put right by `recover`, and of two runs at once the last wins."""
    for attempt in range(_MOST_SWAPS):
        try:
            if folder.exists():
                shutil.rmtree(old, ignore_errors=True)
                folder.rename(old)
            fresh.rename(folder)
            break
        except OSError:
            # Another run may have put its own folder there in between.
            if attempt == _MOST_SWAPS - 1 or not folder.exists():
                raise
    shutil.rmtree(old, ignore_errors=True)


def _reason(trouble: OSError) -> str:
    return (trouble.strerror or str(trouble)).lower()


def watched_state(project: Project, reads: Iterable[Read] = ()) -> tuple[tuple[str, int], ...]:
    """When each file that a pattern is built from was last changed, by name; a file that is gone is left out."""
    files = {project.pattern, project.layouts, *([project.house] if project.house is not None else [])}
    files |= set(project.themes.rglob("*")) if project.themes.is_dir() else set()
    files |= {Path(*read[1:]) for read in reads if read[0] in ("text", "theme")}
    made = []
    for file in sorted(files):
        try:
            made.append((str(file), file.stat().st_mtime_ns))
        except OSError:
            continue
    return tuple(made)


def installed_themes() -> Path:
    """The themes of the installed package, or of the repository when it runs from a checkout."""
    packed = _PACKAGE / "themes"
    return packed if packed.is_dir() else _PACKAGE.parents[1] / "themes"


def theme_reader(*folders: Path) -> Callable[[str], bytes | None]:
    """A reader over folders of themes, the first that has a file winning; links that lead outside give nothing."""
    roots = tuple(str(folder.resolve()) for folder in folders)

    def read(path: str) -> bytes | None:
        return next((found for root in roots if (found := noted("theme", root, path)) is not None), None)

    return read


def theme_names(*folders: Path) -> tuple[str, ...]:
    """The names of all themes in these folders, in order of the alphabet."""
    found = [(noted("themes", str(folder)) or b"").decode("utf-8", "surrogateescape") for folder in folders]
    return tuple(sorted({name for names in found for name in names.split("\n") if name}))


def folder_holds(folder: Path, files: Iterable[tuple[str, str]], nothing_else: bool) -> bool:
    """Whether a folder has files of these names and digests, just as a build left them."""
    wanted = dict(files)
    try:
        if folder.is_symlink() or not folder.is_dir():
            return False
        there = set(written_files(folder))
        if not wanted.keys() <= there or (nothing_else and there != wanted.keys()):
            return False
        return all(content_digest((folder / name).read_bytes()) == digest for name, digest in wanted.items())
    except OSError:
        return False


def environment() -> Mapping[str, str]:
    """The environment, read in this layer alone."""
    return os.environ
