"""`explainers check` over a lesson's file: the items that it shows, and what is wrong with the lesson itself."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

ITEMS = Path(__file__).parents[2] / "items"


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    for name in ("corner-block", "flag-block"):
        shutil.copy(ITEMS / f"{name}.yaml", tmp_path)
    path = tmp_path / "lesson.yaml"
    path.write_text("lesson: lesson\nparts:\n  - {show: corner-block.yaml}\n  - {show: flag-block.yaml}\n")
    return path


def test_the_items_that_a_lesson_shows_are_checked(run, lesson: Path) -> None:
    ran = run("check", lesson)
    assert ran.code == 0
    assert "corner-block" in ran.out and "flag-block" in ran.out
    assert "refused" not in ran.out


def test_an_item_that_is_named_too_is_checked_once(run, lesson: Path) -> None:
    ran = run("check", "--json", lesson.with_name("flag-block.yaml"), lesson)
    assert [json.loads(line)["item"] for line in ran.out.splitlines()] == ["flag-block", "corner-block"]


def test_a_stop_at_a_piece_that_is_not_there_is_a_fault_of_the_lesson(run, lesson: Path) -> None:
    text = lesson.read_text().replace("{show: corner-block.yaml}", "{show: corner-block.yaml, ask: [nobody.turn]}")
    lesson.write_text(text)
    ran = run("check", lesson)
    assert ran.code == 2
    assert f"{lesson}:3: parts[0].ask" in ran.err and "To mend it: " in ran.err
    assert "corner-block" in ran.out
    refused = json.loads(run("check", "--json", lesson).out.splitlines()[-1])
    assert refused["lesson"] == "lesson" and refused["errors"][0]["line"] == 3


def test_a_fault_of_an_item_is_told_once(run, lesson: Path) -> None:
    item = lesson.with_name("flag-block.yaml")
    item.write_text(item.read_text().replace("does: join", "does: fold"))
    ran = run("check", lesson)
    assert ran.code == 2
    assert ran.err.count("does: ") == 1 and str(item) in ran.err


def test_a_lesson_that_shows_itself_is_refused(run, lesson: Path) -> None:
    lesson.write_text("lesson: lesson\nparts:\n  - {show: lesson.yaml}\n")
    ran = run("check", lesson)
    assert ran.code == 2
    assert f"{lesson}:3: parts[0].show" in ran.err


@pytest.mark.parametrize("command", ["check", "cues"])
def test_a_link_to_itself_is_no_failure_of_the_program(run, tmp_path: Path, command: str) -> None:
    link = tmp_path / "loop.yaml"
    link.symlink_to(link.name)
    ran = run(command, link)
    assert ran.code == 2
    assert "program itself" not in ran.err and str(link) in ran.err and "To mend it: " in ran.err


def test_a_long_lesson_is_told_by_check_and_by_build(run, lesson: Path, tmp_path: Path) -> None:
    for name in ("comet-block", "twin-block", "kite-block", "border-block"):
        shutil.copy(ITEMS / f"{name}.yaml", tmp_path)
    shown = "".join(
        f"  - {{show: {name}-block.yaml, ask: [every-piece]}}\n" for name in ("comet", "twin", "flag", "kite", "border")
    )
    lesson.write_text(f"lesson: lesson\nparts:\n{shown}")
    checked = run("check", lesson)
    assert checked.code == 0
    built = run("build", lesson, "--only", "cues", "--to", tmp_path / "out")
    assert built.code == 0
    for ran in (checked, built):
        (told,) = (line for line in ran.err.splitlines() if "minutes long" in line)
        assert told.startswith(f"{lesson}: warning: parts: this lesson is ")
        assert int(told.split(" is ")[1].split()[0]) > 10
    lesson.write_text(f"lesson: lesson\nparts:\n{shown.splitlines()[2]}\n")
    assert "minutes long" not in run("check", lesson).err
