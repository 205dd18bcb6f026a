"""Rows of beats: what is shown runs on, and a move to what is shown already is none."""

from __future__ import annotations

from explainers.figure.model import Circle, Figure, Role
from explainers.figure.motion import Motion
from explainers.storyboard.model import Step, Still
from explainers.storyboard.run import Run


def figure(x: float) -> Figure:
    disc = Circle(id="disc", group="disc", role=Role.WORD, centre=(x, 1.0), radius=0.5, fill="#000000")
    return Figure(background="#FFFFFF", entries=(disc,))


def test_each_move_starts_from_what_is_shown():
    run = Run(figure(0))
    run.move(figure(1), seconds=1.0)
    run.move(figure(2), seconds=1.0, after=2)
    kinds = [type(beat) for beat in run.beats]
    assert kinds == [Still, Motion, Still, Motion, Still]
    first, second = (beat for beat in run.beats if isinstance(beat, Motion))
    assert (first.end, second.start) == (figure(1), figure(1))
    assert (first.after_sentences, second.after_sentences) == (0, 2)
    Step(item="a", stage="b", chapter="c", heading="h", beats=run.beats, narration=())  # a step takes it as it is


def test_a_move_to_what_is_shown_adds_nothing():
    run = Run(figure(0))
    run.move(figure(0), seconds=1.0)
    assert len(run.beats) == 1
