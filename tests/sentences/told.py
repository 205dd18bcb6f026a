"""Everything that is said of an item, by calling the words themselves: no picture is made for it."""

from __future__ import annotations

from collections.abc import Iterator

from explainers.choice.differences.difference import DifferenceFact
from explainers.choice.fact import verified
from explainers.choice.finished import outline_fact
from explainers.choice.model import Solution, Verdict
from explainers.choice.same import SameFact
from explainers.choice.sieves.sieve import out
from explainers.choice.sieves.sifting import sifting_of, walk_of
from explainers.choice.strategies import general_candidates
from explainers.choice.strategy import Candidate
from explainers.choice.words import alt as outlines
from explainers.choice.words import choices
from explainers.choice.words import task as asked
from explainers.choice.words.choosing import not_this
from explainers.item.model import Manner
from explainers.kinds.join_and_cut.facts.change import ChangeFact, change_fact
from explainers.kinds.join_and_cut.facts.meet import MeetFact, meet_fact
from explainers.kinds.join_and_cut.facts.piece import PieceFact, piece_fact
from explainers.kinds.join_and_cut.facts.strategy import piece_candidates
from explainers.kinds.join_and_cut.facts.tally import tally_fact
from explainers.kinds.join_and_cut.facts.turn import TurnFact, turn_fact
from explainers.kinds.join_and_cut.facts.turn_goal import turn_goal_fact
from explainers.kinds.join_and_cut.words import alt, framing, steps, task
from explainers.kinds.join_and_cut.words.actions import action_label, piece_label
from explainers.sentences import labels, lesson, notes, published
from explainers.sentences.lesson import Chapter, Heading

__all__ = ["CHAPTERS", "labels_of", "narrated", "sentences_of", "strategies_of"]

# Every part of a telling that a chapter may be.
CHAPTERS = [*(kind for kind in vars(Chapter).values() if isinstance(kind, Chapter)), framing.PIECES]


def narrated(fact: PieceFact | TurnFact | MeetFact | ChangeFact) -> tuple[str, ...]:
    """What is said of a piece at a step, its fact held to."""
    return verified(fact, fact.narration())


def strategies_of(solution: Solution) -> list[Candidate]:
    """Every strategy that an item shows."""
    return [*piece_candidates(solution), *general_candidates(solution)]


def sentences_of(solution: Solution) -> Iterator[str]:
    """Sentences spoken, notes and alt texts: each a sentence or several."""
    count = len(solution.placements)
    facts = [piece_fact(solution, index) for index in range(count)]
    yield from (
        *task.task(facts, sizes_differ=True),
        *task.close_up(facts),
        *asked.your_turn(solution.outline.area * 9),
    )
    yield from (*asked.check(sizes_differ=True), alt.sheet_alt(solution), outlines.check_alt(solution))
    for index, fact in enumerate(facts):
        turned, met, changed = (make(solution, index) for make in (turn_fact, meet_fact, change_fact))
        yield from (sentence for told in (fact, turned, met, changed) for sentence in narrated(told))
        goal = turn_goal_fact(solution, index)
        yield from verified(goal, goal.narration())
        yield from (*steps.ask_turn(fact), *steps.ask_meet(fact), outlines.turn_alt(turned.turn_deg))
        yield from (fact.note(), turned.note(), met.note(), changed.note())
        yield alt.table_alt(solution, index, turned=index % 2 == 0, pointed=True, arc=True)
        yield from (alt.met_alt(solution, index), alt.done_alt(solution, index))
    tally = tally_fact(solution)
    if tally.is_plain:
        yield from (*verified(tally, tally.narration()), tally.note())
        yield from (alt.counted_alt(solution, tally, settled=settled) for settled in (False, True))
    shape = outline_fact(solution.outline, solution.tolerance)
    yield from (*steps.outline(shape), *steps.ask_outline(shape), alt.alone_alt(solution))
    names = [verdict.label for verdict in solution.verdicts]
    yield from (*choices.options_shown(sifted=True), *choices.options_shown(sifted=False))
    yield from sifted(solution)
    for verdict in solution.verdicts:
        reason = verdict.reasons[0]
        yield outlines.choices_alt(solution, settled=tuple(names[:2]), laid=verdict, kept=verdict.same)
        if isinstance(reason, SameFact):
            yield from (*choices.keep(reason, shape), *choices.answer(verdict.label), notes.keep_note(reason))
            yield from walked(solution, verdict)
            continue
        yield from choices.rule_out(verdict, number=len(verdict.reasons), slips_told=True)
        yield from walked(solution, verdict)
        yield notes.rule_out_note(verdict.label)
        yield from (
            sentence
            for fact in verdict.reasons
            if isinstance(fact, DifferenceFact)
            for sentence in choices.reason(fact)
        )
        if verdict.slip is not None:
            yield from (notes.slip_note(verdict.slip), *verdict.slip.in_short())
    for candidate in strategies_of(solution):
        yield from candidate.fact.narration()
    manners = list(Manner)[: 1 + count]
    yield from (*lesson.opening(solution.item.title, manners), *framing.routine(manners), published.lasts(count * 61.0))
    yield from framing.about({fact.piece.does for fact in facts})


def sifted(solution: Solution) -> Iterator[str]:
    """What the sieves of the question say, of all that they rule out and of each option alone."""
    for number, fact in enumerate(sifting_of(solution).facts):
        for is_first in (True, False):
            yield from verified(fact, fact.invitation(is_first=is_first))
        yield from (fact.of_outline(), fact.of_outline_in_full(), *fact.of_options(), out(fact.labels, number))
        yield notes.sift_note(fact.labels)
        for verdict in solution.verdicts:
            if verdict.label in fact.labels:
                alone = fact.only((verdict.label,))
                yield from (*alone.of_options(), alone.in_marking(), out(alone.labels, number + 1))
                yield from (*not_this(verdict, alone)[0], *not_this(verdict, alone, outline_given=True)[0])


def walked(solution: Solution, verdict: Verdict) -> Iterator[str]:
    """What is said where an option is walked round with the outline."""
    fact = walk_of(solution, verdict)
    if fact is None:
        return
    yield outlines.beside_alt(verdict.label, settled=("A",), outline_given=verdict.mirrored)
    if verdict.same:
        yield from (*choices.walked_alike(fact, is_known=True), *choices.walked_alike(fact, is_known=False))
    else:
        yield from (*choices.walked(verdict.label, fact), *not_this(verdict, fact)[0])


def labels_of(solution: Solution) -> Iterator[str]:
    """Headings, chapters, labels and alt texts of signs: a few words each."""
    yield from (fact.heading() for fact in sifting_of(solution).facts)
    for candidate in strategies_of(solution):
        yield candidate.fact.headline()
    for number, placement in enumerate(solution.placements, start=1):
        piece = placement.piece
        yield from (framing.piece_heading(kind, name=piece.name, mark=piece.mark) for kind in framing.PieceHeading)
        yield labels.turn_label(placement.turn_deg)
        yield piece_label(action_label(piece.does.value, piece.does.value), piece.name)
        yield labels.mark_alt(piece.mark, number, crosses=number % 2 == 0)
        yield labels.clock_label(number * 5.0)
    yield from (lesson.heading(kind, label="B") for kind in Heading)
    for kind in CHAPTERS:
        yield from (lesson.chapter(kind), lesson.chapter(kind, title=solution.item.title))
