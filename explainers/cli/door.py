"""What becomes of an exception at the door: lines on standard error, then an exit code.

A fault of the program itself is named as one; set EXPLAINERS_TRACEBACK=1 to see where it happened.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, ParamSpec

from ..errors import ExplainersError, Fault, ItemError, UnsoundItemError
from .exit_codes import INTERRUPTED, PIPE_CLOSED, REFUSED, UNSOUND
from .streams import complain, silence
from .telling import tell_faults

if TYPE_CHECKING:
    from ..item.told_once import ToldOnce

__all__ = ["TRACEBACK_VARIABLE", "at_the_door", "faults_of", "tell"]

TRACEBACK_VARIABLE = "EXPLAINERS_TRACEBACK"

P = ParamSpec("P")


def faults_of(error: Exception, path: Path | None = None) -> tuple[Fault, ...]:
    """An exception as faults of the file that was being worked on.

    Raises the exception itself where nobody foresaw it and a developer has asked for tracebacks.
    """
    file = str(path) if path is not None else ""
    if isinstance(error, ItemError):
        return error.faults
    if isinstance(error, OSError):
        reason = error.strerror or str(error) or type(error).__name__
        other = f" ({error.filename})" if error.filename and str(error.filename) != file else ""
        return (Fault(file=file, field="", message=f"{reason}{other}", fix="check that it is there and may be used"),)
    if os.environ.get(TRACEBACK_VARIABLE):
        raise error
    said = str(error).strip().splitlines()
    what = f"{type(error).__name__}: {said[0]}" if said else type(error).__name__
    return (
        Fault(
            file=file,
            field="",
            message=f"the program itself failed here ({what})",
            fix=f"report this with the file; {TRACEBACK_VARIABLE}=1 shows where it happened",
        ),
    )


def tell(error: Exception, path: Path | None = None, told: ToldOnce | None = None) -> int:
    """Say what went wrong, each fault on its own line, for the exit code that goes with it.

    path : the file that was being worked on, for an error that does not name one
    told : of what went before, so that a fault that several files share is said once
    """
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
