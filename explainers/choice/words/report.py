"""Findings in brief, for a teacher at the command line: one line an option, the plan of a solution."""

from __future__ import annotations

from collections.abc import Sequence

from ...geometry.outline import Outline
from ...geometry.rigid_motion import Ring
from ...words.names import area_in_words, list_in_words, number_of, point_in_words
from ..differences.difference import ReasonFact
from ..fact import verified
from ..model import Solution, Verdict
from ..same import SameFact
from ..slip import SlipFact
from .choices import reasons_known

__all__ = ["because_lines", "plan_lines", "reason_in_brief"]


def reason_in_brief(verdict: Verdict) -> str:
    """Why an option fits or not, in one line without a full stop: the slip behind it first, where one is known."""
    same = [fact for fact in verdict.reasons if isinstance(fact, SameFact)]
    facts: Sequence[SlipFact | ReasonFact | SameFact] = same[:1] if verdict.same else reasons_known(verdict)
    brief = [phrase for fact in facts for phrase in verified(fact, (_brief(fact),))]
    return "; ".join(brief) or "differs, but by too little to be pointed at"


def _brief(fact: SlipFact | ReasonFact | SameFact) -> str:
    return fact.in_brief() if isinstance(fact, SlipFact) else fact.in_report()


def because_lines(solution: Solution) -> tuple[str, ...]:
    """Why an item is sound, or why it is not: whole sentences."""
    if not solution.sound:
        return solution.unsound_because
    right = next(verdict for verdict in solution.verdicts if verdict.same)
    wrong = [verdict for verdict in solution.verdicts if not verdict.same]
    others = list_in_words([verdict.label for verdict in wrong])
    what = "the outline" if solution.item.outline_given else "the finished outline"
    flipped = [
        f"Option {verdict.label} is its mirror image, which no turn makes right."
        for verdict in wrong
        if verdict.mirrored
    ]
    return (
        f"Option {right.label} is {what}: it {reason_in_brief(right)}.",
        f"None of the others, {others}, is laid on {what} by any turn, shift and scale.",
        *flipped,
    )


def plan_lines(solution: Solution) -> list[str]:
    """The solution as a readable plan: how the outline comes about, the outline, the options.

    Warnings and the reasons why an item is unsound are not in it: whoever prints the plan prints them apart.
    """
    lines = [f"{solution.item.title} ({solution.item.name})"]
    lines += [f"{number}. {line}" for number, line in enumerate(solution.work_lines(), start=1)]
    what = "The outline" if solution.item.outline_given else "The finished outline"
    lines.append(f"{what}: {_outline(solution.outline)}.")
    lines += [f"   corners {_ring(solution.outline.exterior)}"]
    lines += [f"   hole    {_ring(hole)}" for hole in solution.outline.holes]
    for verdict in solution.verdicts:
        fits = "fits" if verdict.same else "out "
        lines.append(f"   {verdict.label} {fits}  {reason_in_brief(verdict)}")
    if solution.sound:
        lines.append(f"The answer is {solution.key}.")
    else:
        fitting = [verdict.label for verdict in solution.verdicts if verdict.same]
        who = f"{list_in_words(fitting)} fit" if fitting else "no option fits"
        lines.append(f"There is no one answer: {who}.")
    return lines


def _outline(outline: Outline) -> str:
    counted = [number_of(outline.corner_count, "corner")]
    if outline.holes:
        counted.append(number_of(len(outline.holes), "hole"))
    return f"{list_in_words(counted)}, {area_in_words(outline.area)} in size"


def _ring(ring: Ring) -> str:
    return " ".join(point_in_words(point) for point in ring)
