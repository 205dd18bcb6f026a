"""Warnings at the places that they speak of: in which panel, in which of its pictures, round which point."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from ..choice.model import Solution, Warning_
from ..choice.question import WarningKind
from ..choice.soundness import TOO_FINE_OPTION
from ..geometry.overlay import pole
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import extent, sides
from ..kinds.join_and_cut.model import BASE, Item, PieceWarning
from .plot import Plot, midway
from .view import Remark

__all__ = ["Remarks", "Spot"]

_INDEX = re.compile(r"(pieces|options)\[(\d+)\]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place in one picture."""

    panel: str
    picture: str = "own"  # "own", "turn" for a step's turn, "laid" for an option on the finished outline
    at: Point | str | None  # in the picture's coordinates, or a mark's letter; None for no ring
    radius: float = 0.3  # stage units


class Remarks:
    """The warnings of an item, numbered from 1."""

    def __init__(self, solution: Solution, line_of: Callable[[str], int]) -> None:
        """From a solution and the line in the file of each field."""
        self._placed: list[tuple[Remark, tuple[Spot, ...]]] = []
        for number, warning in enumerate(solution.warnings, start=1):
            remark = Remark(number=number, message=warning.message, kind=warning.kind, line=line_of(warning.field))
            self._placed.append((remark, tuple(_spots(warning, solution))))

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
    item = solution.item
    found = _INDEX.match(warning.field)
    kind, index = (found[1], int(found[2])) if found else (warning.field, 0)
    match warning.kind:
        case PieceWarning.NO_TURN:
            yield Spot(panel=f"step-{index + 1}", picture="turn", at=item.pieces[index].mark)
        case WarningKind.SYMMETRIC_OUTLINE:
            yield Spot(panel="result", at=pole(solution.outline), radius=0.4)
        case WarningKind.NEARLY_RIGHT:
            verdict = solution.verdicts[index]
            places = (*verdict.fit.extra, *verdict.fit.missing)
            at = pole(max(places, key=lambda place: place.area)) if places else None
            yield Spot(panel=f"option-{verdict.label}", picture="laid", at=at)
        case WarningKind.FINE_OPTIONS:
            yield from _fine_options(solution)
        case WarningKind.FINE_SIDES if kind == "base":
            yield Spot(panel="base", at=_shortest(item.base.rings))
        case WarningKind.FINE_SIDES if found:
            yield Spot(panel=f"piece-{index + 1}", at=_shortest((item.pieces[index].corners,)))
        case WarningKind.FINE_SIDES:
            yield Spot(panel="result", at=_shortest(solution.outline.rings))
        case _ if kind == "pieces" and found:
            piece = item.pieces[index]
            partner = warning.field.endswith(".meets")
            panel = _panel_of(piece.of, item) if partner else f"piece-{index + 1}"
            yield Spot(panel=panel, at=piece.mark)
        case _ if kind == "options" and found:
            yield Spot(panel=f"option-{solution.verdicts[index].label}", at=None)
        case _:
            yield Spot(panel="result", at=None)


def _fine_options(solution: Solution) -> Iterator[Spot]:
    drawn = [[verdict.drawn.apply(ring) for ring in verdict.outline.rings] for verdict in solution.verdicts]
    boxes = [extent(rings[0]) for rings in drawn]
    largest = max(max(right - left, top - bottom) for left, bottom, right, top in boxes)
    for verdict, rings in zip(solution.verdicts, drawn, strict=True):
        start, end = min((side for ring in rings for side in sides(ring)), key=lambda side: math.dist(*side))
        if math.dist(start, end) < TOO_FINE_OPTION * largest:
            yield Spot(panel=f"option-{verdict.label}", at=midway((start, end)), radius=0.24)


def _shortest(rings: Iterable[Ring]) -> Point:
    return midway(min((side for ring in rings for side in sides(ring)), key=lambda side: math.dist(*side)))


def _panel_of(owner: str, item: Item) -> str:
    names = [piece.name for piece in item.pieces]
    return "base" if owner == BASE or owner not in names else f"piece-{names.index(owner) + 1}"
