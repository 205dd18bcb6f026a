"""Segments encoded in threads beside whoever draws, what is new in their pictures waiting in a bounded store.

The pictures of one segment are encoded in order by one thread; other threads take the segments after it. Each thread
has a frame of its own, on which it lays what is new in the next picture; encoders copy what they are given.

The store is bounded by bytes, and what waits there is only the changed part of each picture: little to copy, and
enough ahead that a second thread finds work while a long motion is still being encoded.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from queue import SimpleQueue
from threading import Condition, Semaphore, Thread
from types import TracebackType

from av.video.frame import VideoFrame

from .encoder import EncoderOptions, SegmentEncoder
from .rolling_frame import FramePart, empty_frame, planes_of
from .segment import Segment

__all__ = ["EncodingPool", "SegmentQueue"]

_ROOM = 20_000_000  # bytes of pictures that wait: about forty in which a fifth is new
_THREADS = 2  # drawing is about as much work as encoding: more would wait
_WAITING = 4  # tasks begun or waiting

MakeEncoder = Callable[[], SegmentEncoder]


class SegmentQueue:
    """One picture after the other on its way into segments; get it from a pool."""

    def __init__(self, store: _Store) -> None:
        self._store = store
        self._pictures: SimpleQueue[tuple[FramePart, ...] | None] = SimpleQueue()
        self._ended = False

    def put(self, parts: Sequence[FramePart]) -> None:
        """What is new in the next picture, which in the first is all of it; waits while there is no room."""
        kept = tuple(parts)
        self._store.take(_size(kept))
        self._pictures.put(kept)

    def end(self) -> None:
        """There are no more pictures."""
        self._pictures.put(None)

    def coming(self) -> Iterator[tuple[FramePart, ...]]:
        """Every picture that has not been handed out yet, for one thread; waits for those to come."""
        while not self._ended:
            parts = self._pictures.get()
            if parts is None:
                self._ended = True
            else:
                try:
                    yield parts
                finally:
                    self._store.give_back(_size(parts))


class EncodingPool:
    """Use it in a `with` statement: leaving it waits for all that was asked for, or abandons it after an exception.

    What goes wrong in a thread is raised by the next call here, or on leaving.
    """

    def __init__(self, options: EncoderOptions, *, threads: int = _THREADS, room: int = _ROOM) -> None:
        """`room` is how many bytes of pictures may wait; one picture always may."""
        self._store = _Store(room)
        self._frames: SimpleQueue[VideoFrame] = SimpleQueue()  # one a thread; there always is one for who asks
        for _ in range(threads):
            self._frames.put(empty_frame(options))
        self._tasks: SimpleQueue[Callable[[], None] | None] = SimpleQueue()
        self._room = Semaphore(_WAITING + threads)
        self._failure: BaseException | None = None
        self._abandoned = False
        # Daemons: a process that is told to stop does not wait for its encoders.
        self._threads = [Thread(target=self._work, name=f"encoder-{k}", daemon=True) for k in range(threads)]
        for thread in self._threads:
            thread.start()

    def __enter__(self) -> EncodingPool:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._abandoned = error is not None
        for _ in self._threads:
            self._tasks.put(None)
        if error is None:
            for thread in self._threads:
                thread.join()
            self._raise_failure()

    def segments(
        self, makers: Sequence[MakeEncoder], finished: Callable[[int, Segment], None], *, repeats: int = 1
    ) -> SegmentQueue:
        """Encode the pictures that are put into what is handed back, once with each encoder.

        finished : called in a thread with the number of the encoder and its segment
        repeats  : how often each picture is encoded
        """
        queue = SegmentQueue(self._store)
        self.run(lambda: self._encode(queue, makers, finished, repeats))
        return queue

    def run(self, task: Callable[[], None]) -> None:
        """Do something else in a thread; waits while many tasks are waiting."""
        self._raise_failure()
        self._room.acquire()
        self._tasks.put(task)

    def _work(self) -> None:
        while (task := self._tasks.get()) is not None:
            try:
                if not self._abandoned:
                    task()
            except BaseException as error:
                self._failure = self._failure or error
            finally:
                self._room.release()

    def _encode(
        self,
        queue: SegmentQueue,
        makers: Sequence[MakeEncoder],
        finished: Callable[[int, Segment], None],
        repeats: int,
    ) -> None:
        frame = self._frames.get()
        planes = planes_of(frame)
        try:
            encoders = [make() for make in makers]
            for parts in queue.coming():
                if self._abandoned:
                    continue
                for part in parts:
                    part.lay_on(planes)
                for encoder in encoders:
                    encoder.add_frame(frame, [part.box for part in parts])
                    for _ in range(repeats - 1):
                        encoder.add_frame(frame, ())
            if not self._abandoned:
                for number, encoder in enumerate(encoders):
                    finished(number, encoder.finish())
        except BaseException as error:
            self._failure = self._failure or error
            for _ in queue.coming():  # whoever waits for room must not wait forever
                pass
            raise
        finally:
            self._frames.put(frame)

    def _raise_failure(self) -> None:
        if self._failure is not None:
            raise self._failure


class _Store:
    """How many bytes wait."""

    def __init__(self, room: int) -> None:
        self._room = room
        self._held = 0
        self._changed = Condition()

    def take(self, size: int) -> None:
        """Wait until there is room for so much, or nothing else waits."""
        with self._changed:
            self._changed.wait_for(lambda: self._held == 0 or self._held + size <= self._room)
            self._held += size

    def give_back(self, size: int) -> None:
        with self._changed:
            self._held -= size
            self._changed.notify()


def _size(parts: Sequence[FramePart]) -> int:
    return sum(part.size for part in parts)
