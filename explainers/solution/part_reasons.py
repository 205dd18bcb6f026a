"""Parts that sit on another side, sides that stand in another ratio: the candidates that ``reasons`` chooses from."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ..geometry import overlay
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Side
from ..geometry.rings import sides
from ..geometry.tolerance import plain
from .model import Fit
from .part_facts import (
    CLEAR_RATIO,
    NEAR_CORNER,
    NEARLY_RATIO,
    PartElsewhereFact,
    SideRatioFact,
    are_next_to_each_other,
    contact_side,
    is_as_large,
    is_one_corner,
    without_part,
)

__all__ = ["OtherRatio", "other_ratios", "parts_elsewhere", "side_ratios"]

# (less than 0: by how much the ratios differ, two sides of the option, two of the outline, both ratios)
OtherRatio = tuple[float, tuple[Side, Side], tuple[Side, Side], tuple[float, float]]

ALL_THAT_DIFFERS = 0.8  # of the differing area: where more differs besides, a learner does not see one part moved
CLEAR_WIDTH = 2.0  # times what is plainly seen: a part thinner than this is a strip along a side
# Ratios that are seen without measuring: equal, half as long again, double, and so on up to four times.
SEEN_RATIOS = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0)


def parts_elsewhere(
    label: str, fit: Fit, outline: Outline, place: Outline, tolerance: float
) -> Iterator[PartElsewhereFact]:
    """The place as a part of the same size and shape as another differing one, on another side."""
    if fit.difference <= 0.0 or _width(place) < CLEAR_WIDTH * plain(tolerance):
        return
    too_much = place in fit.extra
    for twin in fit.missing if too_much else fit.extra:
        if place.area + twin.area < ALL_THAT_DIFFERS * fit.difference or not is_as_large(place, twin, tolerance):
            continue
        extra, missing = (place, twin) if too_much else (twin, place)
        for filled, here, home in ((True, extra, missing), (False, missing, extra)):
            bodies = [
                without_part(shape, part, filled=filled, tolerance=tolerance)
                for shape, part in ((fit.laid, here), (outline, home))
            ]
            if bodies[0] is None or bodies[1] is None:
                continue
            side = contact_side(here, bodies[0], filled=filled, tolerance=tolerance)
            home_side = contact_side(home, bodies[1], filled=filled, tolerance=tolerance)
            if side is None or home_side is None:
                continue
            yield PartElsewhereFact(
                tolerance=tolerance,
                label=label,
                option=fit.laid,
                outline=outline,
                place=here,
                ring_centre=overlay.pole(here),
                filled=filled,
                home=home,
                side=side,
                home_side=home_side,
                adjacent=are_next_to_each_other(side, home_side, tolerance),
            )


def other_ratios(fit: Fit, outline: Outline, tolerance: float) -> list[OtherRatio]:
    """Two sides at one corner in another ratio than in the outline, those that differ most first."""
    theirs = [(other, math.dist(*other[0]), math.dist(*other[1])) for other in _pairs(outline)]
    corners = np.array([other[1][0] for other, *_ in theirs])
    found = []
    for pair in _pairs(fit.laid):
        lengths = math.dist(*pair[0]), math.dist(*pair[1])
        shortest = min(lengths)
        away = corners - pair[1][0]
        near = np.hypot(away[:, 0], away[:, 1]) <= NEAR_CORNER * shortest  # most are far apart
        for at in np.flatnonzero(near).tolist():
            other, *others = theirs[at]
            other_lengths = others[0], others[1]
            first, second = _longer_first(lengths, other_lengths)
            ratio, other_ratio = lengths[first] / lengths[second], other_lengths[first] / other_lengths[second]
            apart = max(ratio, other_ratio) / min(ratio, other_ratio)
            if apart < CLEAR_RATIO or not (_is_seen(ratio) and _is_seen(max(other_ratio, 1.0 / other_ratio))):
                continue
            if is_one_corner(pair, other, tolerance):
                found.append(
                    (-round(apart, 6), (pair[first], pair[second]), (other[first], other[second]), (ratio, other_ratio))
                )
    return sorted(found)


def side_ratios(
    label: str, fit: Fit, outline: Outline, place: Outline, tolerance: float, found: Sequence[OtherRatio]
) -> Iterator[SideRatioFact]:
    """The facts of such pairs of sides, in their order.

    found : what ``other_ratios`` finds
    """
    for _, own, other, ratios in found:
        yield SideRatioFact(
            tolerance=tolerance,
            label=label,
            option=fit.laid,
            outline=outline,
            place=place,
            ring_centre=overlay.pole(place),
            pair=own,
            ratio=ratios[0],
            other_pair=other,
            other_ratio=ratios[1],
        )


def _pairs(outline: Outline) -> Iterator[tuple[Side, Side]]:
    """Every two sides that follow each other."""
    for ring in outline.rings:
        walk = sides(ring)
        yield from zip(walk, walk[1:] + walk[:1], strict=True)


def _longer_first(lengths: tuple[float, float], other: tuple[float, float]) -> tuple[int, int]:
    """The order in which the first is the longer; of two that are equal, in which the first of the others is."""
    if abs(lengths[0] / lengths[1] - 1.0) <= NEARLY_RATIO:
        lengths = other
    return (0, 1) if lengths[0] >= lengths[1] else (1, 0)


def _is_seen(ratio: float) -> bool:
    return any(abs(ratio - seen) <= NEARLY_RATIO for seen in SEEN_RATIOS)


def _width(place: Outline) -> float:
    return overlay.thickness(overlay.polygon(place))
