"""Files of others opened only where they are files: a pipe or a device would hold the run up, or never end."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path
from typing import BinaryIO

__all__ = ["check_plain", "opened_plain"]

_NOT_PLAIN = "it is not a plain file, but a pipe, a folder or a device"


def opened_plain(path: Path) -> BinaryIO:
    """The file, to be read as bytes; whoever asks closes it.

    Raises : OSError also where it is none
    """
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    try:
        if not stat.S_ISREG(os.fstat(handle).st_mode):
            raise OSError(errno.EINVAL, _NOT_PLAIN, str(path))
        return os.fdopen(handle, "rb")
    except BaseException:
        os.close(handle)
        raise


def check_plain(path: Path) -> None:
    """For a library that opens files itself.

    Raises : OSError where it is none
    """
    if not stat.S_ISREG(path.stat().st_mode):
        raise OSError(errno.EINVAL, _NOT_PLAIN, str(path))
