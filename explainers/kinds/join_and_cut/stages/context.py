"""One question of joining and cutting being told: its sheet, its work table, its slips replayed piece by piece."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from functools import cached_property
from itertools import chain

from ....choice.drawing.marked import DOT, marks_at
from ....choice.sieves.sieve import SieveMarks
from ....choice.stages.context import AskedQuestion, Part, StageContext
from ....choice.stages.unseen import blank
from ....choice.strategy import Candidate, StrategyFact
from ....figure.model import Figure
from ....figure.subject import THE_OUTLINE
from ....geometry.rigid_motion import Similarity
from ..drawing.sheet import Sheet
from ..drawing.work_table import TablePhase, WorkTable
from ..facts.piece import PieceFact, piece_fact
from ..facts.strategy import PieceStrategyFact, piece_candidates
from ..facts.tally import TallyFact, tally_fact
from ..solving.solution import JoinAndCutSolution
from ..words.alt import counted_alt, done_alt, met_alt, sheet_alt, table_alt
from ..words.task import task
from .loose import loose_pieces
from .remembering import picture_of
from .unseen import UnseenSheet, UnseenWorkTable

__all__ = ["PieceContext"]


class PieceContext(StageContext):
    """What the stages of one item are told from."""

    solution: JoinAndCutSolution

    @cached_property
    def sheet(self) -> Sheet:
        """The question sheet."""
        kind = Sheet if self.is_seen else UnseenSheet
        return kind(solution=self.solution, theme=self.theme)

    @cached_property
    def table(self) -> WorkTable:
        """The work table."""
        kind = WorkTable if self.is_seen else UnseenWorkTable
        return kind(solution=self.solution, theme=self.theme)

    @cached_property
    def facts(self) -> tuple[PieceFact, ...]:
        """What the task asks of each piece."""
        return tuple(piece_fact(self.solution, index) for index in range(len(self.solution.placements)))

    @cached_property
    def tally(self) -> TallyFact | None:
        """The corners of base and pieces; None where they do not tell those of the outline, or are left out."""
        if Part.AHEAD in self.settings.leaves_out:
            return None
        fact = tally_fact(self.solution)
        return fact if fact.is_plain else None

    @cached_property
    def asked(self) -> AskedQuestion:
        """The sheet, and the task read out."""
        return AskedQuestion(
            figure=self.sheet.figure(sheet_alt(self.solution)),
            cells=self.sheet.cells if self.is_seen else None,
            narration=task(self.facts, sizes_differ=self.sizes_differ, drawn_smaller=self.sheet.options_are_smaller),
            facts=self.facts,
            loose=loose_pieces(self.sheet) if self.is_seen else (),
        )

    @property
    def outline_view(self) -> Similarity:
        """As it stands alone."""
        return self.table.alone_view

    def own_strategies(self) -> Iterable[Candidate]:
        """Those for pieces."""
        return piece_candidates(self.solution)

    def picture_of(self, fact: StrategyFact) -> Figure | None:
        """The work table, with what the strategy names standing out."""
        return picture_of(fact, self.table, self.shown) if isinstance(fact, PieceStrategyFact) else None

    def shown(self, done: int, phase: TablePhase, *, pointing: bool = True) -> Figure:
        """The work table with so many pieces done, the next in this phase.

        pointing : whether both marked sides are pointed at while the piece is looked at and turned
        """
        solution = self.solution
        if phase is TablePhase.DONE:
            alt = done_alt(solution, done)
        elif phase in (TablePhase.MET, TablePhase.OPENED):
            alt = met_alt(solution, done)
        else:
            alt = table_alt(
                solution,
                done,
                turned=phase in (TablePhase.TURNED, TablePhase.ALONGSIDE),
                pointed=phase is TablePhase.ALONGSIDE or (pointing and phase is not TablePhase.SHOWN),
                arc=phase in (TablePhase.TURNING, TablePhase.TURNED),
            )
        return self.table.figure(done, phase, alt, pointing=pointing)

    def alone_counted(self, alt: str) -> Figure:
        """The outline alone, every corner with a dot and every hole drawn round."""
        if not self.is_seen:
            return blank("alone", "counted")
        outline, alone = self.solution.outline, self.table.alone(alt)
        marks = SieveMarks(corners=tuple(chain(*outline.rings)), rings=outline.holes)
        entries = marks_at(THE_OUTLINE.group, THE_OUTLINE, outline, marks, self.table.alone_view, self.theme, dot=DOT)
        # They move with the outline, when its options come beside it.
        return replace(alone, entries=(*alone.entries, *(replace(entry, group=THE_OUTLINE.group) for entry in entries)))

    def counted(self, fact: TallyFact, *, settled: bool) -> Figure:
        """The work table with every piece done and all corners counted."""
        alt = counted_alt(self.solution, fact, settled=settled)
        return self.table.counted(fact.corners, fact.sums()[settled], alt, settled=settled)
