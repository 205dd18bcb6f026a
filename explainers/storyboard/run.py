"""A row of beats being put together: each move goes on from the figure that was shown last."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from ..figure.model import Figure
from ..figure.motion import Motion, Move
from ..figure.yielding import with_yielding_labels
from .model import Beat, Still

__all__ = ["Run"]


class Run:
    """Starts with a still; every move adds a motion from what is shown to a goal, and the goal held."""

    def __init__(self, start: Figure) -> None:
        self._beats: list[Beat] = [Still(figure=start)]
        self.last = start

    def move(self, goal: Figure, *moves: Move, seconds: float, after: int = 0, yields: Iterable[str] = ()) -> None:
        """Go to a figure; nothing is added where it is what is shown already.

        after  : how many sentences of the step are spoken before it starts
        yields : entries that make way, beside the labels that would be passed over
        """
        if goal == self.last:
            return
        motion = Motion(start=self.last, end=goal, moves=moves, seconds=seconds, after_sentences=after)
        motion = with_yielding_labels(motion)
        motion = replace(motion, yields=tuple(sorted({*motion.yields, *yields})))
        self._beats += [motion, Still(figure=goal)]
        self.last = goal

    @property
    def beats(self) -> tuple[Beat, ...]:
        """The row so far."""
        return tuple(self._beats)
