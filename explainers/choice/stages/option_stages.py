"""The stages in which options are tried: shown beside the outline, ruled out one by one, the right one laid on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ...figure.model import Figure
from ...figure.motion import DEGREES_PER_S
from ...figure.subject import Subject, Thing
from ...sentences import notes
from ...sentences.lesson import Chapter, Heading, heading
from ...storyboard.model import Beat, Step, Still
from ...storyboard.run import Run
from ..agreement import AgreementFact, agreement_fact
from ..differences.difference import DifferenceFact
from ..drawing.choices import Choices
from ..fact import Fact, verified
from ..finished import outline_fact
from ..model import Verdict
from ..same import SameFact
from ..slip import SlipFact
from ..words import choices as choice_words
from ..words.alt import choices_alt, replay_alt
from .context import StageContext

__all__ = ["answer", "keep", "options", "options_beside", "remember", "rule_out"]

_ZOOM_S = 1.5
_FADE_S = 0.7
_OVER_S = 1.8  # turning the outline over, to show what a flip does


def options(context: StageContext) -> Iterator[Step]:
    """The options come back beside the outline."""
    run = Run(context.last)
    goal = context.choices.figure(choices_alt(context.solution))
    run.move(goal, context.choices.outline_glide(context.outline_view), seconds=_ZOOM_S)
    yield _options(context, run.beats)


def options_beside(context: StageContext) -> Iterator[Step]:
    """The options named where they have stood beside the outline all the time."""
    yield _options(context, (Still(figure=context.choices.figure(choices_alt(context.solution))),))


def _options(context: StageContext, beats: tuple[Beat, ...]) -> Step:
    words = choice_words.options_shown([verdict.label for verdict in context.solution.verdicts])
    return context.step("options", Chapter.OPTIONS, heading(Heading.OPTIONS), beats, words)


def rule_out(context: StageContext) -> Iterator[Step]:
    """The wrong options, each laid on the outline and ringed where it differs; those with one fault after each other.

    Each has a step of its own, so that a further option with the same fault changes no step's id.
    """
    wrong = [verdict for verdict in context.solution.verdicts if not verdict.same]
    settled: list[Verdict] = []
    for group in choice_words.common_fault(wrong):
        parts = [_words(context, group[0])] if len(group) == 1 else choice_words.rule_out_each(group)
        for verdict, words in zip(group, parts, strict=True):
            run = Run(context.last)
            _rule_out_one(context, run, verdict, settled, words)
            settled.append(verdict)
            # The first speaks of all that share the fault, and so does the last.
            others = [other for other in group if other is not verdict and verdict in (group[0], group[-1])]
            yield context.step(
                "rule-out",
                Chapter.OPTIONS,
                heading(Heading.OPTION, label=verdict.label),
                run.beats,
                words,
                note=_note(verdict, group),
                facts=[fact for spoken_of in (verdict, *others) for fact in _facts(context, spoken_of)],
                subject=_subject(verdict),
                goes_on=len(settled) == 1,  # the options have just been shown, to be tried
            )


def keep(context: StageContext) -> Iterator[Step]:
    """The right option laid on the outline."""
    solution, choices = context.solution, context.choices
    settled = [verdict for verdict in solution.verdicts if not verdict.same]
    (verdict,) = (verdict for verdict in solution.verdicts if verdict.same)
    fact = next(fact for fact in verdict.reasons if isinstance(fact, SameFact))
    described = outline_fact(solution.outline, solution.tolerance)
    words = choice_words.keep(fact, described)
    run = Run(context.last)
    _put_back(context, run, settled)
    turning = words.index(choice_words.lay_it_on()) - 1  # told to turn, then to be laid: one motion does both
    laid = choices.figure(_alt(context, settled, laid=verdict), settled=_labels(settled), laid=verdict)
    _lay_on(run, choices, laid, verdict, after=max(0, turning))
    kept = choices.figure(
        _alt(context, settled, laid=verdict, kept=True), settled=_labels(settled), laid=verdict, kept=True
    )
    run.move(kept, seconds=_FADE_S, after=len(words) - 1)
    yield context.step(
        "keep",
        Chapter.OPTIONS,
        heading(Heading.OPTION, label=verdict.label),
        run.beats,
        words,
        note=notes.keep_note(fact),
        facts=(fact, described),
        subject=_subject(verdict),
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
    """The one thing to remember, over the picture that shows it."""
    told = context.to_remember()
    yield context.step(
        "remember",
        Chapter.REMEMBER,
        told.headline,
        (Still(figure=told.figure),),
        told.narration,
        note=notes.remember_note(),
        facts=(told.fact,),
        goes_on=told.figure.entries == context.last.entries,  # the same picture once more is no slide of its own
    )


def _subject(verdict: Verdict) -> Subject:
    return Subject(thing=Thing.OPTION, name=verdict.code)


def _note(verdict: Verdict, group: Sequence[Verdict]) -> str:
    told = []
    if len(group) > 1 and verdict is group[0]:
        told.append(notes.rule_out_together_note(_labels(group)))
    told.append(notes.rule_out_note(verdict.label))
    if verdict.slip is not None:
        told.append(notes.slip_note(verdict.slip))
    return " ".join(told)


def _words(context: StageContext, verdict: Verdict) -> tuple[str, ...]:
    """What is said of one wrong option: the slip that makes it, what agrees, what differs."""
    agreement = _agreement(context, verdict)
    agreed = verified(agreement, agreement.over_outline())
    return (*choice_words.slip_said(verdict), *choice_words.rule_out(verdict, agreed=agreed, replayed=True))


def _rule_out_one(
    context: StageContext, run: Run, verdict: Verdict, settled: Sequence[Verdict], words: tuple[str, ...]
) -> None:
    """The slip replayed, the option laid on the outline, what agrees shown, what differs ringed."""
    choices, out = context.choices, _labels(settled)
    _put_back(context, run, settled)
    laying = words.index(choice_words.laid_on(verdict.label))
    slip = choice_words.slip_said(verdict)
    if verdict.slip is not None:
        _replay(context, run, verdict.slip, settled, after=words.index(slip[0]), until=laying)
    reason, agreement = _reason(verdict), _agreement(context, verdict)
    laid = choices.figure(_alt(context, settled, laid=verdict), settled=out, laid=verdict, agreement=agreement)
    _lay_on(run, choices, laid, verdict, after=laying)
    ringed = choices.figure(
        _alt(context, settled, laid=verdict, reason=reason),
        settled=out,
        laid=verdict,
        agreement=agreement,
        reason=reason,
    )
    run.move(ringed, seconds=_FADE_S, after=words.index(choice_words.place_said(reason)))


def _replay(
    context: StageContext, run: Run, fact: SlipFact, settled: Sequence[Verdict], *, after: int, until: int
) -> None:
    """What comes out when the slip happens, in place of the outline; then the outline again."""
    replay = context.replay(fact)
    tray = run.last
    slipped = replay.figure(
        replay_alt(fact, outline_given=context.solution.item.outline_given), settled=_labels(settled)
    )
    moves = (replay.turn_over(),) if replay.turns_over else ()
    seconds = _OVER_S if replay.turns_over else _FADE_S
    run.move(slipped, *moves, seconds=seconds, after=after)
    run.move(tray, *moves, seconds=seconds, after=until)


def _put_back(context: StageContext, run: Run, settled: Sequence[Verdict]) -> None:
    """Whatever lies on the outline goes back to the tray; nothing where nothing does."""
    if not settled:
        return
    glide = context.choices.return_glide(settled[-1])
    goal = context.choices.figure(_alt(context, settled), settled=_labels(settled))
    run.move(goal, glide, seconds=max(0.9, abs(glide.turn_deg) / (2 * DEGREES_PER_S)))


def _lay_on(run: Run, choices: Choices, laid: Figure, verdict: Verdict, *, after: int) -> None:
    glide = choices.lay_glide(verdict)
    run.move(laid, glide, seconds=max(1.2, abs(glide.turn_deg) / DEGREES_PER_S), after=after)


def _reason(verdict: Verdict) -> DifferenceFact:
    """The fact whose place is ringed: the last that is put into words."""
    return next(fact for fact in choice_words.reasons_said(verdict) if isinstance(fact, DifferenceFact))


def _agreement(context: StageContext, verdict: Verdict) -> AgreementFact:
    solution = context.solution
    return agreement_fact(verdict.label, verdict.fit.laid, solution.outline, solution.tolerance)


def _facts(context: StageContext, verdict: Verdict) -> list[Fact]:
    slip = [verdict.slip] if verdict.slip is not None else []
    return [*slip, _agreement(context, verdict), *choice_words.reasons_said(verdict)]


def _labels(verdicts: Sequence[Verdict]) -> tuple[str, ...]:
    return tuple(verdict.label for verdict in verdicts)


def _alt(
    context: StageContext,
    settled: Sequence[Verdict],
    *,
    laid: Verdict | None = None,
    reason: DifferenceFact | None = None,
    kept: bool = False,
) -> str:
    out = _labels(settled)
    return choices_alt(context.solution, settled=out, laid=laid, reason=reason, kept=kept)
