"""Questions of the turned outline on paper: asked, answered in pictures, with the outline to cut out and turn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...choice.drawing.choices import Choices
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
from ...choice.same import SameFact
from ...choice.stages.sheet_model import AskedItem, CutOutItem, SheetStill
from ...choice.stages.sheet_parts import option_parts
from ...choice.words.alt import check_alt, choices_alt, how_told, options_alt, outline_alt
from ...choice.words.choices import keep
from ...choice.words.task import check
from ...figure.model import Figure
from ...figure.paper import Printing, framed
from ...figure.subject import THE_OUTLINE, option_subject
from ...figure.theme import Theme
from ...sentences import sheets as words
from ...words.messages import say, say_as
from .drawing.cut_out import CutOut
from .drawing.look import Look, LookPhase
from .drawing.paper_sheet import PaperSheet
from .facts.landmark import landmark_fact
from .solution import TurnedOutlineSolution
from .words.cut_outs import keep_this_side_up

__all__ = ["QuestionOnPaper"]


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionOnPaper:
    """One question; see ``kinds.kind.OnPaper``."""

    solution: TurnedOutlineSolution
    theme: Theme
    printing: Printing

    def asked(self, heading: str) -> AskedItem:
        """As ``OnPaper.asked``."""
        solution, printing = self.solution, self.printing
        sentences = check(
            sizes_differ=len({option.scale for option in solution.item.options}) > 1,
            outline_given=solution.item.outline_given,
        )
        sheet = self._sheet(sentences, printing)
        labels = tuple(verdict.label for verdict in solution.verdicts)
        if printing.large:
            ordinary = self._sheet(sentences, replace(printing, large=False))
            if is_smaller(sheet.scales_mm, ordinary.scales_mm):
                picture, options = self._on_two_pages(sheet).pictures(self._outline_alt(), options_alt(solution))
                return AskedItem(heading=heading, task=sentences, picture=picture, labels=labels, options=options)
        return AskedItem(
            heading=heading,
            task=sentences,
            picture=sheet.picture(check_alt(solution)),
            labels=labels,
            parts=option_parts(sheet.cells),
        )

    def answered(self) -> tuple[SheetStill, ...]:
        """As ``OnPaper.answered``: the outline with the corner to know again, then the right option laid on it."""
        solution, theme = self.solution, self.theme
        choices = Choices(solution=solution, theme=theme)
        corner = landmark_fact(solution.outline, solution.tolerance)
        (right,) = (verdict for verdict in solution.verdicts if verdict.same)
        (same,) = (fact for fact in right.reasons if isinstance(fact, SameFact))
        ringed = Figure(
            background=theme.paper,
            entries=tuple(Look(outline=solution.outline, theme=theme).entries(choices.view, corner, LookPhase.CORNER)),
            alt=f"{self._outline_alt()} {corner.alt()}",
        )
        laid = choices.figure(choices_alt(solution, laid=right, kept=True), laid=right, kept=True)
        on_outline = {THE_OUTLINE.group, option_subject(right.label).group}
        laid = replace(laid, entries=tuple(entry for entry in laid.entries if entry.group in on_outline))
        pictures = framed([ringed, laid], pad=STILL_PAD, mm_per_unit=STILL_MM_PER_UNIT)
        captions = corner.of_corner(), keep(same)
        return tuple(SheetStill(picture=p, caption=" ".join(told)) for p, told in zip(pictures, captions, strict=True))

    def cut_outs(self, heading: str) -> CutOutItem:
        """As ``OnPaper.cut_outs``."""
        printing, unit = self.printing, self.printing.mm_per_unit
        paragraphs = (words.caution(), keep_this_side_up(), words.scale_words(LONG_SCALE))
        height = cut_out_height_mm(printing, paragraphs) / unit
        part = CutOut(
            outline=self.solution.outline,
            theme=self.theme,
            width=printing.width_mm / unit,
            height=height,
            mm_per_unit=unit,
            word=say_as("a label", "outline"),
        )
        return CutOutItem(
            heading=heading,
            keep=keep_this_side_up(),
            unit_mm=part.unit_mm,
            scale=words.scale_words(part.unit_mm),
            pages=(part.picture(self._outline_alt()),),
            line=check_line(self.theme, mm_per_unit=unit, words=words.check_line(), alt=words.check_line_alt()),
        )

    def _outline_alt(self) -> str:
        told = (how_told(), say("The outline to find."), outline_alt(self.solution.outline, way_told=True))
        return " ".join(told)

    def _sheet(self, sentences: Sequence[str], printing: Printing) -> PaperSheet:
        """The question on one page, under those sentences."""
        width, height = question_room(printing, sentences)
        return PaperSheet(
            solution=self.solution,
            theme=self.theme,
            width=width,
            height=height,
            mm_per_unit=printing.mm_per_unit,
            outline_mm=OUTLINE_MM[printing.large],
            option_mm=OPTION_MM[printing.large],
        )

    def _on_two_pages(self, sheet: PaperSheet) -> PaperSheet:
        return replace(
            sheet,
            height=sheet.height - NOTE_MM / sheet.mm_per_unit,
            outline_mm=LARGER * sheet.outline_mm,
            option_mm=LARGER * sheet.option_mm,
            options_height=options_height(self.printing),
        )
