"""Calls made in processes of their own, a few at a time, their results in the order of the calls.

Each call gets a new process, so that memory taken by one is given back before another starts. A process that is killed
costs its own call alone. Whatever stops the process that asks stops the others too: they are told to end, and let
their unfinished files go; if the asker is killed outright they notice at their next piece of news.
"""

from __future__ import annotations

import multiprocessing
import pickle
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from typing import Any, Generic, TypeVar

__all__ = ["Finished", "News", "Tell", "each_in_a_process"]

T = TypeVar("T")

Tell = Callable[..., None]  # what a call says on its way
News = Callable[..., None]  # (number of the call, what it says ...)

_ASK_S = 0.2
_PATIENCE_S = 15.0  # for a process that has been told to end


@dataclass(frozen=True, slots=True)
class Finished(Generic[T]):
    """What became of a call: its result, or the exception that it raised, or the exit code of a process that is lost.

    An exit code below zero is the number of the signal that ended it.
    """

    result: T | None = None
    error: Exception | None = None
    exit_code: int | None = None


@dataclass(slots=True)
class _Running:
    number: int
    process: Any  # of the spawn context; the type is private to multiprocessing
    connection: Connection


def each_in_a_process(
    function: Callable[..., T],
    calls: Sequence[tuple[object, ...]],
    workers: int,
    news: News | None = None,
    ended: Callable[[int], None] | None = None,
    unwanted: Callable[[], bool] | None = None,
) -> Iterator[Finished[T]]:
    """Call `function(*call, tell)` for each of the calls, in at most `workers` processes at a time.

    function : a function at the top of a module, which the new process imports
    news     : called with the number of a call and whatever that call has given to `tell`
    ended    : called with the number of each call as soon as it is over, in whatever order that is
    unwanted : asked a few times a second whether nobody wants the rest any more: what runs is stopped then, and nothing
               more is given
    """
    done: dict[int, Finished[T]] = {}
    running: list[_Running] = []
    waiting = iter(enumerate(calls))
    try:
        for number in range(len(calls)):
            while number not in done:
                while len(running) < max(1, workers) and (call := next(waiting, None)) is not None:
                    running.append(_started(function, *call))
                if unwanted is not None and unwanted():
                    return
                for ready in wait([one.connection for one in running], _ASK_S if unwanted is not None else None):
                    one = next(one for one in running if one.connection is ready)
                    finished = _heard(one, news)
                    if finished is not None:
                        running.remove(one)
                        done[one.number] = finished
                        if ended is not None:
                            ended(one.number)
            yield done.pop(number)
    finally:
        _stop(running)


def _started(function: Callable[..., T], number: int, call: tuple[object, ...]) -> _Running:
    # A new interpreter each, not a copy of this one: a copy would share its threads' locks and its open files.
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe()
    process = context.Process(target=_main, args=(function, call, theirs))
    process.start()
    theirs.close()
    return _Running(number=number, process=process, connection=ours)


def _heard(one: _Running, news: News | None) -> Finished[Any] | None:
    """Take one message; what became of the call, once it is over."""
    try:
        kind, said = one.connection.recv()
    except (EOFError, OSError, pickle.UnpicklingError):
        one.connection.close()
        one.process.join()
        return Finished(exit_code=one.process.exitcode)
    if kind == "news":
        if news is not None:
            news(one.number, *said)
        return None
    one.connection.close()
    one.process.join()
    return Finished(result=said) if kind == "result" else Finished(error=said)


def _stop(running: Sequence[_Running]) -> None:
    for one in running:
        with suppress(OSError):
            one.process.terminate()
    for one in running:
        one.process.join(_PATIENCE_S)
        if one.process.is_alive():
            one.process.kill()
            one.process.join()
        one.connection.close()


def _main(function: Callable[..., object], call: tuple[object, ...], connection: Connection) -> None:
    """The whole life of a process."""
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, _end_once)

    def tell(*said: object) -> None:
        try:
            connection.send(("news", said))
        except OSError as error:
            raise KeyboardInterrupt from error  # the asker is gone: stop as if it had said so

    try:
        try:
            message = _packed("result", function(*call, tell))
        except Exception as error:
            message = _packed("error", error)
        with suppress(OSError):
            connection.send_bytes(message)
    except KeyboardInterrupt:
        pass  # the asker knows, or is gone
    finally:
        connection.close()


def _packed(kind: str, said: object) -> bytes:
    """A message that can be read at the other end; some exceptions cannot, and are then told in words."""
    try:
        message = pickle.dumps((kind, said))
        pickle.loads(message)
    except Exception as error:
        what = said if isinstance(said, Exception) else error
        message = pickle.dumps(("error", RuntimeError(f"{type(what).__name__}: {what}")))
    return message


def _end_once(number: int, frame: object) -> None:
    """The first signal stops the call; a second one must not stop it from cleaning up."""
    for other in (signal.SIGINT, signal.SIGTERM):
        signal.signal(other, signal.SIG_IGN)
    raise KeyboardInterrupt
