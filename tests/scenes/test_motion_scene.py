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

from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, Role, moved_entry
from explainers.figure.motion import Glide, Motion, Pulse, Trace
from explainers.storyboard.timeline import Span
from scenes.motion_scene import SpanScene, StageMobject
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


def every_kind() -> Figure:
    """One entry of each kind, with and without dashes, in one group, over and under one that stays."""
    square, hole = ((5.0, 3.0), (8.0, 3.0), (8.0, 6.0), (5.0, 6.0)), ((6.0, 4.0), (7.0, 4.0), (7.0, 5.0), (6.0, 5.0))
    common = {"group": "piece", "role": "join"}
    ink = "#1F2A37"
    arc = tuple((6.5 + 2 * np.cos(a), 4.5 + 2 * np.sin(a)) for a in np.linspace(0.0, 2.0, 20))
    entries: tuple[Entry, ...] = (
        Area(id="under", group="under", role="base", rings=(((4, 2), (9, 2), (9, 4)),), fill="#C9DDE8"),
        Area(id="cloth", rings=(square, hole), fill="#DCEBDD", stroke=ink, width=0.04, **common),
        Area(id="edge", rings=(square,), fill="#F3DDD3", stroke="#8A3B2E", width=0.05, dash=(0.3, 0.2), **common),
        Lines(id="lines", segments=(((5, 3), (6, 4)), ((6, 3), (7, 4)), ((7, 3), (8, 4))), stroke=ink, width=0.03,
              **common),
        Dots(id="dots", centres=((5.5, 3.5), (7.5, 5.5)), radius=0.2, fill="#2F6F5E", **common),
        Circle(id="ring", centre=(6.5, 4.5), radius=1.2, stroke="#B3261E", width=0.06, dash=(0.3, 0.2), **common),
        Circle(id="disc", centre=(5.5, 5.5), radius=0.3, fill="#1B6E3C", **common),
        Arrow(id="arrow", path=arc, stroke="#6B3FA0", width=0.06, head=0.3, **common),
        Label(id="word", text="join K", at=(6.5, 5.5), size=0.4, colour=ink, bold=True, **common),
        Area(id="over", group="over", role=Role.PANEL, rings=(((7.5, 2), (12, 2), (12, 5), (7.5, 5)),), fill="#FFFFFF",
             rounded=0.4, opacity=0.5),
    )  # fmt: skip
    return Figure(background="#FAF6EC", entries=entries)


def every_motion() -> dict[str, Motion]:
    start = every_kind()

    def without(*ids: str) -> Figure:
        return replace(start, entries=tuple(entry for entry in start.entries if entry.id not in ids))

    def led(glide: Glide) -> Motion:
        """To where the group is led, so that nothing changes but its place."""
        end = tuple(moved_entry(e, glide.at(1.0)) if e.group == "piece" else e for e in start.entries)
        return Motion(start=start, end=replace(start, entries=end), moves=(glide,))

    middle = (6.5, 4.5)
    return {
        "turn": led(Glide(group="piece", about=middle, turn_deg=150.0)),
        "shift": led(Glide(group="piece", about=middle, by=(3.0, 1.0), via=((1.0, 2.0),))),
        "zoom": led(Glide(group="piece", about=middle, scale=1.6)),
        "pulse": Motion(start=start, end=start, moves=(Pulse(group="piece", about=middle),)),
        "trace": Motion(start=without("lines"), end=start, moves=(Trace(entry_id="lines"),)),
        "fade": Motion(start=without("disc", "over"), end=without("edge", "word")),
        "make way": Motion(
            start=start, end=start, moves=(Pulse(group="under", about=middle),), yields=("word", "over")
        ),
    }


@pytest.mark.parametrize("name", list(every_motion()))
def test_every_motion_of_every_entry_is_drawn_as_plain_manim_draws_it(name: str) -> None:
    motion = every_motion()[name]
    frames = 8
    spans = (
        Span(step_id="s", shows=motion, start=0, frames=frames),
        Span(step_id="s", shows=motion.end, start=frames, frames=2),
    )
    plain = PlainRenderer()
    SpanScene(spans=spans, renderer=plain).render()
    moving, (held,) = drawn(*spans)
    assert (held == plain.frames[-1]).all() and (held == still(motion.end)).all()
    for k in range(frames):
        afresh = still(motion.figure_at(k / frames)).astype(int)
        for other in (plain.frames[k], afresh):
            apart = np.abs(moving[k].astype(int) - other).max(axis=2)
            assert apart.max() <= MOST_LEVELS, f"frame {k}"
            assert (apart > FEW_LEVELS).sum() <= MOST_PIXELS, f"frame {k}"
    assert (moving[0] != moving[frames // 2]).any()


def test_no_more_is_said_to_have_changed_than_is_drawn_anew() -> None:
    """Outside the boxes handed on, a picture is the one before: else converting only those would show old pixels."""

    class Boxes(Album):
        def picture(self, pixels: Any, changed: Any) -> None:
            if self.last is not None:
                kept = self.last.copy()
                for left, top, right, bottom in changed:
                    kept[top:bottom, left:right] = pixels[top:bottom, left:right]
                assert (kept == pixels).all()
                self.areas.append(sum((right - left) * (bottom - top) for left, top, right, bottom in changed))
            self.last = pixels.copy()
            super().picture(pixels, changed)

        last: np.ndarray | None = None
        areas: list[int] = []  # noqa: RUF012

    boxes = Boxes()
    SpanScene(spans=short_timeline().spans, renderer=PictureRenderer(boxes, FPS)).render()
    assert np.median(boxes.areas) < WIDTH * HEIGHT / 4


def test_what_stays_the_same_keeps_its_mobject() -> None:
    first = sheet("One")
    stage = StageMobject().show(first)
    before = dict(zip((entry.id for entry in first.entries), stage.submobjects, strict=True))
    halfway = turned(first).figure_at(0.5)
    stage.show_at(turned(first), 0.5)
    after = dict(zip((entry.id for entry in halfway.entries), stage.submobjects, strict=True))
    for entry in halfway.entries:
        assert before[entry.id] is after[entry.id], entry.id  # turned or left alone, not made anew
    stage.show(turned(first).end)
    at_end = dict(zip((entry.id for entry in first.entries), stage.submobjects, strict=True))
    for entry in first.entries:
        assert (before[entry.id] is at_end[entry.id]) == (entry == turned(first).end.entry(entry.id)), entry.id


def test_what_is_gone_is_gone_and_comes_back_as_new() -> None:
    first = sheet("One")
    more = pointed(first)
    assert len(StageMobject().show(more).show(first).submobjects) == len(first.entries)
    there_and_back = drawn(*(Span(step_id="s", shows=figure, start=0, frames=1) for figure in (first, more, first)))
    assert (there_and_back[0][0] == there_and_back[2][0]).all()
    assert (there_and_back[0][0] != there_and_back[1][0]).any()


def test_the_background_follows_the_figure() -> None:
    dark = replace(sheet("One"), background="#102030")
    plays = drawn(*(Span(step_id="s", shows=figure, start=0, frames=1) for figure in (sheet("One"), dark)))
    assert plays[0][0][-1, -1, :3].tolist() == [0xFA, 0xF6, 0xEC]
    assert plays[1][0][-1, -1, :3].tolist() == [0x10, 0x20, 0x30]
