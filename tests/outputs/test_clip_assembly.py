"""Spans become shots, each drawn once, and no two IDR pictures in a row bear the same id."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from storyboard.short_clip import short_timeline

from explainers.figure.model import Figure
from explainers.outputs.clip.assembly import clip_job, clip_labels, placed_spans
from explainers.storyboard.model import Imprint
from explainers.storyboard.timeline import Span, Timeline
from explainers.video.encoder import EncoderOptions


def with_lengths(lengths: list[int]) -> Timeline:
    """The sample's spans over and over, of these lengths."""
    timeline = short_timeline()
    spans, start = [], 0
    for number, frames in enumerate(lengths):
        shows = timeline.spans[number % len(timeline.spans)].shows
        spans.append(Span(step_id="s", shows=shows, start=start, frames=frames))
        start += frames
    return replace(timeline, spans=tuple(spans))


def test_equal_pictures_are_one_shot() -> None:
    timeline = short_timeline()
    shots = clip_job(timeline, EncoderOptions()).shots
    assert [shot.is_still for shot in shots] == [True, False, True, False, True, True]
    assert [shot.frames for shot in shots] == [1, 12, 1, 15, 1, 1]
    assert len({shot.name for shot in shots}) == len(shots)
    assert clip_job(timeline, EncoderOptions()).pictures == 31


def test_a_hold_of_another_length_draws_nothing_new() -> None:
    timeline = short_timeline()
    first, *rest = timeline.spans
    longer = replace(timeline, spans=(replace(first, frames=200), *(replace(s, start=s.start + 139) for s in rest)))
    assert clip_job(longer, EncoderOptions()) == clip_job(timeline, EncoderOptions())


@given(lengths=st.lists(st.integers(min_value=1, max_value=3), min_size=1, max_size=30))
def test_neighbouring_idr_pictures_have_different_ids(lengths: list[int]) -> None:
    timeline = with_lengths(lengths)
    places = placed_spans(timeline)
    for before, after in pairwise(places):
        if before.frames == 1:
            assert before.idr_id != after.idr_id
        else:
            assert after.idr_id == 0
    job = clip_job(timeline, EncoderOptions())
    wanted = {(shot.name, idr_id) for shot in job.shots for idr_id in shot.idr_ids}
    assert wanted == {(place.shot, place.idr_id) for place in places}
    for shot in job.shots:
        assert shot.is_still == isinstance(shot.shows, Figure)


def test_the_clip_says_who_made_it_and_where_it_belongs() -> None:
    timeline = short_timeline()
    imprint = Imprint(series="Quilt blocks", number=3, credit="Ada", licence="CC BY 4.0")
    labels = clip_labels(replace(timeline, storyboard=replace(timeline.storyboard, imprint=imprint)))
    assert (labels.artist, labels.copyright, labels.album, labels.track) == ("Ada", "CC BY 4.0", "Quilt blocks", 3)


def test_captions_keep_their_lines() -> None:
    labels = clip_labels(short_timeline())
    assert labels.cues[0].text == "This is the base,\na ring."
    assert [(mark.title, mark.start, mark.end) for mark in labels.chapters] == [
        ("The block", 0, 108),
        ("It is done", 108, 148),
    ]
