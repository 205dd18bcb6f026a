"""What a series of lessons asks as a whole: questions asked twice, turns and slips left out, whether it gets harder.

An item of a quick check is shown without what its outline is made of, so it practises neither turns nor slips that
happen to a part of it, and is left out of the order of difficulty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from ..geometry.angles import is_odd_turn
from ..geometry.tolerance import MEANT_DEG
from .features import STEP_S
from .model import Solution
from .same_question import Asked

__all__ = ["AskedTwice", "Easier", "Survey", "SurveyedItem", "TurnClass", "survey", "turn_classes"]


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
class SurveyedItem:
    """An item as a lesson of the series shows it."""

    lesson: str  # its name
    solution: Solution
    parts_seen: bool = True  # else only the finished outline and the options are
    asks_only: bool = False  # it is solved in a later lesson
    solves_only: bool = False  # it was asked in an earlier one


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedTwice:
    """A question that an earlier item of the series asks already."""

    shown: SurveyedItem
    earlier: SurveyedItem
    flipped: bool  # only after turning it over


@dataclass(frozen=True, slots=True, kw_only=True)
class Easier:
    """An item that is easier than the one before it, by more than a pause is rounded to."""

    shown: SurveyedItem
    before: SurveyedItem
    shown_s: float  # seconds of work, an estimate
    before_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """A series looked at as a whole."""

    shown: tuple[SurveyedItem, ...]
    asked_twice: tuple[AskedTwice, ...]
    turns_never: tuple[TurnClass, ...]  # none where no question of the series has a turn to find
    slips_never: tuple[str, ...]  # those that could happen in an item of the series
    work_s: tuple[tuple[SurveyedItem, float], ...]  # in order: how hard each is, in seconds of work, an estimate
    easier: tuple[Easier, ...]


def survey(shown: Sequence[SurveyedItem]) -> Survey:
    """The items of a series in the order of its lessons."""
    whole = [one for one in shown if one.parts_seen]
    turns = {kind for one in whole for turn_deg in one.solution.turns_deg for kind in turn_classes(turn_deg)}
    slips = {
        case.slip
        for one in shown
        for verdict in one.solution.verdicts
        if verdict.slip is not None
        for case in verdict.slip.cases
        if one.parts_seen or case.subject is None
    }
    possible = {slip: None for one in shown for slip in one.solution.possible_slips(parts_seen=one.parts_seen)}
    work = tuple((one, one.solution.features().seconds_of_work) for one in whole)
    return Survey(
        shown=tuple(shown),
        asked_twice=_asked_twice(shown),
        turns_never=tuple(kind for kind in TurnClass if kind not in turns) if turns or not whole else (),
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
    size = abs(turn_deg)
    if size <= MEANT_DEG:
        return (TurnClass.NONE,)
    if size >= 180.0 - MEANT_DEG:
        return (TurnClass.HALF,)
    how = "quarter" if abs(size - 90.0) <= MEANT_DEG else "small" if size < 90.0 else "large"
    way = "anticlockwise" if turn_deg > 0.0 else "clockwise"
    odd = (TurnClass.ODD,) if is_odd_turn(turn_deg) else ()
    return (TurnClass(f"{how}-{way}"), *odd)


def _asked_twice(shown: Sequence[SurveyedItem]) -> tuple[AskedTwice, ...]:
    """A question asked in one lesson and solved in a later one is no repeat: it is meant."""
    asked = Asked()
    found = []
    for one in shown:
        repeat = asked.again(one.solution)
        if repeat is None:
            continue
        earlier = shown[repeat.earlier]
        if not (earlier.asks_only and one.solves_only):
            found.append(AskedTwice(shown=one, earlier=earlier, flipped=repeat.likeness.flipped))
    return tuple(found)
