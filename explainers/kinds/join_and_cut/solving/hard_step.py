"""The hardest step of an item: the one thing worth remembering from it, named with its piece and its figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from ....choice import fingerprint
from ....choice.differences.mirror import MirrorFact
from ....choice.fact import Fact, Stated, verified
from ....choice.finished import OutlineFact, outline_fact
from ....geometry.angles import is_odd_turn
from ....geometry.rigid_motion import Point
from ....geometry.tolerance import MEANT_DEG, TURN_DEG
from ....words.mark_names import the_mark
from ....words.messages import message, say, say_count
from ....words.names import degrees_in_words, number_in_words, the_option, the_piece
from ..facts.meet import MeetFact, meet_fact
from ..facts.turn import TurnFact, turn_fact
from ..model import BASE, Does
from ..words.own_verbs import say_action
from .placement import is_part_of_side
from .solution import JoinAndCutSolution

__all__ = ["HardStep", "HardStepFact", "hardest_step"]


class HardStep(StrEnum):
    """What makes an item hard."""

    HALF_TURN = "half-turn"  # a piece turns by 180 degrees
    NO_TURN = "no-turn"  # a piece needs no turn at all
    LARGE_TURN = "large-turn"  # a piece turns by more than 90 degrees, less than 180
    SMALL_TURN = "small-turn"  # a piece turns by 90 degrees or less: where nothing else is hard
    ODD_TURN = "odd-turn"  # a piece turns by an angle that is no multiple of 45 degrees
    PART_SIDE = "part-side"  # a mark covers only a part of a side
    RING = "ring"  # the finished outline has a hole
    PIECE_ON_PIECE = "piece-on-piece"  # a piece meets an earlier piece, not the base
    CUT_INSIDE = "cut-inside"  # a piece is cut away: it ends on the same side of the marks as the material
    MIRROR = "mirror"  # an option is the finished outline turned over
    ORDER = "order"  # three pieces or more, each on the outline that the one before left


@dataclass(frozen=True, slots=True, kw_only=True)
class HardStepFact(Fact):
    """The one thing to remember: this item's hardest step."""

    kind: HardStep
    name: str  # the piece that the step is about; "" where it is about the outline
    label: str = ""  # the option that it is about (MIRROR)
    turn_deg: float = 0.0  # the turn of that piece
    evidence: tuple[Fact, ...]  # the facts that show it

    def holds(self) -> bool:
        """All the evidence holds, and it shows a step of this kind."""
        return all(fact.holds() for fact in self.evidence) and _shows(self)

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """What is hard, and what shows it."""
        evidence = tuple(shown.fingerprint_parts(origin) for shown in self.evidence)
        return ("hard", self.kind.value, self.name, self.label, fingerprint.angle(self.turn_deg), evidence)

    def stated(self) -> Stated:
        """Whose option it is about; its evidence states the rest."""
        return Stated(label=self.label, evidence=self.evidence, may_be_flip=True, may_be_other_action=True)

    def headline(self) -> str:
        """The thing to remember in a few words, for a heading or a slide's title."""
        return say_action(_HEADLINES[self.kind])

    def narration(self) -> tuple[str, ...]:
        """The thing to remember in sentences; no two kinds share one.

        Raises : FactError where the fact does not hold
        """
        verified(self, (self.headline(),))  # first, because the sentences lean on the evidence being there
        return _sentences(self)

    def as_line(self) -> str:
        """As a plain line."""
        about = f" ({the_piece(self.name)})" if self.name else f" ({the_option(self.label)})" if self.label else ""
        return f"to remember: {self.headline()}{about}"


def _shows(step: HardStepFact) -> bool:
    turns = [fact for fact in step.evidence if isinstance(fact, TurnFact) and fact.name == step.name]
    meets = [fact for fact in step.evidence if isinstance(fact, MeetFact)]
    own = [fact for fact in meets if fact.name == step.name]
    if turns and abs(turns[0].turn_deg - step.turn_deg) > TURN_DEG:
        return False
    size = abs(step.turn_deg)
    match step.kind:
        case HardStep.HALF_TURN:
            return bool(turns) and size >= 180.0 - MEANT_DEG
        case HardStep.NO_TURN:
            return bool(turns) and size <= MEANT_DEG
        case HardStep.LARGE_TURN:
            return bool(turns) and 90.0 + MEANT_DEG < size < 180.0 - MEANT_DEG
        case HardStep.SMALL_TURN:
            return bool(turns) and MEANT_DEG < size <= 90.0 + MEANT_DEG
        case HardStep.ODD_TURN:
            return bool(turns) and is_odd_turn(size)
        case HardStep.PART_SIDE:
            return bool(own) and own[0].is_part_of_side
        case HardStep.RING:
            return any(isinstance(fact, OutlineFact) and fact.holes > 0 for fact in step.evidence)
        case HardStep.PIECE_ON_PIECE:
            return bool(own) and own[0].of != "base"
        case HardStep.CUT_INSIDE:
            return bool(own) and own[0].does is Does.CUT
        case HardStep.MIRROR:
            return any(isinstance(fact, MirrorFact) and fact.label == step.label for fact in step.evidence)
        case HardStep.ORDER:
            return len(meets) >= 3 and len({fact.before for fact in meets}) == len(meets)
    return False


_HEADLINES = {
    HardStep.HALF_TURN: message("Half a turn: either way will do"),
    HardStep.NO_TURN: message("Some pieces need no turn"),
    HardStep.LARGE_TURN: message("Turn far enough"),
    HardStep.SMALL_TURN: message("Bring mark to mark"),
    HardStep.ODD_TURN: message("Let the marks lead the turn"),
    HardStep.PART_SIDE: message("Meet only along the mark"),
    HardStep.RING: message("A hole is part of the outline"),
    HardStep.PIECE_ON_PIECE: message("A piece can meet a piece"),
    HardStep.CUT_INSIDE: message("A cut lies on top"),
    HardStep.MIRROR: message("Turn, but never flip"),
    HardStep.ORDER: message("One piece after the other"),
}


def _sentences(fact: HardStepFact) -> tuple[str, ...]:
    piece = the_piece(fact.name) if fact.name else say("the piece")
    match fact.kind:
        case HardStep.HALF_TURN:
            return (
                say("Remember: {piece} needs half a turn.", piece=piece),
                say("It ends up the same, whichever way you turn it."),
            )
        case HardStep.NO_TURN:
            return (
                say("Remember: {piece} needs no turn.", piece=piece),
                say("Before you turn a piece, see if it only has to slide."),
            )
        case HardStep.LARGE_TURN:
            return (_turning(piece, fact), say("That is more than a quarter turn, so do not stop too soon."))
        case HardStep.SMALL_TURN:
            return (_turning(piece, fact), say("Look at both marks before you turn anything."))
        case HardStep.ODD_TURN:
            return (_turning(piece, fact), say("A piece may end up slanted, so let the marks lead."))
        case HardStep.PART_SIDE:
            return (
                say("Remember: {piece} meets its partner along only part of a side.", piece=piece),
                say(
                    "Look at {mark}: see where the marked part starts, and where it stops.",
                    mark=the_mark(_own_meeting(fact).mark),
                ),
            )
        case HardStep.RING:
            holes = next(shown.holes for shown in fact.evidence if isinstance(shown, OutlineFact))
            return (
                say_count(
                    "Remember: this outline has {count} hole.", "Remember: this outline has {count} holes.", holes
                ),
                say("Look inside an outline as well as along its outside."),
            )
        case HardStep.PIECE_ON_PIECE:
            partner = the_piece(_own_meeting(fact).of)
            return (
                say("Remember: {piece} meets {partner}, not the base.", piece=piece, partner=partner),
                say("So {partner} must be in its place first.", partner=partner),
            )
        case HardStep.CUT_INSIDE:
            return (
                say_action(message("Remember: {piece} is cut away, so it lies on top."), piece=piece),
                say_action(message("A piece to join lies beside its partner instead.")),
            )
        case HardStep.MIRROR:
            return (
                say("Remember: option {label} is the outline flipped over.", label=fact.label),
                say("You may turn an outline, but never flip it."),
            )
        case HardStep.ORDER:
            count = sum(isinstance(shown, MeetFact) for shown in fact.evidence)
            return (
                say_count(
                    "Remember: do the one piece in order.",
                    "Remember: do the {number} pieces in order.",
                    count,
                    number=number_in_words(count),
                ),
                say("Each piece changes the shape for the next one."),
            )
    raise TypeError(f"no words are known for a hard step of kind {fact.kind}")


def _turning(piece: str, fact: HardStepFact) -> str:
    degrees = degrees_in_words(fact.turn_deg)
    if fact.turn_deg > 0:
        return say("Remember: {piece} turns {degrees} anticlockwise.", piece=piece, degrees=degrees)
    return say("Remember: {piece} turns {degrees} clockwise.", piece=piece, degrees=degrees)


def _own_meeting(fact: HardStepFact) -> MeetFact:
    """The evidence of how the step's own piece meets its partner; ``holds`` has made sure of it."""
    return next(shown for shown in fact.evidence if isinstance(shown, MeetFact) and shown.name == fact.name)


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


def hardest_step(solution: JoinAndCutSolution) -> HardStepFact:
    """The step that scores highest, with the facts that show it; the earliest piece among equals.

    Raises : ValueError for a solution without pieces
    """
    steps = list(_steps(solution))
    if not steps:
        raise ValueError("an item without pieces has no step to remember")
    return max(steps, key=lambda step: SCORES[step.kind])


def _steps(solution: JoinAndCutSolution) -> Iterator[HardStepFact]:
    tolerance = solution.tolerance

    def step(kind: HardStep, *evidence: Fact, name: str = "", turn_deg: float = 0.0, label: str = "") -> HardStepFact:
        return HardStepFact(
            tolerance=tolerance, kind=kind, name=name, turn_deg=turn_deg, label=label, evidence=evidence
        )

    if solution.outline.holes and not solution.item.base.holes:
        yield step(HardStep.RING, outline_fact(solution.outline, tolerance))
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
    if is_odd_turn(size):
        return HardStep.ODD_TURN
    return HardStep.LARGE_TURN if size > 90.0 + MEANT_DEG else HardStep.SMALL_TURN
