"""Solutions -> the sheets to print: what is asked, answered, marked and cut out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from typing import Any

from ..choice.model import Solution
from ..choice.presentation import in_order, orders
from ..choice.sieves.sifting import sifting_of, walk_of
from ..choice.stages.sheet_model import AnsweredItem, MarkedItem, SheetSet
from ..choice.words.marking import marking_entry, reason_on_sheet
from ..errors import UnsoundItemError
from ..figure.paper import Printing, paper_theme
from ..figure.theme import Theme
from ..item.model import Lesson
from ..kinds.kind import OnPaper
from ..kinds.registry import kind_of, solve
from ..sentences import sheets as words
from ..sentences.sheets import SheetKind
from ..storyboard.model import Imprint
from ..words.messages import speaking

__all__ = ["of_lesson", "plan_sheets", "plan_versions"]

_ALL = tuple(SheetKind)


def of_lesson(lesson: Lesson | None) -> dict[str, Any]:
    """What a lesson says of its sheets, by the names in ``plan_sheets``; nothing of items without one."""
    if lesson is None:
        return {}
    imprint = Imprint(credit=lesson.credit or "", licence=lesson.licence or "", number=lesson.number)
    return {"language": lesson.language, "imprint": imprint}


def plan_sheets(
    solutions: Sequence[Solution],
    *,
    name: str,
    title: str,
    theme: Theme,
    printing: Printing,
    language: str = "en-GB",
    imprint: Imprint | None = None,
    only: Collection[SheetKind] = _ALL,
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
    with speaking(language, theme.verbs):
        count, look = len(solutions), paper_theme(theme)
        headings = [words.question_heading(n, s.item.title, count) for n, s in enumerate(solutions, start=1)]
        papers = [kind_of(solution.item).on_paper(solution, look, printing) for solution in solutions]
        headed = list(zip(headings, solutions, papers, strict=True))
        cut_outs = [paper.cut_outs(heading) for heading, _, paper in headed] if SheetKind.CUTOUT in only else []
        to_cut = words.cut_out_words(kind_of(solution.item).cut_out_words() for solution in solutions)
        return SheetSet(
            name=name,
            title=title,
            language=language,
            printing=printing,
            imprint=imprint or Imprint(),
            version=version,
            keys=tuple(solution.key or "" for solution in solutions),
            questions=tuple(paper.asked(h) for h, _, paper in headed) if SheetKind.QUESTION in only else (),
            answers=tuple(_answered(h, s, paper) for h, s, paper in headed) if SheetKind.ANSWER in only else (),
            marking=tuple(_marked(h, s) for h, s, _ in headed) if SheetKind.MARKING in only else (),
            cut_outs=tuple(sheet for sheet in cut_outs if sheet is not None),
            cut_outs_title=to_cut.sheet.format(title=title),
        )


def plan_versions(
    solutions: Sequence[Solution], versions: int, seed: int, *, only: Collection[SheetKind] = _ALL, **shared: object
) -> Iterator[SheetSet]:
    """Versions of the sheets, the options of each in another order; what is to be cut out comes with the first alone.

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
        wanted = [kind for kind in only if kind is not SheetKind.CUTOUT or number == 0]
        yield plan_sheets(ordered, only=wanted, version=number + 1, **shared)  # type: ignore[arg-type]


def _in_order(solution: Solution, order: Sequence[int]) -> Solution:
    """The item with its options in another order, solved anew."""
    if list(order) == list(range(len(order))):
        return solution
    return solve(in_order(solution.item, order), pairs=True)


def _answered(heading: str, solution: Solution, paper: OnPaper) -> AnsweredItem:
    wrong, sifting = [verdict for verdict in solution.verdicts if not verdict.same], sifting_of(solution)
    return AnsweredItem(
        heading=heading,
        key=words.key_sentence(solution.key or ""),
        stills=paper.answered(),
        reasons=tuple(
            (verdict.label, reason_on_sheet(verdict, sifting.of(verdict.label), walk_of(solution, verdict)))
            for verdict in wrong
        ),
    )


def _marked(heading: str, solution: Solution) -> MarkedItem:
    item, sifting = solution.item, sifting_of(solution)
    ask_why = kind_of(item).ask_why()
    entries = tuple(
        marking_entry(
            verdict,
            ask_why=ask_why,
            outline_given=item.outline_given,
            sieve=sifting.of(verdict.label),
            walk=walk_of(solution, verdict),
        )
        for verdict in solution.verdicts
    )
    return MarkedItem(heading=heading, entries=entries)
