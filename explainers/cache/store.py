"""Byte strings kept in a folder between runs, the least recently used dropped when they grow too many.

An entry is one file: a magic line, the SHA-256 of what follows, then what was kept. It is written under a name of its
own and renamed, so that several processes can share a folder and a killed one leaves it good; one that is damaged all
the same is dropped by whoever reads it. A cache that cannot be used is passed over with one warning: things are then
made anew, and nothing fails.
"""

from __future__ import annotations

import contextlib
import hashlib
import logging
import os
import re
import secrets
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Contents", "Store"]

_LOG = logging.getLogger("explainers")

_MAGIC = b"explainers cache 1\n"
_ENTRY = re.compile(r"[0-9a-f]{64}")
_UNFINISHED = ".part"
_ABANDONED_S = 3600.0  # an unfinished file as old as this belongs to a process that was killed
_ROOM = 0.9  # of the bound is left filled when entries are dropped, so that not every run has to drop some


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What a store holds."""

    entries: int
    bytes: int


class Store:
    """Entries by key, 64 hexadecimal digits each, in a folder that is made when the first is kept."""

    def __init__(self, folder: Path, bound: int, *, warn: bool = True) -> None:
        """`bound` is in bytes; a store of 0 keeps nothing and has nothing. Unusable, it warns once, or never."""
        self.folder = folder
        self.bound = bound
        self._warned = not warn

    def get(self, key: str) -> bytes | None:
        """What was kept under a key, which now counts as just used; None where there is nothing whole."""
        if self.bound <= 0:
            return None
        path = self._path(key)
        try:
            data = path.read_bytes()
        except FileNotFoundError:
            return None
        except OSError as error:
            self._passed_over(error)
            return None
        kept = data[len(_MAGIC) + 32 :]
        if data[: len(_MAGIC) + 32] != _MAGIC + hashlib.sha256(kept).digest():
            _removed(path)
            return None
        with contextlib.suppress(OSError):  # a folder that may only be read serves as well
            os.utime(path)
        return kept

    def has(self, key: str) -> bool:
        """Whether something was kept under a key, whole or not: cheaper than to read it."""
        return self.bound > 0 and self._path(key).exists()

    def put(self, key: str, data: bytes) -> None:
        """Keep a byte string; what was kept under the key before is replaced."""
        if self.bound <= 0:
            return
        path = self._path(key)
        unfinished = path.with_name(f"{key}-{secrets.token_hex(4)}{_UNFINISHED}")
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            try:
                # Not flushed to the disk: after a power cut the checksum tells, and it is made again.
                unfinished.write_bytes(_MAGIC + hashlib.sha256(data).digest() + data)
                unfinished.replace(path)
            except BaseException:
                _removed(unfinished)
                raise
        except OSError as error:
            self._passed_over(error)

    def trim(self) -> None:
        """Drop the least recently used entries where there are more bytes than the bound allows."""
        if self.bound <= 0:
            return
        now = time.time()
        files = []
        for file in self._files():
            try:
                state = file.stat()
            except OSError:
                continue  # dropped by another process just now
            if file.name.endswith(_UNFINISHED):
                if now - state.st_mtime > _ABANDONED_S:
                    _removed(Path(file.path))
                continue
            files.append((state.st_mtime, state.st_size, file.path))
        held = sum(size for _, size, _ in files)
        if held <= self.bound:
            return
        for _, size, path in sorted(files):
            if held <= self.bound * _ROOM:
                break
            if _removed(Path(path)):
                held -= size

    def contents(self) -> Contents:
        """How many entries there are, and their size in all."""
        sizes = []
        for file in self._files():
            try:
                sizes.append(file.stat().st_size)
            except OSError:
                continue
        return Contents(entries=len(sizes), bytes=sum(sizes))

    def clear(self) -> Contents:
        """Drop every entry; what was dropped is handed back. Files that are no entries are left alone."""
        count = size = 0
        for file in self._files():
            try:
                held = file.stat().st_size
            except OSError:
                continue
            if _removed(Path(file.path)):
                count, size = count + 1, size + held
        return Contents(entries=count, bytes=size)

    def _path(self, key: str) -> Path:
        return self.folder / key[:2] / key

    def _files(self) -> Iterator[os.DirEntry[str]]:
        """Every file that this module has put into the folder, finished or not."""
        try:
            groups = [group for group in os.scandir(self.folder) if re.fullmatch("[0-9a-f]{2}", group.name)]
        except OSError:
            return
        for group in groups:
            try:
                files = [file for file in os.scandir(group.path) if file.is_file(follow_symlinks=False)]
            except OSError:
                continue
            for file in files:
                if _ENTRY.fullmatch(file.name) or (_ENTRY.match(file.name) and file.name.endswith(_UNFINISHED)):
                    yield file

    def _passed_over(self, error: OSError) -> None:
        if not self._warned:
            self._warned = True
            reason = error.strerror or str(error)
            _LOG.warning("warning: nothing can be kept in %s (%s), so it will be drawn again", self.folder, reason)


def _removed(path: Path) -> bool:
    try:
        path.unlink()
    except OSError:
        return False
    return True
