"""Files that appear under their final name only when whole.

A file is written under a hidden name beside its final one, in the same file system, flushed to the disk, and renamed: a
reader sees the old file or the new one, never half of either. Whatever goes wrong, Ctrl-C included, the hidden file is
removed. A second process writing the same file is not kept out: the later rename wins, and both files are whole.

Whoever writes holds a lock on the hidden file or folder, which the operating system gives back when its owner ends,
however it ends. So what a killed process left behind is known by its name and by being unlocked, and the next one that
writes beside it takes it away. Where there are no such locks it goes once nothing has been put in it for a day.
"""

from __future__ import annotations

import errno
import os
import re
import secrets
import shutil
import stat
import time
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, suppress
from contextvars import ContextVar
from pathlib import Path

from .errors import OutputError

try:
    import fcntl
except ImportError:  # not a Unix
    fcntl = None  # type: ignore[assignment]

__all__ = [
    "Appearing",
    "locked_folder",
    "reported",
    "sweep",
    "told_of_files",
    "whole_file",
    "work_folder",
    "write_bytes",
    "write_files",
    "write_text",
]

Appearing = Callable[[Mapping[Path, Path]], None]  # final name -> the whole file that is about to get it

# Nobody else calls a file so: what bears such a name is ours to remove.
_UNFINISHED = ".explainers-unfinished-"
_OURS = re.compile(r"\.explainers-unfinished-[0-9a-f]{16}(\.[A-Za-z0-9]{1,16})?")
_SUFFIX = re.compile(r"\.[A-Za-z0-9]{1,16}")

_LEFT_BEHIND_S = 24 * 3600.0  # no drawing goes on for so long without a new file

_LISTENER: ContextVar[Appearing | None] = ContextVar("listener", default=None)


@contextmanager
def told_of_files(listener: Appearing) -> Iterator[None]:
    """While the block lasts, `listener` is told of files before they appear: whole, flushed, not yet renamed.

    What it raises stops them from appearing. Files that it writes itself are not told of.
    """
    token = _LISTENER.set(listener)
    try:
        yield
    finally:
        _LISTENER.reset(token)


@contextmanager
def whole_file(path: Path) -> Iterator[Path]:
    """A name to write to; when the block ends well, the file there becomes `path`.

    The name keeps the suffix of `path`, since some libraries choose the format by it. The folder is made if need be.

    Raises : OutputError if the file cannot be written, such as on a full disk
    """
    with reported(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        sweep(path.parent)
        unfinished, lock = _begun(path.parent, path.suffix, is_folder=False)
        try:
            yield unfinished
            _flush(unfinished)
            _appear({path: unfinished})
            _flush(path.parent)
        finally:
            unfinished.unlink(missing_ok=True)
            _let_go(lock)


@contextmanager
def work_folder(folder: Path) -> Iterator[Path]:
    """An empty hidden folder inside `folder`, in its file system, gone with all it holds when the block ends."""
    with reported(folder):
        folder.mkdir(parents=True, exist_ok=True)
        sweep(folder)
        work, lock = _begun(folder, "", is_folder=True)
    try:
        yield work
    finally:
        shutil.rmtree(work, ignore_errors=True)
        _let_go(lock)


def write_bytes(path: Path, data: bytes) -> Path:
    """Write one file, whole or not at all; the path is handed back."""
    write_files(path.parent, {path.name: data})
    return path


def write_text(path: Path, text: str) -> Path:
    """Write one UTF-8 file with the line ends that `text` has, whole or not at all; the path is handed back."""
    return write_bytes(path, text.encode("utf-8"))


def write_files(folder: Path, files: Mapping[str, bytes | str]) -> tuple[Path, ...]:
    """Write several files of one folder: all are written out in full before the first appears under its name."""
    paths = tuple(folder / name for name in files)
    with reported(paths[0] if len(paths) == 1 else folder), work_folder(folder) as work:
        for path, data in zip(paths, files.values(), strict=True):
            with reported(path):
                (work / path.name).write_bytes(data.encode("utf-8") if isinstance(data, str) else data)
                _flush(work / path.name)
        _appear({path: work / path.name for path in paths})
        _flush(folder)
    return paths


@contextmanager
def reported(path: Path) -> Iterator[None]:
    """Whatever the operating system refuses inside the block is said as an OutputError about `path`."""
    try:
        yield
    except OSError as error:
        if error.errno in (errno.ENOSPC, errno.EDQUOT):
            raise OutputError(f"{path}: the disk is full. To mend it: free some space, or write elsewhere.") from error
        reason = error.strerror or str(error)
        message = f"{path}: cannot be written ({reason}). To mend it: check the folder and its rights."
        raise OutputError(message) from error


@contextmanager
def locked_folder(folder: Path) -> Iterator[None]:
    """Keep other processes that ask for the same out of a folder, for a moment; where that cannot be, do without."""
    lock = _locked(folder, wait=True)
    try:
        yield
    finally:
        _let_go(lock)


def sweep(folder: Path) -> None:
    """Remove what killed processes have left unfinished in a folder; whatever cannot be removed stays."""
    with suppress(OSError):
        for name in os.listdir(folder):
            if _OURS.fullmatch(name):
                _swept(folder / name)


def _swept(path: Path) -> None:
    with suppress(OSError):
        seen = path.lstat()
        if not stat.S_ISDIR(seen.st_mode) and not stat.S_ISREG(seen.st_mode):
            return
        lock = _locked(path, wait=False)
        try:
            if lock is None and time.time() - seen.st_mtime < _LEFT_BEHIND_S:
                return
            if stat.S_ISDIR(seen.st_mode):
                shutil.rmtree(path, ignore_errors=True)
            else:
                path.unlink(missing_ok=True)
        finally:
            _let_go(lock)


def _appear(files: Mapping[Path, Path]) -> None:
    """Give whole files their names, after whoever listens has been told; none where one of them cannot get its own."""
    for path in files:
        if path.is_dir() and not path.is_symlink():
            with reported(path):
                raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    listener = _LISTENER.get()
    if listener is not None:
        token = _LISTENER.set(None)
        try:
            listener(files)
        finally:
            _LISTENER.reset(token)
    for path, unfinished in files.items():
        with reported(path):
            os.replace(unfinished, path)


def _begun(folder: Path, suffix: str, *, is_folder: bool) -> tuple[Path, int | None]:
    """A new hidden file or folder, and the lock on it."""
    ending = suffix if _SUFFIX.fullmatch(suffix) else ""
    while True:
        path = folder / f"{_UNFINISHED}{secrets.token_hex(8)}{ending}"
        if is_folder:
            path.mkdir()
        else:
            path.touch(exist_ok=False)
        lock = _locked(path, wait=True)
        # Somebody may have taken it for left behind before it was locked.
        if path.exists() and (lock is None or os.path.samestat(path.lstat(), os.fstat(lock))):
            return path, lock
        _let_go(lock)


def _locked(path: Path, *, wait: bool) -> int | None:
    """A handle with the lock on a file or folder; None where there are no locks.

    Raises : BlockingIOError where another has it, and it is not to be waited for
    """
    if fcntl is None:
        return None
    try:
        handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_NONBLOCK | os.O_CLOEXEC)
    except OSError:
        return None
    try:
        fcntl.flock(handle, fcntl.LOCK_EX if wait else fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        os.close(handle)
        raise
    except OSError:
        os.close(handle)
        return None
    return handle


def _let_go(lock: int | None) -> None:
    if lock is not None:
        os.close(lock)


def _flush(path: Path) -> None:
    """Have the system put a file or a folder on the disk, so that a power cut after the rename leaves it whole."""
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError as error:
        if error.errno not in (errno.EINVAL, errno.EBADF):  # some file systems cannot flush a folder
            raise
    finally:
        os.close(handle)
