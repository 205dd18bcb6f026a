"""Commands for any field and list of a file: a value set, an entry taken out or moved, options written."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..document.fields import is_plain_number
from ..document.laid_out import Collection
from ..document.yaml_text import text_yaml
from .command import Points
from .numbers import Coordinate, number_text
from .outlines import written_ring
from .sheet import CannotEdit, Sheet

__all__ = ["FIELD_COMMANDS", "scalar_text"]

_OUTLINE_KEYS = ("corners", "walk", "ready", "from", "holes")  # that other commands change


def scalar_text(value: Coordinate) -> str:
    """A number or a text as it is written."""
    if isinstance(value, str):
        return value if is_plain_number(value) else text_yaml(value)
    return number_text(value)


@dataclass(frozen=True, slots=True, kw_only=True)
class SetField:
    """Write a number or a text at a field such as title, pieces[0].does, options[1].scale; null: leave it out."""

    asks: ClassVar[str] = "set"
    at: str
    value: Coordinate | None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        around, _, key = self.at.rpartition(".")
        if key in _OUTLINE_KEYS or (key not in sheet.keys_at(around) and sheet.entry(self.at) is None):
            raise CannotEdit(f"{self.at[:60]} is no field for one value", "name one such as title or pieces[0].turned")
        if isinstance(sheet.value(self.at), Collection):
            raise CannotEdit(f"more than one value stands at {self.at[:60]}", "change what is in it")
        if around.endswith("]") and sheet.entry(around) is None:
            raise CannotEdit(f"there is no {around[:60]}", "add it first")
        if self.value is None:
            return sheet.without(self.at)
        return sheet.put(self.at, scalar_text(self.value))


@dataclass(frozen=True, slots=True, kw_only=True)
class Remove:
    """Take an entry of a list out: a piece, an option, a hole."""

    asks: ClassVar[str] = "remove"
    at: str

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        if not self.at.endswith("]") or sheet.entry(self.at) is None:
            raise CannotEdit(f"there is no {self.at[:60]} in a list", "look again at what there is")
        around = self.at[: self.at.rindex("[")]
        if sheet.length(around) == 1:
            return sheet.without(around)
        return sheet.without(self.at)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reorder:
    """Move an entry of a list to another place in it; numbers are from 0."""

    asks: ClassVar[str] = "reorder"
    at: str
    from_: int
    to: int

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        return sheet.moved(self.at, self.from_, self.to)


@dataclass(frozen=True, slots=True, kw_only=True)
class AddOption:
    """Add an option, at the end or before a number: the result, what a slip makes of it, or one that is drawn."""

    asks: ClassVar[str] = "add-option"
    slip: str | None = None
    piece: str | None = None
    corners: Points | None = None
    turned: Coordinate | None = None
    scale: Coordinate | None = None
    index: int | None = None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        _listed_options(sheet)
        end = sheet.length("options")
        return sheet.into("options", end if self.index is None else self.index, _written(self, sheet))


@dataclass(frozen=True, slots=True, kw_only=True)
class ExchangeOption:
    """Put another option in the place of one, which keeps its turn, its size and its name."""

    asks: ClassVar[str] = "exchange-option"
    option: int
    slip: str | None = None
    piece: str | None = None
    corners: Points | None = None

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        at = f"options[{self.option}]"
        found = sheet.value(at)
        if not isinstance(found, Collection) or not found.is_map:
            raise CannotEdit(f"there is no option number {self.option}", "look again at the options")
        keys = [entry.key.text for entry in found.entries if entry.key is not None]
        kept = [key for key in keys if key in ("turned", "scale", "name")]
        new = {
            **(
                {"corners": f"[{', '.join(written_ring(sheet, self.corners))}]"}
                if self.corners
                else {"outline": "result"}
            ),
            **({"slip": text_yaml(self.slip)} if self.slip else {}),
            **({"piece": text_yaml(self.piece)} if self.piece else {}),
        }
        for key, value in new.items():
            sheet = sheet.put(f"{at}.{key}", value)
        for key in keys:
            if key not in kept and key not in new:
                sheet = sheet.without(f"{at}.{key}")
        return sheet


@dataclass(frozen=True, slots=True, kw_only=True)
class MakeOptions:
    """Have wrong options made whenever the file is read, in place of those that it lists."""

    asks: ClassVar[str] = "make-options"
    make: int = 4
    seed: int = 1

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        return sheet.put("options", f"{{make: {self.make}, seed: {self.seed}}}")


def _listed_options(sheet: Sheet) -> None:
    found = sheet.value("options")
    if isinstance(found, Collection) and found.is_map and found.entries:
        raise CannotEdit("the options are made anew whenever the file is read", "write them out first")


def _written(option: AddOption, sheet: Sheet) -> str:
    keys: list[str] = []
    if option.corners is not None:
        keys.append(f"corners: [{', '.join(written_ring(sheet, option.corners))}]")
    else:
        keys.append("outline: result")
        keys += [f"slip: {text_yaml(option.slip)}"] if option.slip else []
        keys += [f"piece: {text_yaml(option.piece)}"] if option.piece else []
    keys += [f"turned: {number_text(option.turned)}"] if option.turned is not None else []
    keys += [f"scale: {number_text(option.scale)}"] if option.scale is not None else []
    return f"{{{', '.join(keys)}}}"


FIELD_COMMANDS = (SetField, Remove, Reorder, AddOption, ExchangeOption, MakeOptions)
