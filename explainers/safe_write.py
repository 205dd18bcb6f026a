"""Files that appear under their final name only when whole.

A file is written under a hidden name beside its final one, in the same file system, flushed to the disk, and renamed: a
reader sees the old file or the new one, never half of either. Whatever goes wrong, Ctrl-C included, the hidden file is
removed. A second process writing the same file is not kept out: the later rename wins, and both files are whole.
"""

from __future__ import annotations

import errno
import os
import re
import secrets
import shutil
import time
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from .errors import OutputError

__all__ = ["reported", "whole_file", "work_folder", "write_bytes", "write_files", "write_text"]

_LEFT_BEHIND_S = 24 * 3600.0  # no drawing goes on for so long without a new file


@contextmanager
def whole_file(path: Path) -> Iterator[Path]:
    """A name to write to; when the block ends well, the file there becomes `path`.

    The name keeps the suffix of `path`, since some libraries choose the format by it. The folder is made if need be.

    Raises : OutputError if the file cannot be written, such as on a full disk
    """
    with reported(path):
        path.parent.mkdir(parents=True, exist_ok=True)
        unfinished = _hidden(path)
        try:
            yield unfinished
            _flush(unfinished)
            os.replace(unfinished, path)
            _flush(path.parent)
        finally:
            unfinished.unlink(missing_ok=True)


@contextmanager
def work_folder(folder: Path, name: str) -> Iterator[Path]:
    """An empty hidden folder inside `folder`, in its file system, gone with all it holds when the block ends.

    One that a killed process has left behind under this name goes too, once nothing has been put in it for a day.
    """
    with reported(folder):
        folder.mkdir(parents=True, exist_ok=True)
        _sweep(folder, name)
        work = _hidden(folder / name)
        work.mkdir()
    try:
        yield work
    finally:
        shutil.rmtree(work, ignore_errors=True)


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
    with ExitStack() as stack:
        for path, data in zip(paths, files.values(), strict=True):
            unfinished = stack.enter_context(whole_file(path))
            unfinished.write_bytes(data.encode("utf-8") if isinstance(data, str) else data)
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


def _hidden(path: Path) -> Path:
    return path.with_name(f".{path.stem}-{secrets.token_hex(4)}{path.suffix}")


def _sweep(folder: Path, name: str) -> None:
    """Remove work folders of this name that nobody works in any more; whatever cannot be removed stays."""
    whole = Path(name)
    left = re.compile(rf"\.{re.escape(whole.stem)}-[0-9a-f]{{8}}{re.escape(whole.suffix)}")
    with suppress(OSError):
        for path in list(folder.iterdir()):
            if left.fullmatch(path.name) and path.is_dir() and time.time() - path.stat().st_mtime > _LEFT_BEHIND_S:
                shutil.rmtree(path, ignore_errors=True)


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
