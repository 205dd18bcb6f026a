"""What a teacher may point at or ask at each step; read by the teacher, never spoken."""

from __future__ import annotations

from collections.abc import Sequence

from ..item.model import Does
from ..solution.facts import ChangeFact, MeetFact, PieceFact, SameFact, TurnFact
from ..solution.slips.slip_fact import SlipFact
from ..words.messages import say
from ..words.names import is_half_turn, is_no_turn, list_in_words, the_piece
from .slips import practise

__all__ = [
    "change_note",
    "compare_note",
    "keep_note",
    "marks_note",
    "meet_note",
    "outline_note",
    "remember_note",
    "rule_out_note",
    "rule_out_together_note",
    "slip_note",
    "task_note",
    "turn_note",
    "your_turn_note",
]


def task_note() -> str:
    """The question is read out."""
    return say("Let a learner say the task again in their own words before you go on.")


def your_turn_note() -> str:
    """The learners try."""
    return say("Give the whole pause. Let learners sketch the outline, or turn a paper piece, before they choose.")


def compare_note() -> str:
    """A question without its solution ends."""
    return say("Let learners show their options all at once, then hear a reason for each. The solution can wait.")


def marks_note(fact: PieceFact) -> str:
    """The marks are pointed at."""
    return say(
        "Point at both marks {mark}. Ask: which side of {piece} has the mark?",
        mark=fact.piece.mark,
        piece=the_piece(fact.piece.name),
    )


def turn_note(fact: TurnFact) -> str:
    """A piece is turned, or stays as it is."""
    piece = the_piece(fact.name)
    if is_no_turn(fact.turn_deg):
        return say("Ask first: does {piece} have to turn at all?", piece=piece)
    if is_half_turn(fact.turn_deg):
        return say("Let learners turn {piece} both ways, and see that it ends up the same.", piece=piece)
    return say(
        "Before you go on, ask: which way would you turn {piece}, and how far? Let them show it with a hand.",
        piece=piece,
    )


def meet_note(fact: MeetFact) -> str:
    """The marked sides are brought together."""
    piece = the_piece(fact.name)
    if fact.does is Does.CUT:
        return say("Ask: why does {piece} lie on top of the shape, not beside it?", piece=piece)
    return say("Ask: on which side of the mark does {piece} lie, and on which side its partner?", piece=piece)


def change_note(fact: ChangeFact) -> str:
    """The piece becomes part of the shape, or is gone from it."""
    if fact.does is Does.CUT:
        return say("Ask: which sides of the outline are new now?")
    return say("Ask: which sides of the outline have gone, and which are new?")


def outline_note() -> str:
    """The finished outline stands alone."""
    return say("Let learners count the corners themselves before the number is said.")


def rule_out_note(label: str) -> str:
    """An option is ruled out."""
    return say(
        "Ask: where does option {label} differ? Let a learner point at the place before it is ringed.", label=label
    )


def rule_out_together_note(labels: Sequence[str]) -> str:
    """Several options are ruled out for one fault."""
    return say("Ask: which one thing rules out options {labels} together?", labels=list_in_words(labels))


def slip_note(fact: SlipFact) -> str:
    """A slip is replayed: what to ask, and what to practise with those who chose the option."""
    tips = dict.fromkeys(practise(case) for case in fact.cases)
    ask = say("Ask, without naming anyone: how could option {label} come about?", label=fact.label)
    return " ".join((ask, *tips))


def keep_note(fact: SameFact) -> str:
    """The right option is laid on the outline."""
    return say("Let learners follow the outline of option {label} with a finger, corner by corner.", label=fact.label)


def remember_note() -> str:
    """The thing to remember."""
    return say("Ask: where else in this question did that matter?")
