"""Questions of joining and cutting on paper: asked, answered in pictures, with base and pieces to cut out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...choice.drawing.cut_scale import check_line
from ...choice.fact import verified
from ...choice.finished import outline_fact
from ...choice.stages.sheet_model import AskedItem, CutOutItem, SheetStill
from ...choice.words.alt import options_alt
from ...figure.model import Figure, Role
from ...figure.paper import Printing, framed, paragraph_mm
from ...figure.theme import Theme
from ...wording import sheets as words
from .drawing.cut_outs import CutOuts
from .drawing.paper_sheet import EDGE, PaperSheet, TwoPageSheet
from .drawing.table import TRAY_GROUP, Phase, Table
from .facts.meet import meet_fact
from .facts.piece import piece_fact
from .facts.turn import turn_fact
from .model import BASE
from .solving.solution import JoinAndCutSolution
from .words import picture_alt
from .words import steps as step_words
from .words.alt import asked_alt, base_alt, piece_alt, sheet_alt
from .words.task import task

__all__ = ["QuestionOnPaper"]

_ABOUT_QUESTION_MM = {False: 74.0, True: 60.0}  # what stands round task and picture of a question; by large print
_AS_LARGE = 0.98  # of the ordinary sheet's: in large print no shape is smaller, or the options get a page of their own
_LARGER = 1.4  # than on one page, where there is room
_NOTE_MM = 18.0  # two lines that say where the options are, in large print
_ABOUT_CUT_OUTS_MM = {False: 38.0, True: 42.0}  # the same round the paragraphs and pieces of a cut-out sheet
_STILL_MM_PER_UNIT = 9.0  # so that two stills stand side by side
_LARGE_MARK = 0.72  # 18.4 pt at that
_WIDE_MM_PER_UNIT = 15.5  # one still a row, where large letters would leave too little room beside one another
_LEAST_SHRINK = 0.6
_STILL_PAD = 0.15
_LONG_SCALE = 12.34  # as long in words as any


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
        scales = {option.scale for option in solution.item.options}
        verified = task(facts, sizes_differ=len(scales) > 1)
        sheet = self._sheet(verified, printing)
        labels = tuple(verdict.label for verdict in solution.verdicts)
        if printing.large:
            ordinary = self._sheet(verified, replace(printing, large=False))
            if any(large < _AS_LARGE * usual for large, usual in zip(sheet.scales_mm, ordinary.scales_mm, strict=True)):
                two = self._on_two_pages(sheet)
                picture, options = two.pictures(asked_alt(solution), options_alt(solution))
                return AskedItem(heading=heading, task=verified, picture=picture, labels=labels, options=options)
        return AskedItem(heading=heading, task=verified, picture=sheet.picture(sheet_alt(solution)), labels=labels)

    def answered(self) -> tuple[SheetStill, ...]:
        """As ``OnPaper.answered``: one still a piece where it lies, then the finished outline."""
        solution = self.solution
        table, unit = self._table()
        figures: list[Figure] = []
        captions: list[str] = []
        for index in range(len(solution.placements)):
            figures.append(table.figure(index, Phase.MET, picture_alt.met_alt(solution, index)))
            facts = turn_fact(solution, index), meet_fact(solution, index)
            captions.append(" ".join(verified(fact, fact.narration())[0] for fact in facts))
        figures.append(table.alone(picture_alt.alone_alt(solution)))
        captions.append(" ".join(step_words.outline(outline_fact(solution.outline, solution.tolerance))[1:]))
        pictures = framed([_bare(figure) for figure in figures], pad=_STILL_PAD, mm_per_unit=unit)
        return tuple(SheetStill(picture=p, caption=caption) for p, caption in zip(pictures, captions, strict=True))

    def cut_outs(self, heading: str) -> CutOutItem:
        """As ``OnPaper.cut_outs``."""
        solution, theme, printing = self.solution, self.theme, self.printing
        unit = printing.mm_per_unit
        paragraphs = (words.caution(), words.keep_this_side_up(), words.scale_words(_LONG_SCALE))
        height_mm = printing.height_mm - _ABOUT_CUT_OUTS_MM[printing.large]
        height_mm -= sum(paragraph_mm(paragraph, printing) for paragraph in paragraphs)
        parts = CutOuts(
            solution=solution, theme=theme, width=printing.width_mm / unit, height=height_mm / unit, mm_per_unit=unit
        )
        told = _parts_told(solution)
        pages = tuple(
            replace(picture, figure=replace(picture.figure, alt=" ".join(told[number] for number in numbers)))
            for picture, numbers in zip(parts.pictures, parts.parts_on_pages, strict=True)
        )
        return CutOutItem(
            heading=heading,
            unit_mm=parts.unit_mm,
            scale=words.scale_words(parts.unit_mm),
            pages=pages,
            line=check_line(theme, mm_per_unit=unit, words=words.check_line(), alt=words.check_line_alt()),
        )

    def _sheet(self, verified: Sequence[str], printing: Printing) -> PaperSheet:
        """The question on one page, under those sentences."""
        height_mm = printing.height_mm - _ABOUT_QUESTION_MM[printing.large] - paragraph_mm(" ".join(verified), printing)
        unit = printing.mm_per_unit
        return PaperSheet(
            solution=self.solution,
            theme=self.theme,
            width=printing.width_mm / unit - 2 * EDGE,
            height=height_mm / unit - 2 * EDGE,
            mm_per_unit=unit,
            base_mm=100.0 if printing.large else 66.0,
            option_mm=64.0 if printing.large else 46.0,
        )

    def _on_two_pages(self, sheet: PaperSheet) -> TwoPageSheet:
        options_mm = self.printing.height_mm - _ABOUT_QUESTION_MM[self.printing.large]
        return TwoPageSheet(
            solution=sheet.solution,
            theme=sheet.theme,
            width=sheet.width,
            height=sheet.height - _NOTE_MM / sheet.mm_per_unit,
            mm_per_unit=sheet.mm_per_unit,
            base_mm=_LARGER * sheet.base_mm,
            option_mm=_LARGER * sheet.option_mm,
            options_height=options_mm / sheet.mm_per_unit - 2 * EDGE,
        )

    def _table(self) -> tuple[Table, float]:
        """The work table, and the millimetres of one of its stage units."""
        solution, theme = self.solution, self.theme
        table = Table(solution=solution, theme=theme)
        if not self.printing.large:
            return table, _STILL_MM_PER_UNIT
        lettered = Table(solution=solution, theme=replace(theme, mark_size=max(theme.mark_size, _LARGE_MARK)))
        if lettered.cloth.scale >= _LEAST_SHRINK * table.cloth.scale:
            return lettered, _STILL_MM_PER_UNIT
        return table, _WIDE_MM_PER_UNIT


def _bare(figure: Figure) -> Figure:
    """What lies on the table, without table and tray."""
    entries = tuple(entry for entry in figure.entries if entry.role != Role.PANEL and entry.group != TRAY_GROUP)
    return replace(figure, entries=entries)


def _parts_told(solution: JoinAndCutSolution) -> list[str]:
    """The alt text of the base and of each piece."""
    marks = [(p.piece.mark, p.piece.meets) for p in solution.placements if p.piece.of == BASE]
    return [base_alt(solution.item.base, marks), *(piece_alt(placement.piece) for placement in solution.placements)]
