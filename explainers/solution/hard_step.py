"""The hardest step of an item: the one thing worth remembering from it."""

from __future__ import annotations

from collections.abc import Iterator

from ..geometry.tolerance import MEANT_DEG, authoring_tolerance
from ..item.model import BASE, Does
from .facts import Fact, HardStep, HardStepFact, MirrorFact
from .model import Solution
from .placement_facts import meet_fact, outline_fact, turn_fact
from .proof import is_part_of_side

__all__ = ["HardStep", "hardest_step"]

# Judgement, no source: what a learner is least likely to have met in an easier item comes first.
SCORES: dict[HardStep, float] = {
    HardStep.RING: 90.0,
    HardStep.PIECE_ON_PIECE: 85.0,
    HardStep.ODD_TURN: 80.0,
    HardStep.PART_SIDE: 70.0,
    HardStep.LARGE_TURN: 60.0,
    HardStep.ORDER: 55.0,
    HardStep.HALF_TURN: 50.0,
    HardStep.CUT_INSIDE: 45.0,
    HardStep.MIRROR: 30.0,
    HardStep.SMALL_TURN: 20.0,
    HardStep.NO_TURN: 10.0,
}


def hardest_step(solution: Solution) -> HardStepFact:
    """The step that scores highest, with the facts that show it; the earliest piece among equals.

    Raises : ValueError for a solution without pieces
    """
    steps = list(_steps(solution))
    if not steps:
        raise ValueError("an item without pieces has no step to remember")
    return max(steps, key=lambda step: SCORES[step.kind])


def _steps(solution: Solution) -> Iterator[HardStepFact]:
    tolerance = authoring_tolerance(solution.item.extent)

    def step(kind: HardStep, *evidence: Fact, name: str = "", turn_deg: float = 0.0, label: str = "") -> HardStepFact:
        return HardStepFact(
            tolerance=tolerance, kind=kind, name=name, turn_deg=turn_deg, label=label, evidence=evidence
        )

    if solution.outline.holes and not solution.item.base.holes:
        yield step(HardStep.RING, outline_fact(solution))
    for index, placement in enumerate(solution.placements):
        piece, turn_deg = placement.piece, placement.turn_deg
        turn, meet = turn_fact(solution, index), meet_fact(solution, index)
        yield step(turn_kind(turn_deg), turn, name=piece.name, turn_deg=turn_deg)
        if piece.of != BASE:
            yield step(HardStep.PIECE_ON_PIECE, meet, turn, name=piece.name, turn_deg=turn_deg)
        if is_part_of_side(placement.side, placement.ring, placement.partner, placement.before, tolerance):
            yield step(HardStep.PART_SIDE, meet, turn, name=piece.name, turn_deg=turn_deg)
        if piece.does is Does.CUT:
            yield step(HardStep.CUT_INSIDE, meet, turn, name=piece.name, turn_deg=turn_deg)
    if len(solution.placements) >= 3:
        meets = [meet_fact(solution, index) for index in range(len(solution.placements))]
        yield step(HardStep.ORDER, *meets)
    for verdict in solution.verdicts:
        if verdict.mirrored:
            flips = [fact for fact in verdict.reasons if isinstance(fact, MirrorFact)]
            if flips:
                yield step(HardStep.MIRROR, flips[0], label=verdict.label)


def turn_kind(turn_deg: float) -> HardStep:
    """What is hard about a turn."""
    size = abs(turn_deg)
    if size <= MEANT_DEG:
        return HardStep.NO_TURN
    if size >= 180.0 - MEANT_DEG:
        return HardStep.HALF_TURN
    if abs(size - 45.0 * round(size / 45.0)) > MEANT_DEG:
        return HardStep.ODD_TURN
    return HardStep.LARGE_TURN if size > 90.0 + MEANT_DEG else HardStep.SMALL_TURN
