"""Which letter stands at which side: the nearest, unless another side is nearly as near; then it is left open."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ..geometry.locate import distance_to_side
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Side
from ..geometry.stretches import overlap
from .sketch import DrawnWords

__all__ = ["MOST_OF_A_MARK", "Letter", "letters_beside"]

MOST_OF_A_MARK = 3  # characters, as the format has it
_CLEARLY = 1.4  # times as far: then a side is not meant
_FAR = 0.35  # of the largest outline's extent: what is farther from every side stands at none


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter with the sides that it may stand at, by outline (0 is the base), the nearest first."""

    words: DrawnWords
    near: tuple[tuple[int, Side], ...]

    @property
    def clear_side(self) -> tuple[int, Side] | None:
        """The one side that it stands at; None where several are meant alike, or none is."""
        return self.near[0] if len(self.near) == 1 else None

    def at(self, owner: int, side: Side, tolerance: float) -> bool:
        """Whether it may stand at a side of an outline, or at a part of one."""
        return any(index == owner and overlap(each, side, tolerance) for index, each in self.near)


def letters_beside(words: Iterable[DrawnWords], outlines: Sequence[Outline]) -> tuple[Letter, ...]:
    """Each short text with the sides that it may stand at."""
    far = _FAR * max(outline.larger_extent for outline in outlines)
    sides = [(index, side) for index, outline in enumerate(outlines) for side in outline.sides]
    found = list[Letter]()
    for each in words:
        measured = sorted((distance_to_side(each.at, side), order) for order, (_, side) in enumerate(sides))
        reach = min(measured[0][0] * _CLEARLY, far)
        found.append(Letter(each, tuple(sides[order] for distance, order in measured if distance <= reach)))
    return tuple(found)
