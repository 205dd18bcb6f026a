"""Questions in their places, to be drawn as SVG or on a slide: a base, joins along its sides, cuts inside it."""

from __future__ import annotations

import random
from dataclasses import dataclass

from explainers.geometry.rigid_motion import Point, Ring, Side
from explainers.tracing.proposal import Does


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A piece where it lies, the base's lower left at (0, 0)."""

    name: str
    ring: Ring
    does: Does
    side: Side  # along which it lies, either way round
    letter: str


@dataclass(frozen=True, slots=True)
class PlacedQuestion:
    """A base and its pieces."""

    base: Ring
    pieces: tuple[PlacedPiece, ...]


def placed_question(number: int) -> PlacedQuestion:
    """The question of a number."""
    chance = random.Random(number)
    wide, high = chance.randint(5, 8), chance.randint(5, 8)
    stem, arm = chance.randint(2, wide - 2), chance.randint(3, high - 1)
    base: Ring = ((0, 0), (wide, 0), (wide, arm), (stem, arm), (stem, high), (0, high))
    long = chance.randint(1, arm - 1)
    from_ = chance.choice((0.0, 0.5, 1.0))
    long = min(long, arm - from_)
    tip = chance.choice((1.0, 1.5, 2.0))
    low, up = (wide, from_), (wide, from_ + long)
    shapes: tuple[Ring, ...] = (
        (low, (wide + tip, from_), up),
        (low, (wide + tip, from_ + long), up),
        (low, (wide + tip, from_), (wide + tip, from_ + long), up),
        (low, (wide + tip, from_ + 0.5), (wide + tip, from_ + long), up),
    )
    pieces = [PlacedPiece("flag", chance.choice(shapes), Does.JOIN, (low, up), "K")]
    at = chance.choice((0.5, 1.0))
    notch: Ring = ((at, 0), (at + 1, 0), (at + chance.choice((0.5, 1.0)), 1))
    if number % 3:
        pieces.append(PlacedPiece("notch", notch, Does.CUT, ((at, 0), (at + 1, 0)), "L"))
    return PlacedQuestion(base, tuple(pieces))


def beside(side: Side, apart: float) -> Point:
    """Where a letter stands: to the right of a side that runs up, below one that runs to the right."""
    (ax, ay), (bx, by) = side
    return ((ax + bx) / 2 + (apart if ax == bx else 0.0), (ay + by) / 2 - (apart if ay == by else 0.0))
