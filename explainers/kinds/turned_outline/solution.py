"""What solving an item of the turned outline yields; the finished outline is the one that is shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ...choice.model import Answer, Solution
from .model import TurnedOutline

if TYPE_CHECKING:
    from .same_question import PosedOutline

__all__ = ["TurnedOutlineAnswer", "TurnedOutlineSolution", "own_solution"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedOutlineAnswer(Answer):
    """Which option is right, without the reasons."""

    item: TurnedOutline


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedOutlineSolution(Solution):
    """An item solved."""

    item: TurnedOutline

    def posed(self) -> PosedOutline:
        """The outline."""
        from .same_question import PosedOutline

        return PosedOutline(outline=self.outline, tolerance=self.tolerance)

    def possible_slips(self, *, parts_seen: bool = True) -> tuple[str, ...]:
        """All slips."""
        from .slips.registry import SLIPS

        return tuple(SLIPS)


def own_solution(solution: Solution) -> TurnedOutlineSolution:
    """The solution as one of this kind.

    Raises : TypeError for that of another
    """
    if not isinstance(solution, TurnedOutlineSolution):
        raise TypeError(f"{solution.item.name} is no solved item of the turned outline")
    return solution
