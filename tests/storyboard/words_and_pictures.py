"""Whether what the facts of a step speak of is what stands out in its pictures: both ways, place by place."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import shapely
from places_shown import NEAR, Affine, Shown, Views, as_polygon, covers, on_side, seen_while_spoken, shown_in
from places_told import Told, of_choice, told_by

from explainers.choice.model import Solution
from explainers.figure.model import Arrow, Figure, Label
from explainers.figure.theme import DEFAULT_THEME, Theme
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point, Side
from explainers.storyboard.doing import ChoosableOption
from explainers.storyboard.model import Step

__all__ = ["faults_of_choice", "faults_of_step"]

LEAST_TURN_DEG = 0.5


def faults_of_step(step: Step, solution: Solution, theme: Theme = DEFAULT_THEME) -> list[str]:
    """What is told and not shown, and what is shown and not told, in words; [] where they agree."""
    if not step.item:  # a card
        return []
    told = told_by(step, solution)
    figures = seen_while_spoken(step)
    faults = [
        f"{step.id}: {fault}"
        for number, figure in enumerate(figures)
        for fault in _not_told(figure, solution, told, theme, number)
    ]
    for fact in told:
        if fact.is_required and not step.teachers_own:
            missing = [_not_shown(figure, solution, fact, theme) for figure in step.stills]
            faults += [f"{step.id}: {fault}" for fault in min(missing, key=len)]
    return list(dict.fromkeys(faults))


def faults_of_choice(chosen: ChoosableOption, solution: Solution, theme: Theme = DEFAULT_THEME) -> list[str]:
    """The same of what is said and shown to a learner who has chosen an option."""
    if chosen.figure is None:
        return []
    told = of_choice(chosen.facts, chosen.label)
    faults = list(_not_told(chosen.figure, solution, told, theme, 0))
    for fact in told:
        faults += _not_shown(chosen.figure, solution, fact, theme, is_still=True)
    return [f"choice of {chosen.label}: {fault}" for fault in dict.fromkeys(faults)]


def _not_shown(figure: Figure, solution: Solution, told: Told, theme: Theme, *, is_still: bool = False) -> list[str]:
    """
    is_still : whether nothing moves: a walk is shown without its markers
    """
    shown, views = shown_in(figure, theme), Views(figure, solution)
    faults = []
    for owner, point in told.points:
        places = [view.of(point) for view in views.of(owner)]
        if not any(math.dist(place, dot) < max(NEAR, told.apart) for place in places for dot in shown.points):
            faults.append(f"{point} of {owner} is told, but not shown")
    for signed, signs, name in ((told.circled, shown.circles, "ring"), (told.crossed, shown.crosses, "cross")):
        for owner, point in signed:
            if not any(math.dist(view.of(point), sign) < NEAR for view in views.of(owner) for sign in signs):
                faults.append(f"{point} of {owner} has no {name}")
    for owner, alike in told.sides:
        drawn = [_drawn(view, side) for view in views.of(owner) for side in alike]
        if not any(covers(shown.sides, side) for side in drawn):
            faults.append(f"side {alike[0]} of {owner} is told, but not shown")
    for owner, region in told.regions:
        places = _places(region, views.of(owner))
        if not any(_is_shown(place, shown, ringed=(owner, region) in told.ringed) for place in places):
            faults.append(f"a region of {owner} is told, but not shown")
    for owner, way in told.ways:
        places_by = [view.of(at) for view in views.of(owner) for at in way]
        if not is_still and not any(math.dist(at, marker) < NEAR for at in places_by for marker in shown.markers):
            faults.append(f"a walk round {owner} is told, but no marker goes round it")
    faults += [f"option {label} is kept, but not framed" for label in told.wholes if label not in shown.wholes]
    if told.turn_deg is not None:
        if not any(isinstance(entry, Label) for entry in shown.turns):
            faults.append("how far it turns is told, but not written")
        if abs(told.turn_deg) > LEAST_TURN_DEG and not any(isinstance(entry, Arrow) for entry in shown.turns):
            faults.append("a turn is told, but no arc shows it")
    if told.texts and not any(text in line for text in told.texts for line in shown.texts):
        faults.append(f"{told.texts} is told, but not written")
    return faults


def _not_told(figure: Figure, solution: Solution, told: Sequence[Told], theme: Theme, number: int) -> Iterator[str]:
    shown, views = shown_in(figure, theme), Views(figure, solution)
    where = f"in still {number}"
    points = [
        (view.of(point), max(NEAR, fact.apart))
        for fact in told
        for owner, point in fact.points
        for view in views.of(owner)
    ]
    sides = [
        _drawn(view, side) for fact in told for owner, alike in fact.sides for view in views.of(owner) for side in alike
    ]
    ways = [view.of(at) for fact in told for owner, way in fact.ways for view in views.of(owner) for at in way]
    regions = [place for fact in told for owner, region in fact.regions for place in _places(region, views.of(owner))]
    for dot in shown.points:
        if not any(math.dist(dot, place) < near for place, near in points):
            yield f"{where}, a dot at {dot} is shown, but not told"
    for marker in shown.markers:
        if not any(math.dist(marker, place) < NEAR for place in ways):
            yield f"{where}, a marker at {marker} is shown, but not told"
    for stroke in shown.sides:
        rims = [shapely.boundary(region) for region in regions]
        if not any(on_side(stroke, side) for side in sides) and not any(
            rim.distance(shapely.Point(end)) < NEAR for rim in rims for end in stroke[:1]
        ):
            yield f"{where}, a line at {stroke} is shown, but not told"
    for ring in shown.rings:
        disc = shapely.Point(ring.centre).buffer(ring.radius)
        if not any(disc.intersects(region) for region in regions):
            yield f"{where}, a ring at {ring.centre} is shown, but not told"
    for area in shown.regions:
        if not any(_agree(as_polygon(area), region) for region in regions):
            yield f"{where}, the region {area.id} is shown, but not told"
    for label in shown.wholes:
        if not any(label in fact.wholes for fact in told):
            yield f"{where}, option {label} is framed, but not told"
    if shown.turns and all(fact.turn_deg is None for fact in told):
        yield f"{where}, a turn is shown, but not told"
    for text in shown.texts:
        if not any(known in text for fact in told for known in fact.texts):
            yield f"{where}, {text!r} is pointed at, but not told"


def _is_shown(place: shapely.Polygon, shown: Shown, *, ringed: bool) -> bool:
    """By a ring, where there is to be one; else by an area of its own, or by lines along its rim."""
    if ringed:
        return any(shapely.Point(ring.centre).buffer(ring.radius).intersects(place) for ring in shown.rings)
    return any(_agree(as_polygon(area), place) for area in shown.regions) or (
        any(shapely.boundary(place).distance(shapely.LineString(stroke)) < NEAR for stroke in shown.sides)
    )


def _agree(one: shapely.Polygon, other: shapely.Polygon) -> bool:
    one, other = shapely.make_valid(one), shapely.make_valid(other)
    return bool(one.symmetric_difference(other).area <= 0.02 * max(one.area, other.area) + 1e-3)


def _drawn(view: Affine, side: Side) -> Side:
    return view.of(side[0]), view.of(side[1])


def _places(region: Outline, views: Sequence[Affine]) -> list[shapely.Polygon]:
    """Where a region is drawn."""
    return [as_polygon(Outline(*_moved(region, view))) for view in views]


def _moved(region: Outline, view: Affine) -> tuple[tuple[Point, ...], tuple[tuple[Point, ...], ...]]:
    exterior, *holes = (tuple(view.of(point) for point in ring) for ring in region.rings)
    return exterior, tuple(holes)
