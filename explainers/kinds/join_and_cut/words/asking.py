"""What is asked at a stop: a question about what comes next, which the picture so far can answer and does not."""

from __future__ import annotations

from ....choice.fact import verified
from ....choice.finished import OutlineFact
from ....words.messages import say
from ....words.names import sentence_case, the_piece
from ..facts.piece import PieceFact

__all__ = ["ask_meet", "ask_outline", "ask_turn"]


def ask_turn(fact: PieceFact) -> tuple[str, ...]:
    """Before a piece is turned, or is seen to need no turn."""
    piece = the_piece(fact.piece.name)
    return verified(
        fact,
        (say("Stop and think."), say("Does {piece} have to turn?", piece=piece), say("If so, which way, and how far?")),
    )


def ask_meet(fact: PieceFact) -> tuple[str, ...]:
    """Before a piece is brought to where its marks meet."""
    piece = the_piece(fact.piece.name)
    slides = sentence_case(say("{piece} slides next.", piece=piece))
    return verified(fact, (say("Stop and think."), slides, say("Point to where it will lie.")))


def ask_outline(fact: OutlineFact) -> tuple[str, ...]:
    """Before the finished outline stands alone."""
    return verified(fact, (say("Stop and think."), say("How many corners does the finished outline have?")))
