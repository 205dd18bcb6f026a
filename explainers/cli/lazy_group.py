"""A command group that loads a command's module when the command is used, and lists commands by what they are for.

So that a new command is one module and one line here, and none makes the others slower to start.
"""

from __future__ import annotations

from collections.abc import Iterator, MutableMapping
from importlib import import_module
from typing import Any

import typer
from typer.core import TyperGroup

__all__ = ["COMMANDS", "GROUPS", "HIDDEN", "LazyGroup"]

_LONGEST = 200  # characters of a command's line: none is cut short

# By what one wants to do, in the order of a teacher's work; each module has a typer app called `app` with one command.
GROUPS = {
    "Write": {
        "new": "explainers.cli.new",
        "draw": "explainers.cli.draw",
        "options": "explainers.cli.options",
        "outline": "explainers.cli.outline",
        "trace": "explainers.cli.trace",
        "words": "explainers.cli.words",
        "fmt": "explainers.cli.fmt",
        "schema": "explainers.cli.schema",
    },
    "Look and check": {
        "look": "explainers.cli.look",
        "check": "explainers.cli.check",
        "solve": "explainers.cli.solve",
    },
    "Make": {
        "build": "explainers.cli.build",
        "clip": "explainers.cli.clip",
        "deck": "explainers.cli.deck",
        "present": "explainers.cli.present",
        "themes": "explainers.cli.themes",
    },
    "Speak": {
        "prompter": "explainers.cli.prompter",
        "fit": "explainers.cli.fit",
    },
    "Print": {
        "sheets": "explainers.cli.sheets",
    },
    "Many questions": {
        "vary": "explainers.cli.vary",
    },
    "About the program": {
        "guide": "explainers.cli.guide",
        "cache": "explainers.cli.cache",
    },
}
# What `build --only` does too: names that teachers know, and that go on working.
HIDDEN = {
    "cues": "explainers.cli.cues",
    "stills": "explainers.cli.stills",
}
COMMANDS = {name: module for group in (*GROUPS.values(), HIDDEN) for name, module in group.items()}


class _Commands(MutableMapping[str, Any]):
    """Command name -> command, loaded when first asked for."""

    def __init__(self) -> None:
        self._loaded: dict[str, Any] = {}

    def __getitem__(self, name: str) -> Any:
        if name not in self._loaded:
            command = typer.main.get_command(import_module(COMMANDS[name]).app)
            command.name = name
            self._loaded[name] = command
        return self._loaded[name]

    def __setitem__(self, name: str, command: Any) -> None:
        self._loaded[name] = command

    def __delitem__(self, name: str) -> None:
        del self._loaded[name]

    def __iter__(self) -> Iterator[str]:
        return iter(COMMANDS)

    def __len__(self) -> int:
        return len(COMMANDS)

    def __contains__(self, name: object) -> bool:
        return name in COMMANDS


class LazyGroup(TyperGroup):
    """The group of all commands; its help lists them by what they are for."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        self.commands = _Commands()

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """A list for each group, all in columns of one width."""
        width = max(len(name) for group in GROUPS.values() for name in group)
        for heading, group in GROUPS.items():
            told = [(name.ljust(width), self.commands[name].get_short_help_str(_LONGEST)) for name in group]
            with formatter.section(heading):
                formatter.write_dl(told)
