"""Commands for outlines: corners set, moved, put in, taken out; holes; walks and ready outlines.

``at`` is the field of the outline, such as base, pieces[0], options[2], base.holes[0] or outline. Corners are numbered
from 0, in the order of the file.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..document.laid_out import Collection, Leaf
from ..document.text_places import parts_of, rooted, value_at
from ..document.yaml_text import text_yaml
from ..item.ready_outlines import READY
from .command import Points, Sizes
from .numbers import Coordinate, TypedPoint, number_text, point_text, value_of
from .outlines import decimals_of, ring_at, with_ring, written_ring
from .sheet import CannotEdit, Sheet
from .sizes import walk_with

__all__ = ["OUTLINE_COMMANDS"]

_AS_READ = "mend the outline in the text first"


@dataclass(frozen=True, slots=True, kw_only=True)
class SetCorners:
    """Give an outline these corners; one that is not there yet is begun."""

    asks: ClassVar[str] = "set-corners"
    at: str
    corners: Points

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        return with_ring(sheet, self.at, self.corners)


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveCorner:
    """Drag one corner elsewhere."""

    asks: ClassVar[str] = "move-corner"
    at: str
    corner: int
    to: TypedPoint

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        ring = _ring(sheet, self.at, self.corner)
        return with_ring(sheet, self.at, (*ring[: self.corner], self.to, *ring[self.corner + 1 :]))


@dataclass(frozen=True, slots=True, kw_only=True)
class InsertCorner:
    """Put a corner in before another; one number past the last: at the end."""

    asks: ClassVar[str] = "insert-corner"
    at: str
    corner: int
    to: TypedPoint

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        ring = _ring(sheet, self.at, max(0, self.corner - 1))
        return with_ring(sheet, self.at, (*ring[: self.corner], self.to, *ring[self.corner :]))


@dataclass(frozen=True, slots=True, kw_only=True)
class RemoveCorner:
    """Take a corner out."""

    asks: ClassVar[str] = "remove-corner"
    at: str
    corner: int

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        ring = _ring(sheet, self.at, self.corner)
        if len(ring) <= 3:
            raise CannotEdit("an outline needs at least 3 corners", "move a corner, or take the outline out")
        return with_ring(sheet, self.at, (*ring[: self.corner], *ring[self.corner + 1 :]))


@dataclass(frozen=True, slots=True, kw_only=True)
class AddHole:
    """Cut a hole into an outline."""

    asks: ClassVar[str] = "add-hole"
    at: str
    corners: Points

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        path = f"{self.at}.holes"
        return sheet.into(path, sheet.length(path), f"[{', '.join(written_ring(sheet, self.corners))}]")


@dataclass(frozen=True, slots=True, kw_only=True)
class SetWalk:
    """Give an outline as a walk, such as right 4, up 2, left 2; it keeps its start unless another is given."""

    asks: ClassVar[str] = "set-walk"
    at: str
    walk: str
    from_: TypedPoint | None = None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        return _by(sheet, self.at, "walk", _walk_text(sheet, self.at, " ".join(self.walk.split())), self.from_)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetReady:
    """Give an outline as a ready one with its sizes, such as rectangle with width and height."""

    asks: ClassVar[str] = "set-ready"
    at: str
    ready: str
    sizes: Sizes
    from_: TypedPoint | None = None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        kind = READY.get(self.ready)
        known = {size.name for size in kind.sizes} if kind is not None else set()
        if kind is None or not known.issuperset(self.sizes):
            raise CannotEdit("there is no such ready outline, or it has no such size", f"one is {', '.join(READY)}")
        sizes = ", ".join(
            f"{size.name}: {number_text(self.sizes[size.name], 4)}" for size in kind.sizes if size.name in self.sizes
        )
        return _by(sheet, self.at, "ready", f"{{{self.ready}: {{{sizes}}}}}", self.from_)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetSize:
    """Give a ready outline another size, or a walk another length: which one of them, from 1."""

    asks: ClassVar[str] = "set-size"
    at: str
    size: str
    value: Coordinate

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        written = number_text(self.value, 4)
        if value_of(self.value) <= 0:
            raise CannotEdit("a size is more than 0", "write a number such as 2 or 1.5")
        ready = sheet.value(f"{self.at}.ready")
        if isinstance(ready, Collection) and ready.is_map and len(ready.entries) == 1 and ready.entries[0].key:
            name = ready.entries[0].key.text
            if name in READY and self.size in {size.name for size in READY[name].sizes}:
                return sheet.put(f"{self.at}.ready.{name}.{self.size}", written)
        walk = sheet.value(f"{self.at}.walk")
        steps = walk_with(walk.text, self.size, written) if isinstance(walk, Leaf) else None
        if steps is None:
            raise CannotEdit("the outline has no such size", "look again at how it is given")
        return sheet.put(f"{self.at}.walk", _walk_text(sheet, self.at, steps))


def _by(sheet: Sheet, at: str, way: str, written: str, start: TypedPoint | None) -> Sheet:
    """An outline given by a walk, or a ready one, in the place of what gives it now."""
    now = next((key for key in ("corners", "walk", "ready") if sheet.entry(f"{at}.{key}") is not None), None)
    if now is None or now == way:
        sheet = sheet.put(f"{at}.{way}", written)
    else:
        sheet = sheet.in_place_of(f"{at}.{now}", way, written)
    if start is None:
        return sheet
    return sheet.put(f"{at}.from", point_text(start, decimals_of(sheet, (start,))))


def _ring(sheet: Sheet, at: str, corner: int) -> tuple[tuple[Coordinate, Coordinate], ...]:
    """The corners of an outline that has one of a number."""
    ring = ring_at(sheet, at)
    if ring is None:
        raise CannotEdit("the outline cannot be read as it stands", _AS_READ)
    if corner >= len(ring):
        raise CannotEdit(f"the outline has no corner number {corner}", f"it has corners 0 to {len(ring) - 1}")
    return ring


def _walk_text(sheet: Sheet, at: str, steps: str) -> str:
    """A walk as it is written: in quotation marks where its commas would part it."""
    if not _is_plain(steps):
        return text_yaml(steps)
    parts = parts_of(at)
    around = (value_at(rooted(sheet.text), parts[:length]) for length in range(len(parts) + 1))
    in_brackets = any(isinstance(each, Collection) and each.in_brackets for each in around)
    return f'"{steps}"' if in_brackets else steps


def _is_plain(text: str) -> bool:
    return all(sign.isalnum() or sign in " ,.-°" for sign in text) and text[:1].isalnum()


OUTLINE_COMMANDS = (SetCorners, MoveCorner, InsertCorner, RemoveCorner, AddHole, SetWalk, SetReady, SetSize)
