"""Drawing in a process of its own, so that no file can hold up the one that watches.

A file that takes long is given up as soon as it has changed, or else when it has had its time; one that brings the
process down costs that process alone. The next one is started at once, to be ready when it is needed.
"""

from __future__ import annotations

import multiprocessing
import signal
import time
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from ..errors import Fault
from ..figure.theme import DEFAULT_THEME, Theme
from .drawn import Drawn, drawn, failed

__all__ = ["DrawingApart"]

_LONGEST_S = 20.0
_UNDISTURBED_S = 2.0  # so long a file is not given up, however often it is saved: else nothing might ever be seen
_ASK_S = 0.1
_STARTING_S = 60.0  # for a new process, on a machine that is busy


class DrawingApart:
    """Draws as ``drawn`` does, elsewhere; call it with a path and a theme."""

    def __init__(self, *, longest_s: float = _LONGEST_S) -> None:
        """longest_s : how long one file may take"""
        self._longest_s = longest_s
        self._process: Any = None  # of the spawn context; the type is private to multiprocessing
        self._ready = False
        self._start()

    def __call__(self, path: Path, theme: Theme = DEFAULT_THEME) -> Drawn | None:
        """The file drawn, or None where it has changed before that was done."""
        state = _state(path)
        try:
            if not self._ready:  # its start is not the file's time
                self._ready = self._connection.poll(_STARTING_S) and bool(self._connection.recv())
            self._connection.send((path, theme))
            begun = time.monotonic()
            while not self._connection.poll(_ASK_S):
                took = time.monotonic() - begun
                if took > self._longest_s:
                    self._start_anew()
                    return Drawn(faults=(_too_long(path, self._longest_s),))
                if took > _UNDISTURBED_S and _state(path) != state:
                    self._start_anew()
                    return None
            result: Drawn = self._connection.recv()
        except (EOFError, OSError):  # the process has gone
            self._process.join(1.0)
            code = self._process.exitcode
            self._start_anew()
            return Drawn(faults=(failed(path, f"the drawing process ended with code {code}"),))
        return result

    def close(self) -> None:
        """End the process."""
        self._connection.close()
        self._process.terminate()
        self._process.join()

    def _start(self) -> None:
        context = multiprocessing.get_context("spawn")
        self._connection, theirs = context.Pipe()
        self._ready = False
        self._process = context.Process(target=_serve, args=(theirs,), daemon=True)
        self._process.start()
        theirs.close()

    def _start_anew(self) -> None:
        self.close()
        self._start()


def _serve(connection: Connection) -> None:
    """Draw whatever is asked for until nobody asks any more."""
    # Ctrl-C reaches every process of a terminal: the one that watches ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)

    try:
        connection.send(True)
        while True:
            connection.send(drawn(*connection.recv()))
    except (EOFError, OSError):  # the one that watches has gone
        return


def _too_long(path: Path, longest_s: float) -> Fault:
    return Fault(
        file=str(path),
        field="",
        message=f"this takes longer than {longest_s:g} s to solve",
        fix="use fewer corners or pieces, or write the options out where they are to be made",
    )


def _state(path: Path) -> tuple[int, int, int] | None:
    try:
        state = path.stat()
    except (OSError, ValueError):
        return None
    return state.st_mtime_ns, state.st_ino, state.st_size
