"""A series named to a command that makes something: its lessons are made; what is wrong with it is told once."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

ITEMS = Path(__file__).parents[2] / "items"


@pytest.fixture
def series(tmp_path: Path) -> Path:
    folder = tmp_path / "lessons"
    folder.mkdir()
    (folder / "series.yaml").write_text("series: quilts\nitems-from: ..\nlessons: [two.yaml, one.yaml]\n")
    for name, item in (("one", "border-block"), ("two", "corner-block")):
        shutil.copy(ITEMS / f"{item}.yaml", tmp_path)
        shown = f"parts:\n  - {{show: ../{item}.yaml, as: question}}\n"
        (folder / f"{name}.yaml").write_text(f"lesson: {name}\nseries: series.yaml\n{shown}")
    return folder / "series.yaml"


@pytest.mark.parametrize("command", [("deck",), ("build", "--only", "cues")])
def test_its_lessons_are_made_in_its_order(run, series: Path, tmp_path: Path, command: tuple[str, ...]) -> None:
    ran = run(*command, series, "--to", tmp_path / "out")
    assert (ran.code, ran.err) == (0, "")
    names = [Path(line).parent.name for line in ran.out.splitlines()]
    assert list(dict.fromkeys(names)) == ["01-two", "02-one"]


def test_each_of_its_lessons_gets_a_set_of_sheets(run, series: Path, tmp_path: Path) -> None:
    ran = run("sheets", series, "--only", "marking", "--to", tmp_path / "out")
    assert (ran.code, ran.err) == (0, "")
    assert [Path(line).name for line in ran.out.splitlines()] == ["01-two.marking.pdf", "02-one.marking.pdf"]


@pytest.mark.parametrize("command", [("cues",), ("build",), ("sheets",)])
@pytest.mark.parametrize("named", ["series.yaml", "."])
def test_a_fault_of_a_series_is_told_once(run, series: Path, tmp_path: Path, command, named: str) -> None:  # type: ignore[no-untyped-def]
    """By its own file; in a folder each lesson says what keeps it back."""
    series.write_text(series.read_text() + "pace: hasty\n")
    named_path = series.parent / named
    where = [series.parent / "one.yaml", series.parent / "two.yaml"] if command == ("sheets",) else [named_path]
    ran = run(*command, *where, "--to", tmp_path / "out")
    assert ran.code == 2
    assert ran.err.count("hasty") == 1
    assert not (tmp_path / "out").exists() or not any((tmp_path / "out").rglob("*.*"))
    if where != [series]:
        assert "series.yaml is refused, as told above" in ran.err


def test_check_tells_it_once_too(run, series: Path) -> None:
    series.write_text(series.read_text() + "pace: hasty\n")
    ran = run("check", series.parent)
    assert ran.code == 2 and ran.err.count("hasty") == 1


def test_a_series_without_a_lesson_says_so(run, tmp_path: Path) -> None:
    (tmp_path / "series.yaml").write_text("series: quilts\n")
    ran = run("cues", tmp_path / "series.yaml")
    assert ran.code == 2
    assert "lists no lesson" in ran.err and "To mend it: list the files of its lessons" in ran.err


@pytest.mark.parametrize("command", ["prompter", "fit"])
def test_what_is_for_one_lesson_asks_for_one(run, series: Path, tmp_path: Path, command: str) -> None:
    takes = [tmp_path] if command == "fit" else []
    ran = run(command, series, *takes)
    assert ran.code == 2 and "name the lesson's file" in ran.err
