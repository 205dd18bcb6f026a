"""One function called in a process of its own, so that nothing it is given can hold up or bring down whoever asks.

A call that takes long is given up as soon as nobody wants its result any more, or else when it has had its time; one
that brings the process down costs that process alone. The next one is started at once, to be ready when it is needed.
"""

from __future__ import annotations

import multiprocessing
import signal
import time
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import Any

__all__ = ["GivenUp", "Lost", "ProcessApart", "TookTooLong"]

_UNDISTURBED_S = 2.0  # so long a call is not given up, however often others come: else nothing might ever be done
_ASK_S = 0.1
_STARTING_S = 60.0  # for a new process, on a machine that is busy


class GivenUp(Exception):
    """Nobody wants the result any more."""


class TookTooLong(Exception):
    """The call has had its time."""


class Lost(Exception):
    """The process has ended in the midst of a call."""

    def __init__(self, code: int | None) -> None:
        super().__init__(f"the process ended with code {code}")
        self.code = code


class ProcessApart:
    """Calls one function elsewhere, one call at a time."""

    def __init__(self, work: Callable[..., Any], *, longest_s: float) -> None:
        """work      : of a module, so that the other process finds it; what it raises ends the process
        longest_s : how long one call may take
        """
        self._work = work
        self._longest_s = longest_s
        self._process: Any = None  # of the spawn context; the type is private to multiprocessing
        self._ready = False
        self._start()

    def done(self, *arguments: Any, unwanted: Callable[[], bool] = lambda: False) -> Any:
        """What the function gives.

        unwanted : whether nobody wants the result any more
        Raises   : GivenUp, TookTooLong, Lost
        """
        try:
            if not self._ready:  # its start is not the call's time
                self._ready = self._connection.poll(_STARTING_S) and bool(self._connection.recv())
            self._connection.send(arguments)
            begun = time.monotonic()
            while not self._connection.poll(_ASK_S):
                took = time.monotonic() - begun
                if took > self._longest_s:
                    self._start_anew()
                    raise TookTooLong
                if took > _UNDISTURBED_S and unwanted():
                    self._start_anew()
                    raise GivenUp
            return self._connection.recv()
        except (EOFError, OSError) as error:  # the process has gone
            self._process.join(1.0)
            code = self._process.exitcode
            self._start_anew()
            raise Lost(code) from error

    def close(self) -> None:
        """End the process."""
        self._connection.close()
        self._process.terminate()
        self._process.join()

    def _start(self) -> None:
        context = multiprocessing.get_context("spawn")
        self._connection, theirs = context.Pipe()
        self._ready = False
        self._process = context.Process(target=_serve, args=(self._work, theirs), daemon=True)
        self._process.start()
        theirs.close()

    def _start_anew(self) -> None:
        self.close()
        self._start()


def _serve(work: Callable[..., Any], connection: Connection) -> None:
    """Do whatever is asked for until nobody asks any more."""
    # Ctrl-C reaches every process of a terminal: the one that asks ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)

    try:
        connection.send(True)
        while True:
            connection.send(work(*connection.recv()))
    except (EOFError, OSError):  # the one that asks has gone
        return
