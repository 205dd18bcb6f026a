"""Where a wrong option agrees with the outline: shown before what differs, since most of a good one is right."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point
from ..geometry.rings import sides
from .facts import Fact
from .model import Verdict

__all__ = ["AgreementFact", "agreement_fact"]

Side = tuple[Point, Point]


@dataclass(frozen=True, slots=True, kw_only=True)
class AgreementFact(Fact):
    """So many sides of an option, laid on the outline, are sides of the outline."""

    label: str
    option: Outline  # laid on the outline
    outline: Outline
    agreeing: tuple[Side, ...]  # sides of the option that are whole sides of the outline
    sides: int  # of the option in all

    def holds(self) -> bool:
        """Each of these sides is one of the option's and one of the outline's, and the option has that many in all."""
        ours = [side for ring in self.option.rings for side in sides(ring)]
        theirs = [side for ring in self.outline.rings for side in sides(ring)]
        return len(ours) == self.sides and all(
            _is_among(side, ours, self.tolerance) and _is_among(side, theirs, self.tolerance) for side in self.agreeing
        )


def agreement_fact(verdict: Verdict, outline: Outline, tolerance: float) -> AgreementFact:
    """How far an option agrees with the outline where it is laid on it."""
    laid = verdict.fit.laid
    ours = [side for ring in laid.rings for side in sides(ring)]
    theirs = [side for ring in outline.rings for side in sides(ring)]
    return AgreementFact(
        tolerance=tolerance,
        label=verdict.label,
        option=laid,
        outline=outline,
        agreeing=tuple(side for side in ours if _is_among(side, theirs, tolerance)),
        sides=len(ours),
    )


def _is_among(side: Side, others: list[Side], tolerance: float) -> bool:
    """Whether the side lies on one of the others, end on end and the same way round."""
    return any(
        math.dist(side[0], other[0]) <= tolerance and math.dist(side[1], other[1]) <= tolerance for other in others
    )
