"""`explainers fmt`: files rewritten whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from explainers.intake.reader import read_item

ITEMS = Path(__file__).parents[2] / "items"
UNTIDY = "options: {seed: 7, make: 4}   # four wrong ones\n"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """A good item with its options first."""
    path = tmp_path / "corner-block.yaml"
    text = (ITEMS / "corner-block.yaml").read_text(encoding="utf-8")
    path.write_text(UNTIDY + text.split("options:")[0], encoding="utf-8")
    return path


def test_it_rewrites_and_then_has_nothing_to_do(run, file: Path) -> None:
    before = read_item(file)
    os.chmod(file, 0o640)
    ran = run("fmt", file)
    assert (ran.code, ran.out, ran.err) == (0, f"{file}\n", "")
    assert read_item(file) == before
    assert file.read_text(encoding="utf-8").endswith("options: {make: 4, seed: 7}   # four wrong ones\n")
    assert file.stat().st_mode & 0o777 == 0o640
    again = run("fmt", file)
    assert (again.code, again.out) == (0, "")


@pytest.mark.parametrize("tabbed", ["title: The\tcorner\tblock", "title:\tThe corner block\t# 😀\ttitle"])
def test_a_tab_in_a_text_that_check_accepts_is_accepted(run, file: Path, tabbed: str) -> None:
    file.write_text(file.read_text(encoding="utf-8").replace("title: The corner block", tabbed), encoding="utf-8")
    assert run("check", file).code == 0
    before = read_item(file)
    ran = run("fmt", file)
    assert (ran.code, ran.out, ran.err) == (0, f"{file}\n", "")
    assert read_item(file) == before
    assert "title: The corner block" in file.read_text(encoding="utf-8")
    assert run("fmt", "--check", file).code == 0


def test_checking_names_the_file_and_leaves_it(run, file: Path) -> None:
    before = file.read_bytes()
    ran = run("fmt", "--check", file)
    assert (ran.code, ran.out) == (1, f"{file}\n")
    assert file.read_bytes() == before
    run("fmt", file)
    assert run("fmt", "--check", file).code == 0


def test_a_file_with_faults_is_refused_and_the_others_are_written(run, file: Path, refused: Path) -> None:
    before = refused.read_bytes()
    ran = run("fmt", refused, file)
    assert ran.code == 2
    assert ran.out == f"{file}\n"
    assert [line.split(":")[1] for line in ran.err.splitlines()] == ["5", "8", "15"]
    assert refused.read_bytes() == before
    assert sorted(path.name for path in file.parent.iterdir()) == ["corner-block.yaml", "torn-block.yaml"]


def test_a_folder_means_its_items_lessons_and_series(run, file: Path) -> None:
    folder = file.parent
    (folder / "lesson.yaml").write_text("parts: [{show: corner-block.yaml}]\nlesson: a\n", encoding="utf-8")
    (folder / "series.yaml").write_text("title: A\nseries: a\n", encoding="utf-8")
    (folder / "other.yaml").write_text("colours: {b: 1, a: 2}\n", encoding="utf-8")
    ran = run("fmt", folder)
    assert ran.code == 0
    assert [Path(line).name for line in ran.out.splitlines()] == ["corner-block.yaml", "lesson.yaml", "series.yaml"]
    assert (folder / "lesson.yaml").read_text(encoding="utf-8").startswith("lesson: a\n")
    assert (folder / "other.yaml").read_text(encoding="utf-8") == "colours: {b: 1, a: 2}\n"


@pytest.mark.parametrize(("text", "said"), [("a: 1\n", "no item, no lesson, no series"), (None, "no such file")])
def test_what_cannot_be_rewritten_is_refused(run, tmp_path: Path, text: str | None, said: str) -> None:
    path = tmp_path / "some.yaml"
    if text is not None:
        path.write_text(text, encoding="utf-8")
    ran = run("fmt", path)
    assert ran.code == 2
    assert said in ran.err and ran.err.count("\n") == 1


def test_a_link_stays_a_link(run, file: Path) -> None:
    link = file.with_name("link.yaml")
    link.symlink_to(file.name)
    assert run("fmt", link).code == 0
    assert link.is_symlink() and file.read_text(encoding="utf-8").startswith("# A corner")
