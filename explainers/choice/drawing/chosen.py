"""A question's own picture with one option marked: ticked, or crossed and ringed where it goes wrong.

The place of a difference stands where the option is laid on the finished outline. It is carried back from there to the
option as the question shows it, so that neither the outline nor any other option is given away.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

import shapely

from ...figure.layout import Box
from ...figure.model import Circle, Entry, Figure, Lines, Role
from ...figure.signs import broken_lines, cross_sign, ring_sign, tick_sign
from ...figure.subject import option_subject
from ...figure.theme import Theme
from ...geometry.locate import contains
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Side, Similarity
from ...geometry.rings import sides
from ...sentences.labels import difference_alt
from ..differences.difference import DifferenceFact
from ..model import Verdict
from .option_cells import SIGN_BELOW, SIGN_LEFT, SIGN_SIZE, OptionCells

__all__ = ["RingOnOption", "chosen", "on_option", "ring_on"]

CORNER_RING = 0.27  # radius round a corner
LEAST_RING, MOST_RING = 0.22, 0.5  # round a part, by its size
SMALLEST = 0.16  # near the edge of its room a ring is made smaller, but never smaller than this
_AROUND = 0.06  # so much wider than the part that it stands round
_HELD = 0.7  # of the radius: at most so far from the ring's middle is what it stands round
_STRADDLES = 0.8  # of the radius: at most so far from the option is the middle of a ring beside it
_SHRINK = 0.93
_DOT = 0.25  # radius of the dot on a corner, in radii of the ring ...
_MOST_DOT = 0.07
_SIDE_WIDTH = 0.07

Geometry = Any  # shapely carries no types


@dataclass(frozen=True, slots=True)
class RingOnOption:
    """A ring on an option as the question shows it, in stage units; `spot` is what it stands round."""

    centre: Point
    radius: float
    spot: Point


def on_option(cells: OptionCells, verdict: Verdict) -> Similarity:
    """From the base's coordinates, in which facts speak of the option, to the option as the question shows it."""
    return cells.view(verdict.label).after(verdict.fit.motion.inverse())


def ring_on(cells: OptionCells, verdict: Verdict, fact: DifferenceFact, theme: Theme) -> RingOnOption | None:
    """The ring for one difference; None where its place is not on the option, nor beside it in its own room."""
    view, room = on_option(cells, verdict), cells.room_of(verdict.label)
    spoken_of = fact.marks_of_choice().spot
    if spoken_of is not None:
        spot: Point | None = view.apply_point(spoken_of)
        radius = CORNER_RING
    else:
        place = _polygon(fact.place.moved(view))
        inner = float(shapely.maximum_inscribed_circle(place).length)
        radius = min(MOST_RING, max(LEAST_RING, inner)) + _AROUND
        spot = view.apply_point(fact.ring_centre)
        if not contains(fact.option, fact.ring_centre):  # nothing of the option is there
            spot = _beside(spot, radius, place, verdict.outline.moved(cells.view(verdict.label)), room)
    return None if spot is None else _in_room(spot, radius, room, theme.sign_width)


def chosen(
    shown: Figure,
    cells: OptionCells,
    verdict: Verdict,
    theme: Theme,
    alt: str,
    *,
    fact: DifferenceFact | None = None,
    marked: Iterable[Entry] = (),
) -> Figure:
    """The question's picture with a tick at the right option, or with a cross at a wrong one and its ring.

    shown  : the picture, in which `cells` are drawn
    alt    : of the whole
    fact   : the difference to ring, one that has a ring; None: no ring
    marked : what of a wrong option is counted or walked round, in stage units
    Raises : ValueError where it has none, or the option is right
    """
    if fact is not None and verdict.same:
        raise ValueError(f"option {verdict.label} is right: nothing about it is ringed")
    x, y = cells.letter_at(verdict.label)
    draw = tick_sign if verdict.same else cross_sign
    entries: list[Entry] = [draw("chosen-sign", "chosen", (x - SIGN_LEFT, y - SIGN_BELOW), theme, size=SIGN_SIZE)]
    if verdict.same:
        entries.append(_round_about(cells, verdict, theme))
    if fact is not None:
        ring = ring_on(cells, verdict, fact, theme)
        if ring is None:
            raise ValueError(f"no ring stands on option {verdict.label} for a {type(fact).__name__}")
        entries += _marked(fact, on_option(cells, verdict), ring, theme)
    entries += marked
    own = option_subject(verdict.label)
    marks = (replace(entry, subject=own) for entry in entries)
    return replace(shown, entries=(*shown.entries, *marks), alt=alt)


def _beside(spot: Point, radius: float, place: Geometry, option: Outline, room: Box) -> Point | None:
    """Where a ring shows that something is missing: at that place, but still on the edge of the option."""
    material = _polygon(option)
    # A hole or a gap is seen as such from all round it.
    there = shapely.Point(spot)
    within = shapely.box(room.left, room.bottom, room.right, room.top)
    if shapely.distance(shapely.convex_hull(material), there) <= _STRADDLES * radius and within.contains(there):
        return spot
    strip = shapely.intersection(place, shapely.buffer(material, _STRADDLES * SMALLEST))
    strip = shapely.intersection(strip, shapely.buffer(within, -SMALLEST / 2, join_style="mitre"))
    if strip.is_empty or strip.area <= 0.0:
        return None
    largest = max(shapely.get_parts(strip), key=lambda part: part.area)
    x, y = shapely.get_coordinates(shapely.shortest_line(largest, shapely.centroid(largest)))[0]
    return float(x), float(y)


def _in_room(spot: Point, radius: float, room: Box, width: float) -> RingOnOption | None:
    """A ring that stays in the room, round the spot: shifted, and made smaller where it must be."""
    while radius >= SMALLEST:
        inner = room.inset(radius + width / 2)
        if inner.width < 0 or inner.height < 0:
            return None
        centre = (min(max(spot[0], inner.left), inner.right), min(max(spot[1], inner.bottom), inner.top))
        if math.dist(spot, centre) <= _HELD * radius:
            return RingOnOption(centre, radius, spot)
        radius *= _SHRINK
    return None


def _marked(fact: DifferenceFact, view: Similarity, ring: RingOnOption, theme: Theme) -> list[Entry]:
    """The ring, and what it is about: a corner of the option as a dot, its sides as broken lines."""
    entries: list[Entry] = []
    marks = fact.marks_of_choice()
    if marks.sides:
        entries.append(_sides(view, theme, *marks.sides))
    if marks.corner is not None:
        entries.append(
            Circle(
                id="chosen-corner",
                group="chosen",
                role=Role.WRONG,
                centre=ring.spot,
                radius=min(_MOST_DOT, _DOT * ring.radius),
                fill=theme.wrong,
            )
        )
    entries.append(ring_sign("chosen-ring", "chosen", ring.centre, ring.radius, theme, alt=difference_alt()))
    return entries


def _sides(view: Similarity, theme: Theme, *own: Side) -> Lines:
    return Lines(
        id="chosen-side",
        group="chosen",
        role=Role.WRONG,
        segments=broken_lines(map(view.apply_side, own), _SIDE_WIDTH),
        stroke=theme.wrong,
        width=_SIDE_WIDTH,
    )


def _round_about(cells: OptionCells, verdict: Verdict, theme: Theme) -> Lines:
    """The right option's own outline, drawn wide."""
    outline = verdict.outline.moved(cells.view(verdict.label))
    return Lines(
        id="chosen-outline",
        group="chosen",
        role=Role.RIGHT,
        segments=tuple(pair for ring in outline.rings for pair in sides(ring)),
        stroke=theme.right,
        width=theme.outline_width,
    )


def _polygon(outline: Outline) -> Geometry:
    return shapely.Polygon(outline.exterior, outline.holes)
