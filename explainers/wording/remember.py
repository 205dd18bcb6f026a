"""One thing to remember: the hardest step of an item, named with its piece and its figures."""

from __future__ import annotations

from ..solution.facts import HardStep, HardStepFact
from .held import said
from .names import degrees_in_words, direction_in_words, the_option, the_piece

__all__ = ["remember", "remember_headline"]

_HEADLINES = {
    HardStep.HALF_TURN: "Half a turn: either way will do",
    HardStep.NO_TURN: "Some pieces need no turn",
    HardStep.LARGE_TURN: "Turn far enough",
    HardStep.ODD_TURN: "Let the marks lead the turn",
    HardStep.PART_SIDE: "Meet only along the mark",
    HardStep.RING: "A hole is part of the outline",
    HardStep.PIECE_ON_PIECE: "A piece can meet a piece",
    HardStep.CUT_INSIDE: "A cut lies on top",
    HardStep.MIRROR: "Turn, but never flip",
    HardStep.ORDER: "One piece after the other",
}


def remember_headline(fact: HardStepFact) -> str:
    """The thing to remember in a few words, for a heading or a slide's title."""
    return _HEADLINES[fact.kind]


def remember(fact: HardStepFact) -> tuple[str, ...]:
    """The thing to remember in sentences; no two kinds share one.

    Raises : FactError where the fact does not hold
    """
    return said(fact, _sentences(fact))


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
        case HardStep.ODD_TURN:
            return (f"Remember: {piece} turns {way}.", "A piece may end up slanted, so let the marks lead.")
        case HardStep.PART_SIDE:
            return (
                f"Remember: {piece} meets its partner along only part of a side.",
                "Look where the mark starts, and where it stops.",
            )
        case HardStep.RING:
            return (
                "Remember: this outline has a hole.",
                "Count the holes as well as the corners.",
            )
        case HardStep.PIECE_ON_PIECE:
            return (
                f"Remember: {piece} meets another piece, not the base.",
                "Put that other piece in its place first.",
            )
        case HardStep.CUT_INSIDE:
            return (
                f"Remember: {piece} is cut away, so it lies on top.",
                "A piece to join lies beside the shape instead.",
            )
        case HardStep.MIRROR:
            return (
                f"Remember: {the_option(fact.name)} is the outline flipped over.",
                "You may turn an outline, but never flip it.",
            )
        case HardStep.ORDER:
            return (
                f"Remember: work in order, and {piece} comes last.",
                "Each piece changes the shape for the next one.",
            )
    raise TypeError(f"no words are known for a hard step of kind {fact.kind}")
