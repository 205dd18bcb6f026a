"""The text of a file, refused by its size before it is read, or by its encoding."""

from __future__ import annotations

import re
from pathlib import Path

from ..errors import Fault

__all__ = ["MAX_BYTES", "Unreadable", "text_of_file"]

MAX_BYTES = 1_000_000

_UNREADABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


class Unreadable(Exception):
    """The file cannot be read any further."""

    def __init__(self, message: str, fix: str, line: int = 0) -> None:
        super().__init__(message)
        self.fault = Fault(field="", message=message, fix=fix, line=line)


def text_of_file(path: Path) -> str:
    """The file's text, refused by its size before it is read."""
    try:
        if path.is_dir():
            raise Unreadable("this is a folder, not a file", "name a file that ends in .yaml")
        if not path.exists():
            raise Unreadable("there is no such file", "check the name and the folder")
        if not path.is_file():
            raise Unreadable("this is not a plain file", "name a file that ends in .yaml")
        size = path.stat().st_size
        with path.open("rb") as stream:
            raw = b"" if size > MAX_BYTES else stream.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise Unreadable(f"the file cannot be opened: {reason}", "check the file and who may read it") from error
    if size > MAX_BYTES or len(raw) > MAX_BYTES:
        raise Unreadable(
            f"the file has {max(size, len(raw)):,} bytes; an item never needs more than {MAX_BYTES:,}",
            "make sure that this is the file you meant",
        )
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise Unreadable("the file is saved as UTF-16", "save it again as UTF-8 (in the editor: Save as, Encoding)", 1)
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Unreadable(
            "a character here is not UTF-8; the file was saved in an older encoding",
            "save it again as UTF-8 (in the editor: Save as, Encoding)",
            raw.count(b"\n", 0, error.start) + 1,
        ) from error
    odd = _UNREADABLE.search(text)
    if odd:
        raise Unreadable(
            f"the file holds a character that cannot be shown (U+{ord(odd.group()):04X})",
            "delete that character; in a text file none is needed",
            text.count("\n", 0, odd.start()) + 1,
        )
    return text
