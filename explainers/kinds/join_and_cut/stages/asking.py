"""Stops: a question over the picture that was shown last, and a short time to answer it.

Where a telling may stop is a stage of its own in the row of stages; it yields nothing where no stop is wanted.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ....choice.fact import Fact
from ....choice.finished import outline_fact
from ....choice.words import task as asked
from ....figure.subject import Subject, Thing
from ....storyboard.model import Step
from ....storyboard.waiting import waiting
from ....wording.lesson import Chapter, Heading, heading
from ..facts.piece import piece_fact
from ..model import EVERY_PIECE
from ..words import asking as words
from ..words.framing import PIECES
from .telling import Telling

__all__ = ["ask_meet", "ask_options", "ask_outline", "ask_turn"]

# Long enough to look and point, too short to work anything out in writing: common practice, no source.
STOP_S = 6.0
_PATCHES = 3


def ask_turn(telling: Telling, index: int) -> Iterator[Step]:
    """Before a piece is turned."""
    fact = piece_fact(telling.solution, index)
    if f"{fact.piece.name}.turn" in telling.asks:
        yield _stop(telling, "ask-turn", PIECES, words.ask_turn(fact), (fact,), piece=fact.piece.name)


def ask_meet(telling: Telling, index: int) -> Iterator[Step]:
    """Before a piece is brought to where its marks meet."""
    fact = piece_fact(telling.solution, index)
    if {f"{fact.piece.name}.meet", EVERY_PIECE} & set(telling.asks):
        yield _stop(telling, "ask-meet", PIECES, words.ask_meet(fact), (fact,), piece=fact.piece.name)


def ask_outline(telling: Telling) -> Iterator[Step]:
    """Before the outline stands alone."""
    if "outline" in telling.asks:
        fact = outline_fact(telling.solution.outline, telling.solution.tolerance)
        yield _stop(telling, "ask-outline", Chapter.OUTLINE, words.ask_outline(fact), (fact,))


def ask_options(telling: Telling) -> Iterator[Step]:
    """Before the options are tried."""
    if "options" in telling.asks:
        yield _stop(telling, "ask-options", Chapter.OPTIONS, asked.ask_options(), ())


def _stop(
    telling: Telling,
    stage: str,
    chapter: Chapter,
    narration: tuple[str, ...],
    facts: Sequence[Fact],
    *,
    piece: str = "",
) -> Step:
    return waiting(
        telling,
        stage,
        chapter,
        heading(Heading.STOP),
        seconds=STOP_S,
        patches=_PATCHES,
        narration=narration,
        note=asked.stop_note(),
        facts=facts,
        subject=Subject(thing=Thing.PIECE, name=piece) if piece else None,
    )
