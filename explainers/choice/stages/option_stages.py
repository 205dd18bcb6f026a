"""The stages round the trying of options: they are shown, the right one is kept, the answer, what to remember."""

from __future__ import annotations

from collections.abc import Iterator

from ...sentences import notes
from ...sentences.lesson import Chapter, Heading, heading
from ...storyboard.model import Beat, Step, Still
from ...storyboard.run import Run
from ..fact import verified
from ..finished import outline_fact
from ..same import SameFact
from ..words import choices as choice_words
from ..words.alt import choices_alt, corners_alt
from .context import Part, StageContext
from .on_the_outline import FADE_S, alt_of, labels_of, lay_on, option_of, put_back, walk_round
from .remembering import to_remember

__all__ = ["answer", "keep", "options", "options_beside", "remember"]

_ZOOM_S = 1.5


def options(context: StageContext) -> Iterator[Step]:
    """The options come back beside the outline."""
    run = Run(context.last)
    goal = context.spread.figure(choices_alt(context.solution))
    run.move(goal, context.spread.outline_glide(context.outline_view), seconds=_ZOOM_S)
    yield _options(context, run.beats)


def options_beside(context: StageContext) -> Iterator[Step]:
    """The options named where they have stood beside the outline all the time."""
    yield _options(context, (Still(figure=context.spread.figure(choices_alt(context.solution))),))


def _options(context: StageContext, beats: tuple[Beat, ...]) -> Step:
    words = choice_words.options_shown(sifted=bool(context.sifting.facts))
    return context.step("options", Chapter.OPTIONS, heading(Heading.OPTIONS), beats, words)


def keep(context: StageContext) -> Iterator[Step]:
    """The right option, walked round with the outline, then laid on it."""
    solution, choices = context.solution, context.choices
    settled = [verdict for verdict in solution.verdicts if not verdict.same]
    (verdict,) = (verdict for verdict in solution.verdicts if verdict.same)
    fact = next(fact for fact in verdict.reasons if isinstance(fact, SameFact))
    described = outline_fact(solution.outline, solution.tolerance)
    walk = None if Part.WALK in context.settings.leaves_out else context.walk_of(verdict)
    # A flipped option has just been walked round in that way, and the way need not be told again.
    ways = [context.walk_of(each) for each in solution.verdicts if each.mirrored]
    is_known = walk is not None and any(way is not None and way.beginning() == walk.beginning() for way in ways)
    walked = () if walk is None else verified(walk, choice_words.walked_alike(walk, is_known=is_known))
    words = choice_words.keep(fact, described, walked=walked)
    run = Run(context.last)
    if walk is None:
        put_back(context, run)
        alt = " ".join((alt_of(context, settled), corners_alt(verdict.label)))
        run.move(context.counted_alike(verdict, labels_of(settled), alt), seconds=FADE_S)
    else:
        start = words.index(walked[0])
        walk_round(context, run, verdict, walk, labels_of(settled), after=start, whole=True, at_once=is_known)
    turning = len(words) - 1  # told to turn, and that it fits: one motion turns it and lays it on
    laid = choices.figure(alt_of(context, settled, laid=verdict), settled=labels_of(settled), laid=verdict)
    lay_on(context, run, laid, verdict, after=turning)
    kept = choices.figure(
        alt_of(context, settled, laid=verdict, kept=True), settled=labels_of(settled), laid=verdict, kept=True
    )
    run.move(kept, seconds=FADE_S, after=turning)
    yield context.step(
        "keep",
        Chapter.OPTIONS,
        heading(Heading.FITS, label=verdict.label),
        run.beats,
        words,
        before=heading(Heading.OPTION, label=verdict.label),
        note=notes.keep_note(fact),
        facts=(fact, described, *(() if walk is None else (walk,))),
        subject=option_of(verdict),
    )


def answer(context: StageContext) -> Iterator[Step]:
    """The answer."""
    (verdict,) = (verdict for verdict in context.solution.verdicts if verdict.same)
    yield context.step(
        "answer",
        Chapter.ANSWER,
        heading(Heading.ANSWER, label=verdict.label),
        (Still(figure=context.last),),
        choice_words.answer(verdict.label),
        facts=verdict.reasons,
        goes_on=True,
    )


def remember(context: StageContext) -> Iterator[Step]:
    """The strategy to remember, over the picture that shows it."""
    if Part.REMEMBER in context.settings.leaves_out:
        return
    told = to_remember(context)
    yield context.step(
        "remember",
        Chapter.REMEMBER,
        told.fact.headline(),
        (Still(figure=told.figure),),
        told.fact.narration(),
        note=notes.remember_note(),
        facts=(told.fact,),
        goes_on=told.figure.entries == context.last.entries,  # the same picture once more is no slide of its own
    )
