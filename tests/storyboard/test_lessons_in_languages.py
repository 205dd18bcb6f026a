"""The demo lessons in every language: told alike, marked where a draft, and easy to read in English."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from oracles.readability import grade, syllables, words_of

from explainers.choice.model import Solution
from explainers.figure.legibility import overlaps, too_small
from explainers.figure.model import Figure, Label
from explainers.intake.reader import read_item, read_lesson
from explainers.item.model import Lesson, Manner
from explainers.kinds.registry import solve
from explainers.lesson.planner import plan_item, plan_lesson
from explainers.sentences.writers import draft_line
from explainers.storyboard.model import Storyboard
from explainers.storyboard.pacing import pace
from explainers.words.catalogue import languages
from explainers.words.catalogue_update import american
from explainers.words.messages import speaking

ITEMS = Path(__file__).parents[2] / "items"
LESSONS = tuple(
    path.stem for path in sorted(ITEMS.glob("*.yaml")) if re.search(r"^lesson:", path.read_text(encoding="utf-8"), re.M)
)
TAGS = tuple(languages())
MOST_GRADE = 5.0


@cache
def _solution(path: Path) -> Solution:
    return solve(read_item(path))


@cache
def _lesson(name: str) -> Lesson:
    return read_lesson(ITEMS / f"{name}.yaml")


@cache
def board_of(name: str, tag: str) -> Storyboard:
    """The lesson planned in a language, whatever its file says."""
    lesson = replace(_lesson(name), language=tag)
    return plan_lesson(lesson, [_solution(part.show) for part in lesson.parts])


def texts_of(board: Storyboard) -> Iterator[str]:
    """Everything in it that is read or heard and is not the teacher's own."""
    for step in board.steps:
        yield from (step.chapter, step.heading, step.note)
        if not step.teachers_own:
            yield from step.narration
        for figure in step.stills:
            yield from _in(figure)
    yield from board.imprint.about


def _in(figure: Figure) -> Iterator[str]:
    yield figure.alt
    for entry in figure.entries:
        yield entry.alt
        if isinstance(entry, Label):
            yield entry.text


@pytest.mark.parametrize("name", LESSONS)
def test_every_language_tells_the_same_steps(name: str) -> None:
    british = board_of(name, "en-GB")
    for tag in TAGS:
        board = board_of(name, tag)
        assert board.language == tag
        assert [step.id for step in board.steps] == [step.id for step in british.steps]
        for step, same in zip(board.steps, british.steps, strict=True):
            assert len(step.narration) == len(same.narration), step.id
            assert len(step.stills) == len(same.stills), step.id


@pytest.mark.parametrize("name", LESSONS)
def test_american_is_british_in_another_spelling(name: str) -> None:
    british, other = ([*texts_of(board_of(name, tag))] for tag in ("en-GB", "en-US"))
    assert [american(text).replace(",", "") for text in british] == [text.replace(",", "") for text in other]
    assert "counterclockwise" in " ".join(other)
    assert "anticlockwise" not in " ".join(other)


@pytest.mark.parametrize("name", LESSONS)
def test_a_draft_says_so_on_its_first_card_its_poster_and_in_print(name: str) -> None:
    for tag in TAGS:
        board = board_of(name, tag)
        line = draft_line(tag)
        assert board.imprint.draft == line
        assert board.poster is not None
        for figure in (board.steps[0].picture, board.poster):
            assert any(isinstance(entry, Label) and entry.text == line for entry in figure.entries) == bool(line)
            assert ("draft" in figure.alt) == bool(line)


@pytest.mark.parametrize("tag", TAGS)
def test_captions_of_every_language_keep_to_the_profile(tag: str) -> None:
    for name in LESSONS:
        for cue in pace(board_of(name, tag)).cues:
            assert len(cue.lines) <= 2, cue
            # A compound of German may be longer than any word that a line was made for, but stands alone then.
            assert all(len(line) <= 37 or " " not in line for line in cue.lines), cue
            assert 1.5 - 1e-9 <= cue.end_s - cue.start_s <= 7.0 + 1e-9, cue


@pytest.mark.parametrize("tag", TAGS)
@pytest.mark.parametrize("name", LESSONS)
def test_the_words_of_every_language_have_room_in_the_pictures(name: str, tag: str) -> None:
    for step in board_of(name, tag).steps:
        for figure in step.stills:
            assert overlaps(figure) == too_small(figure) == [], step.id


def test_an_item_alone_is_told_in_the_language_that_is_spoken() -> None:
    solution = _solution(ITEMS / "corner-block.yaml")
    assert plan_item(solution).language == "en-GB"
    with speaking("de"):
        board = plan_item(solution)
    assert board.language == "de"
    assert board.steps[-1].heading == "Rechtzeitig aufhören zu drehen"
    assert "135° gegen den Uhrzeigersinn" in {text for step in board.steps for text in _in(step.picture)}


@pytest.mark.parametrize("tag", ["en-GB", "en-US"])
@pytest.mark.parametrize("name", LESSONS)
def test_whole_lessons_are_easy_to_read(name: str, tag: str) -> None:
    words = " ".join(sentence for step in board_of(name, tag).steps for sentence in step.narration)
    assert grade(words) <= MOST_GRADE, f"{name}: grade {grade(words):.1f}"


@pytest.mark.parametrize("manner", list(Manner))
def test_no_manner_of_showing_an_item_is_harder_to_read(manner: Manner) -> None:
    lesson = _lesson(LESSONS[0])
    part = replace(lesson.parts[0], manner=manner, asks=())
    board = plan_lesson(replace(lesson, parts=(part,), words=()), [_solution(part.show)])
    assert grade(" ".join(sentence for step in board.steps for sentence in step.narration)) <= MOST_GRADE


def test_the_grade_is_that_of_the_published_formula() -> None:
    """0.39 times words a sentence, 11.8 times syllables a word, less 15.59, reckoned by hand."""
    assert words_of("Turn it 135 degrees.") == ["turn", "it", "one", "hundred", "and", "thirty", "five", "degrees"]
    assert [syllables(word) for word in ("turn", "it", "outline", "option", "corner", "anticlockwise")] == [
        1,
        1,
        2,
        2,
        2,
        4,
    ]
    # 3 words, 1 sentence, 4 syllables
    assert grade("Turn the corner.") == pytest.approx(0.39 * 3 + 11.8 * 4 / 3 - 15.59)
    # 7 words, 2 sentences, 8 syllables
    assert grade("Lay it on the outline. Look twice.") == pytest.approx(0.39 * 7 / 2 + 11.8 * 8 / 7 - 15.59)
    assert grade("Subsequently the aforementioned configuration necessitates reorientation.") > 20.0
