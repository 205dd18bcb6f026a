"""A scratch voice without room for what it writes meanwhile: told once, with the folder, and no step blamed."""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

import pytest
from storyboard.sample_board import board

from explainers.errors import RecordingError
from explainers.fitting.scratch import scratch_takes

FAILS = [sys.executable, "-c", "import sys; sys.exit('no room')"]


def told(lesson: Path) -> str:
    with pytest.raises(RecordingError) as caught:
        scratch_takes(board().steps, "en-GB", FAILS, lesson)
    (fault,) = caught.value.faults
    return str(fault)


def test_a_full_temporary_folder_is_named_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    assert "the command failed (exit code 1: no room)" in told(tmp_path / "one.yaml")
    usage = shutil.disk_usage(tmp_path)._replace(free=0)
    monkeypatch.setattr(shutil, "disk_usage", lambda folder: usage)
    said = told(tmp_path / "one.yaml")
    assert f"the temporary folder {tmp_path} is full. To mend it: make room there" in said


def test_a_temporary_folder_that_is_gone_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "none"))
    assert "no temporary folder can be used (No such file or directory). To mend it:" in told(tmp_path / "one.yaml")
