"""Questions of joining and cutting on paper: asked, answered in pictures, with base and pieces to cut out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import chain

from ...choice.drawing.cut_scale import check_line
from ...choice.drawing.question_page import (
    LARGER,
    LONG_SCALE,
    NOTE_MM,
    OPTION_MM,
    OUTLINE_MM,
    STILL_MM_PER_UNIT,
    STILL_PAD,
    cut_out_height_mm,
    is_smaller,
    options_height,
    question_room,
)
from ...choice.fact import verified
from ...choice.finished import outline_fact
from ...choice.stages.sheet_model import AskedItem, CutOutItem, SheetPart, SheetStill
from ...choice.stages.sheet_parts import option_parts
from ...choice.words.alt import options_alt
from ...figure.model import Figure, Role
from ...figure.paper import Printing, framed
from ...figure.theme import Theme
from ...sentences import sheets as words
from .drawing.cut_outs import CutOuts
from .drawing.paper_sheet import PaperSheet, TwoPageSheet
from .drawing.work_table import TRAY_GROUP, TablePhase, WorkTable
from .facts.meet import meet_fact
from .facts.piece import piece_fact
from .facts.turn import turn_fact
from .facts.turn_goal import turn_goal_fact
from .model import BASE
from .solving.solution import JoinAndCutSolution
from .words import steps as step_words
from .words.alt import alone_alt, asked_alt, base_alt, met_alt, piece_alt, sheet_alt
from .words.cut_outs import keep_this_side_up
from .words.task import task

__all__ = ["QuestionOnPaper"]

_LARGE_MARK = 0.72  # 18.4 pt at that
_WIDE_MM_PER_UNIT = 15.5  # one still a row, where large letters would leave too little room beside one another
_LEAST_SHRINK = 0.6


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionOnPaper:
    """One item; see ``kinds.kind.OnPaper``."""

    solution: JoinAndCutSolution
    theme: Theme
    printing: Printing

    def asked(self, heading: str) -> AskedItem:
        """As ``OnPaper.asked``."""
        solution, printing = self.solution, self.printing
        facts = [piece_fact(solution, index) for index in range(len(solution.placements))]
        sizes_differ = len({option.scale for option in solution.item.options}) > 1
        sentences = task(facts, sizes_differ=sizes_differ, drawn_smaller=True)
        sheet = self._sheet(sentences, printing)
        if not sheet.options_are_smaller:
            sentences = task(facts, sizes_differ=sizes_differ)
            sheet = self._sheet(sentences, printing)
        labels = tuple(verdict.label for verdict in solution.verdicts)
        if printing.large:
            ordinary = self._sheet(sentences, replace(printing, large=False))
            if is_smaller(sheet.scales_mm, ordinary.scales_mm):
                two = self._on_two_pages(sheet)
                sentences = task(facts, sizes_differ=sizes_differ, drawn_smaller=two.options_are_smaller)
                picture, options = two.pictures(asked_alt(solution), options_alt(solution))
                return AskedItem(heading=heading, task=sentences, picture=picture, labels=labels, options=options)
        pieces = (
            SheetPart(middle=sheet.piece_middle(index), room=sheet.piece_room(index))
            for index in range(len(solution.placements))
        )
        return AskedItem(
            heading=heading,
            task=sentences,
            picture=sheet.picture(sheet_alt(solution)),
            labels=labels,
            parts=(*pieces, *option_parts(sheet.cells)),
        )

    def answered(self) -> tuple[SheetStill, ...]:
        """As ``OnPaper.answered``: one still a piece where it lies, then the finished outline."""
        solution = self.solution
        table, unit = self._table()
        figures: list[Figure] = []
        captions: list[str] = []
        for index in range(len(solution.placements)):
            figures.append(table.figure(index, TablePhase.MET, met_alt(solution, index)))
            turn, goal, meet = turn_fact(solution, index), turn_goal_fact(solution, index), meet_fact(solution, index)
            told = (
                verified(turn, turn.narration())[:1],
                verified(goal, (goal.on_sheet(),)),
                verified(meet, meet.narration())[:1],
            )
            captions.append(" ".join(chain.from_iterable(told)))
        figures.append(table.alone(alone_alt(solution)))
        captions.append(" ".join(step_words.outline(outline_fact(solution.outline, solution.tolerance))))
        pictures = framed([_bare(figure) for figure in figures], pad=STILL_PAD, mm_per_unit=unit)
        return tuple(SheetStill(picture=p, caption=caption) for p, caption in zip(pictures, captions, strict=True))

    def cut_outs(self, heading: str) -> CutOutItem:
        """As ``OnPaper.cut_outs``."""
        solution, theme, printing = self.solution, self.theme, self.printing
        unit = printing.mm_per_unit
        paragraphs = (words.caution(), keep_this_side_up(), words.scale_words(LONG_SCALE))
        height = cut_out_height_mm(printing, paragraphs) / unit
        parts = CutOuts(solution=solution, theme=theme, width=printing.width_mm / unit, height=height, mm_per_unit=unit)
        told = _parts_told(solution)
        pages = tuple(
            replace(picture, figure=replace(picture.figure, alt=" ".join(told[number] for number in numbers)))
            for picture, numbers in zip(parts.pictures, parts.parts_on_pages, strict=True)
        )
        return CutOutItem(
            heading=heading,
            keep=keep_this_side_up(),
            unit_mm=parts.unit_mm,
            scale=words.scale_words(parts.unit_mm),
            pages=pages,
            line=check_line(theme, mm_per_unit=unit, words=words.check_line(), alt=words.check_line_alt()),
        )

    def _sheet(self, sentences: Sequence[str], printing: Printing) -> PaperSheet:
        """The question on one page, under those sentences."""
        width, height = question_room(printing, sentences)
        return PaperSheet(
            solution=self.solution,
            theme=self.theme,
            width=width,
            height=height,
            mm_per_unit=printing.mm_per_unit,
            base_mm=OUTLINE_MM[printing.large],
            option_mm=OPTION_MM[printing.large],
        )

    def _on_two_pages(self, sheet: PaperSheet) -> TwoPageSheet:
        return TwoPageSheet(
            solution=sheet.solution,
            theme=sheet.theme,
            width=sheet.width,
            height=sheet.height - NOTE_MM / sheet.mm_per_unit,
            mm_per_unit=sheet.mm_per_unit,
            base_mm=LARGER * sheet.base_mm,
            option_mm=LARGER * sheet.option_mm,
            options_height=options_height(self.printing),
        )

    def _table(self) -> tuple[WorkTable, float]:
        """The work table, and the millimetres of one of its stage units."""
        solution, theme = self.solution, self.theme
        table = WorkTable(solution=solution, theme=theme)
        if not self.printing.large:
            return table, STILL_MM_PER_UNIT
        lettered = WorkTable(solution=solution, theme=replace(theme, mark_size=max(theme.mark_size, _LARGE_MARK)))
        if lettered.assembly.scale >= _LEAST_SHRINK * table.assembly.scale:
            return lettered, STILL_MM_PER_UNIT
        return table, _WIDE_MM_PER_UNIT


def _bare(figure: Figure) -> Figure:
    """What lies on the table, without table and tray."""
    entries = tuple(entry for entry in figure.entries if entry.role != Role.PANEL and entry.group != TRAY_GROUP)
    return replace(figure, entries=entries)


def _parts_told(solution: JoinAndCutSolution) -> list[str]:
    """The alt text of the base and of each piece."""
    marks = [(p.piece.mark, p.piece.meets) for p in solution.placements if p.piece.of == BASE]
    return [base_alt(solution.item.base, marks), *(piece_alt(placement.piece) for placement in solution.placements)]
