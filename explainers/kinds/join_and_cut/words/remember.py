"""One thing to remember: the hardest step of an item, named with its piece and its figures."""

from __future__ import annotations

from ....choice.fact import said
from ....choice.finished import OutlineFact
from ....words.messages import message, say, say_count
from ....words.names import degrees_in_words, number_in_words, the_piece
from ..facts.meet import MeetFact
from ..solving.hard_step import HardStep, HardStepFact

__all__ = ["remember", "remember_headline"]

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


def remember_headline(fact: HardStepFact) -> str:
    """The thing to remember in a few words, for a heading or a slide's title."""
    return say(_HEADLINES[fact.kind])


def remember(fact: HardStepFact) -> tuple[str, ...]:
    """The thing to remember in sentences; no two kinds share one.

    Raises : FactError where the fact does not hold
    """
    said(fact, (remember_headline(fact),))  # first, because the sentences lean on the evidence being there
    return _sentences(fact)


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
            return (_turns(piece, fact), say("That is more than a quarter turn, so do not stop too soon."))
        case HardStep.SMALL_TURN:
            return (_turns(piece, fact), say("Look at both marks before you turn anything."))
        case HardStep.ODD_TURN:
            return (_turns(piece, fact), say("A piece may end up slanted, so let the marks lead."))
        case HardStep.PART_SIDE:
            return (
                say("Remember: {piece} meets its partner along only part of a side.", piece=piece),
                say("Look where mark {mark} starts, and where it stops.", mark=_own_meeting(fact).mark),
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
                say("Remember: {piece} is cut away, so it lies on top.", piece=piece),
                say("A piece to join lies beside its partner instead."),
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


def _turns(piece: str, fact: HardStepFact) -> str:
    degrees = degrees_in_words(fact.turn_deg)
    if fact.turn_deg > 0:
        return say("Remember: {piece} turns {degrees} anticlockwise.", piece=piece, degrees=degrees)
    return say("Remember: {piece} turns {degrees} clockwise.", piece=piece, degrees=degrees)


def _own_meeting(fact: HardStepFact) -> MeetFact:
    """The evidence of how the step's own piece meets its partner; ``holds`` has made sure of it."""
    return next(shown for shown in fact.evidence if isinstance(shown, MeetFact) and shown.name == fact.name)
