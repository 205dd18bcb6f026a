"""Every named pace keeps the guidance it is made from, over any words and over the demo lessons in each language."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from storyboard.sample_board import words_board

from explainers.batch import timeline_of
from explainers.figure.motion import Motion
from explainers.intake.workspace import load_lesson
from explainers.item.shared_reader import LANGUAGES
from explainers.lesson.planner import plan_lesson
from explainers.storyboard.model import Step, Storyboard
from explainers.storyboard.paces import PACES, pace_called
from explainers.storyboard.pacing import SCHOOL_PACE, pace
from explainers.storyboard.spoken import words_a_minute
from explainers.storyboard.timeline import FPS, Timeline
from explainers.style import PACE_NAMES

ITEMS = Path(__file__).parents[2] / "items"
LESSONS = ("first-blocks", "cutting-out", "looking-closely")


@dataclass(frozen=True)
class Guidance:
    """What a caption may be at most and at least; beside each pace, where that comes from."""

    most_words_a_minute: float
    most_characters: int
    least_s: float
    longest_s: float = 7.0  # general practice (references.md, 2.3)
    most_lines: int = 2  # BBC Subtitle Guidelines, 3.3
    least_gap_s: float = 1.0  # BBC, 4.5


# references.md, 2.3
GUIDANCE = {
    "school": Guidance(140.0, 37, 1.5),  # DCMP Captioning Key, middle level; BBC, 3.1; between DCMP's 2 s and 1 s
    "slow": Guidance(130.0, 32, 2.0),  # DCMP, older edition: lower and middle grades, line, least time
    "adult": Guidance(180.0, 42, 1.0),  # BBC, 4, and Ofcom, at most; general practice
}


def faults(timeline: Timeline, allowed: Guidance) -> Iterator[str]:
    """Whatever a caption does that it may not."""
    chapter_of = {step.id: step.chapter for step in timeline.storyboard.steps}
    chapters = {chapter.title: chapter for chapter in timeline.chapters}
    language = timeline.storyboard.language
    for cue in timeline.cues:
        seconds = cue.end_s - cue.start_s
        if words_a_minute(cue.text, seconds, language) > allowed.most_words_a_minute:
            yield f"{cue.id}: {words_a_minute(cue.text, seconds, language):.1f} words a minute"
        if not allowed.least_s - 1e-9 <= seconds <= allowed.longest_s + 1e-9:
            yield f"{cue.id}: {seconds:.2f} s"
        if not 1 <= len(cue.lines) <= allowed.most_lines:
            yield f"{cue.id}: {len(cue.lines)} lines"
        yield from (f"{cue.id}: {len(line)} characters" for line in cue.lines if len(line) > allowed.most_characters)
        chapter = chapters[chapter_of[cue.step_id]]
        if not chapter.start / FPS - 1e-9 <= cue.start_s < cue.end_s <= chapter.end / FPS + 1e-9:
            yield f"{cue.id}: reaches out of its chapter"
    for one, other in itertools.pairwise(timeline.cues):
        gap_s = other.start_s - one.end_s
        if abs(gap_s) > 1e-9 and gap_s < allowed.least_gap_s - 1e-9:
            yield f"{one.id}: a gap of {gap_s:.2f} s after it"


@cache
def told(lesson: str, language: str) -> Storyboard:
    found, solutions = load_lesson(ITEMS / f"{lesson}.yaml")
    return plan_lesson(replace(found, language=language, opening=None, closing=None, words=()), solutions)


def test_the_names_are_those_that_files_may_write() -> None:
    assert tuple(PACES) == PACE_NAMES == tuple(GUIDANCE)
    assert pace_called("school") is SCHOOL_PACE


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", PACE_NAMES)
def test_every_caption_of_the_demo_lessons_keeps_its_pace(name: str, language: str) -> None:
    for lesson in LESSONS if language == "en-GB" else LESSONS[:1]:
        timeline = pace(told(lesson, language), PACES[name])
        assert len(timeline.cues) > 50
        assert list(faults(timeline, GUIDANCE[name])) == []


SAYABLE = "the a flag side K 135 degrees turns until and because, it 22.5° anticlockwise meets of Remember: notch. B"
SENTENCE = st.lists(st.sampled_from(SAYABLE.split()), max_size=45).map(" ".join)
STEPS = st.lists(st.tuples(st.sampled_from(["One", "Two"]), st.lists(SENTENCE, max_size=4)), min_size=1, max_size=6)


@pytest.mark.parametrize("name", PACE_NAMES)
@given(steps=STEPS)
@settings(max_examples=25, deadline=None)
def test_any_words_keep_each_pace(name: str, steps: list[tuple[str, list[str]]]) -> None:
    # Chapters of one title, apart from each other, are one to the check: whether captions leave theirs is seen above.
    chapters = [(f"{title} {number}", sentences) for number, (title, sentences) in enumerate(steps)]
    assert list(faults(pace(words_board(chapters), PACES[name]), GUIDANCE[name])) == []


def test_a_lesson_takes_longer_at_a_slower_pace() -> None:
    lengths = [timeline_of(ITEMS / "corner-block.yaml", pace=name).seconds for name in ("adult", "school", "slow")]
    assert lengths == sorted(lengths) and lengths[0] < 0.9 * lengths[2]


def test_the_check_sees_what_breaks_a_pace() -> None:
    timeline = pace(told("first-blocks", "en-GB"), PACES["adult"])
    found = " ".join(faults(timeline, GUIDANCE["slow"]))
    for word in ("words a minute", "characters", " s"):
        assert word in found
    one = timeline.cues[0]
    across = replace(timeline, cues=(replace(one, end_s=timeline.chapters[0].end / FPS + 0.5), *timeline.cues[1:]))
    assert any("chapter" in fault for fault in faults(across, GUIDANCE["adult"]))


# What is newly seen when a motion is over -> the words that speak of it. Read from the pictures' alt texts, so that it
# is known without the planner's own remarks on when a motion may start.
SPOKEN_OF = (
    (r"On the tray lies the \w+, turned\.", r"^(?:Turn|Give|.* half a turn)\b"),
    (r"lies against the shape so far", r"^Slide\b"),
    (r"is joined\.", r"^(?:Join|Now join)\b"),
    (r"is cut away\.", r"^(?:Cut|Now cut)\b"),
    (r"^The finished outline, alone", r"^This is the finished outline\b"),
    (r"Option [A-F] lies on the outline", r"^(?:Lay option|(?:Turn|Give) [A-F]\b|Option [A-F] needs no turn)"),
    (r"A ring shows a place", r"^(?:Here|Look|At)\b"),
    (r"\bThe outline has \d+ corners\.", r"^The outline has\b"),
    (r"as large as there is room", r"^Go round\b"),
)


def motions_of(step: Step, timeline: Timeline) -> Iterator[tuple[Motion, float, float]]:
    """Each motion with its start, and the end of the motion before it in the step or the step's own start."""
    free_s = timeline.step_span(step.id)[0] / FPS
    for span in timeline.spans:
        if span.step_id == step.id and isinstance(span.shows, Motion):
            yield span.shows, span.start / FPS, free_s
            free_s = span.end / FPS


@pytest.mark.parametrize("name", PACE_NAMES)
def test_a_motion_starts_with_the_words_that_speak_of_it(name: str) -> None:
    seen = set()
    for lesson in LESSONS:
        timeline = pace(told(lesson, "en-GB"), PACES[name])
        for step in timeline.storyboard.steps:
            cues = [cue for cue in timeline.cues if cue.step_id == step.id]
            for motion, start_s, free_s in motions_of(step, timeline):
                for newly, words in SPOKEN_OF:
                    if not re.search(newly, motion.end.alt) or re.search(newly, motion.start.alt):
                        continue
                    said_s = [cue.start_s for cue in cues if re.search(words, cue.text)]
                    assert said_s, f"{step.id}: {newly} comes to be seen, and nobody says so"
                    look_s = PACES[name].look_s
                    assert said_s[0] - 1e-6 <= start_s, f"{step.id}: {newly} before it is spoken of"
                    assert start_s <= max(said_s[0], free_s) + look_s + 1 / FPS + 1e-6, f"{step.id}: {newly} late"
                    seen.add(newly)
    assert seen == {newly for newly, _ in SPOKEN_OF}
