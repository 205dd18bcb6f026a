"""Questions of the turned outline on paper: asked, answered in pictures, with the outline to cut out and turn."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...choice.drawing.choices import Choices
from ...choice.drawing.cut_scale import check_line
from ...choice.same import SameFact
from ...choice.stages.sheet_model import AskedItem, CutOutItem, SheetStill
from ...choice.words.alt import check_alt, choices_alt, how_told, options_alt, outline_alt
from ...choice.words.choices import keep
from ...choice.words.task import check
from ...figure.model import Figure
from ...figure.paper import Printing, framed, paragraph_mm
from ...figure.subject import THE_OUTLINE, option_subject
from ...figure.theme import Theme
from ...wording import sheets as words
from ...words.messages import say, say_as
from .drawing.cut_out import CutOut
from .drawing.look import Look, Phase
from .drawing.paper_sheet import EDGE, PaperSheet
from .facts.landmark import landmark_fact
from .solution import TurnedOutlineSolution

__all__ = ["QuestionOnPaper"]

_ABOUT_QUESTION_MM = {False: 74.0, True: 60.0}  # what stands round task and picture of a question; by large print
_AS_LARGE = 0.98  # of the ordinary sheet's: in large print no shape is smaller, or the options get a page of their own
_LARGER = 1.4  # than on one page, where there is room
_NOTE_MM = 18.0  # two lines that say where the options are, in large print
_ABOUT_CUT_OUTS_MM = {False: 38.0, True: 42.0}  # the same round the paragraphs and the outline of a cut-out sheet
_STILL_MM_PER_UNIT = 9.0  # so that two stills stand side by side
_STILL_PAD = 0.15
_LONG_SCALE = 12.34  # as long in words as any


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionOnPaper:
    """One question; see ``kinds.kind.OnPaper``."""

    solution: TurnedOutlineSolution
    theme: Theme
    printing: Printing

    def asked(self, heading: str) -> AskedItem:
        """As ``OnPaper.asked``."""
        solution, printing = self.solution, self.printing
        said = check(sizes_differ=len({option.scale for option in solution.item.options}) > 1)
        sheet = self._sheet(said, printing)
        labels = tuple(verdict.label for verdict in solution.verdicts)
        if printing.large:
            ordinary = self._sheet(said, replace(printing, large=False))
            if any(large < _AS_LARGE * usual for large, usual in zip(sheet.scales_mm, ordinary.scales_mm, strict=True)):
                picture, options = self._on_two_pages(sheet).pictures(self._outline_alt(), options_alt(solution))
                return AskedItem(heading=heading, task=said, picture=picture, labels=labels, options=options)
        return AskedItem(heading=heading, task=said, picture=sheet.picture(check_alt(solution)), labels=labels)

    def answered(self) -> tuple[SheetStill, ...]:
        """As ``OnPaper.answered``: the outline with the corner to know again, then the right option laid on it."""
        solution, theme = self.solution, self.theme
        choices = Choices(solution=solution, theme=theme)
        corner = landmark_fact(solution.outline, solution.tolerance)
        (right,) = (verdict for verdict in solution.verdicts if verdict.same)
        (same,) = (fact for fact in right.reasons if isinstance(fact, SameFact))
        ringed = Figure(
            background=theme.paper,
            entries=tuple(Look(outline=solution.outline, theme=theme).entries(choices.view, corner, Phase.CORNER)),
            alt=f"{self._outline_alt()} {corner.alt()}",
        )
        laid = choices.figure(choices_alt(solution, laid=right, kept=True), laid=right, kept=True)
        on_outline = {THE_OUTLINE.group, option_subject(right.label).group}
        laid = replace(laid, entries=tuple(entry for entry in laid.entries if entry.group in on_outline))
        pictures = framed([ringed, laid], pad=_STILL_PAD, mm_per_unit=_STILL_MM_PER_UNIT)
        captions = corner.of_corner(), keep(same)
        return tuple(SheetStill(picture=p, caption=" ".join(told)) for p, told in zip(pictures, captions, strict=True))

    def cut_outs(self, heading: str) -> CutOutItem:
        """As ``OnPaper.cut_outs``."""
        printing, unit = self.printing, self.printing.mm_per_unit
        paragraphs = (words.caution(), words.keep_this_side_up(), words.scale_words(_LONG_SCALE))
        height_mm = printing.height_mm - _ABOUT_CUT_OUTS_MM[printing.large]
        height_mm -= sum(paragraph_mm(paragraph, printing) for paragraph in paragraphs)
        part = CutOut(
            outline=self.solution.outline,
            theme=self.theme,
            width=printing.width_mm / unit,
            height=height_mm / unit,
            mm_per_unit=unit,
            word=say_as("a label", "outline"),
        )
        return CutOutItem(
            heading=heading,
            unit_mm=part.unit_mm,
            scale=words.scale_words(part.unit_mm),
            pages=(part.picture(self._outline_alt()),),
            line=check_line(self.theme, mm_per_unit=unit, words=words.check_line(), alt=words.check_line_alt()),
        )

    def _outline_alt(self) -> str:
        told = (how_told(), say("The finished outline."), outline_alt(self.solution.outline, way_told=True))
        return " ".join(told)

    def _sheet(self, said: Sequence[str], printing: Printing) -> PaperSheet:
        """The question on one page, under those sentences."""
        height_mm = printing.height_mm - _ABOUT_QUESTION_MM[printing.large] - paragraph_mm(" ".join(said), printing)
        unit = printing.mm_per_unit
        return PaperSheet(
            solution=self.solution,
            theme=self.theme,
            width=printing.width_mm / unit - 2 * EDGE,
            height=height_mm / unit - 2 * EDGE,
            mm_per_unit=unit,
            outline_mm=100.0 if printing.large else 66.0,
            option_mm=64.0 if printing.large else 46.0,
        )

    def _on_two_pages(self, sheet: PaperSheet) -> PaperSheet:
        options_mm = self.printing.height_mm - _ABOUT_QUESTION_MM[self.printing.large]
        return replace(
            sheet,
            height=sheet.height - _NOTE_MM / sheet.mm_per_unit,
            outline_mm=_LARGER * sheet.outline_mm,
            option_mm=_LARGER * sheet.option_mm,
            options_height=options_mm / sheet.mm_per_unit - 2 * EDGE,
        )
