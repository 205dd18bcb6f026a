"""A process killed while it edits, at moments drawn at random: what it had answered is there, and no half file."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

from test_sitting import CORNER

from explainers.intake.reader import scan_item
from explainers.table.sitting import Sitting

EDITING = Path(__file__).parent / "editing_fast.py"
ROOT = Path(__file__).parents[2]


def test_nothing_that_was_answered_is_lost(tmp_path: Path, cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(4, 30)):
        path = tmp_path / f"block-{seed}.yaml"
        path.write_text(CORNER, encoding="utf-8")
        answered = killed(path, seed)
        file = scan_item(path)
        assert not file.faults and file.item is not None, "the file is half, or was written unsound"
        sitting = Sitting(path)
        found = re.search(r"title: Edit (\d+)", sitting.text)
        assert found is not None and int(found[1]) >= answered, f"edit {answered} was answered, and is gone"
        sitting.close()


def killed(path: Path, seed: int) -> int:
    """Let a process edit for a while and kill it; the number of the last edit that it had answered."""
    process = subprocess.Popen(
        [sys.executable, str(EDITING), str(path), str(seed)],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert process.stdout is not None
    said = [process.stdout.readline()]
    time.sleep(Random(seed).uniform(0.0, 0.6))
    process.send_signal(signal.SIGKILL)
    said += process.stdout.readlines()
    process.wait(20)
    return max(int(line) for line in said if line.endswith("\n"))
