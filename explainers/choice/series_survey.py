"""What a series of lessons asks as a whole: questions asked twice, turns and slips left out, whether it gets harder.

An item of a quick check is shown without its pieces, so it practises neither turns nor slips that happen to a piece,
and is left out of the order of difficulty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from ..geometry.tolerance import MEANT_DEG
from ..item.model import Manner
from ..kinds.join_and_cut.slips.registry import SLIPS
from ..kinds.join_and_cut.solving.difficulty import STEP_S, seconds_of_work
from ..kinds.join_and_cut.solving.hard_step import HardStep, turn_kind
from ..kinds.join_and_cut.solving.same_question import Asked
from .model import Solution

__all__ = ["AskedTwice", "Easier", "Shown", "Survey", "TurnClass", "survey", "turn_classes"]


class TurnClass(StrEnum):
    """A kind of turn to practise; the value is the name that a program reads."""

    NONE = "none"
    SMALL_ANTICLOCKWISE = "small-anticlockwise"  # less than a quarter turn
    SMALL_CLOCKWISE = "small-clockwise"
    QUARTER_ANTICLOCKWISE = "quarter-anticlockwise"
    QUARTER_CLOCKWISE = "quarter-clockwise"
    LARGE_ANTICLOCKWISE = "large-anticlockwise"  # more than a quarter turn, less than half a turn
    LARGE_CLOCKWISE = "large-clockwise"
    HALF = "half"
    ODD = "odd"  # no multiple of 45 degrees, besides its size


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """An item as a lesson of the series shows it."""

    lesson: str  # its name
    manner: Manner
    solution: Solution

    @property
    def with_pieces(self) -> bool:
        """Whether its pieces are seen."""
        return self.manner is not Manner.QUICK_CHECK


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedTwice:
    """A question that an earlier item of the series asks already."""

    shown: Shown
    earlier: Shown
    flipped: bool  # only after turning it over


@dataclass(frozen=True, slots=True, kw_only=True)
class Easier:
    """An item that is easier than the one before it, by more than a pause is rounded to."""

    shown: Shown
    before: Shown
    shown_s: float  # seconds of work, an estimate
    before_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """A series looked at as a whole."""

    shown: tuple[Shown, ...]
    asked_twice: tuple[AskedTwice, ...]
    turns_never: tuple[TurnClass, ...]
    slips_never: tuple[str, ...]  # those that could happen in an item of the series
    work_s: tuple[tuple[Shown, float], ...]  # in order: how hard each is, in seconds of work, an estimate
    easier: tuple[Easier, ...]


def survey(shown: Sequence[Shown]) -> Survey:
    """The items of a series in the order of its lessons."""
    with_pieces = [one for one in shown if one.with_pieces]
    turns = {kind for one in with_pieces for laid in one.solution.placements for kind in turn_classes(laid.turn_deg)}
    slips = {
        case.slip
        for one in shown
        for verdict in one.solution.verdicts
        if verdict.slip is not None
        for case in verdict.slip.cases
        if one.with_pieces or not SLIPS[case.slip].needs_piece
    }
    pieces = max((len(one.solution.placements) for one in with_pieces), default=0)
    possible = [slip for slip in SLIPS if slip != "swapped" or pieces > 1]
    work = tuple((one, seconds_of_work(one.solution)) for one in with_pieces)
    return Survey(
        shown=tuple(shown),
        asked_twice=_asked_twice(shown),
        turns_never=tuple(kind for kind in TurnClass if kind not in turns),
        slips_never=tuple(slip for slip in possible if slip not in slips),
        work_s=work,
        easier=tuple(
            Easier(shown=one, before=before, shown_s=one_s, before_s=before_s)
            for (before, before_s), (one, one_s) in pairwise(work)
            if one_s <= before_s - STEP_S
        ),
    )


def turn_classes(turn_deg: float) -> tuple[TurnClass, ...]:
    """The kinds that a turn practises.

    turn_deg : in (-180, 180], anticlockwise positive
    """
    kind = turn_kind(turn_deg)
    if kind is HardStep.NO_TURN:
        return (TurnClass.NONE,)
    if kind is HardStep.HALF_TURN:
        return (TurnClass.HALF,)
    size = abs(turn_deg)
    how = "quarter" if abs(size - 90.0) <= MEANT_DEG else "small" if size < 90.0 else "large"
    way = "anticlockwise" if turn_deg > 0.0 else "clockwise"
    odd = (TurnClass.ODD,) if kind is HardStep.ODD_TURN else ()
    return (TurnClass(f"{how}-{way}"), *odd)


def _asked_twice(shown: Sequence[Shown]) -> tuple[AskedTwice, ...]:
    """A question asked in one lesson and solved in a later one is no repeat: it is meant."""
    asked = Asked()
    found = []
    for one in shown:
        repeat = asked.again(one.solution)
        if repeat is None:
            continue
        earlier = shown[repeat.earlier]
        if not (earlier.manner is Manner.QUESTION and one.manner is Manner.SOLUTION):
            found.append(AskedTwice(shown=one, earlier=earlier, flipped=repeat.likeness.flipped))
    return tuple(found)
