"""A segment file is read back whole, or refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from explainers.video.segment import Segment, read_segment, write_segment


def test_a_segment_is_read_back(tmp_path: Path) -> None:
    segment = Segment(header=b"head", packets=(b"\0" * 70_000, b"", b"p"))
    write_segment(tmp_path / "a.segment", segment)
    assert read_segment(tmp_path / "a.segment") == segment
    assert [path.name for path in tmp_path.iterdir()] == ["a.segment"]


@pytest.mark.parametrize("lost", [1, 3, 4, 8, 10])
def test_a_cut_file_is_refused(tmp_path: Path, lost: int) -> None:
    path = tmp_path / "a.segment"
    write_segment(path, Segment(header=b"head", packets=(b"one", b"two")))
    path.write_bytes(path.read_bytes()[:-lost])
    with pytest.raises(ValueError, match="middle of a packet"):
        read_segment(path)


def test_another_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.segment").write_bytes(b"something else")
    with pytest.raises(ValueError, match="no segment"):
        read_segment(tmp_path / "a.segment")
    (tmp_path / "a.segment").write_bytes(b"explainers segment 1\n\0\0\0\1h")
    with pytest.raises(ValueError, match="no frame"):
        read_segment(tmp_path / "a.segment")
