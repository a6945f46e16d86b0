"""What builds take over from earlier ones never changes a byte, whatever changed or was damaged in between."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from dataclasses import fields, replace
from pathlib import Path
from typing import Any

import pytest

from driver.running import FAULTY, SMALL, contents, exit_code
from patchwright import remembering, store
from patchwright.driver import BuildRequest, Built, build_project
from patchwright.files import find_patterns, installed_themes, theme_reader
from patchwright.planning import build as planning
from patchwright.remembering import Memory

OBLONG = SMALL.replace("down: 2", "down: 3")
PROSE = "text:\n  introduction: |\n    Sew it slowly; it is {{ quilt.across }} wide.\n"
THEMES = Path("themes") / "harbor"


@pytest.fixture
def sail(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A pattern and its house in the current folder."""
    monkeypatch.chdir(tmp_path)
    Path("house.yaml").write_text("name: Quay\n", encoding="utf-8")
    Path("sail.yaml").write_text(OBLONG + PROSE, encoding="utf-8")
    return Path("sail.yaml")


def built(pattern: Path, out: str = "out", **asked: Any) -> Built:
    request = BuildRequest(editions=("all-sizes",), papers=("a4",), out=Path(out), remember=True)
    return build_project(find_patterns((pattern,))[0], replace(request, **asked))


def files(out: str = "out") -> dict[str, bytes]:
    return contents(Path(out))


def as_if_nothing_were_remembered(pattern: Path, **asked: Any) -> tuple[Built, dict[str, bytes]]:
    result = built(pattern, "anew", remember=False, **asked)
    return result, files("anew")


def assert_true(pattern: Path, **asked: Any) -> None:
    """A build that remembers gives the bytes and the messages of one that does not."""
    result, expected = built(pattern, **asked), as_if_nothing_were_remembered(pattern, **asked)
    assert result.compiled.diagnostics == expected[0].compiled.diagnostics
    assert (result.files, result.pages, files()) == (expected[0].files, expected[0].pages, expected[1])
    assert result.compiled.plan == expected[0].compiled.plan
    assert result.compiled.sources == expected[0].compiled.sources


def edited(pattern: Path, old: str, new: str) -> None:
    text = pattern.read_text(encoding="utf-8")
    assert old in text
    pattern.write_text(text.replace(old, new), encoding="utf-8")


@pytest.fixture
def planned_anew(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Tells how often a plan was really made."""
    calls: list[str] = []
    make = planning.make_plan

    def counted(*given: Any) -> Any:
        calls.append("plan")
        return make(*given)

    monkeypatch.setattr(planning, "make_plan", counted)
    return calls


@pytest.fixture
def typeset_anew(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Tells which booklets were really typeset."""
    from patchwright import workers

    started: list[str] = []
    start = workers._Typesetters.start

    def counted(setters: workers._Typesetters, job: workers.Pages) -> None:
        started.append(job.id)
        start(setters, job)

    monkeypatch.setattr(workers._Typesetters, "start", counted)
    return started


# -- what is taken over -----------------------------------------------------------------------------------------------


def test_nothing_changed(sail: Path, planned_anew: list[str], typeset_anew: list[str]) -> None:
    first = built(sail)
    before = files()
    again = built(sail)
    assert (planned_anew, typeset_anew) == (["plan"], ["sail"])
    assert files() == before
    assert (again.files, again.pages, again.compiled.plan) == (first.files, first.pages, first.compiled.plan)
    assert_true(sail)


def test_other_prose_needs_no_other_plan(sail: Path, planned_anew: list[str], typeset_anew: list[str]) -> None:
    built(sail)
    edited(sail, "slowly", "gladly")
    assert b"gladly" not in files()["sail/sail.html"]
    built(sail)
    assert (planned_anew, typeset_anew) == (["plan"], ["sail", "sail"])
    assert b"gladly" in files()["sail/sail.html"]
    assert_true(sail)


def test_pages_that_say_the_same_are_not_typeset_again(sail: Path, typeset_anew: list[str]) -> None:
    built(sail)
    sail.write_text("# A comment that moves every line.\n" + sail.read_text(encoding="utf-8"), encoding="utf-8")
    built(sail)
    assert typeset_anew == ["sail"]
    assert_true(sail)


def test_places_of_warnings_follow_the_text(sail: Path, planned_anew: list[str]) -> None:
    house = "inches: {usable-width: 40 in}\n"
    Path("house.yaml").write_text("name: Quay\n" + house, encoding="utf-8")
    edited(sail, "[[rope, deck],", "[[rope, rope],")
    built(sail)
    edited(sail, "dialect: 1\n", "# Two lines\n# of comment\ndialect: 1\n")
    assert_true(sail)
    result = built(sail)
    assert result.compiled.diagnostics
    assert all("rope, rope" in _line(result, item.span.line) for item in result.compiled.diagnostics)


def _line(result: Built, number: int) -> str:
    return result.compiled.sources[0].line(number)


CHANGES: dict[str, Callable[[Path], None]] = {
    "a length": lambda sail: edited(sail, "cell: 3 in", "cell: 3 1/2 in"),
    "a count": lambda sail: edited(sail, "down: 3", "down: 4"),
    "a color": lambda sail: edited(sail, "a9482f", "a9482e"),
    "the release": lambda sail: edited(sail, "release: 1", "release: 2"),
    "the title": lambda sail: edited(sail, "Small Sail", "Small Sails"),
    "a value in the prose": lambda sail: edited(sail, "quilt.across", "quilt.down"),
    "a warning": lambda sail: edited(sail, "[[rope, deck],", "[[rope, rope],"),
    "the house's name": lambda sail: edited(Path("house.yaml"), "Quay", "Quays"),
    "the house's seam": lambda sail: edited(Path("house.yaml"), "name: Quay", "inches: {seam: 3/8 in}"),
    "no house": lambda sail: Path("house.yaml").unlink(),
    "a theme's file": lambda sail: _own_file("style.css", b"\n/* Ours. */\n"),
    "a comment in a theme's tokens": lambda sail: _own_file("theme.yaml", b"\n# Ours.\n"),
}


def _own_file(name: str, more: bytes) -> None:
    THEMES.mkdir(parents=True)
    (THEMES / name).write_bytes((installed_themes() / "harbor" / name).read_bytes() + more)


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_is_never_missed(sail: Path, change: str) -> None:
    built(sail)
    before = files()
    CHANGES[change](sail)
    assert_true(sail)
    assert (files() == before) == (change == "a comment in a theme's tokens")


def test_every_field_of_a_job_tells_its_pages_apart() -> None:
    """A field that is added later takes part too; and of the theme all that a PDF is made with."""
    from patchwright.typesetting.themes import load_theme
    from patchwright.workers import Pages

    theme, _ = load_theme("harbor", theme_reader(installed_themes()))
    assert theme is not None
    job = Pages("sail", ("a4",), ("{}",), theme)
    others: dict[str, Any] = {
        "id": "tail", "papers": ("letter",), "data": ("{ }",), "folded": True,
        "theme": replace(theme, page_source=theme.page_source + " "),
    }
    assert others.keys() == {field.name for field in fields(Pages)}
    keys = {replace(job, **{name: value}).key() for name, value in others.items()}
    keys.add(replace(job, theme=replace(theme, tokens=replace(theme.tokens, papers=()))).key())
    assert len(keys | {job.key()}) == len(others) + 2
    assert job.key() == replace(job, theme=replace(theme, web_style="")).key()


def test_another_request_is_another_build(sail: Path) -> None:
    built(sail)
    requests: tuple[dict[str, Any], ...] = (
        {"papers": ("letter",)}, {"editions": ("coloring",)}, {"sizes": ("throw",), "editions": ("one-size",)},
    )
    for asked in requests:
        built(sail, **asked)
        as_if_nothing_were_remembered(sail, **asked)
    assert len(files("anew")) == 5
    assert files() == files("anew") | {"sail/sail-a4.pdf": files()["sail/sail-a4.pdf"]}


def test_kept_layouts_are_an_input(sail: Path, planned_anew: list[str]) -> None:
    built(sail)
    assert exit_code("plan", sail, "--keep-layouts") == 0
    planned_anew.clear()
    assert_true(sail)
    assert planned_anew
    kept = json.loads(Path("sail.layouts.json").read_text(encoding="utf-8"))
    kept["format"] = 99
    Path("sail.layouts.json").write_text(json.dumps(kept), encoding="utf-8")
    assert [item.code for item in built(sail).compiled.diagnostics] == ["kept-layouts"]


def test_a_pattern_with_mistakes_is_not_taken_for_good(sail: Path) -> None:
    built(sail)
    good, text = files(), sail.read_text(encoding="utf-8")
    sail.write_text(FAULTY, encoding="utf-8")
    assert built(sail).compiled.failed
    assert built(sail).compiled.failed
    assert files() == good
    sail.write_text(text, encoding="utf-8")
    assert not built(sail).compiled.failed


def test_another_state_of_the_program_knows_nothing(
    sail: Path, planned_anew: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    built(sail)
    monkeypatch.setattr(remembering, "program_digest", lambda: "another")
    built(sail)
    assert planned_anew == ["plan", "plan"]


# -- damage -----------------------------------------------------------------------------------------------------------


def test_outputs_that_someone_changed_are_made_again(sail: Path) -> None:
    built(sail)
    good = files()
    for name in good:
        (Path("out") / name).write_bytes(b"scribbled over")
        built(sail)
        assert files() == good
        (Path("out") / name).unlink()
        built(sail)
        assert files() == good


def _remembered() -> Iterator[Path]:
    yield from sorted((Path("out") / store.FOLDER).iterdir())


@pytest.mark.parametrize("damage", [
    lambda content: content[: len(content) // 2], lambda content: content[:-1] + bytes([content[-1] ^ 1]),
    lambda content: content + b".", lambda content: b"", lambda content: content[:30] + b"z" + content[31:],
], ids=["cut off", "a bit", "longer", "empty", "its digest"])  # fmt: skip
def test_damaged_entries_are_as_none(
    sail: Path, damage: Callable[[bytes], bytes], planned_anew: list[str], typeset_anew: list[str]
) -> None:
    built(sail)
    entries = list(_remembered())
    assert len(entries) >= 4
    for entry in entries:
        entry.write_bytes(damage(entry.read_bytes()))
    assert_true(sail)
    assert (len(planned_anew), len(typeset_anew)) == (3, 3)


def test_entries_under_each_other_s_keys_are_as_none(sail: Path, planned_anew: list[str]) -> None:
    built(sail)
    entries = list(_remembered())
    taken = [entry.read_bytes() for entry in entries]
    for entry, other in zip(entries, taken[1:] + taken[:1], strict=True):
        entry.write_bytes(other)
    assert_true(sail)
    assert len(planned_anew) == 3


def test_a_memory_that_is_in_the_way_is_done_without(sail: Path) -> None:
    Path("out").mkdir()
    (Path("out") / store.FOLDER).write_text("a file")
    assert_true(sail)


def test_a_memory_that_leads_elsewhere_is_not_followed(sail: Path) -> None:
    Path("out").mkdir()
    Path("elsewhere").mkdir()
    (Path("out") / store.FOLDER).symlink_to(Path("elsewhere").resolve())
    built(sail)
    assert list(Path("elsewhere").iterdir()) == []


def test_what_is_remembered_is_bounded(tmp_path: Path) -> None:
    kept = store.Store(tmp_path)
    for number in range(6):
        kept.put(f"{number}", bytes(1000))
    kept.trim(3500)
    left = [number for number in range(6) if kept.get(f"{number}") is not None]
    assert len(left) == 3


# -- reading ----------------------------------------------------------------------------------------------------------

_opened: list[str] | None = None


def _audit(event: str, given: tuple[Any, ...]) -> None:
    if event == "open" and _opened is not None and isinstance(given[0], str | bytes):
        _opened.append(given[0].decode() if isinstance(given[0], bytes) else given[0])


def test_all_that_a_build_reads_is_noted(sail: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Seen from outside, by the interpreter's own audit of opened files."""
    _own_file("style.css", b"\n/* Ours. */\n")
    assert exit_code("plan", sail, "--keep-layouts") == 0
    sys.addaudithook(_audit)
    monkeypatch.setattr(f"{__name__}._opened", [])
    built(sail)
    root = Path.cwd()
    opened = {path for name in _opened or () if (path := (root / name).resolve()).is_relative_to(root)}
    read = {path for path in opened if not path.is_relative_to(root / "out")}
    monkeypatch.setattr(f"{__name__}._opened", None)
    assert {path.name for path in read} == {"sail.yaml", "house.yaml", "sail.layouts.json", "style.css"}
    (whole,) = [found for entry in _remembered() if isinstance(found := _value(entry), remembering.WholeBuild)]
    noted = {Path(*one[1:]).resolve() for one, _ in whole.reads}
    assert read <= noted


def _value(entry: Path) -> Any:
    from patchwright.core.packed import unpack

    return unpack(Store.get(entry.name) or b"")


Store = store.Store(Path("out"))


def test_nothing_is_kept_where_nothing_is_asked(tmp_path: Path) -> None:
    nothing = Memory()
    nothing.keep("plan", "a", 1)
    assert nothing.recall("plan", "a") is None
    assert list(tmp_path.iterdir()) == []
