"""Where a wrong option agrees with the outline: shown before what differs, since most of a good one is right."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Side
from ..geometry.rings import sides
from ..words.messages import say_count
from ..words.names import number_of, the_option
from . import fingerprint
from .fact import Fact, Stated

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

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """How many sides there are, and which of them agree."""
        agreeing = sorted(fingerprint.points(side, origin) for side in self.agreeing)
        return ("agreement", self.label, self.sides, tuple(agreeing))

    def stated(self) -> Stated:
        """How many sides agree, and both outlines."""
        return Stated(outlines=(self.option, self.outline), agreeing_sides=len(self.agreeing), label=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """How many sides are where they should be; nothing is said where hardly any are."""
        fitting = len(self.agreeing)
        if fitting < 2:
            return ()
        if fitting == self.sides:
            every = say_count(
                "Its {count} side fits the outline.", "All its {count} sides fit the outline.", self.sides
            )
            return (every,)
        some = say_count(
            "Of its {count} side, {fitting} fit the outline.",
            "Of its {count} sides, {fitting} fit the outline.",
            self.sides,
            fitting=fitting,
        )
        return (some,)

    def as_line(self) -> str:
        """As a plain line."""
        fitting = f"{number_of(self.sides, 'side')}, of which {len(self.agreeing)} fit the outline"
        return f"{the_option(self.label)}: {fitting}"


def agreement_fact(label: str, laid: Outline, outline: Outline, tolerance: float) -> AgreementFact:
    """How far an option, laid on the outline, agrees with it."""
    ours = _sides(laid)
    return AgreementFact(
        tolerance=tolerance,
        label=label,
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
