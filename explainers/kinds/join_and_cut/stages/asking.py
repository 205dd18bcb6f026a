"""Stops: a question about a piece or the outline over the picture that was shown last, where one is wanted."""

from __future__ import annotations

from collections.abc import Iterator

from ....choice.finished import outline_fact
from ....choice.stages.waiting import stop
from ....figure.subject import Subject
from ....storyboard.model import Step
from ....wording.lesson import Chapter
from ..drawing.subjects import PIECE
from ..model import EVERY_PIECE
from ..words import asking as words
from ..words.framing import PIECES
from .context import PieceContext

__all__ = ["ask_meet", "ask_outline", "ask_turn"]


def ask_turn(context: PieceContext, index: int) -> Iterator[Step]:
    """Before a piece is turned."""
    fact = context.facts[index]
    name = fact.piece.name
    if f"{name}.turn" in context.telling.asks:
        subject = Subject(thing=PIECE, name=name)
        yield stop(context, "ask-turn", PIECES, words.ask_turn(fact), (fact,), subject)


def ask_meet(context: PieceContext, index: int) -> Iterator[Step]:
    """Before a piece is brought to where its marks meet."""
    fact = context.facts[index]
    name = fact.piece.name
    if {f"{name}.meet", EVERY_PIECE} & set(context.telling.asks):
        subject = Subject(thing=PIECE, name=name)
        yield stop(context, "ask-meet", PIECES, words.ask_meet(fact), (fact,), subject)


def ask_outline(context: PieceContext) -> Iterator[Step]:
    """Before the outline stands alone."""
    if "outline" in context.telling.asks:
        fact = outline_fact(context.solution.outline, context.solution.tolerance)
        yield stop(context, "ask-outline", Chapter.OUTLINE, words.ask_outline(fact), (fact,))
