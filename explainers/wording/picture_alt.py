"""The pictures of a solution in words: what lies on the table and on the tray at each step."""

from __future__ import annotations

from ..solution.facts import DifferenceFact
from ..solution.model import Solution, Verdict
from ..solution.slips.slip_fact import SlipFact
from .alt import outline_alt, turn_alt
from .names import list_in_words, sentence_case, the_option, the_piece

__all__ = ["alone_alt", "card_alt", "choices_alt", "done_alt", "met_alt", "replay_alt", "table_alt"]


def table_alt(solution: Solution, done: int, *, turned: bool, pointed: bool = False, arc: bool = False) -> str:
    """A piece on the tray beside the work so far.

    done   : how many pieces are finished; the next one is on the tray
    turned : whether it is turned already
    """
    placement = solution.placements[done]
    piece = the_piece(placement.piece.name)
    told = [
        f"On the work table lies the shape so far. {outline_alt(placement.before)}",
        f"On the tray lies {piece}, {'turned' if turned else 'not turned yet'}.",
    ]
    if pointed:
        told.append(f"Both sides marked {placement.piece.mark} stand out.")
    if arc:
        told.append(turn_alt(placement.turn_deg))
    return " ".join(told)


def met_alt(solution: Solution, index: int) -> str:
    """A piece laid where the marks meet."""
    placement = solution.placements[index]
    return (
        f"{sentence_case(the_piece(placement.piece.name))} lies against the shape so far, "
        f"and the two sides marked {placement.piece.mark} lie along each other."
    )


def done_alt(solution: Solution, index: int) -> str:
    """A piece joined or cut away."""
    placement = solution.placements[index]
    piece = sentence_case(the_piece(placement.piece.name))
    return f"{piece} is {_deed(placement.piece.does.value)}. {outline_alt(placement.after)}"


def alone_alt(solution: Solution) -> str:
    """The finished outline alone."""
    return f"The finished outline, alone. {outline_alt(solution.outline)}"


def choices_alt(
    solution: Solution,
    *,
    settled: tuple[str, ...] = (),
    laid: Verdict | None = None,
    reason: DifferenceFact | None = None,
    kept: bool = False,
) -> str:
    """The options beside the finished outline."""
    labels = [verdict.label for verdict in solution.verdicts]
    told = [f"The finished outline, with the options {list_in_words(labels)} beside it."]
    out = [label for label in labels if label in settled and not _same(solution, label)]
    if out:
        told.append(f"{list_in_words(out)} {'has a cross' if len(out) == 1 else 'have crosses'}.")
    if laid is not None:
        told.append(f"{sentence_case(the_option(laid.label))} lies on the outline.")
        if reason is not None:
            told.append("A ring shows a place where they differ.")
        if kept:
            told.append("It fits all the way round.")
    return " ".join(told)


def replay_alt(fact: SlipFact) -> str:
    """What comes out when a slip happens."""
    return f"What comes out of the slip lies on the work table. {outline_alt(fact.replayed)}"


def card_alt(lines: tuple[str, ...]) -> str:
    """A card of words."""
    return " ".join(line if line[-1:] in ".?!" else f"{line}." for line in lines)


def _same(solution: Solution, label: str) -> bool:
    return any(verdict.same for verdict in solution.verdicts if verdict.label == label)


def _deed(does: str) -> str:
    return "joined" if does == "join" else "cut away"
