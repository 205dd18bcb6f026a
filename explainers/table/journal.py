"""A journal beside a file: every change on the disk before it is answered, so that nothing is lost however it ends.

A hidden file, one JSON value a line: the text that a sitting began from, each text after it, and what the file was
known by when a text had been written to it. A line that is torn is passed over. The journal is locked while it is
used; the system gives the lock back when its owner ends, however it ends. What it holds may come from anybody: it is
believed for its texts alone.
"""

from __future__ import annotations

import json
import os
import stat
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..errors import OutputError
from ..safe_write import reported
from .history import CHANGE

try:
    import fcntl
except ImportError:  # not a Unix
    fcntl = None  # type: ignore[assignment]

__all__ = ["Journal", "LeftBehind", "journal_of"]

_ENDING = ".explainers-journal"
_LARGEST = 64_000_000  # bytes of one that is read
_GROWN = 2_000_000  # bytes after which it begins anew, once the file has everything


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftBehind:
    """What a sitting left that did not end well."""

    base: str  # the text that the file had, as far as the sitting knew
    digest: str  # by which the file was known then; "": there was none
    text: str  # the last one
    began: str  # the text that it was begun from
    moves: tuple[tuple[str, str], ...]  # (how, text) of each one after that: see ``history``


def journal_of(path: Path) -> Path:
    """Where the journal of a file stands."""
    return path.with_name(f".{path.name}{_ENDING}")


class Journal:
    """The journal of one file, held by one process at a time."""

    def __init__(self, path: Path) -> None:
        """Opens it, or makes it.

        path   : of the file that it is for
        Raises : OutputError where it cannot be kept, or another process holds it
        """
        self.path = journal_of(path)
        self.left = None
        with reported(self.path):
            self.path.parent.mkdir(parents=True, exist_ok=True)
        while True:
            with reported(self.path):
                flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_CLOEXEC", 0)
                self._handle = os.open(self.path, flags, 0o600)
            if not stat.S_ISREG(os.fstat(self._handle).st_mode):
                os.close(self._handle)
                raise OutputError(f"{self.path}: this is no plain file. To mend it: take it away.")
            self._lock(path)
            # The one that had it may have taken it away before the lock was ours.
            if self.path.exists() and os.path.samestat(self.path.stat(), os.fstat(self._handle)):
                break
            os.close(self._handle)
        self.left = self._read()
        self._flush_folder()

    def begin(self, text: str, digest: str) -> None:
        """Begin anew from a text that the file has, or, with no digest, from one that no file has yet."""
        with reported(self.path):
            os.ftruncate(self._handle, 0)
            self._append({"begin": text, "digest": digest})

    def add(self, text: str, move: str = CHANGE) -> None:
        """A further text, and whether it is a step back or forth; on the disk when this returns."""
        with reported(self.path):
            self._append({"text": text} if move == CHANGE else {"text": text, "move": move})

    def known(self, base: str, digest: str, text: str) -> bool:
        """The file has a text now, by which it is known, and this is the text that is drawn.

        Returns : whether the journal was begun anew, so that it has no longer what was before
        """
        with reported(self.path):
            if text == base and os.fstat(self._handle).st_size > _GROWN:
                self.begin(base, digest)
                return True
            self._append({"known": base, "digest": digest, "text": text})
            return False

    def close(self, *, keep: bool) -> None:
        """Let go of it.

        keep : whether it has what the file has not
        """
        if not keep:
            self.path.unlink(missing_ok=True)
        os.close(self._handle)

    def _append(self, line: dict[str, Any]) -> None:
        data = json.dumps(line, ensure_ascii=False, separators=(",", ":")).encode("utf-8") + b"\n"
        if os.lseek(self._handle, 0, os.SEEK_END):
            os.lseek(self._handle, -1, os.SEEK_END)
            if os.read(self._handle, 1) != b"\n":  # torn by whatever ended the sitting before
                data = b"\n" + data
        while data:
            data = data[os.write(self._handle, data) :]
        os.fsync(self._handle)

    def _lock(self, path: Path) -> None:
        if fcntl is None:
            return
        try:
            fcntl.flock(self._handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError as error:
            os.close(self._handle)
            raise OutputError(
                f"{path}: it is being drawn already. To mend it: use that page, or end the other command."
            ) from error
        except OSError:  # a file system without locks
            return

    def _read(self) -> LeftBehind | None:
        size = os.fstat(self._handle).st_size
        if not 0 < size <= _LARGEST:
            return None
        with open(os.dup(self._handle), "rb") as stream:
            stream.seek(0)
            lines = stream.read(size).split(b"\n")
        base, digest, text, began = None, "", None, ""
        moves: list[tuple[str, str]] = []
        for line in _values(lines):
            match line:
                case {"begin": str(begun), "digest": str(known)}:
                    base, digest, text, began = begun, known, begun, begun
                    moves.clear()
                case {"known": str(begun), "digest": str(known), "text": str(later)}:
                    base, digest, text = begun, known, later
                    moves.append((CHANGE, later))
                case {"text": str(later), "move": ("undo" | "redo") as move}:
                    text = later
                    moves.append((move, later))
                case {"text": str(later)}:
                    text = later
                    moves.append((CHANGE, later))
        if base is None or text is None:
            return None
        return LeftBehind(base=base, digest=digest, text=text, began=began, moves=tuple(moves))

    def _flush_folder(self) -> None:
        with suppress(OSError):  # some file systems cannot flush a folder
            folder = os.open(self.path.parent, os.O_RDONLY)
            try:
                os.fsync(folder)
            finally:
                os.close(folder)


def _values(lines: list[bytes]) -> Iterator[Any]:
    """What each line holds that holds anything."""
    for line in lines:
        if not line:
            continue
        try:
            yield json.loads(line)
        except (ValueError, RecursionError):
            continue
