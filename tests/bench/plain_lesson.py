"""The bench lesson as anybody would write it with manim: `play`, `wait`, `Text`, nothing of our renderer or encoder.

    BENCH_SPANS=40 manim render -r 1920,1080 --fps 30 tests/bench/plain_lesson.py PlainLesson

BENCH_QUESTIONS is how many questions the lesson has (2), BENCH_SPANS how many spans from the start are played (all).
What stays the same from one picture to the next keeps its mobject, what does not move stands below what does (manim
then draws it once a motion), and each motion is one update of what moves: manim's own way at its best, as far as a
plain scene goes.
"""

from __future__ import annotations

import os
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from bench_lesson import bench_timeline
from manim import BOLD, NORMAL, RIGHT, Mobject, Scene, Text, UpdateFromAlphaFunc, VGroup, linear, register_font

from explainers.figure.model import Align, Entry, Figure, Label
from explainers.figure.motion import Motion
from explainers.storyboard.timeline import FPS, Span, Timeline
from explainers.typeface.faces import FAMILY, face
from scenes.mobjects import mobject_of, to_frame

__all__ = ["PlainLesson"]

_WITHIN = 0.01  # of a frame: manim cuts a wait down to whole frames, and fills a play up to them
_FONT_SIZE_PER_UNIT = 65.44  # manim's size of letters whose em is one stage unit: an em is 0.652 of its units at 48


class PlainLesson(Scene):  # type: ignore[misc]  # manim is not checked
    """Plays every span of the bench lesson."""

    def construct(self) -> None:
        """One `wait` a hold, one `play` a motion."""
        self.shown: dict[str, tuple[Entry, Mobject]] = {}
        with register_font(str(face(False).path)), register_font(str(face(True).path)):
            lesson = bench_timeline(int(os.environ.get("BENCH_QUESTIONS", "2")))
            captions = {round(cue.start_s * FPS): cue.text for cue in lesson.cues}
            for span in _wanted(lesson):
                if isinstance(span.shows, Motion):
                    self.play_motion(span.shows, span.frames)
                else:
                    self.hold(span, captions[span.start])

    def hold(self, span: Span, caption: str) -> None:
        """Show a figure, with a caption, as long as it is held."""
        figure: Figure = span.shows  # type: ignore[assignment]
        self.camera.background_color = figure.background
        self.show(figure)
        self.add_subcaption(caption, duration=span.frames / FPS)
        self.wait((span.frames + _WITHIN) / FPS)

    def show(self, figure: Figure) -> None:
        """Become the figure: what stays keeps its mobject, the rest is made."""
        self.shown = {entry.id: (entry, self.mobject(entry)) for entry in figure.entries}
        self.clear()
        self.add(*(mobject for _, mobject in self.shown.values()))

    def play_motion(self, motion: Motion, frames: int) -> None:
        """What moves goes over what does not; in every frame it shows the figure at that moment."""
        self.show(motion.start)
        fixed = _unmoved(motion)
        self.remove(*(mobject for entry_id, (_, mobject) in self.shown.items() if entry_id not in fixed))

        def update(group: Mobject, alpha: float) -> None:
            figure = motion.figure_at(round(alpha * frames) / frames)
            group.submobjects = []
            for entry in figure.entries:
                if entry.id not in fixed:
                    mobject = self.mobject(entry)
                    self.shown[entry.id] = (entry, mobject)
                    group.submobjects.append(mobject)

        self.play(FigureChange(VGroup(), update, run_time=(frames - _WITHIN) / FPS, rate_func=linear))

    def mobject(self, entry: Entry) -> Mobject:
        """The mobject of an entry: the one shown if nothing has changed, words moved along, all else made anew."""
        before, mobject = self.shown.get(entry.id, (None, Mobject()))
        if before == entry:
            return mobject
        if not isinstance(entry, Label):
            return mobject_of(entry)
        if isinstance(before, Label) and replace(before, at=entry.at, opacity=entry.opacity, size=entry.size) == entry:
            return _placed(mobject.scale(entry.size / before.size).set_opacity(entry.opacity), entry)
        words = Text(
            entry.text,
            font=FAMILY,
            weight=BOLD if entry.bold else NORMAL,
            font_size=entry.size * _FONT_SIZE_PER_UNIT,
            color=entry.colour,
        )
        return _placed(words.set_opacity(entry.opacity), entry)


class FigureChange(UpdateFromAlphaFunc):  # type: ignore[misc]  # manim is not checked
    """An update of a group whose members come and go."""

    def begin(self) -> None:
        """Start empty: manim lists now what will move, and would go on drawing members that have left."""
        super().begin()
        self.mobject.submobjects = []


def _placed(words: Any, entry: Label) -> Mobject:
    """A line of words put where its label stands."""
    (middle,) = to_frame([entry.at])
    words.move_to(middle)
    if entry.align is Align.START:
        words.shift((middle[0] - words.get_left()[0]) * RIGHT)
    elif entry.align is Align.END:
        words.shift((middle[0] - words.get_right()[0]) * RIGHT)
    return words


def _unmoved(motion: Motion) -> set[str]:
    """Ids of the entries that look the same all through a motion."""
    moments = [{e.id: e for e in motion.figure_at(k / 4).entries} for k in range(5)]
    return {entry.id for entry in motion.start.entries if all(m.get(entry.id) == entry for m in moments)}


def _wanted(lesson: Timeline) -> tuple[Span, ...]:
    count = os.environ.get("BENCH_SPANS")
    return lesson.spans[: int(count)] if count else lesson.spans
