"""The pictures of a solution in words: what lies on the table and on the tray at each step."""

from __future__ import annotations

from ....choice.words.alt import outline_alt, turn_alt
from ....words.messages import say
from ....words.names import sentence_case, the_piece
from ..model import Does
from ..solving.solution import JoinAndCutSolution

__all__ = ["alone_alt", "done_alt", "met_alt", "table_alt"]


def table_alt(
    solution: JoinAndCutSolution, done: int, *, turned: bool, pointed: bool = False, arc: bool = False
) -> str:
    """A piece on the tray beside the work so far.

    done   : how many pieces are finished; the next one is on the tray
    turned : whether it is turned already
    """
    placement = solution.placements[done]
    piece = the_piece(placement.piece.name)
    told = [
        say("On the work table lies the shape so far."),
        outline_alt(placement.before),
        say("On the tray lies {piece}, turned.", piece=piece)
        if turned
        else say("On the tray lies {piece}, not turned yet.", piece=piece),
    ]
    if pointed:
        told.append(say("Both sides marked {mark} stand out.", mark=placement.piece.mark))
    if arc:
        told.append(turn_alt(placement.turn_deg))
    return " ".join(told)


def met_alt(solution: JoinAndCutSolution, index: int) -> str:
    """A piece laid where the marks meet."""
    placement = solution.placements[index]
    met = say(
        "{piece} lies against the shape so far, and the two sides marked {mark} lie along each other.",
        piece=the_piece(placement.piece.name),
        mark=placement.piece.mark,
    )
    return sentence_case(met)


def done_alt(solution: JoinAndCutSolution, index: int) -> str:
    """A piece joined or cut away."""
    placement = solution.placements[index]
    piece = the_piece(placement.piece.name)
    if placement.piece.does is Does.CUT:
        done = say("{piece} is cut away.", piece=piece)
    else:
        done = say("{piece} is joined.", piece=piece)
    return " ".join((sentence_case(done), outline_alt(placement.after)))


def alone_alt(solution: JoinAndCutSolution) -> str:
    """The finished outline alone."""
    return " ".join((say("The finished outline, alone."), outline_alt(solution.outline)))
