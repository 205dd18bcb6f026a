"""Every key of the lesson format, with its default; lessons that must be refused."""

from __future__ import annotations

from pathlib import Path

import pytest
from bad_files import GOOD_ITEM

from explainers.errors import ItemError, LessonError
from explainers.intake.reader import read_lesson
from explainers.item.model import LessonPart, Manner
from explainers.item.stops import Stop

GOOD_LESSON = """\
lesson: first-blocks
title: Joining and cutting blocks
language: en-US
series: ../series.yaml
opening: Two blocks today.
parts:
  - {show: corner-block.yaml, as: worked-example}
  - {show: border-block.yaml, as: your-turn, pause: 30}
closing: Well done.
words:
  corner-block.flag.turn: "Now give the flag
    half a turn."
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    inside = tmp_path / "lessons"
    inside.mkdir()
    (tmp_path / "series.yaml").write_text("series: blocks\ntheme: dark\n")
    for name in ("corner-block", "border-block"):
        (inside / f"{name}.yaml").write_text(GOOD_ITEM.replace("corner-block", name))
    return inside


def lesson_file(folder: Path, text: str) -> Path:
    path = folder / "lesson.yaml"
    path.write_text(text)
    return path


def test_every_key_is_read_as_written(folder: Path) -> None:
    lesson = read_lesson(lesson_file(folder, GOOD_LESSON))
    assert (lesson.name, lesson.title, lesson.language) == ("first-blocks", "Joining and cutting blocks", "en-US")
    assert lesson.parts == (
        LessonPart(show=folder / "corner-block.yaml", manner=Manner.WORKED_EXAMPLE),
        LessonPart(show=folder / "border-block.yaml", manner=Manner.YOUR_TURN, pause_s=30.0),
    )
    assert lesson.series is not None
    assert lesson.series.path.resolve() == folder.parent / "series.yaml"
    assert lesson.theme == "dark", "from the series"
    assert lesson.language == "en-US", "its own"
    assert (lesson.opening, lesson.closing) == ("Two blocks today.", "Well done.")
    assert lesson.words == (("corner-block.flag.turn", "Now give the flag half a turn."),)


def test_each_way_of_showing_an_item_is_read(folder: Path) -> None:
    for manner in Manner:
        lesson = read_lesson(
            lesson_file(folder, f"lesson: one\nparts: [{{show: corner-block.yaml, as: {manner.value}}}]")
        )
        assert [part.manner for part in lesson.parts] == [manner]


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("every-piece", (Stop("every-piece"),)),
        ("options", (Stop("options"),)),
        (
            "[flag.turn, flag.meet, outline, options]",
            (Stop("turn", "flag"), Stop("meet", "flag"), Stop("outline"), Stop("options")),
        ),
    ],
)
def test_stops_are_read_as_written(folder: Path, typed: str, read: tuple[Stop, ...]) -> None:
    lesson = read_lesson(lesson_file(folder, f"lesson: one\nparts: [{{show: corner-block.yaml, ask: {typed}}}]\n"))
    assert lesson.parts[0].asks == read


def test_what_is_left_out_takes_its_default(folder: Path) -> None:
    lesson = read_lesson(lesson_file(folder, "lesson: one\nparts: [{show: corner-block.yaml}]\n"))
    assert (lesson.title, lesson.language, lesson.series) == ("One", "en-GB", None)
    assert (lesson.opening, lesson.closing, lesson.words) == (None, None, ())
    assert lesson.parts[0].manner is Manner.WORKED_EXAMPLE
    assert lesson.parts[0].pause_s is None


BAD_LESSONS = [
    ("lesson: first-blocks", "lesson: First", 1, "lesson", "only lower-case letters"),
    ("lesson: first-blocks\n", "", 1, "lesson", "the key lesson is missing"),
    ("title: Joining", "titel: Joining", 2, "titel", 'no key called "titel"'),
    ("title: Joining", "theme: Joining", 2, "theme", "neither one of our themes nor a file"),
    ("language: en-US", "language: english", 3, "language", "en-US or de (draft, not yet read by a speaker) is due"),
    ("language: en-US", "language: fr", 3, "language", "en-US or de (draft, not yet read by a speaker) is due"),
    ("../series.yaml", "none.yaml", 4, "series", "there is no file none.yaml"),
    ("../series.yaml", "corner-block.yaml", 4, "series", "is not a series file"),
    ("opening: Two blocks today.", "opening: [a]", 5, "opening", "where a text is due"),
    ("opening: Two blocks today.", "opening:", 5, "opening", "nothing is written here"),
    ("as: worked-example", "as: example", 7, "parts[0].as", "where worked-example, your-turn, question"),
    ("as: worked-example", "as: yes", 7, "parts[0].as", "where worked-example, your-turn, question"),
    ("as: worked-example", "as: worked-example, pause: 5", 7, "parts[0].pause", "has no pause"),
    ("as: worked-example", "as: solution, pause: 5", 7, "parts[0].pause", "a solution has no pause"),
    ("as: worked-example", "as: question, ask: every-piece", 7, "parts[0].ask", "lays no pieces"),
    ("as: worked-example", "as: quick-check, ask: [options]", 7, "parts[0].ask", "a quick check lays no pieces"),
    ("as: worked-example", "ask: flag", 7, "parts[0].ask", "no place to stop and ask"),
    ("as: worked-example", "ask: [flag.join]", 7, "parts[0].ask[0]", "no place to stop and ask"),
    ("as: worked-example", "ask: [outline, outline]", 7, "parts[0].ask[1]", "in the list already"),
    ("as: worked-example", "ask: []", 7, "parts[0].ask", "at least 1"),
    ("as: worked-example", "like: worked-example", 7, "parts[0].like", "no key called"),
    ("show: corner-block.yaml", "show: corner.yaml", 7, "parts[0].show", "there is no file corner.yaml"),
    ("show: corner-block.yaml", "show: ''", 7, "parts[0].show", "nothing is written here"),
    ("show: corner-block.yaml", "show: ../series.yaml", 7, "parts[0].show", "series.yaml is a series, not an item"),
    ("show: corner-block.yaml", "show: lesson.yaml", 7, "parts[0].show", "lesson.yaml is a lesson, not an item"),
    ("show: corner-block.yaml, ", "", 7, "parts[0].show", "the key show is missing"),
    ("show: border-block.yaml", "show: ../lessons/corner-block.yaml", 8, "parts[1].show", "already shown by part"),
    ("pause: 30", "pause: 0", 8, "parts[1].pause", "out of range"),
    ("pause: 30", "pause: -5", 8, "parts[1].pause", "out of range"),
    ("pause: 30", "pause: 3600", 8, "parts[1].pause", "out of range"),
    ("pause: 30", "pause: 0:30", 8, "parts[1].pause", "is not a number"),
    ("pause: 30", "pause: 30 s", 8, "parts[1].pause", "is not a number"),
    ("  corner-block.flag.turn:", "  turn:", 11, "words.turn", "not the id of a step"),
    ("  corner-block.flag.turn:", "  Corner.Flag.turn:", 11, "words.Corner.Flag.turn", "not the id of a step"),
    ("  corner-block.flag.turn:", "  a.b.turn: x\n  a.b.turn:", 12, "words.a.b.turn", "on line 11 and on line 12"),
]  # fmt: skip


@pytest.mark.parametrize(("old", "new", "line", "field", "message"), BAD_LESSONS)
def test_a_bad_lesson_is_refused_where_it_is_wrong(
    folder: Path, old: str, new: str, line: int, field: str, message: str
) -> None:
    assert GOOD_LESSON.count(old) == 1
    with pytest.raises(LessonError) as caught:
        read_lesson(lesson_file(folder, GOOD_LESSON.replace(old, new)))
    assert [(fault.line, fault.field) for fault in caught.value.faults] == [(line, field)]
    assert message in caught.value.faults[0].message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("lesson: a\nparts: []\n", "at least 1"),
        ("lesson: a\n", "parts is missing"),
        ("lesson: a\nparts: {show: corner-block.yaml}\n", "where a list of parts is due"),
        ("lesson: a\nparts: [corner-block.yaml]\n", "where keys with values are due"),
        ("lesson: a\nparts: [{show: corner-block.yaml}]\nwords: [a]\n", "step ids with sentences"),
        ("lesson: a\nparts: [{show: corner-block.yaml}]\nwords: {a.b: }\n", "nothing is written here"),
        (f"lesson: a\nparts: [{{show: corner-block.yaml}}]\nwords: {{a.b: {'x' * 1001}}}\n", "at most 1000"),
        (GOOD_ITEM, "this is an item, not a lesson"),
        ("series: a\n", "this is a series, not a lesson"),
        ("", "the file is empty"),
    ],
)
def test_a_lesson_of_another_shape_is_refused(folder: Path, text: str, message: str) -> None:
    with pytest.raises(ItemError) as caught:
        read_lesson(lesson_file(folder, text))
    assert any(message in fault.message for fault in caught.value.faults)


def test_all_faults_of_a_lesson_come_in_one_run(folder: Path) -> None:
    text = GOOD_LESSON.replace("en-US", "fr").replace("corner-block.yaml", "none.yaml").replace("pause: 30", "pause: x")
    with pytest.raises(LessonError) as caught:
        read_lesson(lesson_file(folder, text))
    assert [fault.line for fault in caught.value.faults] == [3, 7, 8]


@pytest.fixture
def elsewhere(tmp_path: Path) -> Path:
    """A lesson in one folder, an item in another."""
    for name in ("lesson", "blocks", "series"):
        (tmp_path / name).mkdir()
    (tmp_path / "blocks" / "corner-block.yaml").write_text(GOOD_ITEM)
    return tmp_path / "lesson" / "one.yaml"


SHOWN = "parts: [{show: ../blocks/corner-block.yaml}]\n"


def test_an_item_of_another_folder_is_refused_with_the_line_that_allows_it(elsewhere: Path) -> None:
    item = elsewhere.parents[1] / "blocks" / "corner-block.yaml"
    (elsewhere.parent / "linked.yaml").symlink_to(item)
    for shown in ("../blocks/corner-block.yaml", str(item), "linked.yaml"):
        elsewhere.write_text(f"lesson: one\nparts: [{{show: {shown}}}]\n")
        with pytest.raises(LessonError, match="neither in the lesson's folder") as caught:
            read_lesson(elsewhere)
        (fault,) = caught.value.faults
        assert (fault.line, fault.field) == (2, "parts[0].show") and "items-from:" in fault.fix
        if shown.startswith(".."):
            elsewhere.write_text("lesson: one\nitems-from: ../blocks\n" + SHOWN)
            assert "items-from: ../blocks to" in fault.fix and read_lesson(elsewhere).parts


def test_folders_are_named_by_the_lesson_or_its_series_and_lie_below_them(elsewhere: Path) -> None:
    series = elsewhere.parents[1] / "series" / "series.yaml"
    for head, its_series in (
        ("items-from: [., ../blocks]\n", None),
        ("series: ../series/series.yaml\n", "series: s\nitems-from: ../blocks\n"),
        ("series: ../series.yaml\n", "series: s\n"),  # the item lies below the folder of the series
    ):
        if its_series:
            (series if "series/" in head else elsewhere.parents[1] / "series.yaml").write_text(its_series)
        elsewhere.write_text(f"lesson: one\n{head}{SHOWN}")
        assert read_lesson(elsewhere).parts[0].show.name == "corner-block.yaml"
    for value, message in (
        ("../none", "no folder ../none"),
        ("one.yaml", "no folder one.yaml"),
        ("[]", "at least 1"),
    ):
        elsewhere.write_text(f"lesson: one\nitems-from: {value}\n{SHOWN}")
        with pytest.raises(LessonError, match=message):
            read_lesson(elsewhere)
