"""Every key of the series format, what a lesson takes from it, series that must be refused."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest
from bad_files import GOOD_ITEM

from explainers.errors import LessonError
from explainers.intake.reader import read_lesson, read_series
from explainers.item.model import Series, Shared
from explainers.item.series_reader import SERIES
from explainers.item.shared_reader import SHARED_FIELDS, SHARED_NAMES

GOOD_SERIES = """\
series: quilt-blocks
title: Quilt blocks
lessons: [lessons/one.yaml, lessons/two.yaml]
language: en-US
theme: club.toml
opening: Welcome back.
closing: See you next week.
card: [Patchwork Club, Autumn term]
template: club.pptx
voice: {speaker: Ada, pace: 120}
credit: Made by Ada for the Patchwork Club
licence: CC BY 4.0
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "club.toml").write_text('ink = "#000000"\n')
    (tmp_path / "club.pptx").write_bytes(b"PK\x03\x04 and so on")
    (tmp_path / "lessons").mkdir()
    (tmp_path / "lessons" / "corner-block.yaml").write_text(GOOD_ITEM)
    for name in ("one", "two", "three"):
        write_lesson(tmp_path, name)
    (tmp_path / "series.yaml").write_text(GOOD_SERIES)
    return tmp_path


def write_lesson(folder: Path, name: str, more: str = "") -> Path:
    path = folder / "lessons" / f"{name}.yaml"
    path.write_text(f"lesson: {name}\nseries: ../series.yaml\n{more}parts: [{{show: corner-block.yaml}}]\n")
    return path


def test_every_key_is_read_as_written(folder: Path) -> None:
    assert read_series(folder / "series.yaml") == Series(
        name="quilt-blocks",
        path=folder / "series.yaml",
        title="Quilt blocks",
        lessons=(folder / "lessons" / "one.yaml", folder / "lessons" / "two.yaml"),
        language="en-US",
        theme=folder / "club.toml",
        opening="Welcome back.",
        closing="See you next week.",
        card=("Patchwork Club", "Autumn term"),
        template=folder / "club.pptx",
        voice=(("speaker", "Ada"), ("pace", "120")),
        credit="Made by Ada for the Patchwork Club",
        licence="CC BY 4.0",
    )


def test_every_shared_field_has_a_key_of_its_name() -> None:
    # The command is a part of what stands under voice:
    assert {field.name for field in dataclasses.fields(Shared)} - {"voice_command"} == set(SHARED_NAMES)
    assert {field.key for field in SHARED_FIELDS} < set(SERIES.keys)


def test_a_name_alone_is_a_series(folder: Path) -> None:
    (folder / "series.yaml").write_text("series: quilt-blocks\n")
    series = read_series(folder / "series.yaml")
    assert (series.title, series.language, series.lessons) == ("Quilt blocks", "en-GB", ())
    assert series == Series(name="quilt-blocks", path=folder / "series.yaml", title="Quilt blocks")


def test_a_lesson_takes_from_its_series_what_it_does_not_say_itself(folder: Path) -> None:
    series = read_series(folder / "series.yaml")
    plain = read_lesson(folder / "lessons" / "two.yaml")
    assert all(getattr(plain, key) == getattr(series, key) for key in SHARED_NAMES if key not in ("theme", "template"))
    assert isinstance(plain.theme, Path) and plain.theme.resolve() == folder / "club.toml"
    own = read_lesson(write_lesson(folder, "two", "theme: print\nopening: Hello.\ncredit: Bo\nlanguage: en-GB\n"))
    assert (own.theme, own.opening, own.credit, own.language) == ("print", "Hello.", "Bo", "en-GB")
    assert (own.closing, own.licence) == (series.closing, series.licence)


def test_lessons_are_numbered_in_the_order_of_the_list(folder: Path) -> None:
    read = {name: read_lesson(folder / "lessons" / f"{name}.yaml") for name in ("one", "two", "three")}
    assert {name: lesson.number for name, lesson in read.items()} == {"one": 1, "two": 2, "three": None}
    assert [lesson.stem for lesson in read.values()] == ["01-one", "02-two", "three"]


def test_names_of_files_sort_with_any_number_of_lessons(folder: Path) -> None:
    lesson = read_lesson(folder / "lessons" / "two.yaml")
    assert lesson.series is not None
    many = dataclasses.replace(lesson.series, lessons=tuple(Path(f"{n}.yaml") for n in range(120)))
    stems = [dataclasses.replace(lesson, series=many, number=n).stem for n in range(1, 121)]
    assert sorted(stems) == stems


def test_all_that_decides_how_a_lesson_looks_is_among_its_files(folder: Path) -> None:
    lesson = read_lesson(folder / "lessons" / "one.yaml")
    names = [path.name for path in lesson.files]
    assert names == ["corner-block.yaml", "series.yaml", "club.toml", "club.pptx"]


BAD_SERIES = [
    ("series: quilt-blocks", "series: Quilt Blocks", 1, "series", "only lower-case letters"),
    ("title: Quilt blocks", "titles: Quilt blocks", 2, "titles", 'no key called "titles"'),
    ("lessons/one.yaml", "lessons/none.yaml", 3, "lessons[0]", "there is no file lessons/none.yaml beside the series"),
    ("lessons/one.yaml", "lessons/corner-block.yaml", 3, "lessons[0]", "corner-block.yaml is an item, not a lesson"),
    ("lessons/one.yaml", "lessons/two.yaml", 3, "lessons[1]", "is lesson number 1 already"),
    ("[lessons/one.yaml, lessons/two.yaml]", "lessons/one.yaml", 3, "lessons", "where a list of lessons is due"),
    ("language: en-US", "language: fr", 4, "language", "where en-GB, en-US or de (draft"),
    ("theme: club.toml", "theme: clubs.toml", 5, "theme", "neither one of our themes nor a file"),
    ("theme: club.toml", "theme: [dark]", 5, "theme", "where a text is due"),
    ("opening: Welcome back.", "opening:", 6, "opening", "nothing is written here"),
    ("[Patchwork Club, Autumn term]", "[a, b, c, d]", 8, "card", "at most 3"),
    ("[Patchwork Club, Autumn term]", "[[a]]", 8, "card[0]", "where a text is due"),
    ("template: club.pptx", "template: deck.pptx", 9, "template", "there is no file deck.pptx"),
    ("template: club.pptx", "template: club.toml", 9, "template", "is not a slide file"),
    ("{speaker: Ada, pace: 120}", "Ada", 10, "voice", "keys with values are due"),
    ("{speaker: Ada, pace: 120}", "{speaker: [Ada]}", 10, "voice.speaker", "where a text is due"),
    ("licence: CC BY 4.0", "license: CC BY 4.0", 12, "license", 'no key called "license"'),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "line", "field", "message"), BAD_SERIES)
def test_a_bad_series_is_refused_where_it_is_wrong_by_itself_and_by_its_lessons(
    folder: Path, old: str, new: str, line: int, field: str, message: str
) -> None:
    assert GOOD_SERIES.count(old) == 1
    path = folder / "series.yaml"
    path.write_text(GOOD_SERIES.replace(old, new))
    with pytest.raises(LessonError) as caught:
        read_series(path)
    assert [(fault.line, fault.field) for fault in caught.value.faults] == [(line, field)]
    assert message in caught.value.faults[0].message
    with pytest.raises(LessonError) as through:
        read_lesson(folder / "lessons" / "two.yaml")
    (fault,) = through.value.faults
    assert Path(fault.file).resolve() == path
    assert (fault.line, fault.field, fault.message) == (line, field, caught.value.faults[0].message)


def test_faults_of_a_lesson_and_of_its_series_come_in_one_run(folder: Path) -> None:
    (folder / "series.yaml").write_text(GOOD_SERIES.replace("theme: club.toml", "theme: drak"))
    path = write_lesson(folder, "two", "theme: prnt\n")
    with pytest.raises(LessonError) as caught:
        read_lesson(path)
    found = [(Path(fault.file).name, fault.line, fault.fix) for fault in caught.value.faults]
    assert sorted(found) == [("series.yaml", 5, "write dark"), ("two.yaml", 3, "write print")]


def test_a_series_that_is_no_yaml_is_told_by_its_own_line(folder: Path) -> None:
    (folder / "series.yaml").write_text("series: quilt-blocks\ntitle: [\n")
    with pytest.raises(LessonError) as caught:
        read_lesson(folder / "lessons" / "two.yaml")
    assert {Path(fault.file).name for fault in caught.value.faults} == {"series.yaml"}


@pytest.mark.parametrize(("text", "message"), [(GOOD_ITEM, "this is an item"), ("lesson: a\nparts: []\n", "a lesson")])
def test_another_kind_of_file_is_no_series(folder: Path, text: str, message: str) -> None:
    (folder / "series.yaml").write_text(text)
    with pytest.raises(LessonError, match=message):
        read_series(folder / "series.yaml")
