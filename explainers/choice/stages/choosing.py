"""The options that a learner chooses from while a question waits, and what is then said and shown of each."""

from __future__ import annotations

from ...figure.model import Entry
from ...figure.subject import option_subject
from ...storyboard.doing import Choice, ChoosableOption
from ..differences.difference import DifferenceFact
from ..drawing.chosen import chosen, on_option, ring_on
from ..drawing.marked import SMALL_DOT, marks_at, walk_entries
from ..drawing.option_cells import OptionCells
from ..fact import Fact, verified
from ..model import Verdict
from ..same import SameFact
from ..sieves.sieve import SieveFact
from ..walk import WalkFact
from ..words import choosing as words
from ..words.choices import located_reasons
from .context import StageContext

__all__ = ["choice_to_note", "choice_to_tell"]


def choice_to_tell(context: StageContext, cells: OptionCells) -> Choice:
    """The options, each with its own verdict, over the picture that is shown now.

    cells  : the options as that picture shows them
    Raises : FactError where a sentence would be false
    """
    return Choice(options=tuple(_told(context, cells, verdict) for verdict in context.solution.verdicts))


def choice_to_note(context: StageContext, cells: OptionCells) -> Choice:
    """The options without verdicts, where the lesson does not tell which one is right."""
    return Choice(
        options=tuple(
            ChoosableOption(label=verdict.label, room=cells.cell_of(verdict.label))
            for verdict in context.solution.verdicts
        )
    )


def _told(context: StageContext, cells: OptionCells, verdict: Verdict) -> ChoosableOption:
    ringed: DifferenceFact | None = None
    marked: tuple[Entry, ...] = ()
    given = context.solution.item.outline_given
    facts: tuple[Fact, ...]
    if verdict.same:
        (same,) = (fact for fact in verdict.reasons if isinstance(fact, SameFact))
        words_said, facts = verified(same, same.of_choice(outline_given=given)), (same,)
        alt = words.ticked_alt(verdict.label)
    else:
        seen = _seen(context, cells, verdict)
        ringed = seen if isinstance(seen, DifferenceFact) else None
        if seen is not None and ringed is None:
            marked = _marked(context, cells, verdict, seen)
        told = context.settings.slips_told
        words_said, facts = words.not_this(verdict, seen, outline_given=given, slips_told=told)
        alt = words.crossed_alt(verdict.label, ringed=ringed is not None, counted=bool(marked))
    shown = context.last
    return ChoosableOption(
        label=verdict.label,
        room=cells.cell_of(verdict.label),
        right=verdict.same,
        said=words_said,
        figure=chosen(shown, cells, verdict, context.theme, " ".join((shown.alt, alt)), fact=ringed, marked=marked),
        facts=facts,
    )


def _seen(context: StageContext, cells: OptionCells, verdict: Verdict) -> SieveFact | WalkFact | DifferenceFact | None:
    """What the solution says of the option too: what is counted, a walk, or a difference that can be ringed."""
    sieve = context.sifting.of(verdict.label)
    if sieve is not None:
        return sieve
    walk = context.walk_of(verdict) if verdict.mirrored else None
    return walk if walk is not None else _ringed(context, cells, verdict)


def _marked(
    context: StageContext, cells: OptionCells, verdict: Verdict, seen: SieveFact | WalkFact | DifferenceFact
) -> tuple[Entry, ...]:
    """What is counted on the option, or the walk round it, where the question shows it."""
    view = on_option(cells, verdict)
    if isinstance(seen, SieveFact):
        own, (option,) = option_subject(verdict.label), seen.options
        marks = seen.marks_on(option.outline)
        return tuple(marks_at(own.group, own, option.outline, marks, view, context.theme, dot=SMALL_DOT))
    if isinstance(seen, WalkFact):
        return tuple(walk_entries(seen, seen.option, view, context.theme, of_option=True, dot=SMALL_DOT))
    return ()


def _ringed(context: StageContext, cells: OptionCells, verdict: Verdict) -> DifferenceFact | None:
    """The clearest difference whose place is seen on the option alone.

    A corner that only the outline has comes last: there is nothing in its ring to be seen.
    """
    located = sorted(located_reasons(verdict), key=lambda fact: not fact.is_seen_alone)
    return next((fact for fact in located if ring_on(cells, verdict, fact, context.theme) is not None), None)
