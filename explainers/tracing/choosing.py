"""What a person says of the shapes of a sketch: which is the base, which is a hole, which is left out.

On a picture a line that lies clear inside another outline is taken as its hole until somebody says otherwise: what is
cut away begins at a side, and then both are divided by a line that they share. Drawings and slides tell holes
themselves.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ..geometry.rings import point_in_polygon, signed_area
from .sketch import DrawnShape, Refused, Sketch

__all__ = ["NO_CHOICE", "Choice", "chosen", "numbered"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Shapes by their numbers; what is not named is as it was read."""

    base: int | None = None
    without: frozenset[int] = frozenset()
    holes: frozenset[int] = frozenset()
    pieces: frozenset[int] = frozenset()  # that would else be taken as holes


NO_CHOICE = Choice()


def numbered(sketch: Sketch) -> Sketch:
    """The sketch with its shapes counted from 1: the same numbers whenever the same source is read."""
    return replace(sketch, shapes=tuple(replace(each, number=n) for n, each in enumerate(sketch.shapes, start=1)))


def chosen(sketch: Sketch, choice: Choice) -> Sketch:
    """The shapes that are left, holes in the outlines that they lie in.

    sketch : with its shapes numbered
    Raises : Refused where nothing is left
    """
    left = [shape for shape in sketch.shapes if shape.number not in choice.without]
    if sketch.shapes and not left:
        raise Refused("every shape is left out", "keep at least the base")
    left.sort(key=lambda shape: -_area(shape))
    hosts, taken = list[DrawnShape](), list[tuple[DrawnShape, DrawnShape]]()
    for shape in left:
        around = [host for host in hosts if _lies_in(shape, host)]
        inside_hole = [hole for hole, _ in taken if _lies_in(shape, hole)]
        host = min(around, key=_area, default=None)
        is_island = host is not None and any(_area(hole) < _area(host) for hole in inside_hole)
        asked = shape.number in choice.holes
        is_hole = asked or (not sketch.exact and shape.number not in choice.pieces and not is_island)
        if host is not None and is_hole and shape.number != choice.base:
            taken.append((shape, host))
        else:
            hosts.append(shape)
    return replace(sketch, shapes=tuple(_with_holes(host, taken, choice) for host in hosts))


def _with_holes(host: DrawnShape, taken: Sequence[tuple[DrawnShape, DrawnShape]], choice: Choice) -> DrawnShape:
    holes = [hole for hole, of in taken if of is host]
    if not holes:
        return host
    guessed = [hole for hole in holes if hole.number not in choice.holes]
    doubts = [*host.doubts, *(doubt for hole in holes for doubt in hole.doubts)]
    if guessed:
        count = "a closed line inside it is taken as its hole" if len(guessed) == 1 else None
        doubts.append(count or f"{len(guessed)} closed lines inside it are taken as its holes")
    return replace(
        host,
        rings=(*host.rings, *(hole.rings[0] for hole in holes)),
        hole_numbers=tuple(hole.number for hole in holes),
        sure=min(host.sure, *(hole.sure for hole in holes)),
        doubts=tuple(dict.fromkeys(doubts)),
    )


def _area(shape: DrawnShape) -> float:
    return abs(signed_area(shape.rings[0])) if len(shape.rings[0]) > 2 else 0.0


def _lies_in(shape: DrawnShape, host: DrawnShape) -> bool:
    """Every corner of it: outlines that a pen's lines enclose never cross."""
    return len(host.rings[0]) > 2 and all(point_in_polygon(corner, host.rings) for corner in shape.rings[0])
