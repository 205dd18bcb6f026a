"""The hardest step of an item: the one thing worth remembering from it."""

from __future__ import annotations

from .facts import HardStep, HardStepFact
from .model import Solution

__all__ = ["HardStep", "hardest_step"]


def hardest_step(solution: Solution) -> HardStepFact:
    """The step that scores highest, with the facts that show it."""
    raise NotImplementedError
