"""The recomputations behind ``Fact.holds``: each answers from the geometry alone whether a statement is true.

Where there is a second way to an answer, it is taken here: places are found by plain arithmetic, not by the overlay or
the matcher that produced them.
"""

from __future__ import annotations

import math

from ..geometry import overlay
from ..geometry.angles import wrapped_deg
from ..geometry.congruence import Match, congruence
from ..geometry.locate import contains, distance_to_boundary, nearest_corner, span_on
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, RigidMotion, Ring, Side, Similarity
from ..geometry.rings import interior_angles_deg, perimeter, signed_area
from ..geometry.side import unit_vector
from ..geometry.tolerance import PLAIN_DEG, TURN_DEG, computed, plain, within
from ..item.model import Does, Piece


def is_marked(piece: Piece, tolerance: float) -> bool:
    """Whether the marked side lies on the piece, and is as long as the side that it shall meet."""
    ring = Outline.of(piece.corners).simplified(tolerance).exterior
    lengths = math.dist(*piece.side), math.dist(*piece.meets)
    return span_on((ring,), piece.side, tolerance) is not None and within(abs(lengths[0] - lengths[1]), tolerance)


def is_turn(shown: Ring, placed: Ring, turn_deg: float, tolerance: float) -> bool:
    """Whether turning ``shown``, then shifting it, gives ``placed``, both running anticlockwise."""
    if len(shown) != len(placed) or not -180.0 < turn_deg <= 180.0 or signed_area(shown) <= 0.0:
        return False
    turned = RigidMotion(turn_deg=turn_deg).apply(shown)
    shift = placed[0][0] - turned[0][0], placed[0][1] - turned[0][1]
    return all(
        math.dist((x + shift[0], y + shift[1]), goal) <= computed(tolerance)
        for (x, y), goal in zip(turned, placed, strict=True)
    )


def meets(*, side: Side, partner: Side, ring: Ring, before: Outline, does: Does, tolerance: float) -> bool:
    """Whether a marked side lies against its partner with the interiors the right way."""
    own = span_on((ring,), side, tolerance)
    other = span_on(before.rings, partner, tolerance)
    if own is None or other is None or not own.forward or not other.forward or signed_area(ring) <= 0.0:
        return False
    goal = partner[::-1] if does is Does.JOIN else partner
    if max(math.dist(*pair) for pair in zip(side, goal, strict=True)) > tolerance:
        return False
    if does is Does.JOIN:
        return overlay.shared_thickness(before, Outline(ring)) <= tolerance
    return not overlay.regions(Outline(ring), before, tolerance)


def changes(
    *,
    does: Does,
    ring: Ring,
    before: Outline,
    after: Outline,
    areas: tuple[float, float, float],
    tolerance: float,
) -> bool:
    """Whether ``after`` is ``before`` with the ring's inside added or taken away.

    areas : of the piece, of the outline before, of the outline after
    """
    piece = Outline.of(ring)
    slack = tolerance * (perimeter(before.exterior) + perimeter(ring))
    if any(
        abs(stated - shape.area) > computed(slack) for stated, shape in zip(areas, (piece, before, after), strict=True)
    ):
        return False
    sign = 1.0 if does is Does.JOIN else -1.0
    if abs(before.area + sign * piece.area - after.area) > slack:
        return False
    # Parts that neither overlap nor leave anything over: with the areas right, nothing else is left to be wrong.
    smaller, whole = (before, after) if does is Does.JOIN else (after, before)
    parts = (smaller, piece)
    return overlay.shared_thickness(*parts) <= tolerance and not any(
        overlay.regions(part, whole, tolerance) for part in parts
    )


def is_described(outline: Outline, corners: int, holes: int, area: float, tolerance: float) -> bool:
    """Whether corners, holes and area are those of the outline, none of the corners being needless."""
    return (
        outline.simplified(tolerance).corner_count == corners == outline.corner_count
        and len(outline.holes) == holes
        and abs(outline.area - area) <= computed(tolerance) * perimeter(outline.exterior)
    )


def is_same(
    option: Outline,
    outline: Outline,
    motion: Similarity,
    shown_turn_deg: float,
    turn_deg: float,
    tolerance: float,
) -> bool:
    """Whether the motion lays the option on the outline corner for corner, and the turn leads there as shown."""
    if abs(wrapped_deg(motion.turn_deg - shown_turn_deg - turn_deg)) > TURN_DEG or not -180.0 < turn_deg <= 180.0:
        return False
    laid, goal = option.moved(motion).simplified(tolerance), outline.simplified(tolerance)
    if len(laid.holes) != len(goal.holes) or not _is_laid(laid.exterior, goal.exterior, tolerance):
        return False
    return all(any(_is_laid(hole, other, tolerance) for other in goal.holes) for hole in laid.holes)


def _is_laid(ring: Ring, goal: Ring, tolerance: float) -> bool:
    if len(ring) != len(goal):
        return False
    _, start = min((math.dist(ring[0], corner), i) for i, corner in enumerate(goal))
    return all(math.dist(a, b) <= tolerance for a, b in zip(ring, goal[start:] + goal[:start], strict=True))


def is_mirror_only(option: Outline, outline: Outline, tolerance: float) -> bool:
    """Whether the option turned over is the outline, and as it is, is not."""
    return congruence(option, outline, tolerance).kind is Match.MIRROR_ONLY


def differ_at(option: Outline, outline: Outline, place: Outline, centre: Point, tolerance: float) -> bool:
    """Whether exactly one of the two has material all over the place, and the centre is inside it."""
    if not contains(place, centre) or contains(option, centre) == contains(outline, centre):
        return False
    owner, other = (option, outline) if contains(option, centre) else (outline, option)
    return not overlay.regions(place, owner, tolerance) and overlay.shared_thickness(place, other) <= tolerance


def counts_corners(
    *,
    option: Outline,
    outline: Outline,
    counts: tuple[int, int],
    corner: Point,
    on_option: bool,
    place: Outline,
    tolerance: float,
) -> bool:
    """Whether the counts are right and differ, and one of the two has a corner there where the other has none."""
    first, second = option.simplified(tolerance), outline.simplified(tolerance)
    if (first.corner_count, second.corner_count) != counts or counts[0] == counts[1]:
        return False
    owner, other = (first, second) if on_option else (second, first)
    return (
        nearest_corner(corner, _corners(owner))[0] <= tolerance
        and nearest_corner(corner, _corners(other))[0] > plain(tolerance)
        and _is_at(corner, place, tolerance)
    )


def _corners(outline: Outline) -> tuple[Point, ...]:
    return tuple(corner for ring in outline.rings for corner in ring)


def _is_at(point: Point, place: Outline, tolerance: float) -> bool:
    return distance_to_boundary(point, place) <= 2 * tolerance


def angles_deg(outline: Outline) -> tuple[tuple[Point, float], ...]:
    """Each corner with the angle of material at it."""
    return tuple(pair for ring in outline.rings for pair in zip(ring, interior_angles_deg(ring), strict=True))


def has_foreign_angle(
    option: Outline, outline: Outline, corner: Point, angle_deg: float, place: Outline, tolerance: float
) -> bool:
    """Whether the option has that corner with that angle, and the outline has no angle near it."""
    own = angles_deg(option.simplified(tolerance))
    there = [angle for point, angle in own if math.dist(point, corner) <= tolerance]
    return (
        bool(there)
        and abs(there[0] - angle_deg) <= TURN_DEG
        and all(abs(angle - angle_deg) > PLAIN_DEG for _, angle in angles_deg(outline.simplified(tolerance)))
        and _is_at(corner, place, tolerance)
    )


def lengths_differ(
    *,
    option: Outline,
    outline: Outline,
    side: Side,
    other_side: Side,
    lengths: tuple[float, float],
    place: Outline,
    tolerance: float,
) -> bool:
    """Whether two whole sides lie along each other the same way round, and one plainly reaches past the other."""
    for shape, claimed, length in ((option, side, lengths[0]), (outline, other_side, lengths[1])):
        span = span_on(shape.simplified(tolerance).rings, claimed, tolerance)
        if span is None or not span.forward or max(map(math.dist, span.whole, claimed)) > tolerance:
            return False
        if abs(math.dist(*claimed) - length) > computed(tolerance):
            return False
    return abs(lengths[0] - lengths[1]) > plain(tolerance) and any(
        _is_at(middle, place, tolerance) for middle in unmatched_middles(side, other_side, tolerance)
    )


def unmatched_middles(side: Side, other_side: Side, tolerance: float) -> tuple[Point, ...]:
    """Middles of the bits by which the longer of two sides reaches past the shorter; () unless along each other.

    Along each other: on one line to within the tolerance, the same way round, one over the other for a plain length.
    """
    longer, shorter = (side, other_side) if math.dist(*side) >= math.dist(*other_side) else (other_side, side)
    ax, ay = longer[0]
    length = math.dist(*longer)
    ux, uy = unit_vector(longer)
    alongs = [((x - ax) * ux + (y - ay) * uy) for x, y in shorter]
    if any(abs((y - ay) * ux - (x - ax) * uy) > 2 * tolerance for x, y in shorter):
        return ()
    if alongs[1] <= alongs[0] or min(length, alongs[1]) - max(0.0, alongs[0]) <= plain(tolerance):
        return ()
    bits = [bit for bit in ((0.0, alongs[0]), (alongs[1], length)) if bit[1] - bit[0] > plain(tolerance)]
    return tuple((ax + ux * (low + high) / 2, ay + uy * (low + high) / 2) for low, high in bits)


def counts_holes(
    *,
    option: Outline,
    outline: Outline,
    counts: tuple[int, int],
    place: Outline,
    centre: Point,
    at: str,
    tolerance: float,
) -> bool:
    """Whether the counts are right and differ, and the place makes a hole of the one that has more.

    at : "hole": the centre is in one of its holes; "wall": without the place one of its holes is open to the outside;
         "bar": without the place none is, but it has fewer
    """
    if (len(option.holes), len(outline.holes)) != counts or counts[0] == counts[1]:
        return False
    owner = option if counts[0] > counts[1] else outline
    if at == "hole":
        return any(contains(Outline(hole), centre) for hole in owner.holes)
    if not contains(owner, centre):
        return False
    # Cut as a piece is cut, with corners welded first: a plain difference may leave hairlines that still close a hole.
    left = overlay.regions(owner, place, tolerance) if place.holes else _cut(owner, place, tolerance)
    closed = [
        hole
        for hole in owner.holes
        if any(contains(Outline(part.exterior), overlay.pole(Outline(hole))) for part in left)
    ]
    if at == "wall":
        return len(closed) < len(owner.holes)
    return len(closed) == len(owner.holes) > sum(len(part.holes) for part in left)


def _cut(owner: Outline, place: Outline, tolerance: float) -> tuple[Outline, ...]:
    return overlay.cut_out(owner, place.exterior, tolerance).parts


def has_only(owner: Outline, other: Outline, place: Outline, centre: Point, area: float, tolerance: float) -> bool:
    """Whether the place is that large, inside the one outline, and outside the other."""
    return (
        abs(place.area - area) <= computed(tolerance) * perimeter(place.exterior)
        and contains(owner, centre)
        and not contains(other, centre)
        and not overlay.regions(place, owner, tolerance)
    )


def is_part_of_side(side: Side, ring: Ring, partner: Side, before: Outline, tolerance: float) -> bool:
    """Whether two sides that meet leave a plain length of either whole side over."""
    for rings, span in (((ring,), side), (before.rings, partner)):
        found = span_on(rings, span, tolerance)
        if found is not None and math.dist(*found.whole) - math.dist(*span) > plain(tolerance):
            return True
    return False
