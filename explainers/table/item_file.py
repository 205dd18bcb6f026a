"""The file of an item as bytes: read with what it is known by, written only when whole and only over what was seen."""

from __future__ import annotations

import hashlib
import shutil
import stat
from dataclasses import dataclass
from pathlib import Path

from ..document.file_text import Unreadable, text_in
from ..safe_write import reported, whole_file

__all__ = ["FileState", "read_file", "written_file"]

_BOM = b"\xef\xbb\xbf"  # some editors begin a file with it


@dataclass(frozen=True, slots=True, kw_only=True)
class FileState:
    """A file as it was seen."""

    digest: str = ""  # of its bytes; "" for none
    text: str | None = None  # None where there is no file, or none that is text
    marked: bool = False  # whether it begins with the mark of UTF-8
    fault: str = ""  # why it is no text

    @property
    def is_there(self) -> bool:
        return bool(self.digest)


def read_file(path: Path, most: int) -> FileState:
    """The file as it stands; never raises for what it holds.

    most   : bytes
    Raises : OutputError where the system does not let it be read
    """
    with reported(path):
        try:
            if not stat.S_ISREG(path.stat().st_mode):  # one that waits for a writer would hold everything up
                return FileState(digest="other", fault="this is not a plain file")
            with path.open("rb") as stream:
                raw = stream.read(most + 1)
        except FileNotFoundError:
            return FileState()
    digest = hashlib.sha256(raw).hexdigest()
    if len(raw) > most:
        return FileState(digest=digest, fault=f"the file has more than {most:,} bytes")
    try:
        return FileState(digest=digest, text=text_in(raw), marked=raw.startswith(_BOM))
    except Unreadable as stop:
        return FileState(digest=digest, fault=stop.fault.message)


def written_file(path: Path, text: str, *, marked: bool) -> FileState:
    """The file with this text, whole or not at all, its rights as before.

    Raises : OutputError
    """
    raw = (_BOM if marked else b"") + text.encode("utf-8")
    with whole_file(path) as unfinished:
        unfinished.write_bytes(raw)
        if path.exists():
            shutil.copymode(path, unfinished)
    return FileState(digest=hashlib.sha256(raw).hexdigest(), text=text, marked=marked)
