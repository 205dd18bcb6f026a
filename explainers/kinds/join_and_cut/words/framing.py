"""What stands round questions of joining and cutting: headings and chapters over pieces, the first and last words.

All of it may be read before the solution, so nothing in here says which option fits.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from enum import StrEnum

from ....item.model import Manner
from ....sentences.lesson import Chapter, Framing, fitting_heading
from ....words.mark_names import the_marks
from ....words.messages import message, say
from ....words.names import sentence_case, the_piece
from ..model import Does
from ..solving.solution import JoinAndCutSolution
from .own_verbs import say_action

__all__ = ["PIECES", "PieceHeading", "about", "ask_why", "framing", "piece_heading", "routine"]

PIECES = Chapter(title=message("The pieces"), of_item=message("{title}: the pieces"))


class PieceHeading(StrEnum):
    """Which step about pieces a heading stands over; the value is used where a name would make it too long."""

    CLOSE_UP = message("The base and the pieces")
    MARKS = message("Find the marks")
    TURN = message("Turn the piece")
    NO_TURN = message("No turn needed")
    MEET = message("The marks meet")
    JOIN = message("Join the piece")
    CUT = message("Cut the piece away")
    AHEAD = message("Count the corners")


_OF_PIECE = {
    PieceHeading.MARKS: message("Find {marks}"),
    PieceHeading.TURN: message("Turn {piece}"),
    PieceHeading.NO_TURN: message("{piece} needs no turn"),
    PieceHeading.MEET: message("{marks} meet"),
    PieceHeading.JOIN: message("Join {piece}"),
    PieceHeading.CUT: message("Cut {piece} away"),
}


def piece_heading(kind: PieceHeading, *, name: str = "", mark: str = "") -> str:
    """The line at the top of the stage.

    name : the piece's, for TURN, NO_TURN, JOIN and CUT
    mark : its mark, for MARKS and MEET
    """
    plain = say_action(kind.value)
    if kind not in _OF_PIECE:
        return plain
    return fitting_heading(
        sentence_case(say_action(_OF_PIECE[kind], piece=the_piece(name), marks=the_marks(mark))), plain
    )


def framing(shown: Sequence[tuple[Manner, JoinAndCutSolution]]) -> Framing:
    """What stands round these questions.

    shown : in order, each with how it is shown
    """
    manners = [manner for manner, _ in shown]
    placements = [
        laid for manner, solution in shown if manner is not Manner.QUICK_CHECK for laid in solution.placements
    ]
    return Framing(
        heading=say_action(message("Join and cut")),
        about=about({laid.piece.does for laid in placements}),
        routine=routine(manners),
    )


def about(does: Collection[Does]) -> tuple[str, ...]:
    """What the questions are.

    does : what becomes of the pieces that are seen
    """
    sentences = []
    if Does.JOIN in does and Does.CUT in does:
        sentences.append(say_action(message("Pieces are joined to a base, or cut away, where their marks meet.")))
    elif Does.JOIN in does:
        sentences.append(say_action(message("Pieces are joined to a base where their marks meet.")))
    elif Does.CUT in does:
        sentences.append(say_action(message("Pieces are cut away from a base where their marks meet.")))
    sentences.append(say("Which option shows the finished outline?"))
    if does:
        sentences.append(say("Pieces and options may turn, but never flip."))
    else:
        sentences.append(say("You may turn options, but never flip them."))
    return tuple(sentences)


def routine(manners: Collection[Manner] = ()) -> tuple[str, ...]:
    """The first step of the way of working, to take along.

    manners : how each question was shown; where no piece was seen, none is spoken of
    """
    if manners and set(manners) == {Manner.QUICK_CHECK}:
        return ()
    return (say("Match the marks: turn, then slide."),)


def ask_why() -> str:
    """What a teacher may ask whoever chose the right option."""
    return say("Ask how they know: which sides met, which way it turned.")
