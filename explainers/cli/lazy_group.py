"""A command group that loads a command's module when the command is used.

So that a new command is one module and one line here, and none makes the others slower to start.
"""

from __future__ import annotations

from collections.abc import Iterator, MutableMapping
from importlib import import_module
from typing import Any

import typer
from typer.core import TyperGroup

__all__ = ["COMMANDS", "LazyGroup"]

# In the order of a teacher's work; each module has a typer app called `app` with one command.
COMMANDS = {
    "new": "explainers.cli.new",
    "look": "explainers.cli.look",
    "check": "explainers.cli.check",
    "solve": "explainers.cli.solve",
    "fmt": "explainers.cli.fmt",
    "schema": "explainers.cli.schema",
    "outline": "explainers.cli.outline",
    "options": "explainers.cli.options",
    "vary": "explainers.cli.vary",
    "words": "explainers.cli.words",
    "prompter": "explainers.cli.prompter",
    "fit": "explainers.cli.fit",
    "build": "explainers.cli.build",
    "clip": "explainers.cli.clip",
    "deck": "explainers.cli.deck",
    "present": "explainers.cli.present",
    "sheets": "explainers.cli.sheets",
    "cues": "explainers.cli.cues",
    "stills": "explainers.cli.stills",
    "themes": "explainers.cli.themes",
    "cache": "explainers.cli.cache",
    "guide": "explainers.cli.guide",
}


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
    """The group of all commands."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        self.commands = _Commands()
