"""Progress of long work on standard error, only where that is a terminal."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..batch import Progress

__all__ = ["shown_progress"]


@contextmanager
def shown_progress() -> Iterator[Progress | None]:
    """A progress bar for the time of the block; None where nobody would see it, so that no work goes into it."""
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
    with Progress(*columns, console=Console(stderr=True), transient=True, redirect_stdout=False) as bar:
        task = bar.add_task("reading", total=None)

        def show(what: str, done: int, total: int) -> None:
            bar.update(task, description=what, completed=done, total=total)

        yield show
