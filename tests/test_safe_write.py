"""A file is whole or absent, whatever goes wrong."""

from __future__ import annotations

import errno
import os
import time
from pathlib import Path

import pytest

from explainers.errors import OutputError
from explainers.safe_write import whole_file, work_folder, write_bytes, write_files, write_text


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
    with work_folder(tmp_path / "out", "clip") as work:
        (work / "deep").mkdir()
        (work / "deep" / "a").write_bytes(b"1")
        assert work.parent == tmp_path / "out"
    assert names(tmp_path / "out") == []


def test_what_a_killed_process_left_behind_goes_a_day_later_and_nothing_else_does(tmp_path: Path) -> None:
    day_ago = time.time() - 25 * 3600
    for name in (".clip-0123abcd", ".clip-00000000", ".clip-mine", ".other-0123abcd"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "half.mp4").write_bytes(b"half")
        if name != ".clip-00000000":  # that one is being worked in
            os.utime(tmp_path / name, (day_ago, day_ago))
    with work_folder(tmp_path, "clip"):
        assert set(names(tmp_path)) > {".clip-00000000", ".clip-mine", ".other-0123abcd"}
        assert ".clip-0123abcd" not in names(tmp_path)
    assert names(tmp_path) == [".clip-00000000", ".clip-mine", ".other-0123abcd"]
