"""Solutions -> the sheets to print: what is asked, answered, marked and cut out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from ..choice.fact import said
from ..choice.finished import outline_fact
from ..choice.model import Solution
from ..choice.versions import in_order, orders
from ..choice.words.alt import options_alt
from ..choice.words.marking import marking_entry, reason_on_sheet
from ..errors import UnsoundItemError
from ..figure.extents import extent_of_entries
from ..figure.layout import Box
from ..figure.model import Figure, Role
from ..figure.paper import Picture, Printing, paper_theme, paragraph_mm
from ..figure.theme import Theme
from ..kinds.join_and_cut.drawing.cut_outs import CutOuts, check_line
from ..kinds.join_and_cut.drawing.paper_sheet import EDGE, PaperSheet, TwoPageSheet
from ..kinds.join_and_cut.drawing.table import TRAY_GROUP, Phase, Table
from ..kinds.join_and_cut.facts.meet import meet_fact
from ..kinds.join_and_cut.facts.piece import piece_fact
from ..kinds.join_and_cut.facts.turn import turn_fact
from ..kinds.join_and_cut.model import BASE
from ..kinds.join_and_cut.words import picture_alt
from ..kinds.join_and_cut.words import steps as step_words
from ..kinds.join_and_cut.words.alt import asked_alt, base_alt, piece_alt, sheet_alt
from ..kinds.join_and_cut.words.task import task
from ..kinds.registry import kind_of, solve
from ..storyboard.model import Imprint
from ..storyboard.sheet_model import AnsweredItem, AskedItem, CutOutItem, MarkedItem, SheetSet, Still
from ..wording import sheets as words
from ..wording.sheets import Sheet
from ..words.messages import speaking

__all__ = ["plan_sheets", "plan_versions"]

_ALL = tuple(Sheet)
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


def plan_sheets(
    solutions: Sequence[Solution],
    *,
    name: str,
    title: str,
    theme: Theme,
    printing: Printing,
    language: str = "en-GB",
    imprint: Imprint | None = None,
    only: Collection[Sheet] = _ALL,
    version: int | None = None,
) -> SheetSet:
    """The sheets of these items, in order.

    only   : the kinds wanted
    Raises : UnsoundItemError where an item has not exactly one right option; FactError where a sentence would be false;
             FontError for a character that the typeface lacks
    """
    for solution in solutions:
        if not solution.sound:
            raise UnsoundItemError(f"{solution.item.name}: {' '.join(solution.unsound_because)}")
    with speaking(language):
        count, look = len(solutions), paper_theme(theme)
        headed = [(words.question_heading(n, s.item.title, count), s) for n, s in enumerate(solutions, start=1)]
        return SheetSet(
            name=name,
            title=title,
            language=language,
            printing=printing,
            imprint=imprint or Imprint(),
            version=version,
            keys=tuple(solution.key or "" for solution in solutions),
            questions=tuple(_asked(h, s, look, printing) for h, s in headed) if Sheet.QUESTION in only else (),
            answers=tuple(_answered(h, s, look, printing) for h, s in headed) if Sheet.ANSWER in only else (),
            marking=tuple(_marked(h, s) for h, s in headed) if Sheet.MARKING in only else (),
            cut_outs=tuple(_cut_out(h, s, look, printing) for h, s in headed) if Sheet.CUTOUT in only else (),
        )


def plan_versions(
    solutions: Sequence[Solution], versions: int, seed: int, *, only: Collection[Sheet] = _ALL, **shared: object
) -> Iterator[SheetSet]:
    """Versions of the sheets, the options of each in another order; pieces to cut out come with the first alone.

    shared : as for ``plan_sheets``
    """
    shuffled = []
    for solution in solutions:
        labels = [verdict.label for verdict in solution.verdicts]
        if solution.key is None:
            raise UnsoundItemError(f"{solution.item.name}: {' '.join(solution.unsound_because)}")
        key = labels.index(solution.key)
        shuffled.append(orders(len(labels), key, versions, seed=seed, name=solution.item.name))
    for number in range(versions):
        ordered = [_in_order(solution, order[number]) for solution, order in zip(solutions, shuffled, strict=True)]
        wanted = [kind for kind in only if kind is not Sheet.CUTOUT or number == 0]
        yield plan_sheets(ordered, only=wanted, version=number + 1, **shared)  # type: ignore[arg-type]


def _in_order(solution: Solution, order: Sequence[int]) -> Solution:
    """The item with its options in another order, solved anew."""
    if list(order) == list(range(len(order))):
        return solution
    return solve(in_order(solution.item, order), pairs=True)


def _asked(heading: str, solution: Solution, theme: Theme, printing: Printing) -> AskedItem:
    facts = [piece_fact(solution, index) for index in range(len(solution.placements))]
    scales = {option.scale for option in solution.item.options}
    said = task(facts, sizes_differ=len(scales) > 1)
    sheet = _sheet(solution, theme, printing, said)
    labels = tuple(verdict.label for verdict in solution.verdicts)
    if printing.large:
        ordinary = _sheet(solution, theme, replace(printing, large=False), said)
        if any(large < _AS_LARGE * usual for large, usual in zip(sheet.scales_mm, ordinary.scales_mm, strict=True)):
            picture, options = _on_two_pages(sheet, printing).pictures(asked_alt(solution), options_alt(solution))
            return AskedItem(heading=heading, task=said, picture=picture, labels=labels, options=options)
    return AskedItem(heading=heading, task=said, picture=sheet.picture(sheet_alt(solution)), labels=labels)


def _sheet(solution: Solution, theme: Theme, printing: Printing, said: Sequence[str]) -> PaperSheet:
    """The question on one page, under those sentences."""
    height_mm = printing.height_mm - _ABOUT_QUESTION_MM[printing.large] - paragraph_mm(" ".join(said), printing)
    unit = printing.mm_per_unit
    return PaperSheet(
        solution=solution,
        theme=theme,
        width=printing.width_mm / unit - 2 * EDGE,
        height=height_mm / unit - 2 * EDGE,
        mm_per_unit=unit,
        base_mm=100.0 if printing.large else 66.0,
        option_mm=64.0 if printing.large else 46.0,
    )


def _on_two_pages(sheet: PaperSheet, printing: Printing) -> TwoPageSheet:
    return TwoPageSheet(
        solution=sheet.solution,
        theme=sheet.theme,
        width=sheet.width,
        height=sheet.height - _NOTE_MM / sheet.mm_per_unit,
        mm_per_unit=sheet.mm_per_unit,
        base_mm=_LARGER * sheet.base_mm,
        option_mm=_LARGER * sheet.option_mm,
        options_height=(printing.height_mm - _ABOUT_QUESTION_MM[printing.large]) / sheet.mm_per_unit - 2 * EDGE,
    )


def _answered(heading: str, solution: Solution, theme: Theme, printing: Printing) -> AnsweredItem:
    table, unit = _table_on_paper(solution, theme, printing)
    figures: list[Figure] = []
    captions: list[str] = []
    for index in range(len(solution.placements)):
        figures.append(table.figure(index, Phase.MET, picture_alt.met_alt(solution, index)))
        turn, meet = (said(fact, fact.narration()) for fact in (turn_fact(solution, index), meet_fact(solution, index)))
        captions.append(f"{turn[0]} {meet[0]}")
    figures.append(table.alone(picture_alt.alone_alt(solution)))
    captions.append(" ".join(step_words.outline(outline_fact(solution.outline, solution.tolerance))[1:]))
    bare = [_bare(figure) for figure in figures]
    boxes = [extent_of_entries(figure.entries) for figure in bare]
    box = Box(
        min(box.left for box in boxes) - _STILL_PAD,
        min(box.bottom for box in boxes) - _STILL_PAD,
        max(box.right for box in boxes) + _STILL_PAD,
        max(box.top for box in boxes) + _STILL_PAD,
    )
    stills = [
        Still(picture=Picture(figure=figure, box=box, mm_per_unit=unit), caption=caption)
        for figure, caption in zip(bare, captions, strict=True)
    ]
    wrong = [verdict for verdict in solution.verdicts if not verdict.same]
    return AnsweredItem(
        heading=heading,
        key=words.key_sentence(solution.key or ""),
        stills=tuple(stills),
        reasons=tuple((verdict.label, reason_on_sheet(verdict)) for verdict in wrong),
    )


def _table_on_paper(solution: Solution, theme: Theme, printing: Printing) -> tuple[Table, float]:
    """The work table, and the millimetres of one of its stage units."""
    table = Table(solution=solution, theme=theme)
    if not printing.large:
        return table, _STILL_MM_PER_UNIT
    lettered = Table(solution=solution, theme=replace(theme, mark_size=max(theme.mark_size, _LARGE_MARK)))
    if lettered.cloth.scale >= _LEAST_SHRINK * table.cloth.scale:
        return lettered, _STILL_MM_PER_UNIT
    return table, _WIDE_MM_PER_UNIT


def _bare(figure: Figure) -> Figure:
    """What lies on the table, without table and tray."""
    entries = tuple(entry for entry in figure.entries if entry.role is not Role.PANEL and entry.group != TRAY_GROUP)
    return replace(figure, entries=entries)


def _marked(heading: str, solution: Solution) -> MarkedItem:
    ask_why = kind_of(solution.item).ask_why()
    entries = tuple(marking_entry(verdict, ask_why=ask_why) for verdict in solution.verdicts)
    return MarkedItem(heading=heading, entries=entries)


def _cut_out(heading: str, solution: Solution, theme: Theme, printing: Printing) -> CutOutItem:
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


def _parts_told(solution: Solution) -> list[str]:
    """The alt text of the base and of each piece."""
    marks = [(p.piece.mark, p.piece.meets) for p in solution.placements if p.piece.of == BASE]
    return [base_alt(solution.item.base, marks), *(piece_alt(placement.piece) for placement in solution.placements)]
