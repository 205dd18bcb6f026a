"""Slips of turning: a piece turned wrongly, or a piece or the result turned over."""

from __future__ import annotations

from dataclasses import replace

from ....choice.slip import CannotBeMade
from ....geometry.rigid_motion import Point
from ....geometry.tolerance import MEANT_DEG
from .model import SolvedItem, Work

__all__ = ["flipped", "not_turned", "piece_flipped", "turned_back"]


def flipped(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """All is done right, then the result is turned over.

    Why learners do it: a mirror image has the same sides and corners, so that it passes when checked one feature at a
    time.
    """
    return (replace(work, turned_over=not work.turned_over),)


def piece_flipped(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece shows its back; pieces that meet it meet the same sides of it.

    Why learners do it: turning over brings the marks together as well as turning does, and nothing on paper forbids it.
    """
    piece = work.piece(solved_item.piece)
    changed = replace(
        piece,
        corners=tuple(_over(point) for point in piece.corners),
        side=(_over(piece.side[0]), _over(piece.side[1])),
        turned=-piece.turned,
    )
    leaning = [
        replace(other, meets=(_over(other.meets[0]), _over(other.meets[1])))
        for other in work.item.pieces
        if other.of == piece.name
    ]
    return (work.with_pieces(changed, *leaning),)


def not_turned(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece stays as the sheet shows it, and the middles of the marked sides meet.

    Why learners do it: sliding in the mind is easier than turning.

    Raises : CannotBeMade where it needs no turn
    """
    if abs(solved_item.placement.turn_deg) <= MEANT_DEG:
        raise CannotBeMade(f"{solved_item.piece} needs no turn")
    return (replace(work, slip_turns=(*work.slip_turns, (work.piece(solved_item.piece).name, 0.0))),)


def turned_back(work: Work, solved_item: SolvedItem) -> tuple[Work, ...]:
    """The piece turns by the same angle in the other direction, and the middles of the marked sides meet.

    Why learners do it: the size of a turn is easier to keep in mind than its direction.

    Raises : CannotBeMade where both directions lead to the same place
    """
    turn_deg = solved_item.placement.turn_deg
    if abs(turn_deg) <= MEANT_DEG:
        raise CannotBeMade(f"{solved_item.piece} needs no turn")
    if abs(turn_deg) >= 180.0 - MEANT_DEG:
        raise CannotBeMade(f"{solved_item.piece} makes half a turn, which is the same both ways")
    return (replace(work, slip_turns=(*work.slip_turns, (work.piece(solved_item.piece).name, -turn_deg))),)


def _over(point: Point) -> Point:
    return -point[0], point[1]
