"""Commands for options that need the question solved: made ones written out, some exchanged for others."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import ClassVar

from ..choice.making import with_others
from ..choice.model import Solution
from ..choice.question import Question
from ..editing.command import Command
from ..editing.field_commands import FIELD_COMMANDS
from ..editing.key_commands import KEY_COMMANDS
from ..editing.outline_commands import OUTLINE_COMMANDS
from ..editing.sheet import CannotEdit, Sheet
from ..errors import ItemError
from ..intake.item_reader import format_of_kind
from ..kinds.registry import kind_named, kind_of
from .state import judged

__all__ = ["commands_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WriteOptions:
    """Write out the options that are made whenever the file is read, so that each can be changed by itself."""

    asks: ClassVar[str] = "write-options"

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        solution = _solved(sheet)
        if solution.item.made is None:
            return sheet
        return _with_options(sheet, replace(solution.item, made=None))


@dataclass(frozen=True, slots=True, kw_only=True)
class ExchangeOptions:
    """Have other wrong options made in the place of some, told by their letters, such as BD; the rest stay locked."""

    asks: ClassVar[str] = "exchange-options"
    labels: str
    seed: int = 1

    def apply(self, sheet: Sheet) -> Sheet:
        """As ``Command.apply``."""
        solution = _solved(sheet)
        wrong = [verdict.label for verdict in solution.verdicts if not verdict.same]
        if not solution.sound or not self.labels or not set(self.labels) <= set(wrong):
            raise CannotEdit("only wrong options of a sound question are exchanged", f"name some of {', '.join(wrong)}")
        slips = kind_of(solution.item).slips_of(solution)
        try:
            item = with_others(solution, slips, tuple(self.labels), self.seed)
        except ItemError as error:
            raise CannotEdit(error.faults[0].message, error.faults[0].fix) from error
        return _with_options(sheet, item)


def _solved(sheet: Sheet) -> Solution:
    now = judged(sheet.text, Path("item.yaml"))
    if now.solution is None:
        fault = now.faults[0]
        raise CannotEdit(f"the question cannot be solved yet: {fault.message}", fault.fix)
    return now.solution


def _with_options(sheet: Sheet, item: Question) -> Sheet:
    """The options listed; those that stay as they are keep their lines."""
    written = format_of_kind(item.kind).written(item)["options"]
    if not isinstance(written, list):
        raise CannotEdit("there are no options to write", "ask for some first")
    listed = sheet.length("options")
    if listed != len(written):
        return sheet.put("options", written)
    before = format_of_kind(item.kind)
    known = judged(sheet.text, Path("item.yaml")).solution
    old = before.written(known.item)["options"] if known is not None else []
    for number, value in enumerate(written):
        if not isinstance(old, list) or old[number] != value:
            sheet = sheet.put(f"options[{number}]", value)
    return sheet


SOLVED_COMMANDS = (WriteOptions, ExchangeOptions)


def commands_of(kind: str) -> dict[str, type[Command]]:
    """Every command that a file of a kind knows, by its name."""
    own = kind_named(kind).tools.commands
    every: tuple[type[Command], ...] = (*OUTLINE_COMMANDS, *FIELD_COMMANDS, *KEY_COMMANDS, *SOLVED_COMMANDS, *own)
    return {each.asks: each for each in every}
