"""The text of a file, refused by its size before it is read, or by its encoding; and the texts of a whole run."""

from __future__ import annotations

import hashlib
import os
import re
from collections.abc import Callable, Iterable
from pathlib import Path

from ..errors import Fault

__all__ = ["MAX_BYTES", "OpenedFiles", "TextOf", "Unreadable", "place_of", "text_in", "text_of_file"]

MAX_BYTES = 1_000_000
_MOST_HELD = 64_000_000  # characters of the texts that are held at a time

_UNREADABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


TextOf = Callable[[Path], str]  # raises Unreadable, as ``text_of_file`` does


class Unreadable(Exception):
    """The file cannot be read any further."""

    def __init__(self, message: str, fix: str, line: int = 0) -> None:
        super().__init__(message)
        self.fault = Fault(field="", message=message, fix=fix, line=line)


def text_of_file(path: Path) -> str:
    """The file's text, refused by its size before it is read.

    Raises : Unreadable
    """
    return text_in(_bytes_of_file(path))


class OpenedFiles:
    """The texts of the files of one run, called as ``text_of_file``: each is opened once, however many ask for it.

    A file that is saved meanwhile counts as it was first seen, so that all that is said in a run is of one state.
    Texts beyond 64 million characters are let go, the oldest first: a file is opened again then, rather than that
    memory grows with the folder.
    """

    def __init__(self) -> None:
        self._texts: dict[str, str | Unreadable] = {}
        self._held = 0
        self._digests: dict[str, bytes] = {}

    def __call__(self, path: Path) -> str:
        """The text of a file.

        Raises : Unreadable
        """
        place = place_of(path)
        if place not in self._texts:
            self._texts[place] = self._opened(path, place)
            self._held += _length(self._texts[place])
            while self._held > _MOST_HELD and len(self._texts) > 1:
                self._held -= _length(self._texts.pop(next(iter(self._texts))))
        found = self._texts[place]
        if isinstance(found, Unreadable):
            raise found.with_traceback(None)
        return found

    def digests(self, paths: Iterable[Path]) -> dict[Path, bytes]:
        """The SHA-256 of what was read, of those files that have been opened."""
        places = {path: place_of(path) for path in paths}
        return {path: self._digests[place] for path, place in places.items() if place in self._digests}

    def _opened(self, path: Path, place: str) -> str | Unreadable:
        try:
            raw = _bytes_of_file(path)
            self._digests[place] = hashlib.sha256(raw).digest()
            return text_in(raw)
        except Unreadable as stop:
            return stop


def _length(held: str | Unreadable) -> int:
    return len(held) if isinstance(held, str) else 0


def place_of(path: Path) -> str:
    """By what a file is known, whatever it is called: where it stands once links are followed."""
    try:
        return os.path.realpath(path)  # unlike Path.resolve it lets a link to itself be, which reading tells of
    except (OSError, ValueError):
        return str(path)


def _bytes_of_file(path: Path) -> bytes:
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
    return raw


def text_in(raw: bytes) -> str:
    """The text that bytes hold.

    Raises : Unreadable
    """
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
