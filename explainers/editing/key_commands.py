"""Commands for keys that are none of the format: written as the one that was meant, or taken out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from ..document.laid_out import LaidOutEntry
from .sheet import CannotEdit, Sheet

__all__ = ["KEY_COMMANDS"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RenameKey:
    """Write a key of the format in the place of one that is none, such as turned for trned; its value stays."""

    asks: ClassVar[str] = "rename-key"
    at: str
    key: str

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        entry = _stranger(sheet, self.at)
        around = self.at.rpartition(".")[0]
        new = f"{around}.{self.key}" if around else self.key
        if self.key not in sheet.keys_at(around) or sheet.entry(new) is not None:
            raise CannotEdit(f"the key {self.key[:40]} cannot stand there", "name one that may, and is not there yet")
        assert entry.key is not None
        return replace(sheet, text=sheet.text[: entry.key.start] + self.key + sheet.text[entry.key.end :])


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeKeyOut:
    """Take a key that is none of the format out, with all that it holds."""

    asks: ClassVar[str] = "take-key-out"
    at: str

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        _stranger(sheet, self.at)
        return sheet.without(self.at)


def _stranger(sheet: Sheet, at: str) -> LaidOutEntry:
    around, _, key = at.rpartition(".")
    entry = sheet.entry(at)
    if entry is None or entry.key is None or key in sheet.keys_at(around):
        raise CannotEdit(f"{at[:60]} is no key that does not belong there", "look again at the text")
    return entry


KEY_COMMANDS = (RenameKey, TakeKeyOut)
