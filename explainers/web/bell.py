"""A bell that any thread rings and that requests wait for, in the loop of the server, without a thread of their own."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass

__all__ = ["Bell", "Listener"]


@dataclass(frozen=True, slots=True, eq=False)
class Listener:
    """One who waits."""

    loop: asyncio.AbstractEventLoop
    rung: asyncio.Event

    async def wait(self, longest_s: float) -> bool:
        """Until the bell rings, or the time is up; whether it rang. A ring since the last wait counts."""
        try:
            async with asyncio.timeout(longest_s):
                await self.rung.wait()
        except TimeoutError:
            return False
        self.rung.clear()
        return True


class Bell:
    """Tells whoever listens that something has changed; what it is they look up themselves."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._listeners: set[Listener] = set()

    def ring(self) -> None:
        """Wake everybody who listens; from any thread."""
        with self._lock:
            for each in self._listeners:
                with suppress(RuntimeError):  # its loop has ended
                    each.loop.call_soon_threadsafe(each.rung.set)

    @contextmanager
    def listening(self) -> Iterator[Listener]:
        """Listen while the block lasts: look first, then wait, so that no ring is missed. Within a running loop."""
        listener = Listener(asyncio.get_running_loop(), asyncio.Event())
        with self._lock:
            self._listeners.add(listener)
        try:
            yield listener
        finally:
            with self._lock:
                self._listeners.discard(listener)
