"""Slips by name, the simplest first. A new one is a function in the module of what goes wrong and one line here.

The order is the one in which an outline that several slips make is put down to one of them: a slip that touches no
piece, then a piece that is not there at all, which is seen soonest, then those that change how one piece lies, then its
place, its size, then two pieces. So a cut that a wrong turn brings outside the outline, where it takes nothing away, is
a piece left out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from ....choice.slip import CannotBeMade, MakesTheResult, SlipCase
from ....document.notation import listed, nearest
from ....errors import Fault
from ....geometry.congruence import motions_onto
from ....geometry.tolerance import authoring_tolerance
from ..model import Item
from .model import Slipped, SolvedItem, Work
from .pieces import left_out, other_way_round, swapped
from .place import next_side, side_before, slid
from .replay import Remembered, remembering, replayed
from .size import too_large, too_small
from .turning import flipped, not_turned, piece_flipped, turned_back

__all__ = [
    "SLIPS",
    "SlipSpec",
    "first_legal",
    "make",
    "make_all",
    "slip_cases",
    "slip_faults",
    "slip_pairs",
    "taken",
    "untouched",
]


class Touches(StrEnum):
    """What a slip changes; two slips that change the same of one piece are no pair."""

    RESULT = "result"
    FACE = "face"
    TURN = "turn"
    KIND = "kind"
    PRESENCE = "presence"
    PLACE = "place"
    SIZE = "size"


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipSpec:
    """How to make a slip's outline, and whether it happens to one piece.

    changes : the ways to take the item, best first; the first that gives a legal outline is the slip's
    """

    changes: Callable[[Work, SolvedItem], tuple[Work, ...]]
    touches: Touches
    needs_piece: bool = True


SLIPS: dict[str, SlipSpec] = {
    "flipped": SlipSpec(changes=flipped, touches=Touches.RESULT, needs_piece=False),
    "left-out": SlipSpec(changes=left_out, touches=Touches.PRESENCE),
    "piece-flipped": SlipSpec(changes=piece_flipped, touches=Touches.FACE),
    "not-turned": SlipSpec(changes=not_turned, touches=Touches.TURN),
    "turned-back": SlipSpec(changes=turned_back, touches=Touches.TURN),
    "other-way-round": SlipSpec(changes=other_way_round, touches=Touches.KIND),
    "next-side": SlipSpec(changes=next_side, touches=Touches.PLACE),
    "side-before": SlipSpec(changes=side_before, touches=Touches.PLACE),
    "slid": SlipSpec(changes=slid, touches=Touches.PLACE),
    "too-large": SlipSpec(changes=too_large, touches=Touches.SIZE),
    "too-small": SlipSpec(changes=too_small, touches=Touches.SIZE),
    "swapped": SlipSpec(changes=swapped, touches=Touches.PLACE),
}
_RANK = {name: rank for rank, name in enumerate(SLIPS)}


def slip_cases(item: Item) -> tuple[SlipCase, ...]:
    """Every single slip that may happen on this item, the simplest first; whether it gives an outline is not asked."""
    names = [piece.name for piece in item.pieces]
    return tuple(
        case
        for slip, spec in SLIPS.items()
        for case in (
            [SlipCase(slip=slip, subject=name) for name in (names[:-1] if slip == "swapped" else names)]
            if spec.needs_piece
            else [SlipCase(slip=slip)]
        )
    )


def slip_pairs(item: Item) -> Iterator[tuple[SlipCase, SlipCase]]:
    """Every two slips that may happen together on this item, the simplest first."""
    cases = slip_cases(item)
    for i, one in enumerate(cases):
        for other in cases[i + 1 :]:
            if _may_happen_together(one, other, item):
                yield one, other


def make(case: SlipCase, solved_item: SolvedItem, remembered: Remembered | None = None) -> Slipped:
    """What comes out when the slip happens.

    scene      : its `piece` is not looked at
    remembered : what other replays of the same item have laid
    Raises     : CannotBeMade where nothing legal comes out, MakesTheResult where the finished outline does
    """
    return make_all((case,), solved_item, remembered)


def make_all(cases: tuple[SlipCase, ...], solved_item: SolvedItem, remembered: Remembered | None = None) -> Slipped:
    """What comes out when the slips happen together, in the order of the registry.

    Raises : as ``make``; KeyError for a slip of no such name
    """
    memory = remembering(solved_item.placements) if remembered is None else remembered
    works = untouched(solved_item)
    for case in sorted(cases, key=lambda case: _RANK[case.slip]):
        works = taken(works, case, solved_item)
    return first_legal(works, solved_item, memory)


def untouched(solved_item: SolvedItem) -> tuple[Work, ...]:
    """The one way to take the item before any slip."""
    return (Work(item=replace(solved_item.item, options=(), made=None)),)


def taken(works: tuple[Work, ...], case: SlipCase, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The ways to take the item when this slip happens on top of what has happened, best first.

    Raises : CannotBeMade where there is none; KeyError for a slip of no such name
    """
    its_scene = replace(solved_item, piece=case.subject)
    return tuple(changed for work in works for changed in SLIPS[case.slip].changes(work, its_scene))


def first_legal(works: tuple[Work, ...], solved_item: SolvedItem, remembered: Remembered) -> Slipped:
    """What comes of the first way that gives an outline, other than the finished one.

    Raises : as ``make``
    """
    tolerance = authoring_tolerance(solved_item.item.extent)
    refusal = CannotBeMade("nothing comes of it")
    for index, work in enumerate(works):
        try:
            slipped = replayed(work, remembered)
        except CannotBeMade as error:
            refusal = error if index == 0 else refusal
            continue
        if not motions_onto(slipped.outline, solved_item.outline, tolerance):
            return slipped
        refusal = MakesTheResult("what comes out is the finished outline itself")
    raise refusal


def _may_happen_together(one: SlipCase, other: SlipCase, item: Item) -> bool:
    if Touches.RESULT in (SLIPS[one.slip].touches, SLIPS[other.slip].touches):
        return one.slip != other.slip
    shared = _pieces_of(one, item) & _pieces_of(other, item)
    kinds = {SLIPS[one.slip].touches, SLIPS[other.slip].touches}
    return not shared or (len(kinds) == 2 and Touches.PRESENCE not in kinds)


def _pieces_of(case: SlipCase, item: Item) -> set[str | None]:
    names = [piece.name for piece in item.pieces]
    if case.slip == "swapped":
        index = names.index(str(case.subject))
        return set(names[index : index + 2])
    return {case.subject}


def slip_faults(item: Item) -> list[Fault]:
    """What is wrong with the naming of slips, before any is made."""
    faults = []
    names = [piece.name for piece in item.pieces]
    for index, option in enumerate(item.options):
        if option.slip is None:
            continue
        field = f"options[{index}]"
        spec = SLIPS.get(option.slip)
        if spec is None:
            near = nearest(option.slip, SLIPS)
            faults.append(
                Fault(
                    field=f"{field}.slip",
                    message=f"there is no slip called {option.slip}",
                    fix=f"write slip: {near or listed(sorted(SLIPS))}",
                )
            )
        elif spec.needs_piece and option.slip_subject is None:
            faults.append(
                Fault(
                    field=f"{field}.piece",
                    message=f"the slip {option.slip} happens to one piece, and none is named",
                    fix=f"add piece: {listed(names)}",
                )
            )
        elif spec.needs_piece and option.slip_subject not in names:
            near = nearest(str(option.slip_subject), names)
            faults.append(
                Fault(
                    field=f"{field}.piece",
                    message=f"there is no piece called {option.slip_subject}",
                    fix=f"write {near or listed(names)}",
                )
            )
        elif not spec.needs_piece and option.slip_subject is not None:
            faults.append(
                Fault(
                    field=f"{field}.piece",
                    message=f"the slip {option.slip} happens to the whole outline, not to one piece",
                    fix="take piece out",
                )
            )
    return faults
