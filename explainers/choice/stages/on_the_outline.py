"""What happens to an option in a picture: laid on the outline and put back, or set beside it and walked round."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from ...figure.model import Figure
from ...figure.motion import DEGREES_PER_S, Glide
from ...figure.subject import Subject, Thing, option_subject
from ...storyboard.run import Run
from ..differences.difference import DifferenceFact
from ..drawing.option_cells import letter_group
from ..model import Verdict
from ..walk import WalkFact
from ..words.alt import beside_alt, choices_alt
from .context import StageContext

__all__ = [
    "FADE_S",
    "alt_of",
    "labels_of",
    "lay_on",
    "option_of",
    "put_back",
    "walk_round",
]

FADE_S = 0.7
_BESIDE_S = 1.2
_WALK_UNITS_PER_S = 3.2  # slow enough for a finger to follow on the table
_LEAST_WALK_S, _MOST_WALK_S = 1.6, 4.5
_WALK_AGAIN_S = 2.7  # at most, where the same way has just been gone


def option_of(verdict: Verdict) -> Subject:
    """The option as what a step is about."""
    return Subject(thing=Thing.OPTION, name=verdict.code)


def labels_of(verdicts: Sequence[Verdict]) -> tuple[str, ...]:
    """Their labels."""
    return tuple(verdict.label for verdict in verdicts)


def alt_of(
    context: StageContext,
    settled: Sequence[Verdict],
    *,
    laid: Verdict | None = None,
    reason: DifferenceFact | None = None,
    kept: bool = False,
) -> str:
    """The options beside the outline in words."""
    return choices_alt(context.solution, settled=labels_of(settled), laid=laid, reason=reason, kept=kept)


def put_back(context: StageContext, run: Run, *, clears: bool = False) -> None:
    """Whatever lies on the outline, or beside it, goes back to its place; nothing where nothing does.

    clears : whether what was marked goes too where nothing lies elsewhere: what comes next is said over a picture
             in which nothing else stands out
    """
    if not context.away and not clears:
        return
    goal = context.arranged.figure(alt_of(context, context.settled), settled=labels_of(context.settled))
    if not context.away:
        run.move(goal, seconds=FADE_S)
        return
    farthest_deg = max(abs(way.turn_deg) for way in context.away)
    run.move(goal, *context.away, seconds=max(0.9, farthest_deg / (2 * DEGREES_PER_S)))
    context.away, context.beside = (), None


def lay_on(context: StageContext, run: Run, laid: Figure, verdict: Verdict, *, after: int) -> None:
    """The option turned and laid on the outline, from its cell or from beside the outline.

    The others make way where all have been compared; they come back where it stood beside the outline.
    """
    choices, before = context.choices, context.arranged
    if context.beside is verdict:
        own, outline = context.comparing(verdict).lay_glides(choices)
        others: tuple[Glide, ...] = (outline,)
    else:
        own, others = choices.lay_glide(verdict, start_in=before), choices.glides_from(before, without=verdict)
    # While all change places only the outline and this option are seen: so many at once would flicker, and their signs
    # would pass over shapes.
    verdicts = context.solution.verdicts if others else ()
    hidden = {letter_group(each.label) for each in verdicts}
    hidden |= {option_subject(each.label).group for each in verdicts if each is not verdict}
    run.move(
        laid,
        *others,
        own,
        seconds=max(_BESIDE_S, abs(own.turn_deg) / DEGREES_PER_S),
        after=after,
        yields=[entry.id for entry in laid.entries if entry.group in hidden],
    )
    context.arranged, context.away, context.beside = choices, (choices.return_glide(verdict),), None


def walk_round(
    context: StageContext,
    run: Run,
    verdict: Verdict,
    fact: WalkFact,
    settled: Sequence[str],
    *,
    after: int,
    whole: bool = False,
    at_once: bool = False,
    is_out: bool = False,
) -> None:
    """The option set beside the outline; a marker goes round each, the same way and at the same time.

    It takes the place of another that stands there, else whatever is away goes back first.
    after   : how many sentences are spoken before it begins: next comes where to start, then what comes
    at_once : whether what comes is said with where to start
    whole   : all the way round, else to the last thing that is named
    is_out  : whether that rules the option out
    """
    beside = context.comparing(verdict)
    alt = beside_alt(verdict.label, settled=settled, outline_given=context.solution.item.outline_given)
    told = " ".join((alt, *fact.beginning(), *fact.order()))
    begun = beside.figure(told, fact, walked=False, whole=whole)
    if context.beside is None:
        put_back(context, run)
        run.move(beside.figure(alt), *beside.glides(), seconds=_BESIDE_S, after=after)
        run.move(begun, seconds=FADE_S, after=after)
    else:
        run.move(begun, beside.outline_glide_from(context.comparing(context.beside)), seconds=FADE_S, after=after)
    context.away, context.beside = beside.back_glides(), verdict
    walks = beside.walks(fact, whole=whole)
    length = max(_length(walk) for walk in walks)
    seconds = min(_WALK_AGAIN_S if at_once else _MOST_WALK_S, max(_LEAST_WALK_S, length / _WALK_UNITS_PER_S))
    run.move(
        beside.figure(told, fact, walked=True, whole=whole),
        *walks,
        seconds=seconds,
        after=after if at_once else after + 1,
    )
    if is_out:
        goal = beside.figure(told, fact, walked=True, whole=whole, is_out=True)
        run.move(goal, seconds=FADE_S, after=after + len(fact.beginning()) + len(fact.order()))


def _length(walk: Glide) -> float:
    stops = ((0.0, 0.0), *walk.via, walk.by)
    return math.fsum(math.dist(*pair) for pair in pairwise(stops))
