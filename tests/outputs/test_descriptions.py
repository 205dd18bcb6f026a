"""What is seen, as WebVTT descriptions, and as a row of moments: true of the picture that stands at their time."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from oracles.webvtt_rules import faults, read_strictly
from outputs.text_tracks import cues_in_browser
from storyboard.sample_board import board

from explainers.batch import timeline_of
from explainers.figure.model import Figure
from explainers.outputs.shared.captions import timed_captions
from explainers.outputs.shared.seen_and_said import MomentKind, moments
from explainers.outputs.text.cues import descriptions_vtt_text, write_cues
from explainers.storyboard.pacing import pace
from explainers.storyboard.retiming import Take, retime
from explainers.storyboard.timeline import Timeline

ITEMS = Path(__file__).parents[2] / "items"


@cache
def lesson() -> Timeline:
    return timeline_of(ITEMS / "looking-closely.yaml")


@cache
def recorded() -> Timeline:
    """With a voice that makes long silences."""
    storyboard = lesson().storyboard
    takes = {step.id: Take(speech=((0.0, 4.0), (7.0, 11.0))) for step in storyboard.steps if step.narration}
    return retime(storyboard, takes)


@pytest.fixture(params=[lambda: pace(board()), lesson, recorded], ids=["sample", "lesson", "recorded"])
def timeline(request: pytest.FixtureRequest) -> Timeline:
    made: Timeline = request.param()
    return made


def alt_at(timeline: Timeline, seconds: float) -> str:
    """Of the still that stands at a time; "" while something moves."""
    frame = round(seconds * timeline.fps)
    (shown,) = (span.shows for span in timeline.spans if span.start <= frame < span.end)
    return shown.alt if isinstance(shown, Figure) else ""


def test_descriptions_keep_the_strict_rules_and_never_overlap(timeline: Timeline) -> None:
    text = descriptions_vtt_text(timeline)
    assert faults(text) == []
    cues, _ = read_strictly(text)
    assert all(one.end <= other.start + 1e-9 for one, other in pairwise(cues))
    ends = [timeline.step_span(step.id)[1] / timeline.fps for step in timeline.storyboard.steps]
    assert all(cue.end <= next(end for end in ends if end > cue.start + 0.001) + 0.001 for cue in cues)


def test_each_description_is_true_of_what_stands_at_its_start(timeline: Timeline) -> None:
    cues, _ = read_strictly(descriptions_vtt_text(timeline))
    for cue in cues:
        (line,) = cue.lines
        assert alt_at(timeline, cue.start).endswith(line)


def test_all_that_is_seen_is_described(timeline: Timeline) -> None:
    told = {
        sentence
        for cue in read_strictly(descriptions_vtt_text(timeline))[0]
        for sentence in re.split(r"(?<=[.!?])\s+", cue.lines[0])
    }
    for step in timeline.storyboard.steps:
        for figure in step.stills:
            assert set(re.split(r"(?<=[.!?])\s+", figure.alt)) <= told


def test_a_pause_begins_with_all_of_its_picture() -> None:
    cues, _ = read_strictly(descriptions_vtt_text(lesson()))
    pauses = [step for step in lesson().storyboard.steps if step.pause_s > 0.0]
    assert len(pauses) >= 2
    for step in pauses:
        after = lesson().step_span(step.id)[1] / lesson().fps
        (cue,) = (c for c in cues if c.end == pytest.approx(after, abs=0.001))
        assert cue.lines == (step.picture.alt,)
        assert cue.end - cue.start == pytest.approx(step.pause_s, abs=0.05)


def test_moments_say_every_sentence_in_order_while_its_captions_stand(timeline: Timeline) -> None:
    found = [*moments(timeline)]
    assert all(one.start_s <= other.start_s for one, other in pairwise(found))
    assert all(moment.seconds > 0.0 for moment in found)
    said = [(moment.step.id, moment.text) for moment in found if moment.kind is MomentKind.SAID]
    assert said == [(step.id, sentence) for step in timeline.storyboard.steps for sentence in step.narration]
    for moment in found:
        if moment.kind is MomentKind.SAID:
            own = [c for c in timeline.cues if moment.start_s <= c.start_s < moment.end_s]
            assert " ".join(cue.text for cue in own).split() == moment.text.split()


def test_only_what_is_new_is_told_within_a_chapter_and_all_where_one_begins() -> None:
    seen = [moment for moment in moments(lesson()) if moment.kind is MomentKind.SEEN]
    whole = [moment for moment in seen if any(moment.text == figure.alt for figure in moment.step.stills)]
    assert 0 < len(whole) < len(seen)
    # An outline is told with its corners and never without saying of what it is the outline.
    assert all(moment in whole for moment in seen if ":" in moment.text)


def test_a_browser_finds_every_cue_of_every_kind_with_its_words(tmp_path: Path) -> None:
    timeline = lesson()
    paths = write_cues(timeline, tmp_path)
    _, captions, _, chapters, descriptions = paths
    tracks = {"captions": captions, "chapters": chapters, "descriptions": descriptions}
    shown = cues_in_browser(tracks, tmp_path)
    for kind, path in tracks.items():
        strict, wrong = read_strictly(path.read_text(encoding="utf-8"))
        assert wrong == []
        planned = [(pytest.approx(cue.start), pytest.approx(cue.end), "\n".join(cue.lines)) for cue in strict]
        assert shown[kind] == planned
    assert [text for *_, text in shown["captions"]] == ["\n".join(cue.lines) for cue in timed_captions(timeline)]
    assert [text for *_, text in shown["chapters"]] == [chapter.title for chapter in timeline.chapters]
