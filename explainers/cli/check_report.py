"""What `explainers check` prints: a table on a terminal, plain lines elsewhere, JSON for a program."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from .exit_codes import REFUSED, SOUND, UNSOUND
from .outcomes import Outcome
from .streams import say

if TYPE_CHECKING:
    from ..solution.model import Solution, Warning_

__all__ = ["as_json", "show", "warning_json"]

STATE = {SOUND: "sound", UNSOUND: "not sound", REFUSED: "refused"}
COLOUR = {SOUND: "green", UNSOUND: "yellow", REFUSED: "red"}


def as_json(outcome: Outcome) -> dict[str, Any]:
    """One item: whether it is sound, its key, and a reason for each option; or its faults."""
    if outcome.solution is None:
        return outcome.refusal()
    from ..solution.difficulty import suggested_pause_s
    from ..wording.certificate import PAUSE_SOURCE

    return {
        "item": outcome.solution.item.name,
        "sound": outcome.solution.sound,
        "key": outcome.solution.key,
        "because": list(outcome.solution.unsound_because),
        "options": [
            {"label": verdict.label, "same": verdict.same, "mirrored": verdict.mirrored, "reason": _reason(verdict)}
            for verdict in outcome.solution.verdicts
        ],
        "warnings": [warning_json(warning) for warning in outcome.solution.warnings],
        "pause": {"seconds": suggested_pause_s(outcome.solution), "estimate": True, "source": PAUSE_SOURCE},
    }


def warning_json(warning: Warning_) -> dict[str, str]:
    """One warning."""
    return {"kind": warning.kind.value, "field": warning.field, "message": warning.message}


def show(outcomes: Sequence[Outcome]) -> None:
    """All items, for a reader: a table where the output is a terminal, else plain lines that nothing cuts short."""
    if sys.stdout.isatty():
        _show_table(outcomes)
    else:
        _show_lines(outcomes)
    if any(outcome.code == SOUND for outcome in outcomes):
        from ..wording.certificate import PAUSE_SOURCE_IN_BRIEF

        say(PAUSE_SOURCE_IN_BRIEF)


def _show_lines(outcomes: Sequence[Outcome]) -> None:
    width = max((len(_name(outcome)) for outcome in outcomes), default=0)
    for outcome in outcomes:
        say(f"{_name(outcome):{width}}  {STATE[outcome.code]:9}  key {_key(outcome)}")
        for line in _lines(outcome):
            say(f"    {line}")


def _show_table(outcomes: Sequence[Outcome]) -> None:
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    table = Table(show_lines=len(outcomes) > 1, header_style="bold")
    table.add_column("Item", overflow="fold", no_wrap=False)
    table.add_column("Sound?")
    table.add_column("Key", justify="center")
    table.add_column("Why the others are wrong", overflow="fold", ratio=1)
    for outcome in outcomes:
        table.add_row(
            Text(_name(outcome)),
            Text(STATE[outcome.code], style=COLOUR[outcome.code]),
            Text(_key(outcome)),
            Text("\n".join(_lines(outcome))),
        )
    Console().print(table)


def _name(outcome: Outcome) -> str:
    return outcome.path.stem if outcome.solution is None else outcome.solution.item.name


def _key(outcome: Outcome) -> str:
    return "-" if outcome.solution is None or outcome.solution.key is None else outcome.solution.key


def _lines(outcome: Outcome) -> list[str]:
    if outcome.solution is None:
        count = len(outcome.faults)
        return [f"{count} {'fault' if count == 1 else 'faults'}"]
    wrong = [f"{verdict.label}: {_reason(verdict)}" for verdict in outcome.solution.verdicts if not verdict.same]
    return [*outcome.solution.unsound_because, *wrong, *_pause(outcome.solution)]


def _pause(solution: Solution) -> list[str]:
    from ..solution.difficulty import suggested_pause_s
    from ..wording.certificate import pause_in_brief

    return [pause_in_brief(suggested_pause_s(solution))] if solution.sound else []


def _reason(verdict: Any) -> str:
    from ..wording.report import reason_in_brief

    return reason_in_brief(verdict)
