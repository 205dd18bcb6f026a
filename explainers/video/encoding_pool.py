"""Segments encoded in threads beside whoever draws, their pictures waiting in a bounded number of frames.

The frames of one segment are encoded in order by one thread; other threads take the segments after it. A frame is
handed out again only after every encoder has returned from it, and encoders copy what they are given.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from queue import LifoQueue, SimpleQueue
from threading import Semaphore, Thread
from types import TracebackType

from av.video.frame import VideoFrame

from .encoder import EncoderOptions, SegmentEncoder
from .rolling_frame import empty_frame
from .segment import Segment

__all__ = ["EncodingPool", "SegmentQueue"]

_FRAMES = 16  # of 3 MB each at 1080p
_THREADS = 2  # drawing is about as much work as encoding: more would wait
_WAITING = 4  # tasks begun or waiting

MakeEncoder = Callable[[], SegmentEncoder]


class SegmentQueue:
    """One picture after the other on its way into segments; get it from a pool."""

    def __init__(self) -> None:
        self._frames: SimpleQueue[VideoFrame | None] = SimpleQueue()
        self._ended = False

    def put(self, frame: VideoFrame) -> None:
        """The next frame, one of the pool's; it belongs to the pool again."""
        self._frames.put(frame)

    def end(self) -> None:
        """There are no more frames."""
        self._frames.put(None)

    def coming(self) -> Iterator[VideoFrame]:
        """Every frame that has not been handed out yet, for one thread; waits for those to come."""
        while not self._ended:
            frame = self._frames.get()
            if frame is None:
                self._ended = True
            else:
                yield frame


class EncodingPool:
    """Use it in a `with` statement: leaving it waits for all that was asked for, or abandons it after an exception.

    What goes wrong in a thread is raised by the next call here, or on leaving.
    """

    def __init__(self, options: EncoderOptions, *, threads: int = _THREADS, frames: int = _FRAMES) -> None:
        # The one used last comes first: it shows nearly what the next picture does, so that little is copied to it.
        self._free: LifoQueue[VideoFrame] = LifoQueue()
        for _ in range(frames):
            self._free.put(empty_frame(options))
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

    def free_frame(self) -> VideoFrame:
        """A frame to draw on; waits until there is one."""
        self._raise_failure()
        return self._free.get()

    def segments(
        self, makers: Sequence[MakeEncoder], finished: Callable[[int, Segment], None], *, repeats: int = 1
    ) -> SegmentQueue:
        """Encode the frames that are put into what is handed back, once with each encoder.

        finished : called in a thread with the number of the encoder and its segment
        repeats  : how often each frame is encoded
        """
        queue = SegmentQueue()
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
        try:
            encoders = [make() for make in makers]
            for frame in queue.coming():
                try:
                    if not self._abandoned:
                        for encoder in encoders:
                            for _ in range(repeats):
                                encoder.add_frame(frame)
                finally:
                    self._free.put(frame)
            if not self._abandoned:
                for number, encoder in enumerate(encoders):
                    finished(number, encoder.finish())
        except BaseException as error:
            self._failure = self._failure or error
            for frame in queue.coming():  # whoever waits for a frame must not wait forever
                self._free.put(frame)
            raise

    def _raise_failure(self) -> None:
        if self._failure is not None:
            raise self._failure
