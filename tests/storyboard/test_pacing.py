"""Times planned from words: the school profile, whole frames, motions, pauses, chapters."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from storyboard.sample_board import asked, board, one_step, sheet, slid, words_board

from explainers.figure.motion import Motion
from explainers.storyboard.model import Still, Storyboard
from explainers.storyboard.pacing import SCHOOL_PACE, Pace, pace
from explainers.storyboard.phrasing import CaptionShape
from explainers.storyboard.spoken import words_a_minute
from explainers.storyboard.timeline import FPS, Timeline

MOST_WORDS_A_MINUTE = 140.0  # DCMP Captioning Key, middle level (references.md, 2.3)
FRAME_S = 1 / FPS


def assert_sound(timeline: Timeline) -> None:
    """What every timeline promises."""
    ends = [span.end for span in timeline.spans]
    assert [span.start for span in timeline.spans] == [0, *ends[:-1]], "spans follow each other without a gap"
    assert all(span.frames >= 2 for span in timeline.spans), "the assembler takes no single frame"
    assert [chapter.start for chapter in timeline.chapters] == [0, *[c.end for c in timeline.chapters[:-1]]]
    assert timeline.chapters[-1].end == timeline.frames
    for cue in timeline.cues:
        first, after = timeline.step_span(cue.step_id)
        assert first * FRAME_S - 1e-9 <= cue.start_s < cue.end_s <= after * FRAME_S + 1e-9, "no caption leaves its step"
        assert cue.start_s * FPS == pytest.approx(round(cue.start_s * FPS), abs=1e-6)
        assert 1.5 - 1e-9 <= cue.end_s - cue.start_s <= 7.0 + 1e-9
        assert words_a_minute(cue.text, cue.end_s - cue.start_s) <= MOST_WORDS_A_MINUTE
        assert 1 <= len(cue.lines) <= 2
        assert all(0 < len(line) <= 37 for line in cue.lines)
    for before, after_it in itertools.pairwise(timeline.cues):
        gap_s = after_it.start_s - before.end_s
        assert gap_s == pytest.approx(0.0, abs=1e-9) or gap_s >= 1.0 - 1e-9
    for step in timeline.storyboard.steps:
        said = " ".join(cue.text for cue in timeline.cues if cue.step_id == step.id)
        assert said.split() == " ".join(step.narration).split(), "every word is captioned, once, in order"


def spans_of(storyboard: Storyboard) -> list[tuple[str, float]]:
    return [
        ("motion" if isinstance(span.shows, Motion) else "still", span.frames / FPS)
        for span in pace(storyboard).spans
    ]  # fmt: skip


def test_the_sample_board_is_sound() -> None:
    timeline = pace(board())
    assert_sound(timeline)
    assert [chapter.title for chapter in timeline.chapters] == ["The block", "Your turn"]
    assert [cue.id for cue in timeline.cues if cue.step_id == "sample-block.task"] == [
        "sample-block.task/1",
        "sample-block.task/2",
    ]


SAYABLE = (
    "the a flag side K 135 degrees turns until and because, it 22.5° anticlockwise meets of one Remember: notch. B"
)
WORDS = st.sampled_from(SAYABLE.split())


@given(data=st.data())
@settings(max_examples=60, deadline=None)
def test_any_words_make_a_sound_timeline(data: st.DataObject) -> None:
    sentence = st.lists(WORDS, min_size=0, max_size=45).map(" ".join)
    step = st.tuples(st.sampled_from(["One", "Two"]), st.lists(sentence, max_size=4))
    assert_sound(pace(words_board(data.draw(st.lists(step, min_size=1, max_size=6)))))


@given(data=st.data())
@settings(max_examples=40, deadline=None)
def test_any_beats_make_a_sound_timeline(data: st.DataObject) -> None:
    motion = slid(sheet())
    seconds = st.floats(min_value=0.001, max_value=4.0)
    moves = [
        Motion(start=motion.start, end=motion.end, moves=motion.moves, seconds=data.draw(seconds)),
        Motion(start=motion.end, end=motion.start, seconds=data.draw(seconds)),
    ]
    hold = st.none() | st.sampled_from([0.01, 0.5, 5.0])
    beats = (
        Still(figure=motion.start, hold_s=data.draw(hold)),
        moves[0],
        Still(figure=motion.end, hold_s=data.draw(hold)),
        moves[1],
        Still(figure=motion.start, hold_s=data.draw(hold)),
    )
    sentences = data.draw(st.lists(st.lists(WORDS, min_size=1, max_size=20).map(" ".join), max_size=3))
    timeline = pace(one_step(*sentences, beats=beats))
    lengths = [span.frames for span in timeline.spans]
    assert min(lengths) >= 2
    for span, beat in zip(timeline.spans, beats, strict=True):
        if isinstance(beat, Motion):
            assert abs(span.frames - max(2, beat.seconds * FPS)) <= 1


def test_words_alone_decide_a_still_step() -> None:
    # 13 words at 130 a minute are 6 s, and 0.7 s of rest.
    sentence = "One two three four five six, then seven eight nine ten of it."
    assert spans_of(one_step(sentence)) == [("still", pytest.approx(6.7))]


def test_figures_take_the_words_they_are_read_out_as() -> None:
    # "one hundred and thirty-five degrees" is six words, each 60 / 130 s.
    assert spans_of(one_step("135 degrees."))[0][1] == pytest.approx(6 * 60 / 130 + 0.7, abs=FRAME_S)


def test_a_silent_step_lasts_two_seconds() -> None:
    assert spans_of(one_step()) == [("still", pytest.approx(2.0))]


def test_a_motion_waits_for_a_moment_where_one_sentence_is_said() -> None:
    motion = slid(sheet())
    beats = (Still(figure=motion.start), motion, Still(figure=motion.end))
    assert spans_of(one_step("Watch.", beats=beats)) == [
        ("still", pytest.approx(1.0)),
        ("motion", pytest.approx(2.25, abs=FRAME_S)),
        ("still", pytest.approx(1.0, abs=FRAME_S)),
    ]


def test_a_motion_waits_for_the_first_of_several_sentences() -> None:
    motion = slid(sheet())
    beats = (Still(figure=motion.start), motion, Still(figure=motion.end))
    timeline = pace(one_step("Here is the flag with its mark.", "It turns.", beats=beats))
    # Seven words at 130 a minute and a breath of 0.3 s.
    assert timeline.spans[0].frames / FPS == pytest.approx(7 * 60 / 130 + 0.3, abs=FRAME_S)
    assert timeline.cues[1].start_s == pytest.approx(timeline.spans[1].start / FPS)


def test_words_longer_than_the_motion_hold_the_last_still() -> None:
    motion = slid(sheet())
    beats = (Still(figure=motion.start), motion, Still(figure=motion.end))
    timeline = pace(one_step("One two three four five six, then seven eight nine ten of it.", beats=beats))
    assert timeline.seconds == pytest.approx(6.7, abs=FRAME_S)
    assert timeline.spans[1].frames / FPS == pytest.approx(2.25, abs=FRAME_S)


def test_a_pause_is_exact_and_nothing_is_said_in_it() -> None:
    # Common practice, no source: a try-first pause of about 30 s.
    timeline = pace(one_step("Which option shows the outline?", "Try it.", beats=asked(sheet())))
    holds = [span.frames for span in timeline.spans]
    assert holds[1:] == [150] * 6
    assert timeline.cues[-1].end_s <= timeline.spans[1].start / FPS


def test_a_pause_that_starts_between_frames_is_as_long() -> None:
    timeline = pace(words_then_pause())
    first = timeline.step_span("one.pause")
    assert first[1] - first[0] == 900


def words_then_pause() -> Storyboard:
    from explainers.storyboard.model import Step

    steps = [
        Step(
            item="one",
            stage=f"{n}",
            chapter="C",
            heading="H",
            beats=(Still(figure=sheet()),),
            narration=("A b c d e.",),
        )
        for n in range(3)
    ]
    third = Still(figure=sheet(), hold_s=30.0 / 7.0)  # 128.57 frames: the parts are uneven, their sum is not
    steps.append(Step(item="one", stage="pause", chapter="C", heading="H", beats=(third,) * 7, narration=()))
    return Storyboard(name="one", title="T", language="en", steps=tuple(steps))


def test_a_new_sentence_moves_no_picture() -> None:
    pictures = [span.shows for span in pace(one_step("Short.")).spans]
    assert [span.shows for span in pace(one_step("A good deal longer than it was before.")).spans] == pictures


def test_other_words_before_a_motion_leave_its_frames_alone() -> None:
    """67.5 frames: 67 or 68 of them, were both ends put on the nearest frame by themselves."""
    motion = slid(sheet())
    beats = (Still(figure=motion.start), motion, Still(figure=motion.end))
    lengths = set()
    for count in range(1, 13):
        timeline = pace(one_step("word " * count + "end.", "It turns.", beats=beats))
        assert_sound(timeline)
        lengths.add(timeline.spans[1].frames)
    assert lengths == {68}


def test_a_faster_profile_is_shorter_and_an_impossible_one_is_refused() -> None:
    faster = Pace(words_a_minute=160.0)
    assert pace(board(), faster).seconds < pace(board(), SCHOOL_PACE).seconds
    with pytest.raises(ValueError, match="no room"):
        Pace(shape=CaptionShape(max_words=15))


def test_a_long_lesson_does_not_drift(cases: Callable[[int, int], int]) -> None:
    count = cases(100, 1000)
    timeline = pace(words_board([("C", ["One two three four five six seven eight."])] * count))
    assert timeline.seconds == pytest.approx(count * (8 * 60 / 130 + 0.7), abs=FRAME_S)
