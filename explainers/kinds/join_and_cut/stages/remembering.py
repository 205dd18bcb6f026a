"""The pictures of strategies for pieces: the work table, with what a strategy names standing out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Protocol

from ....choice.drawing.marked import DOT, marks_at
from ....choice.sieves.sieve import SieveMarks
from ....figure.model import Figure, Label
from ....figure.subject import Subject
from ....geometry.locate import span_on
from ....geometry.rigid_motion import Side
from ....geometry.rings import sides
from ....words.messages import message, say
from ..drawing.assembly_drawing import piece_subject
from ..drawing.work_table import TRAY_GROUP, TablePhase, WorkTable
from ..facts.strategy import PieceStrategy, PieceStrategyFact
from ..solving.placement import Placement
from ..words.alt import alone_alt
from ..words.own_verbs import say_action

__all__ = ["picture_of"]

_JOINED = message("The side where they were joined stands out.")
_PHASES = {
    PieceStrategy.MATCH: TablePhase.POINTED,
    PieceStrategy.PART_OF_SIDE: TablePhase.POINTED,
    PieceStrategy.PARTNER_FIRST: TablePhase.POINTED,
    PieceStrategy.STOP: TablePhase.ALONGSIDE,
    PieceStrategy.TURN_THEN_SLIDE: TablePhase.TURNED,
    PieceStrategy.HALF_TURN: TablePhase.TURNED,
    PieceStrategy.NO_TURN: TablePhase.TURNING,
}
_OF_TURNS = frozenset({PieceStrategy.TURN_THEN_SLIDE, PieceStrategy.HALF_TURN, PieceStrategy.NO_TURN})  # not of sides


class _Shown(Protocol):
    def __call__(self, done: int, phase: TablePhase, *, pointing: bool = True) -> Figure: ...


def picture_of(fact: PieceStrategyFact, table: WorkTable, shown: _Shown) -> Figure:
    """What the lesson has shown of that piece; of all pieces the list in which each is ticked.

    shown : the table with so many pieces done, the next in a phase
    """
    solution = table.solution
    index = [placement.piece.name for placement in solution.placements].index(fact.name)
    placement = solution.placements[index]
    if fact.strategy in _PHASES:
        return shown(index, _PHASES[fact.strategy], pointing=fact.strategy not in _OF_TURNS)
    if fact.strategy is PieceStrategy.TICK_OFF:
        return _listed(table, " ".join((alone_alt(solution), say("In the list of pieces, each has a tick."))))
    done, subject = shown(index, TablePhase.DONE), piece_subject(index)
    if fact.strategy is PieceStrategy.GAP:
        return _marked(
            table, done, subject, _gap(placement, solution.tolerance), say("The sides of the gap stand out.")
        )
    return _marked(table, done, subject, [placement.partner], say_action(_JOINED))


def _listed(table: WorkTable, alt: str) -> Figure:
    """The outline alone, the words of the list in the colour of attention."""
    alone = table.alone(alt)
    entries = tuple(
        replace(entry, colour=table.theme.attention)
        if isinstance(entry, Label) and entry.group == TRAY_GROUP
        else entry
        for entry in alone.entries
    )
    return replace(alone, entries=entries)


def _marked(table: WorkTable, figure: Figure, subject: Subject, places: Iterable[Side], told: str) -> Figure:
    marks = SieveMarks(sides=tuple(places))
    outline = table.solution.outline
    entries = marks_at("remembered", subject, outline, marks, table.view, table.theme, dot=DOT)
    return replace(figure, entries=(*figure.entries, *entries), alt=f"{figure.alt} {told}")


def _gap(placement: Placement, tolerance: float) -> list[Side]:
    """Where the outline runs along what has been cut away."""
    own, left = (placement.ring,), placement.after.rings
    along = [side for side in sides(placement.ring) if span_on(left, side, tolerance) is not None]
    return along + [side for ring in left for side in sides(ring) if span_on(own, side, tolerance) is not None]
