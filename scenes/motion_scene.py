"""A figure on manim's stage, and a motion of it as a manim animation.

`SpanScene` is an ordinary scene: a still is a `wait`, a motion is a `play`. The stage keeps the mobject of every entry
that is the same as in the figure shown before, so that a frame costs what has changed in it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from manim import Animation, ManimColor, Mobject, Scene, VGroup, linear

from explainers.figure.model import Entry, Figure
from explainers.figure.motion import Motion
from explainers.geometry.rigid_motion import Similarity
from explainers.storyboard.timeline import FPS, Span

from .mobjects import in_frame, mobject_of
from .moved_drawing import Places, moved_drawing, places_of
from .shape import PathMobject

__all__ = ["FigureMotion", "SpanScene", "StageMobject"]

_WITHIN = 0.01  # of a frame: manim cuts a wait down to whole frames, and fills a play up to them


@dataclass(slots=True)
class _Shown:
    """An entry on the stage."""

    entry: Entry
    shape: PathMobject
    laid: Entry  # the entry for which the shape was made
    laid_at: float  # the fraction of the motion at which that was
    places: Places | None = None  # of that entry, once they have been asked for


class StageMobject(VGroup):  # type: ignore[misc]  # manim is not checked
    """The one mobject of a scene: whatever the figure last shown is made of, in its order."""

    def __init__(self) -> None:
        super().__init__()
        self._shown: dict[str, _Shown] = {}

    def show(self, figure: Figure) -> StageMobject:
        """Become the figure.

        What has moved or faded is made anew, so that the picture does not depend, in its last bit, on the way here.
        """
        return self._become(figure, _is_at_home, laid_at=0.0)

    def show_at(self, motion: Motion, fraction: float) -> StageMobject:
        """Become what a motion shows at a fraction, `show` having shown its start; what can be carried there is."""

        def is_now(shown: _Shown, entry: Entry) -> bool:
            if shown.entry is entry or shown.entry == entry:
                return True
            pose = motion.pose_at(entry.group, fraction, since=shown.laid_at)
            return _is_moved_rigidly(shown, entry, Similarity() if pose is None else pose.similarity)

        return self._become(motion.figure_at(fraction), is_now, laid_at=fraction)

    def _become(self, figure: Figure, is_now: Callable[[_Shown, Entry], bool], *, laid_at: float) -> StageMobject:
        shown: dict[str, _Shown] = {}
        for entry in figure.entries:
            before = self._shown.get(entry.id)
            if before is None or not is_now(before, entry):
                before = _Shown(entry, mobject_of(entry), entry, laid_at)
            shown[entry.id] = before
        self._shown = shown
        self.submobjects = [each.shape for each in shown.values()]
        return self


def _is_at_home(shown: _Shown, entry: Entry) -> bool:
    """Make the shape show the entry, if it was made for just that."""
    if shown.laid is not entry and shown.laid != entry:
        return False
    if shown.entry is not shown.laid:
        for shape in shown.shape.get_family():
            shape.go_home()
            shape.set_clearness(entry.opacity)
        shown.entry = shown.laid
    shown.laid_at = 0.0
    return True


def _is_moved_rigidly(shown: _Shown, entry: Entry, way: Similarity) -> bool:
    """Make the shape show the entry, if it can do so by moving and fading."""
    if shown.places is None:
        shown.places = places_of(shown.laid)
    there = moved_drawing(shown.laid, shown.places, entry, way)
    if there is None:
        return False
    for shape in shown.shape.get_family():
        shape.take(*in_frame(*there))
        if entry.opacity != shown.entry.opacity:
            shape.set_clearness(entry.opacity)
    shown.entry = entry
    return True


class FigureMotion(Animation):  # type: ignore[misc]  # manim is not checked
    """A motion played on a stage: its frame k shows `motion.figure_at(k / frames)`.

    The motion eases itself, so time runs evenly here.
    """

    def __init__(self, stage: StageMobject, motion: Motion, frames: int, fps: int = FPS, **kwargs: Any) -> None:
        self.motion = motion
        self.frames = frames
        self.fps = fps
        super().__init__(stage, run_time=(frames - _WITHIN) / fps, rate_func=linear, **kwargs)

    def begin(self) -> None:
        """Start with an empty stage: manim now lists what will move, and would go on drawing entries that leave it."""
        super().begin()
        self.mobject.submobjects = []

    def interpolate_mobject(self, alpha: float) -> None:
        """Show the frame that is nearest to a fraction of the run time."""
        self.mobject.show_at(self.motion, round(alpha * self.run_time * self.fps) / self.frames)

    def create_starting_mobject(self) -> Mobject:
        """Nothing: the motion itself knows where it starts, and copying a stage is slow."""
        return Mobject()


class SpanScene(Scene):  # type: ignore[misc]  # manim is not checked
    """Plays spans of a timeline one after the other."""

    def __init__(self, *, spans: Sequence[Span] = (), fps: int = FPS, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.spans = spans
        self.fps = fps
        self.stage = StageMobject()

    def construct(self) -> None:
        """Play every span for exactly its frames."""
        # An updater that does nothing: without one, manim draws a waiting stage twice over, and what is half clear
        # comes out darker while it is held than while it moves.
        self.stage.add_updater(_left_alone)
        self.add(self.stage)
        for span in self.spans:
            self.play_span(span)

    def play_span(self, span: Span) -> None:
        """Hold a still, or play a motion."""
        shows = span.shows
        start = shows.start if isinstance(shows, Motion) else shows
        background = ManimColor(start.background)
        if self.camera.background_color != background:  # setting it fills a whole picture
            self.camera.background_color = background
        self.stage.show(start)
        if isinstance(shows, Motion):
            self.play(FigureMotion(self.stage, shows, span.frames, self.fps))
        else:
            self.wait((span.frames + _WITHIN) / self.fps, frozen_frame=True)


def _left_alone(stage: Mobject) -> None:
    """Change nothing."""
