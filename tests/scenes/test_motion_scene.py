"""Scenes show what the timeline says, frame by frame, under our renderer and under manim's own."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from manim import tempconfig
from manim.renderer.cairo_renderer import CairoRenderer
from storyboard.sample_board import pointed, sheet
from storyboard.short_clip import short_timeline, turned

from explainers.figure.model import Figure
from explainers.storyboard.timeline import Span
from scenes.motion_scene import SpanScene, Stage
from scenes.renderer import PictureRenderer

WIDTH, HEIGHT, FPS = 320, 180, 30
# By how many levels a frame of a motion may differ from its figure drawn afresh, and in how many pixels by more than a
# few: a shape that is turned is rounded otherwise than one that is laid down where it stands.
MOST_LEVELS, FEW_LEVELS, MOST_PIXELS = 16, 2, 50


class Album:
    """Keeps every picture of every play."""

    def __init__(self) -> None:
        self.plays: list[list[np.ndarray]] = []

    def begin(self) -> None:
        self.plays.append([])

    def picture(self, pixels: Any, changed: Any) -> None:
        self.plays[-1].append(pixels.copy())

    def end(self) -> None:
        assert self.plays[-1]


class PlainRenderer(CairoRenderer):  # type: ignore[misc]
    """manim's own way of drawing; frames are kept instead of encoded."""

    def __init__(self) -> None:
        super().__init__()
        self.frames: list[np.ndarray] = []

    def add_frame(self, frame: Any, num_frames: int = 1) -> None:
        self.frames.extend([frame] * num_frames)


@pytest.fixture(autouse=True)
def _small_and_silent(tmp_path: Any) -> Iterator[None]:
    settings = {
        "pixel_width": WIDTH, "pixel_height": HEIGHT, "frame_rate": FPS, "dry_run": True, "progress_bar": "none",
        "verbosity": "ERROR", "media_dir": str(tmp_path), "disable_caching": True,
    }  # fmt: skip
    with tempconfig(settings):
        yield


def drawn(*spans: Span) -> list[list[np.ndarray]]:
    album = Album()
    SpanScene(spans=spans, renderer=PictureRenderer(album, FPS)).render()
    return album.plays


def still(figure: Figure) -> np.ndarray:
    """The figure on a stage that has never shown another."""
    ((picture,),) = drawn(Span(step_id="s", shows=figure, start=0, frames=5))
    return picture


def test_a_still_is_one_picture_and_a_motion_one_a_frame() -> None:
    plays = drawn(*short_timeline().spans)
    assert [len(play) for play in plays] == [1, 1, 12, 1, 1, 15, 1, 1, 1]
    assert plays[0][0].shape == (HEIGHT, WIDTH, 4)
    assert all((picture[:, :, 3] == 255).all() for play in plays for picture in play)


def test_frame_k_of_a_motion_is_its_figure_at_that_fraction() -> None:
    timeline = short_timeline()
    plays = drawn(*timeline.spans)
    for span, play in zip(timeline.spans, plays, strict=True):
        if isinstance(span.shows, Figure):
            assert (play[0] == still(span.shows)).all()
            continue
        assert (play[0] == still(span.shows.start)).all()
        for k in range(1, span.frames):
            apart = np.abs(play[k].astype(int) - still(span.shows.figure_at(k / span.frames))).max(axis=2)
            assert apart.max() <= MOST_LEVELS, f"frame {k}"
            assert (apart > FEW_LEVELS).sum() <= MOST_PIXELS, f"frame {k}"
    # After a motion the next hold starts with the figure that the motion ends in.
    assert (plays[3][0] == still(timeline.spans[3].shows)).all()  # type: ignore[arg-type]
    assert (plays[2][-1] != plays[3][0]).any()


def test_plain_manim_shows_the_same_frames() -> None:
    timeline = short_timeline()
    plain = PlainRenderer()
    SpanScene(spans=timeline.spans, renderer=plain).render()
    assert len(plain.frames) == timeline.frames
    plays = drawn(*timeline.spans)
    ours = [
        play[0] if isinstance(span.shows, Figure) else play[frame]
        for span, play in zip(timeline.spans, plays, strict=True)
        for frame in range(span.frames)
    ]
    for number, (theirs, mine) in enumerate(zip(plain.frames, ours, strict=True)):
        assert (theirs == mine).all(), f"frame {number}"


def test_what_stays_the_same_keeps_its_mobject() -> None:
    first = sheet("One")
    stage = Stage().show(first)
    before = dict(zip((entry.id for entry in first.entries), stage.submobjects, strict=True))
    halfway = turned(first).figure_at(0.5)
    stage.show(halfway)
    after = dict(zip((entry.id for entry in halfway.entries), stage.submobjects, strict=True))
    for entry in halfway.entries:
        assert before[entry.id] is after[entry.id], entry.id  # turned or left alone, not made anew
    stage.show(turned(first).end, anew=True)
    at_end = dict(zip((entry.id for entry in first.entries), stage.submobjects, strict=True))
    for entry in first.entries:
        assert (before[entry.id] is at_end[entry.id]) == (entry == turned(first).end.entry(entry.id)), entry.id


def test_what_is_gone_is_gone_and_comes_back_as_new() -> None:
    first = sheet("One")
    more = pointed(first)
    assert len(Stage().show(more).show(first).submobjects) == len(first.entries)
    there_and_back = drawn(*(Span(step_id="s", shows=figure, start=0, frames=1) for figure in (first, more, first)))
    assert (there_and_back[0][0] == there_and_back[2][0]).all()
    assert (there_and_back[0][0] != there_and_back[1][0]).any()


def test_the_background_follows_the_figure() -> None:
    dark = replace(sheet("One"), background="#102030")
    plays = drawn(*(Span(step_id="s", shows=figure, start=0, frames=1) for figure in (sheet("One"), dark)))
    assert plays[0][0][-1, -1, :3].tolist() == [0xFA, 0xF6, 0xEC]
    assert plays[1][0][-1, -1, :3].tolist() == [0x10, 0x20, 0x30]
