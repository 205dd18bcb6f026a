"""Commands for pieces: added, named, married to the side that they meet, marked.

A piece is told by its number in the file, from 0. Its outline, its turn on the sheet, whether it is joined or cut, its
place among the others have commands that every kind has: at pieces[0], pieces[0].turned, pieces[0].does, pieces.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ....document.laid_out import Collection, Leaf
from ....document.yaml_text import Written, text_yaml
from ....editing.command import MarkedSide, Points
from ....editing.numbers import point_text, ring_values
from ....editing.outlines import decimals_of, written_ring
from ....editing.sheet import CannotEdit, Renamed, Sheet
from ..fields.piece_reader import MAX_PIECES
from ..model import BASE, Does
from .mends import NAMES

__all__ = ["PIECE_COMMANDS"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AddPiece:
    """Add a piece, at the end or before a number; without corners it is there to be drawn."""

    asks: ClassVar[str] = "add-piece"
    does: str = Does.JOIN
    corners: Points | None = None
    name: str | None = None
    index: int | None = None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        count = sheet.length("pieces")
        if count >= MAX_PIECES:
            raise CannotEdit(f"there are {count} pieces, the most that there may be", "take one out first")
        taken = {_text(sheet, f"pieces[{number}].piece") for number in range(count)}
        name = self.name or next((name for name in NAMES if name not in taken), f"piece-{count + 1}")
        keys: dict[str, Written] = {"piece": text_yaml(name), "does": text_yaml(self.does)}
        if self.corners:
            keys["corners"] = f"[{', '.join(written_ring(sheet, self.corners))}]"
        return sheet.into("pieces", count if self.index is None else self.index, keys)


@dataclass(frozen=True, slots=True, kw_only=True)
class RenamePiece:
    """Give a piece another name, wherever it is named: by pieces that meet it, by options made by its slips."""

    asks: ClassVar[str] = "rename-piece"
    piece: int
    name: str

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        at = _piece(sheet, self.piece)
        before = _text(sheet, f"{at}.piece")
        sheet = sheet.put(f"{at}.piece", text_yaml(self.name))
        if not before or before == self.name:
            return sheet
        places = [f"pieces[{number}].of" for number in range(sheet.length("pieces"))]
        places += [f"options[{number}].piece" for number in range(sheet.length("options"))]
        for place in places:
            if _text(sheet, place) == before:
                sheet = sheet.put(place, text_yaml(self.name)).noting(Renamed(field=place, name=self.name))
        return sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Marry:
    """Have a side of a piece, or a part of it, meet one of the base or of an earlier piece: two points, or a number.

    Sides are numbered from 1, as in a file; what is null stays as it is.
    """

    asks: ClassVar[str] = "marry"
    piece: int
    side: MarkedSide | None = None
    meets: MarkedSide | None = None
    of: str | None = None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        at = _piece(sheet, self.piece)
        for key, side in (("side", self.side), ("meets", self.meets)):
            if side is not None:
                sheet = sheet.put(f"{at}.{key}", _side(sheet, side))
        if self.of is None:
            return sheet
        if self.of == BASE:
            return sheet.without(f"{at}.of") if _text(sheet, f"{at}.of") not in ("", BASE) else sheet
        return sheet.put(f"{at}.of", text_yaml(self.of))


@dataclass(frozen=True, slots=True, kw_only=True)
class SetMark:
    """Mark both sides by a sign, by letters, or, with neither, by the sign of the piece's place."""

    asks: ClassVar[str] = "set-mark"
    piece: int
    sign: str | None = None
    mark: str | None = None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        at = _piece(sheet, self.piece)
        if self.sign is not None and self.mark is not None:
            raise CannotEdit("a sign and letters at once", "give one of the two")
        key, value = ("sign", self.sign) if self.mark is None else ("mark", self.mark)
        other = "mark" if key == "sign" else "sign"
        if value is None:
            return sheet.without(f"{at}.mark").without(f"{at}.sign")
        there = [known for known in (key, other) if sheet.entry(f"{at}.{known}") is not None]
        if there == [other]:
            return sheet.in_place_of(f"{at}.{other}", key, text_yaml(value))
        return sheet.put(f"{at}.{key}", text_yaml(value)).without(f"{at}.{other}")


def _piece(sheet: Sheet, number: int) -> str:
    at = f"pieces[{number}]"
    found = sheet.value(at)
    if not isinstance(found, Collection) or not found.is_map:
        raise CannotEdit(f"there is no piece number {number}", "look again at the pieces")
    return at


def _text(sheet: Sheet, at: str) -> str:
    found = sheet.value(at)
    return found.text if isinstance(found, Leaf) else ""


def _side(sheet: Sheet, side: MarkedSide) -> str:
    if isinstance(side, int):
        return str(side)
    ring_values(side)
    decimals = decimals_of(sheet, ())
    return f"[{', '.join(point_text(point, decimals) for point in side)}]"


PIECE_COMMANDS = (AddPiece, RenamePiece, Marry, SetMark)
