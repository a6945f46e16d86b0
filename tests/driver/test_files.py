"""Finding and reading patterns, and folders that are written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from driver.running import SMALL, contents
from patchwright.files import (
    FileTroubleError,
    find_patterns,
    read_source,
    recover,
    whole_folder,
    write_file,
)


def pattern(folder: Path, name: str = "small-sail.yaml", text: str = SMALL) -> Path:
    file = folder / name
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    return file


# -- finding ----------------------------------------------------------------------------------------------------------


def test_a_folder_gives_its_patterns_in_order(tmp_path: Path) -> None:
    others = ("house.yaml", ".hidden.yaml", ".git/d.yaml", "themes/t/theme.yaml", "e.txt")
    for name in ("b.yaml", "a.yml", "deep/c.yaml", *others):
        pattern(tmp_path, name)
    found = [project.pattern.name for project in find_patterns((tmp_path,))]
    assert found == ["a.yml", "b.yaml", "c.yaml"]


def test_a_pattern_named_twice_is_one(tmp_path: Path) -> None:
    file = pattern(tmp_path)
    assert len(find_patterns((file, tmp_path, file))) == 1


def test_a_link_to_a_pattern_is_that_pattern(tmp_path: Path) -> None:
    file = pattern(tmp_path)
    link = tmp_path / "link.yaml"
    link.symlink_to(file)
    assert len(find_patterns((file, link))) == 1


@pytest.mark.parametrize(
    ("stem", "name"),
    [
        ("Rope Walk", "rope-walk"), ("rope_walk", "rope-walk"), ("rope.walk", "rope.walk"), (".", "pattern"),
        (".hidden", "hidden"), ("-", "pattern"), ("a\nb", "a-b"), ("strände", "strände"), ("a\\b", "a-b"),
    ],
)
def test_the_name_of_the_output(tmp_path: Path, stem: str, name: str) -> None:
    file = pattern(tmp_path, f"{stem}.yaml")
    assert find_patterns((file,))[0].id == name


def test_a_folder_without_patterns(tmp_path: Path) -> None:
    with pytest.raises(FileTroubleError, match="no pattern found"):
        find_patterns((tmp_path,))


def test_links_in_a_circle_are_no_patterns(tmp_path: Path) -> None:
    (tmp_path / "a.yaml").symlink_to(tmp_path / "b.yaml")
    (tmp_path / "b.yaml").symlink_to(tmp_path / "a.yaml")
    with pytest.raises(FileTroubleError):
        find_patterns((tmp_path / "a.yaml",))
    with pytest.raises(FileTroubleError, match="no pattern found"):
        find_patterns((tmp_path,))


@pytest.mark.parametrize("name", ["missing.yaml", "n" * 5000 + ".yaml", "nul\0.yaml"])
def test_paths_that_lead_nowhere(tmp_path: Path, name: str) -> None:
    with pytest.raises(FileTroubleError):
        find_patterns((tmp_path / name,))


# -- the house --------------------------------------------------------------------------------------------------------


def test_the_house_is_found_upward(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_text("name: Quay\n")
    project = find_patterns((pattern(tmp_path, "a/b/small.yaml"),))[0]
    assert (project.root, project.house) == (tmp_path.resolve(), tmp_path.resolve() / "house.yaml")


def test_the_nearest_house_counts(tmp_path: Path) -> None:
    (tmp_path / "house.yaml").write_text("name: Far\n")
    file = pattern(tmp_path, "a/small.yaml")
    (tmp_path / "a" / "house.yaml").write_text("name: Near\n")
    assert find_patterns((file,))[0].root == tmp_path.resolve() / "a"


def test_a_house_that_links_out_of_its_folder_is_refused(tmp_path: Path) -> None:
    (tmp_path / "elsewhere.yaml").write_text("name: Elsewhere\n")
    file = pattern(tmp_path, "inner/small.yaml")
    (tmp_path / "inner" / "house.yaml").symlink_to(tmp_path / "elsewhere.yaml")
    with pytest.raises(FileTroubleError, match="outside its folder"):
        find_patterns((file,))


@pytest.mark.parametrize("kind", ["folder", "broken link", "pipe"])
def test_a_house_that_is_no_file_is_not_passed_over(tmp_path: Path, kind: str) -> None:
    house = tmp_path / "house.yaml"
    if kind == "folder":
        house.mkdir()
    elif kind == "pipe":
        os.mkfifo(house)
    else:
        house.symlink_to(tmp_path / "gone.yaml")
    with pytest.raises(FileTroubleError, match="house rules"):
        find_patterns((pattern(tmp_path),))


# -- reading ----------------------------------------------------------------------------------------------------------


def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.yaml")
    with pytest.raises(FileTroubleError, match="no ordinary file"):
        read_source(tmp_path / "pipe.yaml", "pipe.yaml")


@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null"])
def test_a_device_is_refused(device: str) -> None:
    if not Path(device).exists():
        pytest.skip("this system has no such device")
    with pytest.raises(FileTroubleError, match="no ordinary file"):
        read_source(Path(device), device)


def test_a_huge_file_is_read_only_as_far_as_needed(tmp_path: Path) -> None:
    file = tmp_path / "huge.yaml"
    with file.open("wb") as stream:
        stream.truncate(1 << 33)
    assert len(read_source(file, "huge.yaml").text) < 1 << 21


# -- writing ----------------------------------------------------------------------------------------------------------


def test_a_folder_appears_whole(tmp_path: Path) -> None:
    with whole_folder(tmp_path / "sail", False) as fresh:
        write_file(fresh / "sail.html", b"new")
        assert not (tmp_path / "sail").exists()
    assert contents(tmp_path) == {"sail/sail.html": b"new"}


def test_a_folder_is_replaced_whole(tmp_path: Path) -> None:
    for name in (b"old", b"new"):
        with whole_folder(tmp_path / "sail", False) as fresh:
            write_file(fresh / f"sail-{name.decode()}.pdf", name)
    assert contents(tmp_path) == {"sail/sail-new.pdf": b"new"}


def test_a_part_keeps_the_others(tmp_path: Path) -> None:
    for name in (b"one", b"two"):
        with whole_folder(tmp_path / "sail", True) as fresh:
            write_file(fresh / f"sail-{name.decode()}.pdf", name)
    assert contents(tmp_path) == {"sail/sail-one.pdf": b"one", "sail/sail-two.pdf": b"two"}


@pytest.mark.parametrize("fault", [RuntimeError, KeyboardInterrupt, OSError])
def test_a_fault_leaves_the_earlier_folder(tmp_path: Path, fault: type[BaseException]) -> None:
    with whole_folder(tmp_path / "sail", False) as fresh:
        write_file(fresh / "sail.html", b"old")
    with pytest.raises((fault, FileTroubleError)):
        _write_half(tmp_path / "sail", fault)
    assert contents(tmp_path) == {"sail/sail.html": b"old"}


def _write_half(folder: Path, fault: type[BaseException]) -> None:
    with whole_folder(folder, False) as fresh:
        write_file(fresh / "sail.html", b"half")
        raise fault


def test_a_folder_taken_away_by_a_killed_run_comes_back(tmp_path: Path) -> None:
    write_file(tmp_path / ".sail.old" / "sail.html", b"old")
    write_file(tmp_path / ".sail.new-99999999" / "sail.html", b"half")
    recover(tmp_path / "sail")
    assert contents(tmp_path) == {"sail/sail.html": b"old"}


def test_leftovers_of_a_killed_run_are_swept(tmp_path: Path) -> None:
    write_file(tmp_path / "sail" / "sail.html", b"good")
    write_file(tmp_path / ".sail.old" / "sail.html", b"old")
    recover(tmp_path / "sail")
    assert contents(tmp_path) == {"sail/sail.html": b"good"}


def test_the_unfinished_folder_of_a_running_build_is_left_alone(tmp_path: Path) -> None:
    write_file(tmp_path / f".sail.new-{os.getppid()}" / "sail.html", b"half")
    recover(tmp_path / "sail")
    assert len(contents(tmp_path)) == 1


def test_of_two_builds_at_once_the_last_one_wins(tmp_path: Path) -> None:
    with whole_folder(tmp_path / "sail", False) as fresh:
        write_file(fresh / "sail.html", b"one")
        fresh_of_other = tmp_path / ".sail.new-other"
        write_file(fresh_of_other / "sail.html", b"other")
        fresh_of_other.rename(tmp_path / "sail")
        write_file(tmp_path / ".sail.old" / "sail.html", b"older")
    assert contents(tmp_path) == {"sail/sail.html": b"one"}


def test_a_person_s_own_folder_is_never_replaced(tmp_path: Path) -> None:
    write_file(tmp_path / "sail" / "my letters.txt", b"dear")
    with pytest.raises(FileTroubleError, match="no build wrote this"), whole_folder(tmp_path / "sail", False):
        pass
    assert contents(tmp_path) == {"sail/my letters.txt": b"dear"}


def test_a_file_in_place_of_the_folder_stays(tmp_path: Path) -> None:
    write_file(tmp_path / "sail", b"a file")
    with pytest.raises(FileTroubleError, match="no folder"), whole_folder(tmp_path / "sail", False):
        pass
    assert contents(tmp_path) == {"sail": b"a file"}


def test_an_output_folder_that_is_a_file(tmp_path: Path) -> None:
    write_file(tmp_path / "out", b"a file")
    with pytest.raises(FileTroubleError), whole_folder(tmp_path / "out" / "sail", False):
        pass
    assert contents(tmp_path) == {"out": b"a file"}
