"""What a lesson is for, and the routine with which it ends: made of what helped in its questions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from ...words.messages import message, say
from ...words.names import list_in_words
from ..model import Solution
from ..sieves.sifting import Sifting, sifting_of, walk_of

__all__ = ["ROUTINE_STEPS", "option_steps", "purpose"]

ROUTINE_STEPS = 3
_MOST_COUNTED = 3  # kinds of things to count on one line

# What can be counted, in the order in which it is told, then what can be compared; by `SieveFact.stage`.
_COUNTED = {
    "holes": message("holes"),
    "corners": message("corners"),
    "inward": message("corners that point inwards"),
    "angles": message("right angles and sharp corners"),
}
_COMPARED = {
    "neighbours": message("neighbours"),
    "lengths": message("lengths of sides"),
}


def purpose(solutions: Sequence[Solution]) -> str:
    """What a lesson is for, in one sentence; it may be read before anything is solved.

    solutions : sound, of all its questions
    """
    wrong = sum(len(solution.verdicts) - 1 for solution in solutions)
    sifted = sum(len(sifting_of(solution).labels) for solution in solutions)
    if 2 * sifted >= wrong:
        return say("You learn to find the outline without trying every option.")
    if any(verdict.mirrored for solution in solutions for verdict in solution.verdicts):
        # Without a word of flips: it may be read before anything is solved.
        return say("You learn to know an outline again, however it is turned.")
    return say("You learn to see where two outlines differ.")


def option_steps(solutions: Sequence[Solution], *, count: int) -> tuple[str, ...]:
    """What to do about options, a sentence each; the last says what to do with those that are left.

    solutions : sound, of the questions that the lesson has solved
    count     : how many sentences, 1 to 3
    """
    last = _last(solutions)
    if count == 1:
        return (last,)
    siftings = [sifting_of(solution) for solution in solutions]
    counted, compared = _used(siftings, tuple(_COUNTED)), _used(siftings, tuple(_COMPARED))
    steps = [say("Count first: {features}.", features=_listed(_COUNTED, counted))] if counted else []
    if compared:
        steps.append(say("Compare: {features}.", features=_listed(_COMPARED, compared)))
    if len(steps) >= count:  # one line for both
        both = list_in_words([say((_COUNTED | _COMPARED)[feature]) for feature in (*counted[:2], *compared[:1])])
        steps = [say("Look for what does not match: {features}.", features=both)]
    spare = [say("Look first at what a turn does not change."), say("Then try only what is left.")]
    return (*[*steps, *spare][: count - 1], last)


def _last(solutions: Sequence[Solution]) -> str:
    walks = any(
        verdict.mirrored and walk_of(solution, verdict) is not None
        for solution in solutions
        for verdict in solution.verdicts
    )
    if walks:
        return say("Walk round what is left: a flip turns the order round.")
    if any(verdict.mirrored for solution in solutions for verdict in solution.verdicts):
        return say("Lay on what is left: turn it, but never flip it.")
    return say("Lay on what is left: every corner and side must fit.")


def _used(siftings: Sequence[Sifting], stages: Sequence[str]) -> list[str]:
    """Those of these stages that helped, the ones that helped most often first chosen, then in their own order."""
    found = Counter(fact.stage for sifting in siftings for fact in sifting.facts)
    best = sorted((stage for stage in stages if found[stage]), key=lambda stage: -found[stage])[:_MOST_COUNTED]
    return [stage for stage in stages if stage in best]


def _listed(words: dict[str, str], stages: Sequence[str]) -> str:
    return list_in_words([say(words[stage]) for stage in stages])
