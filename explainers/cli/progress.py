"""Progress of long work on standard error, only where that is a terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from .streams import harmless

if TYPE_CHECKING:
    from rich.progress import Progress, TaskID

__all__ = ["Bars", "shown_progress"]

_SPEED_OVER_S = 120.0  # time left follows from the speed of the last two minutes: holds are quick, motions slow
_NEARLY = 0.9  # of a lesson is taken as done when its clip is: the decks and sheets that remain are quick


class Bars:
    """A bar for each lesson that is being made; one for all of them, where there are several."""

    def __init__(self, progress: Progress) -> None:
        self._progress = progress
        self._rows: dict[str, TaskID] = {}
        self._parts: dict[str, float] = {}
        self._whole: TaskID | None = None
        self._finished = 0

    def __call__(self, what: str, done: int, total: int) -> None:
        """News of one output: what is being made, such as "first-blocks: clip", parts done, parts in all."""
        what = harmless(what)
        name = what.split(":")[0]
        if name not in self._rows:
            self._rows[name] = self._progress.add_task(what, total=total)
        self._progress.update(self._rows[name], description=what, completed=done, total=total)
        self._parts[name] = max(self._parts.get(name, 0.0), _NEARLY * done / max(total, 1))
        self._move_whole()

    def overall(self, name: str, finished: int, total: int) -> None:
        """News of the whole run: the lesson just finished ("" at the start), how many are, how many there are."""
        if total > 1 and self._whole is None:
            self._whole = self._progress.add_task("all", total=total)
        name = harmless(name)
        if name in self._rows:
            self._progress.remove_task(self._rows.pop(name))
        self._parts.pop(name, None)
        self._finished = finished
        self._move_whole()

    def _move_whole(self) -> None:
        if self._whole is not None:
            self._progress.update(self._whole, completed=self._finished + sum(self._parts.values()))


@contextmanager
def shown_progress() -> Iterator[Bars | None]:
    """Progress bars for the time of the block; None where nobody would see them, so that no work goes into them."""
    if not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import (
        BarColumn,
        MofNCompleteColumn,
        Progress,
        TextColumn,
        TimeElapsedColumn,
        TimeRemainingColumn,
    )

    columns = (
        TextColumn("{task.description}", markup=False),
        BarColumn(),
        MofNCompleteColumn(),
        TimeElapsedColumn(),
        TimeRemainingColumn(),
    )
    # Not redirecting what is printed meanwhile: results stay on standard output, where a program may read them.
    with Progress(
        *columns,
        console=Console(stderr=True),
        transient=True,
        redirect_stdout=False,
        speed_estimate_period=_SPEED_OVER_S,
    ) as progress:
        yield Bars(progress)
