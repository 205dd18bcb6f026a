"""The description and the poster: what is pasted and shown where a clip is published."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from explainers.drawing.svg import svg_of
from explainers.errors import OutputError
from explainers.figure.model import Label, Role
from explainers.intake.workspace import load_lesson, load_solution
from explainers.item.model import Lesson, LessonPart, Manner, Series
from explainers.lesson.planner import plan_item, plan_lesson
from explainers.outputs.clip.stills import write_poster
from explainers.outputs.text.description import description_text, write_description
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline

ITEMS = Path(__file__).parents[2] / "items"
GIVING_AWAY = re.compile(r"result|flipped|mirror|slip|right|wrong|correct|same|left-out", re.IGNORECASE)


def series_of(count: int) -> Series:
    lessons = tuple(Path(f"{number}.yaml") for number in range(count))
    return Series(name="quilts", path=Path("series.yaml"), title="Quilt blocks", lessons=lessons)


@pytest.fixture(scope="module")
def third() -> Timeline:
    """The demo lesson as the third of a series."""
    lesson, solutions = load_lesson(ITEMS / "first-blocks.yaml")
    numbered = replace(lesson, series=series_of(5), number=3, credit="Ada and Bo", licence="CC BY 4.0")
    return pace(plan_lesson(numbered, solutions))


def test_a_description_in_full(third: Timeline, tmp_path: Path) -> None:
    (path,) = write_description(third, tmp_path)
    assert path.name == "03-first-blocks.txt"
    title, paragraph, chapters, credit = path.read_text(encoding="utf-8").split("\n\n")
    assert title == "Joining and cutting blocks\nQuilt blocks, lesson 3"
    assert paragraph == (
        "Pieces are joined to a base, or cut away, where their marks meet. Which option shows the finished outline? "
        "You may turn pieces and options, but never flip them. We work through one question together. "
        "Then you try one question yourself. "
        f"The clip takes {round(third.seconds) // 60} minutes and {round(third.seconds) % 60} seconds, "
        "and has captions."
    )
    assert credit == "Credit: Ada and Bo\nLicence: CC BY 4.0\n"
    lines = chapters.split("\n")
    assert lines[0] == "0:00 Opening"
    assert len(lines) == len(third.chapters)
    for line, chapter in zip(lines, third.chapters, strict=True):
        time, name = line.split(" ", 1)
        minutes, seconds = time.split(":")
        assert name == chapter.title
        assert 0 <= chapter.start / 30 - (int(minutes) * 60 + int(seconds)) < 1, "the second that has begun"


def test_an_item_alone_has_no_empty_blocks() -> None:
    text = description_text(pace(plan_item(load_solution(ITEMS / "corner-block.yaml"))))
    blocks = text.removesuffix("\n").split("\n\n")
    assert blocks[0] == "The corner block"
    assert blocks[1].startswith("Pieces are joined to a base where their marks meet. Which option")
    assert len(blocks) == 3 and all(block.strip() for block in blocks)
    assert not GIVING_AWAY.search(text)


def test_a_quick_check_is_described_without_pieces() -> None:
    path = ITEMS / "corner-block.yaml"
    lesson = Lesson(name="check", title="A check", parts=(LessonPart(show=path, manner=Manner.QUICK_CHECK),))
    text = description_text(pace(plan_lesson(lesson, [load_solution(path)])))
    assert "piece" not in text.lower().replace("the pieces", "") and "There is one quick check." in text


def test_the_poster_is_the_question_under_the_title(third: Timeline, tmp_path: Path) -> None:
    poster = third.storyboard.poster
    assert poster is not None
    (task,) = (step for step in third.storyboard.steps if step.id == "corner-block.task")
    labels = {entry.id: entry.text for entry in poster.entries if isinstance(entry, Label)}
    assert labels["heading"] == "Joining and cutting blocks"
    assert labels["number"] == "Lesson 3"
    question = {entry for entry in task.picture.entries if entry.group not in ("heading", "progress")}
    assert question < set(poster.entries)
    assert not [entry for entry in poster.entries if entry.role == Role.PROGRESS]
    asks = "Which option shows the finished outline?"
    assert poster.alt == f"{task.picture.alt} {asks}" and asks in task.narration
    svg, png = write_poster(third, tmp_path)
    assert (svg.name, png.name) == ("03-first-blocks.poster.svg", "03-first-blocks.poster.png")
    assert svg.read_text(encoding="utf-8") == svg_of(poster)
    with Image.open(png) as image:
        assert (image.size, image.mode) == ((1920, 1080), "RGB")
        assert len(image.getcolors(1 << 20) or ()) > 10
    assert not GIVING_AWAY.search(re.sub(r'text-anchor|"bright', "", svg.read_text(encoding="utf-8")))


@pytest.mark.parametrize("manner", list(Manner))
def test_every_manner_has_a_poster_that_gives_nothing_away(manner: Manner) -> None:
    path = ITEMS / "corner-block.yaml"
    lesson = Lesson(name="one", title="One", parts=(LessonPart(show=path, manner=manner),))
    poster = plan_lesson(lesson, [load_solution(path, pairs=True)]).poster
    assert poster is not None
    assert {f"option-{label}" for label in "abcde"} <= {entry.group for entry in poster.entries}
    assert not [e for e in poster.entries if e.role in (Role.RIGHT, Role.WRONG) or GIVING_AWAY.search(e.id + e.alt)]


def test_a_storyboard_without_a_poster_is_an_output_error(third: Timeline, tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="without a poster"):
        write_poster(replace(third, storyboard=replace(third.storyboard, poster=None)), tmp_path)
    assert not list(tmp_path.iterdir())


def test_the_title_card_bears_series_number_own_lines_and_credit() -> None:
    lesson, solutions = load_lesson(ITEMS / "first-blocks.yaml")
    lesson = replace(lesson, series=None, number=None, opening=None, card=(), credit=None)
    told = replace(lesson, series=series_of(5), number=3, card=("Patchwork Club",), credit="Ada")
    card = plan_lesson(told, solutions).steps[0]
    lines = [entry.text for entry in card.picture.entries if isinstance(entry, Label) and entry.group == "words"]
    aim = "You learn to find the outline without trying every option."
    assert lines == ["Joining and cutting blocks", aim, "Quilt blocks, lesson 3", "Patchwork Club", "Ada"]
    assert card.narration[1:] == (
        aim,
        "We work through one question together.",
        "Then you try one question yourself.",
    ), "what is said stays as it is"
    plain = plan_lesson(lesson, solutions).steps[0]
    lines = [entry.text for entry in plain.picture.entries if isinstance(entry, Label) and entry.group == "words"]
    assert lines == ["Joining and cutting blocks", *card.narration[1:]]
