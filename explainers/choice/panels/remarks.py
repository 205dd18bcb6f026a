"""Warnings at the places that they speak of: in which panel, in which of its pictures, round which point."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from ...geometry.overlay import pole_of_inaccessibility
from ...geometry.rigid_motion import Point, Ring
from ...geometry.rings import extent, sides
from ..model import Solution, Warning_
from ..question import WarningKind
from ..soundness import TOO_FINE_OPTION
from .plot import Plot, midway
from .view import Remark

__all__ = ["Remarks", "Spot", "closing_middle", "shortest_middle"]

_OPTION = re.compile(r"options\[(\d+)\]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place in one picture."""

    panel: str
    picture: str = "own"  # "own", "laid" for an option on the outline, or a kind's name for one of its own
    at: Point | str | None  # in the picture's coordinates, or a mark's letter; None for no ring
    radius: float = 0.3  # stage units


class Remarks:
    """The warnings of an item, numbered from 1."""

    def __init__(
        self,
        solution: Solution,
        line_of: Callable[[str], int],
        own_spots: Callable[[Warning_, Solution], Iterable[Spot]],
    ) -> None:
        """From a solution and the line in the file of each field.

        own_spots : the places of what only the question's kind warns of; none for any other warning
        """
        self._placed: list[tuple[Remark, tuple[Spot, ...]]] = []
        for number, warning in enumerate(solution.warnings, start=1):
            remark = Remark(number=number, message=warning.told, kind=warning.kind, line=line_of(warning.field))
            self._placed.append((remark, tuple(own_spots(warning, solution)) or tuple(_spots(warning, solution))))

    def of(self, panel: str) -> tuple[Remark, ...]:
        """What is remarked on a panel."""
        return tuple(remark for remark, spots in self._placed if any(spot.panel == panel for spot in spots))

    def keep_free(self, plot: Plot, panel: str, picture: str = "own") -> None:
        """Room for the rings of one picture; before corners and sides are numbered."""
        for _, spots in self._placed:
            for spot in spots:
                if spot.panel == panel and spot.picture == picture and isinstance(spot.at, tuple):
                    plot.keep_free(spot.at, spot.radius)

    def draw(self, plot: Plot, panel: str, picture: str = "own") -> None:
        """The rings of one picture; when everything else is drawn."""
        for remark, spots in self._placed:
            for spot in spots:
                if spot.panel == panel and spot.picture == picture and spot.at is not None:
                    plot.ring(spot.at, radius=spot.radius, warning=remark.number)


def _spots(warning: Warning_, solution: Solution) -> Iterator[Spot]:
    found = _OPTION.match(warning.field)
    index = int(found[1]) if found else 0
    on_outline = "outline" if solution.item.outline_given else "result"
    match warning.kind:
        case WarningKind.SYMMETRIC_OUTLINE:
            yield Spot(panel=on_outline, at=pole_of_inaccessibility(solution.outline), radius=0.4)
        case WarningKind.NEARLY_RIGHT:
            verdict = solution.verdicts[index]
            places = (*verdict.fit.extra, *verdict.fit.missing)
            at = pole_of_inaccessibility(max(places, key=lambda place: place.area)) if places else None
            yield Spot(panel=f"option-{verdict.label}", picture="laid", at=at)
        case WarningKind.FINE_OPTIONS:
            yield from _fine_options(solution)
        case WarningKind.FINE_SIDES:
            yield Spot(panel=on_outline, at=shortest_middle(solution.outline.rings))
        case _ if found:
            yield Spot(panel=f"option-{solution.verdicts[index].label}", at=None)
        case _:
            yield Spot(panel=on_outline, at=None)


def _fine_options(solution: Solution) -> Iterator[Spot]:
    drawn = [[verdict.drawn.apply(ring) for ring in verdict.outline.rings] for verdict in solution.verdicts]
    boxes = [extent(rings[0]) for rings in drawn]
    largest = max(max(right - left, top - bottom) for left, bottom, right, top in boxes)
    for verdict, rings in zip(solution.verdicts, drawn, strict=True):
        start, end = min((side for ring in rings for side in sides(ring)), key=lambda side: math.dist(*side))
        if math.dist(start, end) < TOO_FINE_OPTION * largest:
            yield Spot(panel=f"option-{verdict.label}", at=midway((start, end)), radius=0.24)


def closing_middle(warning: Warning_, solution: Solution) -> Point | None:
    """The middle of the side by which the walk is closed that a warning speaks of; None for any other warning."""
    if warning.kind != WarningKind.CLOSED_WALK:
        return None
    return next((midway(closing.side) for closing in solution.item.closing if closing.path == warning.field), None)


def shortest_middle(rings: Iterable[Ring]) -> Point:
    """The middle of the shortest side of some rings."""
    return midway(min((side for ring in rings for side in sides(ring)), key=lambda side: math.dist(*side)))
