"""Water through every room: a lesson file in, a deck, captions, a cue sheet out, by the commands a teacher types."""

from __future__ import annotations

import csv
import shutil
from pathlib import Path

import pytest
from pptx import Presentation

LESSON = """\
lesson: two-blocks
title: Two blocks
parts:
  - {show: pocket-block.yaml, as: worked-example}
  - {show: tab-block.yaml, as: your-turn, pause: 20}
"""

TAB = """\
item: tab-block
title: The tab block
base:
  corners: [[0, 0], [3, 0], [3, 2], [0, 2]]
pieces:
  - piece: tab
    does: join
    corners: [[0, 0], [1, 0], [0, 2]]
    turned: 30
    side: [[0, 0], [1, 0]]
    meets: [[0, 2], [1, 2]]
options:
  - {outline: result, turned: 100}
  - {outline: result, slip: flipped}
  - {corners: [[0, 0], [3, 0], [3, 2], [2, 2], [1, 4], [1, 2], [0, 2]], turned: -80}
"""


@pytest.fixture
def lesson(sound: Path, tmp_path: Path) -> Path:
    shutil.copy(sound, tmp_path)
    (tmp_path / "tab-block.yaml").write_text(TAB, encoding="utf-8")
    path = tmp_path / "two-blocks.yaml"
    path.write_text(LESSON, encoding="utf-8")
    return path


def test_a_lesson_becomes_a_deck_and_a_cue_sheet_of_the_same_steps(run, lesson: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    ran = run("build", lesson, "--to", out, "--only", "deck", "--only", "cues")
    assert (ran.code, ran.err) == (0, "")
    lines = dict(line.split(": ", 1) for line in ran.out.splitlines())
    assert list(lines) == ["deck", "cues"]
    assert all(line.startswith(str(out / "two-blocks")) for line in lines.values())
    made = [out / "two-blocks" / Path(name).name for line in lines.values() for name in line.split(", ")]
    assert sorted(path.suffix for path in made) == [".csv", ".pptx", ".srt", ".vtt", ".vtt", ".vtt"]
    assert all(path.stat().st_size > 0 for path in made)

    sheet = next(path for path in made if path.suffix == ".csv")
    with sheet.open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.reader(file))
    steps = list(dict.fromkeys(row[1] for row in rows[1:]))
    assert any(step.startswith("pocket-block.pocket.turn") for step in steps)
    assert any(step.startswith("tab-block.") for step in steps)
    deck = Presentation(str(next(path for path in made if path.suffix == ".pptx")))
    # The pause to think says nothing, so it has no row; a card before each question has a slide alone.
    assert len(deck.slides) == len(steps) + 3

    again = run("build", lesson, "--to", out, "--only", "deck", "--only", "cues")
    assert (again.code, again.out) == (0, "")
    assert "nothing to do" in again.err


def test_a_single_item_is_a_lesson_of_one_worked_example(run, sound: Path, tmp_path: Path) -> None:
    ran = run("cues", sound, "--to", tmp_path / "out")
    assert ran.code == 0
    assert {Path(line).name.split(".")[0] for line in ran.out.splitlines()} == {"pocket-block"}
