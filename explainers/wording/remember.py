"""One thing to remember: the hardest step of an item, named with its piece and its figures."""

from __future__ import annotations

from ..solution.facts import HardStep, HardStepFact, MeetFact, OutlineFact
from .held import said
from .names import count_in_words, degrees_in_words, direction_in_words, number_of, the_option, the_piece

__all__ = ["remember", "remember_headline"]

_HEADLINES = {
    HardStep.HALF_TURN: "Half a turn: either way will do",
    HardStep.NO_TURN: "Some pieces need no turn",
    HardStep.LARGE_TURN: "Turn far enough",
    HardStep.SMALL_TURN: "Bring mark to mark",
    HardStep.ODD_TURN: "Let the marks lead the turn",
    HardStep.PART_SIDE: "Meet only along the mark",
    HardStep.RING: "A hole is part of the outline",
    HardStep.PIECE_ON_PIECE: "A piece can meet a piece",
    HardStep.CUT_INSIDE: "A cut lies on top",
    HardStep.MIRROR: "Turn, but never flip",
    HardStep.ORDER: "One piece after the other",
}

_LOOK_INSIDE = "Look inside an outline as well as along its outside."


def remember_headline(fact: HardStepFact) -> str:
    """The thing to remember in a few words, for a heading or a slide's title."""
    return _HEADLINES[fact.kind]


def remember(fact: HardStepFact) -> tuple[str, ...]:
    """The thing to remember in sentences; no two kinds share one.

    Raises : FactError where the fact does not hold
    """
    said(fact, (remember_headline(fact),))  # first, because the sentences lean on the evidence being there
    return _sentences(fact)


def _sentences(fact: HardStepFact) -> tuple[str, ...]:
    piece = the_piece(fact.name) if fact.name else "the piece"
    way = f"{degrees_in_words(fact.turn_deg)} {direction_in_words(fact.turn_deg)}"
    match fact.kind:
        case HardStep.HALF_TURN:
            return (f"Remember: {piece} needs half a turn.", "It ends up the same, whichever way you turn it.")
        case HardStep.NO_TURN:
            return (f"Remember: {piece} needs no turn.", "Before you turn a piece, see if it only has to slide.")
        case HardStep.LARGE_TURN:
            return (f"Remember: {piece} turns {way}.", "That is more than a quarter turn, so do not stop too soon.")
        case HardStep.SMALL_TURN:
            return (f"Remember: {piece} turns {way}.", "Look at both marks before you turn anything.")
        case HardStep.ODD_TURN:
            return (f"Remember: {piece} turns {way}.", "A piece may end up slanted, so let the marks lead.")
        case HardStep.PART_SIDE:
            mark = _own_meeting(fact).mark
            return (
                f"Remember: {piece} meets its partner along only part of a side.",
                f"Look where mark {mark} starts, and where it stops.",
            )
        case HardStep.RING:
            holes = next(shown.holes for shown in fact.evidence if isinstance(shown, OutlineFact))
            return (f"Remember: this outline has {number_of(holes, 'hole')}.", _LOOK_INSIDE)
        case HardStep.PIECE_ON_PIECE:
            partner = the_piece(_own_meeting(fact).of)
            return (f"Remember: {piece} meets {partner}, not the base.", f"So {partner} must be in its place first.")
        case HardStep.CUT_INSIDE:
            return (
                f"Remember: {piece} is cut away, so it lies on top.",
                "A piece to join lies beside its partner instead.",
            )
        case HardStep.MIRROR:
            return (
                f"Remember: {the_option(fact.label)} is the outline flipped over.",
                "You may turn an outline, but never flip it.",
            )
        case HardStep.ORDER:
            count = sum(isinstance(shown, MeetFact) for shown in fact.evidence)
            return (
                f"Remember: do the {count_in_words(count, 'piece')} in order.",
                "Each piece changes the shape for the next one.",
            )
    raise TypeError(f"no words are known for a hard step of kind {fact.kind}")


def _own_meeting(fact: HardStepFact) -> MeetFact:
    """The evidence of how the step's own piece meets its partner; ``holds`` has made sure of it."""
    return next(shown for shown in fact.evidence if isinstance(shown, MeetFact) and shown.name == fact.name)
