"""What `explainers check` prints for a reader: a table on a terminal, plain lines elsewhere, a series, certificates."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from ..checking.items import Outcome, State
from ..checking.series import SeriesOutcome, series_notes
from .door import REFUSED, SOUND, UNSOUND
from .streams import harmless, say

if TYPE_CHECKING:
    from ..checking.items import Outcome, Repeated
    from ..choice.question import Question
    from ..choice.series_survey import Survey

__all__ = ["CODES", "ReportRow", "row_of", "show", "show_certificate", "show_footnotes", "show_repeats", "show_series"]

CODES = {State.SOUND: SOUND, State.UNSOUND: UNSOUND, State.REFUSED: REFUSED}
COLOUR = {State.SOUND: "green", State.UNSOUND: "yellow", State.REFUSED: "red"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ReportRow:
    """What is printed of one item; all that is held of it, so that a large folder takes no memory."""

    name: str
    state: State
    key: str
    lines: tuple[str, ...]


def row_of(outcome: Outcome) -> ReportRow:
    """One item: whether it is sound, its key, why each other option is wrong; or how many faults it has."""
    from ..choice.words.certificate import pause_in_brief
    from ..choice.words.report import reason_in_brief

    solution = outcome.solution
    if solution is None:
        count = len(outcome.faults)
        told = f"{count} {'fault' if count == 1 else 'faults'}"
        return ReportRow(name=outcome.path.stem, state=outcome.state, key="-", lines=(told,))
    wrong = [f"{verdict.label}: {reason_in_brief(verdict)}" for verdict in solution.verdicts if not verdict.same]
    pause = [pause_in_brief(solution.suggested_pause_s)] if solution.sound else []
    return ReportRow(
        name=outcome.name,
        state=outcome.state,
        key=solution.key or "-",
        lines=(*solution.unsound_because, *wrong, *_closing(solution.item), *pause),
    )


def _closing(item: Question) -> list[str]:
    """How long the sides are that close its walks: nobody typed that."""
    told = [f"{closing.path} {closing.length:.4g} long" for closing in item.closing]
    return [f"sides that close a walk: {', '.join(told)}"] if told else []


def show(rows: Sequence[ReportRow]) -> None:
    """All items: a table where the output is a terminal, else plain lines that nothing cuts short."""
    if sys.stdout.isatty():
        _show_table(rows)
    else:
        _show_lines(rows)
    if any(row.state is State.SOUND for row in rows):
        from ..choice.words.certificate import PAUSE_SOURCE_IN_BRIEF

        say(PAUSE_SOURCE_IN_BRIEF)


def show_series(outcome: SeriesOutcome, survey: Survey) -> None:
    """A series that can be read."""
    from ..sentences.series import series_headline

    if outcome.series is None:
        return
    say("")
    say(series_headline(outcome.series, len(outcome.lessons), len(outcome.items)))
    for note in series_notes(outcome, survey):
        say(f"    {note}")


def _show_lines(rows: Sequence[ReportRow]) -> None:
    width = max((len(row.name) for row in rows), default=0)
    for row in rows:
        say(f"{row.name:{width}}  {row.state.value:9}  key {row.key}")
        for line in row.lines:
            say(f"    {line}")


def _show_table(rows: Sequence[ReportRow]) -> None:
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    table = Table(show_lines=len(rows) > 1, header_style="bold")
    table.add_column("Item", overflow="fold", no_wrap=False)
    table.add_column("Sound?")
    table.add_column("Key", justify="center")
    table.add_column("Why the others are wrong", overflow="fold", ratio=1)
    for row in rows:
        state = Text(row.state.value, style=COLOUR[row.state])
        table.add_row(Text(harmless(row.name)), state, Text(row.key), Text(harmless("\n".join(row.lines))))
    Console().print(table)


def show_certificate(outcome: Outcome) -> None:
    """One item's certificate, for a reader."""
    if outcome.solution is None:
        count = len(outcome.faults)
        say(f"{outcome.path.stem}: refused, {count} {'fault' if count == 1 else 'faults'}")
        return
    from ..choice.certificate import certificate
    from ..choice.words.certificate import certificate_lines

    for line in certificate_lines(certificate(outcome.solution)):
        say(line)


def show_repeats(found: Iterable[tuple[Path, Repeated]]) -> None:
    """The items that ask what an earlier one asks."""
    from ..choice.words.certificate import repeat_line

    for path, repeated in found:
        say(repeat_line(str(path), str(repeated.path), flipped=repeated.flipped))


def show_footnotes(*, outline_given: bool) -> None:
    """What millimetres and pauses mean; once, below all certificates.

    outline_given : as `Question.outline_given`, of any of the questions
    """
    from ..choice.words.certificate import PAUSE_SOURCE, print_scale

    say(print_scale(outline_given=outline_given))
    say(PAUSE_SOURCE)
