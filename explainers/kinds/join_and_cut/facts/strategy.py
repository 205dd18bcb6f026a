"""The strategies for pieces: where a mark leads, when a turn is over, what a join or a cut leaves."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from ....choice.fact import Fact
from ....choice.strategy import Candidate, Evidence, StrategyFact, StrategySpec, Words, here
from ....geometry.angles import is_odd_turn
from ....geometry.locate import span_on
from ....geometry.tolerance import MEANT_DEG
from ....words.mark_names import the_marks
from ....words.messages import message, say, say_count
from ....words.names import is_half_turn, is_no_turn, number_in_words, sentence_case, the_piece
from ..model import BASE, Does
from ..solving.solution import JoinAndCutSolution
from ..words.own_verbs import say_action
from .change import ChangeFact, change_fact
from .meet import MeetFact, meet_fact
from .turn import TurnFact, turn_fact

__all__ = ["PIECE_STRATEGIES", "PieceStrategy", "PieceStrategyFact", "piece_candidates"]


class PieceStrategy(StrEnum):
    """What helps with pieces."""

    MATCH = "match"  # two marked sides are equally long, and meet end to end
    PART_OF_SIDE = "part-of-side"
    TURN_THEN_SLIDE = "turn-then-slide"
    STOP = "stop"  # when the marked side lies like its partner
    HALF_TURN = "half-turn"
    NO_TURN = "no-turn"
    GAP = "gap"  # a cut leaves its own shape
    COVERED = "covered"  # a join hides a side of each
    TICK_OFF = "tick-off"
    PARTNER_FIRST = "partner-first"


# The slips against which each helps: with the piece that it is about, or with any.
_HELPS_AGAINST: dict[PieceStrategy, frozenset[str]] = {
    PieceStrategy.MATCH: frozenset({"next-side", "side-before", "swapped"}),
    PieceStrategy.PART_OF_SIDE: frozenset({"slid"}),
    PieceStrategy.TURN_THEN_SLIDE: frozenset({"not-turned"}),
    PieceStrategy.STOP: frozenset({"turned-back", "not-turned"}),
    PieceStrategy.GAP: frozenset({"other-way-round", "too-large", "too-small"}),
    PieceStrategy.COVERED: frozenset({"other-way-round"}),
    PieceStrategy.TICK_OFF: frozenset({"left-out"}),
    PieceStrategy.PARTNER_FIRST: frozenset({"swapped"}),
}
_OF_ALL_PIECES = frozenset({PieceStrategy.TICK_OFF})


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceStrategyFact(StrategyFact):
    """A strategy for pieces, as one piece shows it, or all of them."""

    strategy: PieceStrategy

    @property
    def spec(self) -> StrategySpec:
        """Its row in ``PIECE_STRATEGIES``."""
        return PIECE_STRATEGIES[self.strategy]

    @property
    def name(self) -> str:
        """The piece that it is about: the last of the evidence; for all pieces the last of them."""
        return _name_of(self.evidence[-1])

    def headline(self) -> str:
        """In the theme's own verbs."""
        return say_action(self.spec.headline)


def piece_candidates(solution: JoinAndCutSolution) -> Iterator[Candidate]:
    """The strategies for pieces that an item shows."""
    meets = tuple(meet_fact(solution, index) for index in range(len(solution.placements)))
    by_name = {fact.name: fact for fact in meets}
    for index, meet in enumerate(meets):
        turn, change = turn_fact(solution, index), change_fact(solution, index)
        found: list[tuple[PieceStrategy, Evidence]] = [
            (PieceStrategy.MATCH, (meet,)),
            (PieceStrategy.PART_OF_SIDE, (meet,)),
            (PieceStrategy.TURN_THEN_SLIDE, (turn,)),
            (PieceStrategy.STOP, (turn, meet)),
            (PieceStrategy.HALF_TURN, (turn,)),
            (PieceStrategy.NO_TURN, (turn,)),
            (PieceStrategy.GAP, (change,)),
            (PieceStrategy.COVERED, (meet, change)),
        ]
        if meet.of != BASE:
            found.append((PieceStrategy.PARTNER_FIRST, (by_name[meet.of], meet)))
        for strategy, evidence in found:
            if PIECE_STRATEGIES[strategy].shows(evidence):
                yield _candidate(solution, strategy, evidence)
    if PIECE_STRATEGIES[PieceStrategy.TICK_OFF].shows(meets):
        yield _candidate(solution, PieceStrategy.TICK_OFF, meets)


def _candidate(solution: JoinAndCutSolution, strategy: PieceStrategy, evidence: Evidence) -> Candidate:
    fact = PieceStrategyFact(tolerance=solution.tolerance, strategy=strategy, evidence=evidence)
    slips = _HELPS_AGAINST.get(strategy, frozenset())
    rules_out = tuple(
        verdict.label
        for verdict in solution.verdicts
        if verdict.slip is not None
        and any(
            case.slip in slips and (strategy in _OF_ALL_PIECES or case.subject == fact.name)
            for case in verdict.slip.cases
        )
    )
    return Candidate(fact, rules_out)


def _name_of(fact: Fact) -> str:
    assert isinstance(fact, TurnFact | MeetFact | ChangeFact)
    return fact.name


# What shows each, once every fact of it holds.


def _meets_whole(evidence: Evidence) -> bool:
    match evidence:
        case (MeetFact() as meet,):
            return not meet.is_part_of_side
    return False


def _meets_part(evidence: Evidence) -> bool:
    match evidence:
        case (MeetFact() as meet,):
            return meet.is_part_of_side
    return False


def _turn_deg(evidence: Evidence) -> float | None:
    match evidence:
        case (TurnFact() as turn,):
            return turn.turn_deg
    return None


def _turns_some_way(evidence: Evidence) -> bool:
    turn_deg = _turn_deg(evidence)
    return turn_deg is not None and not is_no_turn(turn_deg) and not is_half_turn(turn_deg)


def _turns_half(evidence: Evidence) -> bool:
    turn_deg = _turn_deg(evidence)
    return turn_deg is not None and is_half_turn(turn_deg)


def _turns_not(evidence: Evidence) -> bool:
    turn_deg = _turn_deg(evidence)
    return turn_deg is not None and is_no_turn(turn_deg)


def _stops_at_no_quarter(evidence: Evidence) -> bool:
    """A turn whose end is easily missed: by more than a quarter turn, or by an angle of no known name."""
    match evidence:
        case (TurnFact() as turn, MeetFact() as meet):
            size = abs(turn.turn_deg)
            is_hard = is_odd_turn(size) or 90.0 + MEANT_DEG < size < 180.0 - MEANT_DEG
            return turn.name == meet.name and is_hard
    return False


def _leaves_a_gap(evidence: Evidence) -> bool:
    match evidence:
        case (ChangeFact() as change,):
            return change.does is Does.CUT
    return False


def _hides_sides(evidence: Evidence) -> bool:
    match evidence:
        case (MeetFact() as meet, ChangeFact() as change):
            return (
                meet.name == change.name
                and meet.does is Does.JOIN
                and not meet.is_part_of_side
                and span_on(change.after.rings, meet.partner, meet.tolerance) is None
            )
    return False


def _are_all_pieces(evidence: Evidence) -> bool:
    """Two pieces or more, each laid on another outline than the one before."""
    meets = [fact for fact in evidence if isinstance(fact, MeetFact)]
    return len(meets) == len(evidence) > 1 and len({fact.before for fact in meets}) == len(meets)


def _needs_its_partner(evidence: Evidence) -> bool:
    match evidence:
        case (MeetFact() as partner, MeetFact() as meet):
            return meet.of == partner.name and partner.does is Does.JOIN
    return False


# Words: in general first, then as seen here.


def _marks(*general: str) -> Words:
    def words(evidence: Evidence) -> tuple[str, ...]:
        meet = evidence[-1]
        assert isinstance(meet, MeetFact)
        return (*map(say, general), here(say("Here look at {marks}.", marks=the_marks(meet.mark))))

    return words


def _of_piece(general: str, shown: str) -> Words:
    def words(evidence: Evidence) -> tuple[str, ...]:
        return (say_action(general), here(say_action(shown, piece=the_piece(_name_of(evidence[-1])))))

    return words


def _pieces_counted(evidence: Evidence) -> tuple[str, ...]:
    count = len(evidence)
    return (
        say("Take the pieces in order, and tick each one off."),
        here(
            say_count(
                "Here there was one piece to tick off.",
                "Here there were {number} pieces to tick off.",
                count,
                number=number_in_words(count),
            )
        ),
    )


def _partner_came_first(evidence: Evidence) -> tuple[str, ...]:
    partner, piece = (the_piece(_name_of(fact)) for fact in evidence)
    return (
        say("A piece may meet another piece: then lay that one first."),
        here(sentence_case(say("Here {partner} came before {piece}.", partner=partner, piece=piece))),
    )


# The scores are tuned by tests/bench/remembered.py, so that each is told in some questions and none in too many.
PIECE_STRATEGIES: dict[PieceStrategy, StrategySpec] = {
    PieceStrategy.MATCH: StrategySpec(
        score=19.5,
        headline=message("Match the marked sides"),
        shows=_meets_whole,
        words=_marks(message("Two marked sides are equally long, and they meet end to end.")),
    ),
    PieceStrategy.PART_OF_SIDE: StrategySpec(
        score=20.0,
        headline=message("Where does the mark stop?"),
        shows=_meets_part,
        words=_marks(
            message("A mark may cover only a part of a side."), message("Find where it starts, and where it stops.")
        ),
    ),
    PieceStrategy.TURN_THEN_SLIDE: StrategySpec(
        score=21.0,
        headline=message("Turn first, then slide"),
        shows=_turns_some_way,
        words=_of_piece(
            message("Turn a piece first, then slide it: sliding turns nothing."),
            message("Here {piece} was turned before it slid."),
        ),
    ),
    PieceStrategy.STOP: StrategySpec(
        score=21.0,
        headline=message("Know when to stop turning"),
        shows=_stops_at_no_quarter,
        words=_marks(message("Stop turning when the marked side lies like its partner.")),
    ),
    PieceStrategy.HALF_TURN: StrategySpec(
        score=22.5,
        headline=message("Half a turn: either way will do"),
        shows=_turns_half,
        words=_of_piece(
            message("Half a turn ends up the same, whichever way you go."),
            message("Here {piece} made half a turn."),
        ),
    ),
    PieceStrategy.NO_TURN: StrategySpec(
        score=22.0,
        headline=message("Does it have to turn at all?"),
        shows=_turns_not,
        words=_of_piece(
            message("First see if a piece has to turn at all."), message("Here {piece} only had to slide.")
        ),
    ),
    PieceStrategy.GAP: StrategySpec(
        score=20.5,
        headline=message("A cut leaves its own shape"),
        shows=_leaves_a_gap,
        words=_of_piece(
            message("A cut leaves its own shape as a gap."),
            message("Here look at the gap that {piece} left."),
        ),
    ),
    PieceStrategy.COVERED: StrategySpec(
        score=21.5,
        headline=message("A join hides two sides"),
        shows=_hides_sides,
        words=_of_piece(
            message("When two sides are joined, both are gone from the outline."),
            message("Here look at the side where {piece} was joined."),
        ),
    ),
    PieceStrategy.TICK_OFF: StrategySpec(
        score=19.0,
        headline=message("Tick the pieces off"),
        shows=_are_all_pieces,
        words=_pieces_counted,
    ),
    PieceStrategy.PARTNER_FIRST: StrategySpec(
        score=22.0,
        headline=message("The partner comes first"),
        shows=_needs_its_partner,
        words=_partner_came_first,
    ),
}
