"""What a search may do before it gives up: counted, not timed, so that every machine finds the same."""

from __future__ import annotations

from enum import IntEnum

__all__ = ["Costs", "Effort"]


class Costs(IntEnum):
    """What each step costs, in proportion to the time that it took when it was measured."""

    BASE = 1  # drawing a base
    PIECE = 1  # drawing a piece
    LAYING = 4  # laying it
    OPTION = 20  # holding an option against the others


class Effort:
    """What a search may still do, and how far it got."""

    def __init__(self, most: int, pieces: int) -> None:
        """Of a search that may spend ``most``, for a question with so many pieces."""
        self._most = self._left = most
        self.stages = [0] * (pieces + 1)  # how often the base was found, then each piece

    def spend(self, cost: int) -> bool:
        """Whether there was so much left."""
        self._left -= cost
        return self._left >= 0

    @property
    def spent(self) -> float:
        """The part that has been spent."""
        return 1.0 - max(self._left, 0) / self._most

    def reached(self, stage: int) -> None:
        """Count the base (0) or a piece (from 1) as found."""
        self.stages[stage] += 1
