"""What becomes of an exception at the door: lines on standard error, then an exit code.

A fault of the program itself is named as one; set EXPLAINERS_TRACEBACK=1 to see where it happened. A run over several
files ends with the worst of their codes: refused before unsound before sound.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, ParamSpec

from ..errors import ExplainersError, ItemError, UnsoundItemError, faults_of
from .streams import complain, silence

if TYPE_CHECKING:
    from ..item.faults import ReportedFaults

__all__ = ["INTERRUPTED", "PIPE_CLOSED", "REFUSED", "SOUND", "UNSOUND", "at_the_door", "tell", "worst"]

SOUND = 0
UNSOUND = 1  # the item solves, but has not exactly one right option
REFUSED = 2  # cannot be read, solved or written; also wrong usage
INTERRUPTED = 130  # 128 + SIGINT, as shells report it
PIPE_CLOSED = 141  # 128 + SIGPIPE: whoever read our output went away

P = ParamSpec("P")


def worst(codes: Iterable[int]) -> int:
    """The code of a run over several files."""
    return max(codes, default=SOUND)


def tell(error: Exception, path: Path | None = None, told: ReportedFaults | None = None) -> int:
    """Say what went wrong, each fault on its own line, for the exit code that goes with it.

    path : the file that was being worked on, for an error that does not name one
    told : of what went before, so that a fault that several files share is said once
    """
    from .reports import tell_faults

    if isinstance(error, UnsoundItemError):
        complain(str(error))
        return UNSOUND
    if isinstance(error, ExplainersError) and not isinstance(error, ItemError):
        complain(f"explainers: {error}")
        return REFUSED
    faults = faults_of(error, path)
    tell_faults(faults if told is None or path is None else told.rest(path, faults))
    return REFUSED


def at_the_door(command: Callable[P, int]) -> Callable[P, None]:
    """A command that returns its exit code, as typer wants it: leaving by that code, whatever happens inside."""

    @wraps(command)
    def guarded(*args: P.args, **kwargs: P.kwargs) -> None:
        import typer

        try:
            code = command(*args, **kwargs)
            sys.stdout.flush()  # here, where a full disk or a closed pipe can still be told
        except KeyboardInterrupt:
            complain("explainers: stopped; what was not yet whole has been left out")
            code = INTERRUPTED
        except BrokenPipeError:
            silence()
            code = PIPE_CLOSED
        except Exception as error:
            if isinstance(error, OSError):
                silence()  # it may be standard output that is full
            code = tell(error)
        raise typer.Exit(code)

    return guarded
