"""Which files a command means by the names that it is given."""

from __future__ import annotations

from pathlib import Path

import pytest
from bad_files import GOOD_ITEM

from explainers.intake.reader import item_files, kind_of_file, lesson_or_item_files


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text in {
        "b.yaml": GOOD_ITEM,
        "a.yaml": "title: An item\nitem: a\n",
        "lesson.yaml": "lesson: x\nseries: series.yaml\nparts: []\n",
        "series.yaml": "series: x\n",
        "broken.yaml": "[",
        "notes.txt": "item: no\n",
        "old.yml": "item: no\n",
        ".hidden.yaml": "item: no\n",
    }.items():
        (tmp_path / name).write_text(text)
    (tmp_path / "deeper.yaml").mkdir()
    (tmp_path / "deeper.yaml" / "c.yaml").write_text(GOOD_ITEM)
    return tmp_path


def test_a_folder_means_its_items_sorted(folder: Path) -> None:
    assert [path.name for path in item_files([folder])] == ["a.yaml", "b.yaml", "broken.yaml"]


def test_lessons_are_kept_where_lessons_are_meant(folder: Path) -> None:
    names = [path.name for path in lesson_or_item_files([folder])]
    assert names == ["a.yaml", "b.yaml", "broken.yaml", "lesson.yaml"]


def test_a_file_given_by_name_is_always_kept(folder: Path) -> None:
    given = [folder / name for name in ("series.yaml", "none.yaml", "old.yml", "lesson.yaml", "a" * 5_000, "a\0b")]
    assert item_files(given) == given


def test_an_empty_folder_means_nothing(tmp_path: Path) -> None:
    assert item_files([tmp_path]) == []


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        (GOOD_ITEM, "item"),
        ("title: a\nbase: {corners: []}\nitem: a\n", "item"),
        ("titel: a\nbase: {item: x}\noptions: []\n", "item"),
        ("titel: a\noutline: {item: x}\nkind: some\n", "item"),
        ("base: {item: x}\npieces: []\n", None),
        ("title: {lesson: x}\nitem: a\n", "item"),
        ("lesson: a\nparts: []\n", "lesson"),
        ("series: s.yaml\nlesson: a\n", "lesson"),
        ("title: b\nparts: []\nseries: s.yaml\n", "lesson"),
        ("series: a\n", "series"),
        ("series: a\nopening: b\n", "series"),
        ("theme: a\n", None),
        ("", None),
        ("- item: a\n", None),
        ("[", None),
        ("{", "item"),
        ("lesson: a\nparts: [\n", "lesson"),
        ("a: &a [*a]\nitem: a\n", "item"),
        ("? [lesson]\n: item\n? {item: a}\n: lesson\nseries: x\n", "series"),
    ],
)
def test_a_file_is_told_by_its_top_level_keys(tmp_path: Path, text: str, kind: str | None) -> None:
    path = tmp_path / "some.yaml"
    path.write_text(text)
    assert kind_of_file(path) == kind


def test_a_file_that_cannot_be_read_counts_as_an_item(tmp_path: Path) -> None:
    assert kind_of_file(tmp_path / "none.yaml") == "item"
    (tmp_path / "latin.yaml").write_bytes("title: é".encode("latin-1"))
    assert kind_of_file(tmp_path / "latin.yaml") == "item"
