"""A file read whole, to a bound."""

from __future__ import annotations

from pathlib import Path

from ..plain_file import opened_plain
from .archive import MAX_ARCHIVE
from .sketch import Refused

__all__ = ["MOST_BYTES", "read_whole"]

MOST_BYTES = MAX_ARCHIVE


def read_whole(path: Path, most: int = MOST_BYTES) -> bytes:
    """What a file holds.

    Raises : Refused where it cannot be opened, or is too large
    """
    try:
        with opened_plain(path) as stream:
            data = stream.read(most + 1)
    except OSError as error:
        raise Refused(f"the file cannot be opened: {error.strerror or error}", "check its name") from error
    if len(data) > most:
        raise Refused(f"the file has more than {most:,} bytes", "keep only the question in it")
    return data
