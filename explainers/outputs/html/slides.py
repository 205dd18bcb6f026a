"""Which steps of a lesson are moments of one slide: a learner leaves a slide for something new, not for every move.

A step that goes on with the one before it is a moment of the same slide, as long as both lie open or are packed
together. The page stops at a moment where learners are to do or to think of something; the others play on.
"""

from __future__ import annotations

from collections.abc import Sequence

from ...storyboard.model import PAUSE, Step

__all__ = ["is_stop", "parts_of", "slides_of"]


def slides_of(steps: Sequence[Step], parts: Sequence[int | None]) -> list[list[int]]:
    """The numbers of the steps of each slide, in order.

    parts : of each step, the part in which it is packed; None where it lies open
    """
    slides: list[list[int]] = []
    for number, step in enumerate(steps):
        before = slides[-1][-1] if slides else None
        if before is not None and step.goes_on and (steps[before].item, parts[before]) == (step.item, parts[number]):
            slides[-1].append(number)
        else:
            slides.append([number])
    return slides


def is_stop(step: Step) -> bool:
    """Whether the page waits here until the learner goes on."""
    return step.handling is not None or step.choice is not None or step.pause_s > 0.0


def parts_of(steps: Sequence[Step]) -> list[int | None]:
    """Of each step the number of the part that is packed with it; None of those that are open."""
    numbers: dict[str, int] = {}
    parts: list[int | None] = []
    for step in steps:
        parts.append(numbers.get(step.item) if step.reveals else None)
        if step.stage == PAUSE:
            numbers[step.item] = len(numbers) + 1
    return parts
