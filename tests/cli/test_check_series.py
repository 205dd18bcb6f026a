"""`explainers check` over a series: by its file, by its folder, by the folder of its lessons."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

ITEMS = Path(__file__).parents[2] / "items"


@pytest.fixture
def series(tmp_path: Path) -> Path:
    """Items and the series above, lessons in a folder of their own; the third lesson is not in the list."""
    for name in ("corner-block", "border-block"):
        shutil.copy(ITEMS / f"{name}.yaml", tmp_path)
    (tmp_path / "lessons").mkdir()
    (tmp_path / "series.yaml").write_text("series: quilts\nlessons: [lessons/one.yaml, lessons/two.yaml]\n")
    lesson(tmp_path, "one", "{show: ../border-block.yaml}")
    lesson(tmp_path, "two", "{show: ../corner-block.yaml, as: your-turn}")
    return tmp_path / "series.yaml"


def lesson(folder: Path, name: str, *parts: str, series: str = "series: ../series.yaml\n") -> None:
    shown = "".join(f"  - {part}\n" for part in parts)
    (folder / "lessons" / f"{name}.yaml").write_text(f"lesson: {name}\n{series}parts:\n{shown}")


def found_of(out: str) -> tuple[list[str], dict]:  # type: ignore[type-arg]
    *items, last = [json.loads(line) for line in out.splitlines()]
    return [item["item"] for item in items], last


@pytest.mark.parametrize("named", ["series.yaml", ".", "lessons"])
def test_a_series_is_found_however_it_is_named(run, series: Path, named: str) -> None:
    ran = run("check", series.parent / named, "--json")
    assert ran.code == 0, ran.err
    items, found = found_of(ran.out)
    assert sorted(items) == ["border-block", "corner-block"]
    assert (found["series"], found["errors"]) == ("quilts", [])
    assert [(one["lesson"], one["number"]) for one in found["lessons"]] == [("one", 1), ("two", 2)]


def test_difficulty_that_falls_is_told_with_both_items(run, series: Path) -> None:
    ran = run("check", series)
    assert ran.code == 0
    assert "Series quilts: two lessons, two items" in ran.out
    (line,) = (line for line in ran.out.splitlines() if "Difficulty" in line)
    assert "falls: corner-block in lesson two" in line and "after border-block in lesson one" in line
    series.write_text("series: quilts\nlessons: [lessons/two.yaml, lessons/one.yaml]\n")
    assert "Difficulty is in order: from corner-block" in run("check", series).out


def test_a_question_asked_again_is_told_and_one_that_is_solved_later_is_not(run, series: Path) -> None:
    lesson(series.parent, "one", "{show: ../corner-block.yaml, as: question}")
    lesson(series.parent, "two", "{show: ../corner-block.yaml, as: solution}")
    assert found_of(run("check", series, "--json").out)[1]["asked_twice"] == []
    lesson(series.parent, "two", "{show: ../corner-block.yaml, as: your-turn}")
    (twice,) = found_of(run("check", series, "--json").out)[1]["asked_twice"]
    assert (twice["item"], twice["lesson"], twice["earlier_lesson"]) == ("corner-block", "two", "one")
    assert "Used twice: corner-block in lesson two, shown already in lesson one." in run("check", series).out


def test_a_lesson_off_the_list_and_one_that_names_no_series_are_told(run, series: Path) -> None:
    lesson(series.parent, "three", "{show: ../corner-block.yaml}")
    lesson(series.parent, "two", "{show: ../corner-block.yaml}", series="items-from: ..\n")
    out = run("check", series.parent / "lessons").out
    assert "The lesson three names the series, but is not in its list of lessons" in out
    assert "The lesson two is in the list, but does not name the series" in out


def test_faults_of_a_series_and_of_its_lessons_are_told_where_they_stand(run, series: Path) -> None:
    series.write_text("series: quilts\nthem: dark\nlessons: [lessons/one.yaml]\n")
    ran = run("check", series)
    assert ran.code == 2 and f"{series}:2: them: " in ran.err
    series.write_text("series: quilts\nlessons: [lessons/one.yaml]\n")
    lesson(series.parent, "one", "{show: ../border-block.yaml, as: example}")
    ran = run("check", series, "--json")
    assert ran.code == 2 and "one.yaml:4: parts[0].as: " in ran.err
    assert json.loads(ran.out.splitlines()[-1])["errors"][0]["field"] == "parts[0].as"


def test_a_refused_item_does_not_stop_the_series(run, series: Path) -> None:
    path = series.parent / "corner-block.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("does: join", "does: glue"), encoding="utf-8")
    ran = run("check", series, "--json")
    assert ran.code == 2
    items, found = found_of(ran.out)
    assert sorted(items) == ["border-block", "corner-block"]
    assert [one["item"] for one in found["difficulty"]["items"]] == ["border-block"]


def test_a_folder_without_a_series_is_checked_as_ever(run, series: Path) -> None:
    series.unlink()
    lines = run("check", series.parent, "--json").out.splitlines()
    assert ["series" in json.loads(line) for line in lines] == [False, False]
