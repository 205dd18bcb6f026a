"""Steps put together to ideas, for a deck with fewer slides: what is done with a piece is one idea, not four."""

from __future__ import annotations

from collections.abc import Sequence

from ..figure.subject import Subject
from .model import Step

__all__ = ["ideas"]


def ideas(steps: Sequence[Step]) -> tuple[tuple[Step, ...], ...]:
    """The steps in their order, those of one idea together; an idea stays within its chapter.

    Steps about one piece or one option are one idea. A pause ends the idea before it: what learners are to work out
    does not stand on the same slide.
    """
    rows: list[list[Step]] = []
    for step in steps:
        before = rows[-1][-1] if rows else None
        if (
            before is not None
            and before.pause_s == 0.0
            and before.chapter == step.chapter
            and (step.pause_s > 0.0 or _idea(before) == _idea(step))
        ):
            rows[-1].append(step)
        else:
            rows.append([step])
    return tuple(map(tuple, rows))


def _idea(step: Step) -> tuple[str, Subject | str]:
    """The item, and the piece or option that a step is about; a step that is about neither is an idea of its own."""
    return step.item, step.subject or step.stage
