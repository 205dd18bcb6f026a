"""What a teacher may point at or ask at each step; read by the teacher, never spoken."""

from __future__ import annotations

from collections.abc import Sequence

from ..item.model import Does
from ..solution.facts import ChangeFact, MeetFact, PieceFact, SameFact, TurnFact
from ..solution.slips.slip_fact import SlipFact
from .names import is_half_turn, is_no_turn, list_in_words, the_option, the_piece
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
    return "Let a learner say the task again in their own words before you go on."


def your_turn_note() -> str:
    """The learners try."""
    return "Give the whole pause. Let learners sketch the outline, or turn a paper piece, before they choose."


def compare_note() -> str:
    """A question without its solution ends."""
    return "Let learners show their options all at once, then hear a reason for each. The solution can wait."


def marks_note(fact: PieceFact) -> str:
    """The marks are pointed at."""
    return f"Point at both marks {fact.piece.mark}. Ask: which side of {the_piece(fact.piece.name)} has the mark?"


def turn_note(fact: TurnFact) -> str:
    """A piece is turned, or stays as it is."""
    piece = the_piece(fact.name)
    if is_no_turn(fact.turn_deg):
        return f"Ask first: does {piece} have to turn at all?"
    if is_half_turn(fact.turn_deg):
        return f"Let learners turn {piece} both ways, and see that it ends up the same."
    return f"Before you go on, ask: which way would you turn {piece}, and how far? Let them show it with a hand."


def meet_note(fact: MeetFact) -> str:
    """The marked sides are brought together."""
    if fact.does is Does.CUT:
        return f"Ask: why does {the_piece(fact.name)} lie on top of the shape, not beside it?"
    return f"Ask: on which side of the mark does {the_piece(fact.name)} lie, and on which side its partner?"


def change_note(fact: ChangeFact) -> str:
    """The piece becomes part of the shape, or is gone from it."""
    if fact.does is Does.CUT:
        return "Ask: which sides of the outline are new now?"
    return "Ask: which sides of the outline have gone, and which are new?"


def outline_note() -> str:
    """The finished outline stands alone."""
    return "Let learners count the corners themselves before the number is said."


def rule_out_note(label: str) -> str:
    """An option is ruled out."""
    return f"Ask: where does {the_option(label)} differ? Let a learner point at the place before it is ringed."


def rule_out_together_note(labels: Sequence[str]) -> str:
    """Several options are ruled out for one fault."""
    return f"Ask: which one thing rules out options {list_in_words(labels)} together?"


def slip_note(fact: SlipFact) -> str:
    """A slip is replayed: what to ask, and what to practise with those who chose the option."""
    tips = dict.fromkeys(practise(case) for case in fact.cases)
    return f"Ask, without naming anyone: how could {the_option(fact.label)} come about? {' '.join(tips)}"


def keep_note(fact: SameFact) -> str:
    """The right option is laid on the outline."""
    return f"Let learners follow the outline of {the_option(fact.label)} with a finger, corner by corner."


def remember_note() -> str:
    """The thing to remember."""
    return "Ask: where else in this question did that matter?"
