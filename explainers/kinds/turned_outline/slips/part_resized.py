"""A bump or a notch that is larger, or smaller, than it should be.

Why learners do it: how far a part reaches is judged by eye, and not held against the sides beside it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ....choice import fingerprint
from ....choice.slip import CannotBeMade
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring
from .change import Change, ring_with, run_between, with_ring
from .parts import parts

__all__ = ["PartResized", "changes", "drawn_out", "factor_of", "parallel_legs"]

FACTORS = (1.5, 0.5, 2.0, 0.6, 1.35, 2.5, 0.35)  # the best first


@dataclass(frozen=True, slots=True, kw_only=True)
class PartResized(Change):
    """The part between two corners reaches farther, or less far; its ends stay where they are."""

    start: Point
    end: Point
    factor: float  # more than 0

    @property
    def told_as(self) -> str:
        """The name of the slip, with what becomes of the part."""
        return "part-resized, larger" if self.factor > 1.0 else "part-resized, smaller"

    def made_on(self, outline: Outline, tolerance: float) -> Outline:
        """The outline with that part drawn out, or pushed together.

        Raises : CannotBeMade where there is no such part
        """
        index = ring_with(outline, self.start)
        run, others = run_between(outline.rings[index], self.start, self.end)
        if self.factor <= 0.0 or len(run) < 3:
            raise CannotBeMade("there is no such part")
        inner = drawn_out(run, self.factor, tolerance)
        return with_ring(outline, index, (self.start, *inner, self.end, *others))

    def fingerprint_parts(self, origin: Point) -> fingerprint.FingerprintParts:
        """Where it is, and how much larger."""
        places = (fingerprint.points((place,), origin) for place in (self.start, self.end))
        return (self.told_as, *places, fingerprint.length(self.factor))


def drawn_out(run: Ring, factor: float, tolerance: float) -> Ring:
    """The inner corners of a part that reaches so much farther.

    Where two sides of it run alike, it is drawn out along them, and measured by the shorter; else squarely from the
    line between its ends.
    """
    legs = parallel_legs(run, tolerance)
    if legs:
        shift = (factor - 1.0) * min(legs, key=abs)
        return tuple(_point(complex(*corner) + shift) for corner in run[1:-1])
    start, along = complex(*run[0]), complex(*run[-1]) - complex(*run[0])
    seen = [(complex(*corner) - start) / along for corner in run[1:-1]]
    return tuple(_point(start + along * complex(spot.real, spot.imag * factor)) for spot in seen)


def factor_of(run: Ring, inner: Sequence[complex], tolerance: float) -> float:
    """How much farther a part reaches whose inner corners lie there; it may not be drawn out evenly."""
    legs = parallel_legs(run, tolerance)
    if legs:
        leg = min(legs, key=abs)
        return 1.0 + ((inner[0] - complex(*run[1])) / leg).real
    start, along = complex(*run[0]), complex(*run[-1]) - complex(*run[0])
    depths = [((complex(*corner) - start) / along).imag for corner in run[1:-1]]
    far = max(range(len(depths)), key=lambda index: abs(depths[index]))
    return ((inner[far] - start) / along).imag / depths[far]


def parallel_legs(run: Ring, tolerance: float) -> tuple[complex, complex] | None:
    """The first and the last side of three, each away from its end of the part, where both run the same way."""
    if len(run) != 4:
        return None
    first, last = complex(*run[1]) - complex(*run[0]), complex(*run[2]) - complex(*run[3])
    across = (first.conjugate() * last).imag / max(abs(first), abs(last))
    alike = (first.conjugate() * last).real > 0.0 and abs(across) <= tolerance
    return (first, last) if alike else None


def changes(outline: Outline, tolerance: float) -> Iterator[Change]:
    """Every part, larger and smaller: first those on a straight side, then those with two sides that run alike."""
    found = [
        (0 if part.stands_on_a_side else 1 if parallel_legs(part.run, tolerance) else 2, part)
        for part in parts(outline, tolerance)
    ]
    for rank in range(3):
        for factor in FACTORS:
            for its_rank, part in found:
                if its_rank == rank:
                    yield PartResized(start=part.run[0], end=part.run[-1], factor=factor)


def _point(at: complex) -> Point:
    return at.real, at.imag
