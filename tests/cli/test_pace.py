"""A pace is chosen by a lesson, by its series, or at the door, in this order of growing weight."""

from __future__ import annotations

import csv
import shutil
from pathlib import Path

import pytest

ITEMS = Path(__file__).parents[2] / "items"


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    """A lesson of one question, with a series that says nothing yet."""
    shutil.copy(ITEMS / "flag-block.yaml", tmp_path)
    (tmp_path / "series.yaml").write_text("series: short\n", encoding="utf-8")
    path = tmp_path / "one.yaml"
    path.write_text(
        "lesson: one\nseries: series.yaml\nparts:\n  - {show: flag-block.yaml, as: question}\n", encoding="utf-8"
    )
    return path


@pytest.fixture
def seconds(run, lesson: Path, tmp_path: Path):
    """The length of the lesson in seconds, as its cue sheet has it, and what was written."""

    def written(*options: str, name: str = "one.cues.csv") -> float:
        ran = run("cues", lesson, "--to", tmp_path / "out", *options)
        assert (ran.code, ran.err) == (0, "")
        with (tmp_path / "out" / name).open(encoding="utf-8-sig", newline="") as file:
            hours, minutes, rest = list(csv.DictReader(file))[-1]["end"].split(":")
        return int(hours) * 3600 + int(minutes) * 60 + float(rest)

    return written


def test_the_series_the_lesson_and_the_option_choose_in_turn(seconds, lesson: Path) -> None:
    school = seconds()
    series = lesson.with_name("series.yaml")
    series.write_text("series: short\npace: slow\n", encoding="utf-8")
    slow = seconds()
    assert slow > school
    lesson.write_text(lesson.read_text(encoding="utf-8") + "pace: adult\n", encoding="utf-8")
    adult = seconds()
    assert adult < school
    assert seconds("--pace", "school", name="one.pace-school.cues.csv") == school
    assert seconds("--pace", "adult") == adult  # its own: no other file


@pytest.mark.parametrize(("name", "line"), [("one.yaml", 5), ("series.yaml", 2)])
def test_a_pace_that_there_is_not_is_a_fault_of_its_file(run, lesson: Path, name: str, line: int) -> None:
    path = lesson.with_name(name)
    path.write_text(path.read_text(encoding="utf-8") + "pace: shcool\n", encoding="utf-8")
    ran = run("cues", lesson, "--to", lesson.with_name("out"))
    assert ran.code == 2 and not lesson.with_name("out").exists()
    assert f"{name}:{line}: pace: " in ran.err and "write school" in ran.err


@pytest.mark.parametrize("command", ["build", "clip", "cues", "deck"])
def test_a_pace_that_there_is_not_is_refused_at_the_door(run, lesson: Path, command: str) -> None:
    ran = run(command, lesson, "--to", lesson.with_name("out"), "--pace", "brisk")
    assert ran.code == 2 and not lesson.with_name("out").exists()
    assert ran.err.strip() == (
        "explainers: --pace brisk: there is no such pace. To mend it: write school, slow or adult"
    )


def test_another_pace_is_made_anew(run, lesson: Path) -> None:
    out = lesson.with_name("out")
    for pace, made in (("school", True), ("slow", True), ("slow", False)):
        ran = run("build", lesson, "--to", out, "--only", "cues", "--pace", pace)
        assert (ran.code, bool(ran.out)) == (0, made)
