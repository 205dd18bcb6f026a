"""Which process makes what, so that two that want the same thing do not both make it at the same time.

A claim is a lock on one byte of a file, at a place that follows from the key. The operating system lets go of it when
its owner ends, however it ends, so no claim outlives its process. Where there are no such locks (another operating
system, some network folders) everybody may claim everything: work is then done twice, and the results are the same.
"""

from __future__ import annotations

import errno
import os
from pathlib import Path
from types import TracebackType

try:
    import fcntl
except ImportError:  # not a Unix
    fcntl = None  # type: ignore[assignment]

__all__ = ["Claims"]


class Claims:
    """The claims of this process in one folder, for the time of a `with` block; one block at a time in a process."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / "claims"
        self._file: int | None = None

    def __enter__(self) -> Claims:
        if fcntl is not None:
            try:
                self._path.parent.mkdir(parents=True, exist_ok=True)
                self._file = os.open(self._path, os.O_RDWR | os.O_CREAT | os.O_CLOEXEC, 0o666)
            except OSError:
                self._file = None  # the store says that its folder cannot be used
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._file is not None:
            os.close(self._file)  # and with it every claim
            self._file = None

    def take(self, key: str) -> bool:
        """Whether the key is now ours; False only while another process has it."""
        if self._file is None:
            return True
        try:
            fcntl.lockf(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB, 1, _place(key))
        except OSError as refused:
            return refused.errno not in (errno.EACCES, errno.EAGAIN)
        return True

    def give_back(self, key: str) -> None:
        """Let another process have the key."""
        if self._file is not None:
            try:
                fcntl.lockf(self._file, fcntl.LOCK_UN, 1, _place(key))
            except OSError:
                return


def _place(key: str) -> int:
    return int(key[:15], 16)  # below 2^60, which fits a file offset
