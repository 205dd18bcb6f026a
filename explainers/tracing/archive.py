"""Parts of a zipped document, each read to a bound: no bomb is unpacked, no name in it ever becomes a path."""

from __future__ import annotations

import io
import zipfile
import zlib

from .sketch import Refused

__all__ = ["MAX_ARCHIVE", "MAX_PART", "Archive"]

MAX_ARCHIVE = 50_000_000  # bytes as it comes, for pictures may lie in it
MAX_PART = 4_000_000  # bytes of one part when unpacked
MAX_PARTS = 10_000
_SAVE = "save the presentation anew as .pptx"
# Others may ask for much memory to unpack little.
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)


class Archive:
    """The parts of a document by their names.

    Raises : Refused where it is none, or too large
    """

    def __init__(self, data: bytes) -> None:
        if len(data) > MAX_ARCHIVE:
            raise Refused(f"the presentation has more than {MAX_ARCHIVE:,} bytes", "keep only the slide in it")
        try:
            self._zip = zipfile.ZipFile(io.BytesIO(data))
            entries = self._zip.infolist()
        except (zipfile.BadZipFile, ValueError, OSError, NotImplementedError, EOFError, UnicodeError) as error:
            raise Refused("the file is not a presentation, or is damaged", _SAVE) from error
        if len(entries) > MAX_PARTS:
            raise Refused(f"the presentation has more than {MAX_PARTS:,} parts", "keep only the slide in it")
        self._entries = {entry.filename: entry for entry in entries}
        if len(self._entries) != len(entries):
            raise Refused("two parts of the presentation have one name", _SAVE)

    def part(self, name: str) -> bytes | None:
        """What a part holds; None where there is none of that name.

        Raises : Refused where it is too large, locked or damaged
        """
        entry = self._entries.get(name)
        if entry is None:
            return None
        if entry.flag_bits & 1:
            raise Refused("the presentation is locked by a password", "save it without one")
        if entry.compress_type not in _METHODS:
            raise Refused("the presentation is packed in an unusual way", _SAVE)
        try:
            with self._zip.open(entry) as stream:
                data = stream.read(MAX_PART + 1)
        except (
            zipfile.BadZipFile,
            zlib.error,
            ValueError,
            OSError,
            NotImplementedError,
            EOFError,
            RuntimeError,
        ) as error:
            raise Refused("the presentation is damaged", _SAVE) from error
        if len(data) > MAX_PART:
            raise Refused(f"a part of the presentation has more than {MAX_PART:,} bytes", "keep only the shapes on it")
        return data
