"""Where a wrong option agrees with the outline: shown before what differs, since most of a good one is right."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Side
from ..geometry.rings import sides
from .facts import Fact
from .model import Verdict

__all__ = ["AgreementFact", "agreement_fact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AgreementFact(Fact):
    """So many sides of an option, laid on the outline, are sides of the outline."""

    label: str
    option: Outline  # laid on the outline
    outline: Outline
    agreeing: tuple[Side, ...]  # sides of the option that are whole sides of the outline
    sides: int  # of the option in all

    def holds(self) -> bool:
        """These sides of the option, and no others, are sides of the outline, and it has that many in all."""
        ours = _sides(self.option)
        return len(ours) == self.sides and self.agreeing == _agreeing(ours, self.outline, self.tolerance)


def agreement_fact(verdict: Verdict, outline: Outline, tolerance: float) -> AgreementFact:
    """How far an option agrees with the outline where it is laid on it."""
    laid = verdict.fit.laid
    ours = _sides(laid)
    return AgreementFact(
        tolerance=tolerance,
        label=verdict.label,
        option=laid,
        outline=outline,
        agreeing=_agreeing(ours, outline, tolerance),
        sides=len(ours),
    )


def _sides(outline: Outline) -> list[Side]:
    return [side for ring in outline.rings for side in sides(ring)]


def _agreeing(ours: list[Side], outline: Outline, tolerance: float) -> tuple[Side, ...]:
    theirs = _sides(outline)
    return tuple(side for side in ours if _is_among(side, theirs, tolerance))


def _is_among(side: Side, others: list[Side], tolerance: float) -> bool:
    """Whether the side lies on one of the others, end on end and the same way round."""
    return any(
        math.dist(side[0], other[0]) <= tolerance and math.dist(side[1], other[1]) <= tolerance for other in others
    )
