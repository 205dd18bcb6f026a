"""A file is whole or absent, whatever goes wrong."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path

import pytest

from explainers import safe_write
from explainers.errors import OutputError
from explainers.safe_write import told_of_files, whole_file, work_folder, write_bytes, write_files, write_text


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_text_keeps_its_line_ends_and_overwrites(tmp_path: Path) -> None:
    write_text(tmp_path / "a.vtt", "old")
    write_text(tmp_path / "a.vtt", "one\r\ntwo °\n")
    assert (tmp_path / "a.vtt").read_bytes() == "one\r\ntwo °\n".encode()
    assert names(tmp_path) == ["a.vtt"]


def test_a_missing_folder_is_made(tmp_path: Path) -> None:
    assert write_bytes(tmp_path / "x" / "y" / "a.bin", b"1").read_bytes() == b"1"


@pytest.mark.parametrize("failure", [ValueError("no"), KeyboardInterrupt()])
def test_a_failure_half_way_leaves_the_old_file_and_nothing_else(tmp_path: Path, failure: BaseException) -> None:
    write_bytes(tmp_path / "a.mp4", b"old")

    def write_half() -> None:
        with whole_file(tmp_path / "a.mp4") as unfinished:
            assert unfinished.suffix == ".mp4"
            unfinished.write_bytes(b"half")
            raise failure

    with pytest.raises(type(failure)):
        write_half()
    assert (tmp_path / "a.mp4").read_bytes() == b"old"
    assert names(tmp_path) == ["a.mp4"]


def test_several_files_appear_together_or_not_at_all(tmp_path: Path) -> None:
    with pytest.raises(OutputError):
        write_files(tmp_path, {"a.txt": "1", "b" * 300: "2"})
    assert names(tmp_path) == []
    assert [path.name for path in write_files(tmp_path, {"a.txt": "1", "b.txt": b"2"})] == ["a.txt", "b.txt"]
    assert names(tmp_path) == ["a.txt", "b.txt"]


def test_a_full_disk_is_said_in_words(tmp_path: Path) -> None:
    def write_half() -> None:
        with whole_file(tmp_path / "a.mp4") as unfinished:
            unfinished.write_bytes(b"half")
            raise OSError(errno.ENOSPC, "No space left on device")

    with pytest.raises(OutputError, match="the disk is full"):
        write_half()
    assert names(tmp_path) == []


def test_a_folder_in_the_way_is_said_in_words(tmp_path: Path) -> None:
    (tmp_path / "a.txt").mkdir()
    with pytest.raises(OutputError, match=r"a\.txt: cannot be written"):
        write_text(tmp_path / "a.txt", "1")
    assert names(tmp_path) == ["a.txt"]


def test_a_work_folder_goes_with_all_it_holds(tmp_path: Path) -> None:
    with work_folder(tmp_path / "out") as work:
        (work / "deep").mkdir()
        (work / "deep" / "a").write_bytes(b"1")
        assert work.parent == tmp_path / "out"
    assert names(tmp_path / "out") == []


# What a killed process leaves behind --------------------------------------------------------------------------------

HALF_WAY = """
import os, signal, sys
from pathlib import Path
from explainers.safe_write import whole_file, work_folder
with whole_file(Path(sys.argv[1]) / "a.mp4") as unfinished, work_folder(Path(sys.argv[1])) as work:
    unfinished.write_bytes(b"half")
    (work / "still.png").write_bytes(b"half")
    print("half way", flush=True)
    if sys.argv[2] == "killed":
        os.kill(os.getpid(), signal.SIGKILL)
    sys.stdin.read()
"""


def half_way(folder: Path, end: str) -> subprocess.Popen[str]:
    """A process that writes a file and works in a folder, and has come half way."""
    command = [sys.executable, "-c", HALF_WAY, str(folder), end]
    process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None and process.stdout.readline() == "half way\n"
    return process


@pytest.mark.skipif(os.name != "posix", reason="the locks are those of Unix")
def test_what_a_killed_process_left_behind_goes_and_nothing_else_does(tmp_path: Path) -> None:
    own = (".clip-0123abcd", ".explainers-unfinished-mine", ".explainers-unfinished-0123456789abcdef0", "notes.txt")
    for name in own:
        (tmp_path / name).write_text("a teacher's own")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    link = tmp_path / ".explainers-unfinished-0123456789abcdef"
    link.symlink_to(elsewhere)
    half_way(tmp_path, "killed").wait(timeout=60)
    assert len(names(tmp_path)) == len(own) + 4, "a half file and a work folder are there, under hidden names"
    living = half_way(tmp_path, "living")  # sweeps as it begins
    assert len(names(tmp_path)) == len(own) + 4, "those of the living one, in their place"
    write_text(tmp_path / "b.txt", "1")
    assert len(names(tmp_path)) == len(own) + 5, "nobody who works is disturbed"
    living.communicate("", timeout=60)
    assert living.returncode == 0
    assert set(names(tmp_path)) == {*own, "a.mp4", "b.txt", "elsewhere", link.name}
    assert (tmp_path / "a.mp4").read_bytes() == b"half" and link.is_symlink()


def test_where_there_are_no_locks_a_day_must_pass(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(safe_write, "fcntl", None)
    day_ago = time.time() - 25 * 3600
    for digit, when in (("0", day_ago), ("1", time.time())):
        folder = tmp_path / f".explainers-unfinished-{digit * 16}"
        folder.mkdir()
        os.utime(folder, (when, when))
    with work_folder(tmp_path):
        pass
    assert names(tmp_path) == [f".explainers-unfinished-{'1' * 16}"]


def test_whoever_listens_is_told_of_whole_files_before_they_appear(tmp_path: Path) -> None:
    told: list[dict[str, str]] = []

    def listener(files: Mapping[Path, Path]) -> None:
        assert not any(path.exists() for path in files)
        told.append({path.name: whole.read_text() for path, whole in files.items()})
        write_text(tmp_path / "note", "its own files are not told of")

    with told_of_files(listener):
        write_files(tmp_path / "x", {"a.txt": "1", "b.txt": "2"})
        with whole_file(tmp_path / "x" / "c.txt") as unfinished:
            unfinished.write_text("3")
    write_text(tmp_path / "x" / "d.txt", "4")
    assert told == [{"a.txt": "1", "b.txt": "2"}, {"c.txt": "3"}]


def test_what_a_listener_refuses_does_not_appear(tmp_path: Path) -> None:
    def listener(files: Mapping[Path, Path]) -> None:
        raise OutputError("no")

    with told_of_files(listener), pytest.raises(OutputError):
        write_files(tmp_path, {"a.txt": "1"})
    assert names(tmp_path) == []
