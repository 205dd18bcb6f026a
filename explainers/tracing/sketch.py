"""What was found on a drawing, a slide or a picture, before anything is made of it: shapes and words where they lie.

Each reader hands on a sketch, in item units with y up, and the plane that leads back to the source, so that a
person can be shown what was read.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.rigid_motion import Point, Ring
from ..item.svg_tree import Refused
from .plane import Plane

__all__ = ["MOST_SHAPES", "DrawnShape", "DrawnWords", "Passed", "Refused", "Sketch", "too_many"]

MOST_SHAPES = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnShape:
    """One outline as it was drawn; no grid has touched it."""

    name: str  # for a person: its name, or what it is and its number
    called: str = ""  # what its maker named it, if anything
    rings: tuple[Ring, ...]  # the outer one first; item units, y up
    sure: float = 1.0  # 0 to 1
    doubts: tuple[str, ...] = ()  # why it is not sure, each a sentence without its full stop
    number: int = 0  # by which a person speaks of it
    hole_numbers: tuple[int, ...] = ()  # of the shapes that became its last holes


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnWords:
    """A letter or a text beside the shapes."""

    text: str
    at: Point  # about its middle; item units, y up


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """What lies on the source and was not taken, with the reason."""

    name: str
    message: str
    fix: str
    on_source: Point | None = None
    line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """All that was found."""

    shapes: tuple[DrawnShape, ...]
    words: tuple[DrawnWords, ...] = ()
    passed: tuple[Passed, ...] = ()
    remarks: tuple[str, ...] = ()  # how it was read: squares found, the sheet put right, ...
    doubts: tuple[str, ...] = ()  # what holds for all of it and is to be looked at
    size: Point  # width and height of the source, in its own units
    plane: Plane  # from item units to the source
    exact: bool = True  # drawn by numbers; False: measured on a picture


def too_many(count: int) -> Refused:
    """The refusal of a drawing with more shapes than a question can have."""
    return Refused(
        f"there are {count} shapes on it; a question has a base and six pieces", "keep only the question on it"
    )
