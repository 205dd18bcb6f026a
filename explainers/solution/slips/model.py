"""What a slip is made from, and what it makes."""

from __future__ import annotations

from dataclasses import dataclass

from ...geometry.outline import Outline
from ...item.model import Item
from ..model import Placement

__all__ = ["CannotBeMade", "Scene", "Slipped"]


class CannotBeMade(Exception):
    """This slip gives no outline here; the message says why, for a teacher. It never leaves the solution's room."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """A solved item on which a slip happens."""

    item: Item
    placements: tuple[Placement, ...]  # without the slip
    outline: Outline  # the true result
    piece: str | None  # the piece that the slip happens to, where it needs one


@dataclass(frozen=True, slots=True, kw_only=True)
class Slipped:
    """The outline that the slip gives, in the base's coordinates; where it comes of other placements, those."""

    outline: Outline
    placements: tuple[Placement, ...] = ()
