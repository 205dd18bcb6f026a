"""Items that are the same question, among many."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .model import Likeness, Posed, Solution

__all__ = ["Asked", "Repeat", "repeats"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """An item that asks again what an earlier one of the row asks."""

    index: int
    earlier: int  # the first of the row that asks this
    likeness: Likeness  # lays the item's question on the earlier one's


class Asked:
    """The questions that were asked so far, one item after the other."""

    def __init__(self) -> None:
        self._count = 0
        self._firsts: dict[tuple[object, ...], list[tuple[int, Posed, tuple[float, ...]]]] = {}

    def again(self, solution: Solution) -> Repeat | None:
        """Note one more item; the earlier one that asks the same, or None.

        Only items with the same counts and nearly the same figures are compared, so that a large bank takes little
        time; those of two kinds of question never are.
        """
        posed = solution.posed()
        numbers, slack = posed.numbers, posed.slack
        index = self._count
        self._count += 1
        firsts = self._firsts.setdefault((solution.item.kind, posed.counts), [])
        for earlier, other, its_numbers in firsts:
            if all(abs(a - b) <= slack for a, b in zip(numbers, its_numbers, strict=True)):
                like = posed.likeness(other)
                if like is not None:
                    return Repeat(index=index, earlier=earlier, likeness=like)
        firsts.append((index, posed, numbers))
        return None


def repeats(solutions: Iterable[Solution]) -> tuple[Repeat, ...]:
    """Every item that asks what an earlier one of the row asks, with the first that does."""
    asked = Asked()
    found = [asked.again(solution) for solution in solutions]
    return tuple(repeat for repeat in found if repeat is not None)
