"""What to remember of a question: the strategy that is told, over a picture in which what it names stands out."""

from __future__ import annotations

from dataclasses import dataclass

from ...figure.model import Figure
from ..differences.difference import DifferenceFact
from ..differences.mirror import MirrorFact
from ..finished import OutlineFact
from ..model import Verdict
from ..same import SameFact
from ..sieves.sieve import SieveFact
from ..strategies import general_candidates, labels_sifted
from ..strategy import Candidate, StrategyFact, chosen
from ..walk import WalkFact
from ..words.alt import beside_alt, choices_alt, corners_alt
from .context import StageContext
from .unseen import blank

__all__ = ["ToRemember", "candidates_of", "to_remember"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ToRemember:
    """The strategy to remember of a question, over the picture that shows it."""

    figure: Figure
    fact: StrategyFact


def to_remember(context: StageContext) -> ToRemember:
    """The best of those that the lesson has not told yet."""
    fact = chosen(candidates_of(context), context.settings.remembered)
    if not context.is_seen:
        return ToRemember(figure=blank("remember", fact.strategy.value), fact=fact)
    own = context.picture_of(fact)
    return ToRemember(figure=_picture_of(context, fact) if own is None else own, fact=fact)


def candidates_of(context: StageContext) -> list[Candidate]:
    """The strategies that the question shows, those of its kind first."""
    return [*context.own_strategies(), *general_candidates(context.solution)]


def _picture_of(context: StageContext, fact: StrategyFact) -> Figure:
    """Of a general strategy."""
    solution, choices = context.solution, context.choices
    match fact.evidence:
        case (SieveFact() as sieve,):
            told = choices_alt(solution, settled=sieve.labels)
            alt = " ".join((told, sieve.of_outline_in_full(), *sieve.of_options()))
            return context.sifted(sieve, sieve.labels, sieve.labels, alt)
        case (SieveFact(), *_):
            settled = labels_sifted(fact.evidence)
            return context.spread.figure(choices_alt(solution, settled=settled), settled=settled)
        case (WalkFact() as walk, MirrorFact()):
            alt = " ".join((beside_alt(walk.label, outline_given=solution.item.outline_given), *walk.order()))
            return context.comparing(_verdict(context, walk.label)).figure(alt, walk, walked=True, is_out=True)
        case (DifferenceFact() as reason,):
            laid = _verdict(context, reason.label)
            return choices.figure(choices_alt(solution, laid=laid, reason=reason), laid=laid, reason=reason)
        case (MirrorFact() as flip,):
            alt = beside_alt(flip.label, outline_given=solution.item.outline_given)
            return context.comparing(_verdict(context, flip.label)).figure(alt, is_out=True)
        case (SameFact() as same, OutlineFact()):
            return _corners_kept(context, _verdict(context, same.label))
    raise TypeError(f"no picture is known for the strategy {fact.strategy.value}")


def _verdict(context: StageContext, label: str) -> Verdict:
    return next(verdict for verdict in context.solution.verdicts if verdict.label == label)


def _corners_kept(context: StageContext, verdict: Verdict) -> Figure:
    """A dot on every corner of the outline, and on the same corners of the right option."""
    context.arranged = context.spread  # a picture of its own, with nothing laid on
    alt = " ".join((choices_alt(context.solution), corners_alt(verdict.label)))
    return context.counted_alike(verdict, (), alt)
