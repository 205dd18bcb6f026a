"""Every kind of question can be taken out of the house, and what is left still builds lessons of the others."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

# The command line, as it is where the package of one kind was never installed.
COMMAND = """
import importlib.metadata as metadata
import sys

installed, gone = metadata.entry_points, sys.argv.pop(1)
metadata.entry_points = lambda **which: [entry for entry in installed(**which) if entry.name != gone]
from explainers.cli.main import main

main()
"""


@pytest.mark.parametrize(
    ("gone", "folder", "shown"),
    [("join-and-cut", "join_and_cut", "turning-round"), ("turned-outline", "turned_outline", "corner-block")],
)
def test_a_lesson_is_built_without_another_kind(gone: str, folder: str, shown: str, tmp_path: Path) -> None:
    house = tmp_path / "house"
    for package in ("explainers", "scenes"):
        shutil.copytree(ROOT / package, house / package, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.rmtree(house / "explainers" / "kinds" / folder)
    outputs = [word for output in ("cues", "deck") for word in ("--only", output)]
    words = ["build", str(ROOT / "items" / f"{shown}.yaml"), "--to", str(tmp_path / "out"), *outputs]
    done = subprocess.run(
        [sys.executable, "-c", COMMAND, gone, *words],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(house)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    made = {path.suffix for path in (tmp_path / "out").rglob("*") if path.is_file()}
    assert {".vtt", ".pptx"} <= made
