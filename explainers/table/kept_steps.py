"""Steps to undo and redo, kept from one sitting with a file to the next in the folder of what can be dropped.

They are not beside the file, so that whoever is given the folder is not given what was in it before. By the place of
the file they are found again; what is found there is believed for its texts alone.
"""

from __future__ import annotations

import hashlib
import json
import zlib
from pathlib import Path
from typing import Any

from ..cache.store import Store
from .history import Steps

__all__ = ["KeptSteps"]

_LARGEST = 40_000_000  # bytes, unpacked
_NAME = "steps of a drawing 1"


class KeptSteps:
    """The steps of files in a store."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def of(self, path: Path) -> Steps | None:
        """Those that were kept of a file; None for none."""
        packed = self._store.get(_key(path))
        if packed is None:
            return None
        try:
            unpacker = zlib.decompressobj()
            found = json.loads(unpacker.decompress(packed, _LARGEST))
        except (zlib.error, ValueError, RecursionError):
            return None
        match found:
            case {"past": list(past), "text": str(text), "future": list(future)} if _are_texts(past, future):
                return Steps(past=tuple(past), text=text, future=tuple(future))
        return None

    def keep(self, path: Path, steps: Steps) -> None:
        """Keep those of a file in the place of what was kept of it."""
        if not steps.past and not steps.future:
            return
        told = {"past": steps.past, "text": steps.text, "future": steps.future}
        self._store.put(_key(path), zlib.compress(json.dumps(told).encode("ascii")))


def _key(path: Path) -> str:
    return hashlib.sha256(f"{_NAME} {path}".encode("utf-8", "surrogateescape")).hexdigest()


def _are_texts(*lists: list[Any]) -> bool:
    return all(isinstance(each, str) for texts in lists for each in texts)
