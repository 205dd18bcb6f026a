"""Whether a ring crosses or touches itself, with the place where it does.

Nearer than the tolerance counts as touching, since nearer corners are welded before anything is laid together.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from .locate import distance_to_side
from .rigid_motion import Point, Ring, Side

__all__ = ["Contact", "ContactKind", "meeting", "on_one_line", "self_contact"]


class ContactKind(StrEnum):
    """How two sides of one ring meet where they should not."""

    CROSSES = "crosses"
    TOUCHES = "touches"
    DOUBLES_BACK = "doubles back"  # two sides that follow each other and lie on top of each other


@dataclass(frozen=True, slots=True)
class Contact:
    """Two sides of one ring that meet where they should not."""

    kind: ContactKind
    first: Side
    second: Side
    point: Point


def on_one_line(ring: Ring, tolerance: float) -> bool:
    """Whether all corners lie on one straight line, so that the ring encloses nothing."""
    start = ring[0]
    start = max(ring, key=lambda corner: math.dist(corner, start))
    end = max(ring, key=lambda corner: math.dist(corner, start))
    return all(distance_to_side(corner, (start, end)) <= tolerance for corner in ring)


def self_contact(ring: Ring, tolerance: float) -> Contact | None:
    """The place that best tells why a ring is not simple: a crossing first, a mere touch last; None for a simple one.

    ring      : corners in either direction, first not repeated
    tolerance : item units; corners nearer than this to the one before are passed over
    """
    corners = _apart(ring, tolerance)
    count = len(corners)
    if count < 3:
        return None
    # The closing side last, each with its box widened by the tolerance, so that most pairs cost four comparisons.
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    boxes = [
        (min(a[0], b[0]) - tolerance, min(a[1], b[1]) - tolerance, max(a[0], b[0]), max(a[1], b[1])) for a, b in sides
    ]
    found: Contact | None = None
    for i in range(count - 1):
        for j in range(i + 1, count):
            one, two = boxes[i], boxes[j]
            if one[0] > two[2] or two[0] > one[2] or one[1] > two[3] or two[1] > one[3]:
                continue
            if j == i + 1 or (i == 0 and j == count - 1):
                before, after = (sides[i], sides[j]) if j == i + 1 else (sides[j], sides[i])
                contact = _doubling_back(before, after, tolerance)
            else:
                contact = meeting(sides[i], sides[j], tolerance)
            if contact is None:
                continue
            if contact.kind is ContactKind.CROSSES:
                return contact
            # Sides that double back also touch others: the doubling back explains it.
            if found is None or (contact.kind, found.kind) == (ContactKind.DOUBLES_BACK, ContactKind.TOUCHES):
                found = contact
    return found


def _apart(ring: Ring, tolerance: float) -> list[Point]:
    kept: list[Point] = []
    for corner in ring:
        if not kept or math.dist(kept[-1], corner) > tolerance:
            kept.append(corner)
    while len(kept) > 1 and math.dist(kept[0], kept[-1]) <= tolerance:
        kept.pop()
    return kept


def _doubling_back(before: Side, after: Side, tolerance: float) -> Contact | None:
    if distance_to_side(after[1], before) <= tolerance:
        return Contact(ContactKind.DOUBLES_BACK, before, after, after[1])
    if distance_to_side(before[0], after) <= tolerance:
        return Contact(ContactKind.DOUBLES_BACK, before, after, before[0])
    return None


def meeting(first: Side, second: Side, tolerance: float) -> Contact | None:
    """Where two sides that do not follow each other touch or cross; None where they keep apart."""
    (ax, ay), (bx, by) = first
    (cx, cy), (dx, dy) = second
    for point, side in ((second[0], first), (second[1], first), (first[0], second), (first[1], second)):
        if distance_to_side(point, side) <= tolerance:
            return Contact(ContactKind.TOUCHES, first, second, point)
    # Clear of each other's ends, the two sides meet only by crossing: each has its ends on both sides of the other.
    cross = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if cross == 0.0:
        return None
    along = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / cross
    across = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / cross
    if 0.0 < along < 1.0 and 0.0 < across < 1.0:
        return Contact(ContactKind.CROSSES, first, second, (ax + along * (bx - ax), ay + along * (by - ay)))
    return None
