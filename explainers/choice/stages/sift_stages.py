"""The stages in which options are ruled out: sifted by what is counted, then laid on or walked round one by one."""

from __future__ import annotations

from collections.abc import Iterator

from ...sentences import notes
from ...sentences.lesson import Chapter, Heading, heading
from ...storyboard.model import Step
from ...storyboard.run import Run
from ..differences.difference import DifferenceFact
from ..fact import Fact, verified
from ..model import Verdict
from ..sieves.sieve import SieveFact, out
from ..words import choices as choice_words
from ..words.alt import choices_alt
from .context import StageContext
from .on_the_outline import FADE_S, alt_of, labels_of, lay_on, option_of, put_back, walk_round

__all__ = ["rule_out", "sift"]


def sift(context: StageContext) -> Iterator[Step]:
    """What can be counted or seen, one sieve a step: it rules out all that it can together."""
    for number, fact in enumerate(context.sifting.facts):
        gone = [verdict for verdict in context.solution.verdicts if verdict.label in fact.labels]
        slips = [verdict.slip for verdict in gone if verdict.slip is not None and context.settings.slips_told]
        invited = fact.invitation(is_first=number == 0)
        words = (
            *invited,
            fact.of_outline(),
            *fact.of_options(),
            out(fact.labels, number),
            *(sentence for slip in slips for sentence in slip.in_short()),
        )
        verified(fact, words)
        run = Run(context.last)
        put_back(context, run, clears=True)
        before = labels_of(context.settled)
        for labels, after in (((), len(invited)), (fact.labels, len(invited) + 1)):
            run.move(context.sifted(fact, labels, before, _alt(context, before, fact)), seconds=FADE_S, after=after)
        context.settled += gone
        settled = labels_of(context.settled)
        goal = context.sifted(fact, fact.labels, settled, _alt(context, settled, fact))
        run.move(goal, seconds=FADE_S, after=len(invited) + 1 + len(fact.of_options()))
        yield context.step(
            f"sift.{fact.stage}",
            Chapter.OPTIONS,
            fact.heading(),
            run.beats,
            words,
            before=fact.looks_for(),
            note=_note(gone, notes.sift_note(fact.labels)),
            facts=(fact, *slips),
            goes_on=number == 0,  # the options have just been shown, to be tried
        )


def rule_out(context: StageContext) -> Iterator[Step]:
    """The wrong options that pass every sieve: those that differ in a place, then those that are flipped.

    Each has a step of its own, so that a further option changes no step's id.
    """
    left = [v for v in context.solution.verdicts if not v.same and v.label not in context.sifting.labels]
    for verdict in sorted(left, key=lambda verdict: verdict.mirrored):
        is_first = not context.settled
        number = len(context.settled)
        run = Run(context.last)
        walk = context.walk_of(verdict) if verdict.mirrored else None
        facts: tuple[Fact, ...]
        if walk is not None:
            words = choice_words.walked(verdict.label, walk)
            walk_round(context, run, verdict, walk, labels_of(context.settled), after=0, is_out=True)
            facts = (*choice_words.flips_known(verdict), walk)
        else:
            words = choice_words.rule_out(verdict, number=number, slips_told=context.settings.slips_told)
            put_back(context, run)
            _lay_on_and_ring(context, run, verdict, words)
            facts = choice_words.reasons_said(verdict, slips_told=context.settings.slips_told)
        context.settled.append(verdict)
        yield context.step(
            "rule-out",
            Chapter.OPTIONS,
            heading(Heading.FLIPPED, label=verdict.label) if verdict.mirrored else choice_words.said_short(verdict),
            run.beats,
            words,
            before=heading(Heading.OPTION, label=verdict.label),
            note=_note([verdict], notes.rule_out_note(verdict.label)),
            facts=facts,
            subject=option_of(verdict),
            goes_on=is_first,
        )


def _lay_on_and_ring(context: StageContext, run: Run, verdict: Verdict, words: tuple[str, ...]) -> None:
    """The option laid on the outline, what differs ringed."""
    choices, settled = context.choices, labels_of(context.settled)
    laid = choices.figure(alt_of(context, context.settled, laid=verdict), settled=settled, laid=verdict)
    lay_on(context, run, laid, verdict, after=words.index(choice_words.laid_on(verdict.label)))
    reason = next(fact for fact in choice_words.reasons_said(verdict) if isinstance(fact, DifferenceFact))
    ringed = choices.figure(
        alt_of(context, context.settled, laid=verdict, reason=reason), settled=settled, laid=verdict, reason=reason
    )
    run.move(ringed, seconds=FADE_S, after=words.index(choice_words.place_said(reason)))


def _note(gone: list[Verdict], first: str) -> str:
    return " ".join((first, *(notes.slip_note(verdict.slip) for verdict in gone if verdict.slip is not None)))


def _alt(context: StageContext, settled: tuple[str, ...], fact: SieveFact) -> str:
    told = choices_alt(context.solution, settled=settled)
    return " ".join((told, fact.of_outline_in_full(), *fact.of_options()))
