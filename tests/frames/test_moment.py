"""The figure of a moment."""

from __future__ import annotations

import pytest
from storyboard.sample_board import board

from explainers.figure.motion import Motion
from explainers.frames.moment import figure_at, frame_figure
from explainers.storyboard.pacing import pace

TIMELINE = pace(board())


def test_every_frame_agrees_with_its_moment() -> None:
    for k in range(0, TIMELINE.frames, 7):
        assert frame_figure(TIMELINE, k) == figure_at(TIMELINE, k / TIMELINE.fps)


def test_a_motion_starts_in_its_first_figure_and_the_next_hold_shows_its_last() -> None:
    index, span = next((i, s) for i, s in enumerate(TIMELINE.spans) if isinstance(s.shows, Motion))
    assert isinstance(span.shows, Motion)
    assert frame_figure(TIMELINE, span.start) == span.shows.start
    last = frame_figure(TIMELINE, span.end - 1)
    assert last == span.shows.figure_at((span.frames - 1) / span.frames)
    assert last != span.shows.end
    assert TIMELINE.spans[index + 1].start == span.end


def test_between_two_frames_a_motion_is_between_their_figures() -> None:
    span = next(s for s in TIMELINE.spans if isinstance(s.shows, Motion))
    assert isinstance(span.shows, Motion)
    half = figure_at(TIMELINE, (span.start + 10.5) / TIMELINE.fps)
    assert half == span.shows.figure_at(10.5 / span.frames)


def test_the_end_of_the_clip_shows_its_last_still() -> None:
    assert figure_at(TIMELINE, TIMELINE.seconds) == TIMELINE.spans[-1].shows


@pytest.mark.parametrize("t_s", [-0.1, TIMELINE.seconds + 0.1, float("nan")])
def test_outside_the_clip_nothing_is_seen(t_s: float) -> None:
    with pytest.raises(ValueError, match="outside"):
        figure_at(TIMELINE, t_s)


def test_no_frame_beyond_the_last() -> None:
    with pytest.raises(ValueError, match="outside"):
        frame_figure(TIMELINE, TIMELINE.frames)
