"""What must be true of typed outlines and marked sides before anything is solved, each failure a message with a fix.

Distances are judged by the authoring tolerance, so that hand-typed numbers pass where a teacher meant them equal.
"""

from __future__ import annotations

import math

from ..document.fields import Faults
from ..document.notation import shown, shown_pair, shown_point, typed_pair
from ..geometry.locate import distance_to_side
from ..geometry.rigid_motion import Point, Ring, Side
from ..geometry.rings import larger_extent, sides, signed_area, without_needless_corners
from ..geometry.simple import ContactKind, on_one_line, self_contact
from ..geometry.tolerance import RELATIVE, authoring_tolerance
from .ring_reader import TypedRing

__all__ = ["check_marked_side", "check_ring", "lies_on_a_side"]

MIN_EXTENT = 1e-3
MAX_OFFSET = 1e5  # times the larger extent: farther out, rounding grows to what the overlay's grid can tell apart


def check_ring(typed: TypedRing, faults: Faults, *, owner: str, tolerance: float | None = None) -> bool:
    """Whether corners make a simple outline; the first thing that is wrong is noted.

    owner     : how the message speaks of it, such as "the base"
    tolerance : item units; left out, the ring's own authoring tolerance
    """
    ring, path = typed.corners, typed.path
    in_order = "check each step" if typed.walked else "list the corners in the order of a walk round the outline"
    extent = larger_extent(ring)
    tol = authoring_tolerance(extent) if tolerance is None else tolerance
    if repeated := _repeated(ring, extent):
        first, again = repeated
        where = shown_point(ring[again])
        if first == 0 and again == len(ring) - 1:
            message = f"the last corner {where} is the first corner again"
            fix = "take the last corner out; the first corner need not be repeated"
        else:
            message, fix = f"the corner {where} stands here twice, one after the other", "take one of the two out"
        faults.add(path if typed.walked else f"{path}[{again}]", message, fix)
        return False
    if extent < MIN_EXTENT:
        faults.add(path, f"{owner} is only {shown(extent)} across", "use smaller units, so that the numbers get larger")
        return False
    if on_one_line(ring, tol):
        faults.add(path, f"{owner} encloses nothing: its corners lie on one line", "move a corner away from that line")
        return False
    if max(abs(number) for corner in ring for number in corner) > MAX_OFFSET * extent:
        faults.add(path, f"{owner} lies very far from (0, 0) for its size", "shift all its corners nearer to (0, 0)")
        return False
    contact = self_contact(ring, tol)
    if contact is None and abs(signed_area(ring)) > RELATIVE * extent * extent:
        return True
    if contact is None:
        faults.add(path, f"{owner} encloses nothing", in_order)
        return False
    one, other = _side_in_words(contact.first, typed), _side_in_words(contact.second, typed)
    what, fix = {
        ContactKind.CROSSES: (
            f"the outline crosses itself: the side {one} crosses the side {other}",
            in_order,
        ),
        ContactKind.TOUCHES: (
            f"the outline touches itself at {shown_point(contact.point)}: the sides {one} and {other} meet there",
            "change a step so that sides meet only where one follows the other"
            if typed.walked
            else "move a corner, so that sides meet only where one follows the other",
        ),
        ContactKind.DOUBLES_BACK: (
            f"the outline doubles back on itself: the side {other} runs back along the side {one}",
            in_order if typed.walked else "take out the corner between the two, or move it",
        ),
    }[contact.kind]
    faults.add(path, what, fix)
    return False


def _side_in_words(side: Side, typed: TypedRing) -> str:
    """A side by its ends, and by its step where it is walked."""
    if not typed.walked:
        return shown_pair(side)
    index = next((i for i, own in enumerate(sides(typed.corners)) if own == side), typed.corners.index(side[0]))
    return f"{shown_pair(side)} ({f'step {index + 1}' if index + 1 < len(typed.corners) else 'the last side'})"


def lies_on_a_side(pair: Side, rings: tuple[Ring, ...], tolerance: float) -> bool:
    """Whether both points lie on one and the same straight side of the rings."""
    return any(_reach(pair, side) <= tolerance for ring in rings for side in _straight_sides(ring, tolerance))


def check_marked_side(
    pair: Side, rings: tuple[Ring, ...], path: str, faults: Faults, *, owner: str, tolerance: float,
    advice: str = "",
) -> bool:  # fmt: skip
    """Whether two points mark one straight side of an outline, or a part of one.

    rings  : the outline's rings, in the same coordinates as the points
    advice : a fix to give in place of the nearest side
    """
    straight = [side for ring in rings for side in _straight_sides(ring, tolerance)]
    best = min(straight, key=lambda side: _misfit(pair, side))
    fix = advice or f"name two points of one side, such as {typed_pair(best)}"
    if math.dist(*pair) <= tolerance:
        faults.add(path, f"the side from {shown_pair(pair)} has no length", fix)
        return False
    if any(_reach(pair, side) <= tolerance for side in straight):
        return True
    on = [any(distance_to_side(point, side) <= tolerance for side in straight) for point in pair]
    said = f"{shown_pair(pair)} is not on a side of {owner}"
    if not any(on):
        faults.add(path, f"{said}: neither point is on its outline", fix)
    elif all(on):
        faults.add(path, f"{said}: the two points lie on different sides", fix)
    else:
        held, loose = pair if on[0] else pair[::-1]
        end = _end_passed(held, loose, straight, tolerance)
        if end is None:
            faults.add(path, f"{said}: {shown_point(loose)} is not on its outline", fix)
        elif math.dist(held, end) > tolerance:
            whole = advice or f"name two points of one side, such as {typed_pair((held, end))}"
            faults.add(path, f"{said}: that side ends at {shown_point(end)}", whole)
        else:
            faults.add(path, f"{said}: {shown_point(end)} is already the end of that side", fix)
    return False


def _end_passed(held: Point, loose: Point, straight: list[Side], tolerance: float) -> Point | None:
    """Where the side through ``held`` ends on the way to ``loose``, if the two lie on one line with it."""
    for side in straight:
        if distance_to_side(held, side) > tolerance:
            continue
        start, end = side
        length = math.dist(start, end)
        off = (end[0] - start[0]) * (loose[1] - start[1]) - (end[1] - start[1]) * (loose[0] - start[0])
        if abs(off) / length <= tolerance:
            return min(side, key=lambda corner: math.dist(corner, loose))
    return None


def _reach(pair: Side, side: Side) -> float:
    """How far the farther of two points is from a side."""
    return max(distance_to_side(point, side) for point in pair)


def _misfit(pair: Side, side: Side) -> float:
    """How far the two points lie from a side, and the side's ends from them: small for the side that was meant."""
    there = sum(distance_to_side(point, side) for point in pair)
    back = min(
        math.dist(pair[0], side[0]) + math.dist(pair[1], side[1]),
        math.dist(pair[0], side[1]) + math.dist(pair[1], side[0]),
    )
    return there + back / 2


def _straight_sides(ring: Ring, tolerance: float) -> tuple[Side, ...]:
    """The sides as a learner sees them: needless corners along them left out."""
    return sides(without_needless_corners(ring, tolerance))


def _repeated(ring: Ring, extent: float) -> tuple[int, int] | None:
    for index, (corner, following) in enumerate(sides(ring)):
        if math.dist(corner, following) <= RELATIVE * extent:
            return (index, index + 1) if index + 1 < len(ring) else (0, index)
    return None
