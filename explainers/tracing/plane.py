"""From a question's plane to the source that it was read from, as a page and a picture need it: a projective map."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.rigid_motion import Point, Ring

__all__ = ["Plane"]

Row = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Plane:
    """Three rows of a matrix that takes (x, y, 1), item units with y up, to a place on the source, y down."""

    rows: tuple[Row, Row, Row]

    @classmethod
    def flat(cls, unit: float) -> Plane:
        """Of a source that is seen straight on, one item unit so long on it."""
        return cls(((unit, 0.0, 0.0), (0.0, -unit, 0.0), (0.0, 0.0, 1.0)))

    def on_source(self, point: Point) -> Point:
        """Where a point of the question lies on the source."""
        x, y, w = (a * point[0] + b * point[1] + c for a, b, c in self.rows)
        return (x / w, y / w) if w else (0.0, 0.0)

    def ring_on_source(self, ring: Ring) -> Ring:
        """Where corners lie on the source."""
        return tuple(map(self.on_source, ring))

    def from_corner(self, corner: Point) -> Plane:
        """The same for coordinates counted from a corner: its place becomes (0, 0)."""
        first, second, third = ((a, b, a * corner[0] + b * corner[1] + c) for a, b, c in self.rows)
        return Plane((first, second, third))
