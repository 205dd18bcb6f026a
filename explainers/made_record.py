"""A note of what was made in a folder: from what, and with what content.

The note is a small JSON file beside the outputs. Of each output it tells a fingerprint of everything that decides how
it looks; of each file which output it belongs to, its size and the hash of what was written. So a second run over
unchanged input does nothing, and a file that somebody has changed since is known. The note may come with a folder from
anywhere: one that cannot be read, or says anything unexpected, counts as none; then all is made again.

Nothing of a note is believed for removing a file but together with the file's own content. ``sources`` tells, by key,
what a file was made from, seen from the folder: another lesson of the same name is known by it while its file is
there.
"""

from __future__ import annotations

import hashlib
import json
import os
import stat
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from importlib import metadata
from pathlib import Path
from typing import Any

from .safe_write import write_text

__all__ = [
    "NO_RECORD",
    "RECORD_NAME",
    "FileNote",
    "MadeRecord",
    "OutputNote",
    "fingerprint",
    "is_plain_name",
    "read_record",
    "write_record",
]

RECORD_NAME = ".made.json"

_LARGEST = 8_000_000  # bytes; the note of a lesson with a thousand stills has a quarter of a million
_FORMAT = 2
_PLAIN = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0)
_DEEPEST = 2  # parts of a name: a file of the folder, or of a folder in it

# A new version of any of these may draw, lay out or encode differently.
LIBRARIES = (
    "av",
    "brotli",
    "fontpkg-atkinson-hyperlegible",
    "fonttools",
    "manim",
    "manimpango",
    "numpy",
    "pydyf",
    "python-pptx",
    "shapely",
    "weasyprint",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FileNote:
    """What is known of one file."""

    key: str  # the output that it belongs to
    size: int  # bytes
    prints: tuple[str, ...] = ()  # SHA-256 of what was written, as hex digits; the last is the newest


@dataclass(frozen=True, slots=True, kw_only=True)
class OutputNote:
    """An output that was made to its end."""

    made_from: str  # the fingerprint
    beside: str = ""  # of an output that lists the folder: a print of all that was in it


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeRecord:
    """What was made in a folder; files by their names relative to it, outputs by keys."""

    files: Mapping[str, FileNote] = field(default_factory=dict)
    outputs: Mapping[str, OutputNote] = field(default_factory=dict)
    sources: Mapping[str, tuple[str, ...]] = field(default_factory=dict)  # name -> the files it was made from

    def files_of(self, key: str) -> tuple[str, ...]:
        """The names of the files of an output."""
        return tuple(name for name, note in self.files.items() if note.key == key)

    def with_files(self, notes: Mapping[str, FileNote]) -> MadeRecord:
        """The record with these files added, or in place of what it said of them."""
        return replace(self, files={**self.files, **notes})

    def without_files(self, names: Sequence[str]) -> MadeRecord:
        """The record without these files."""
        return replace(self, files={name: note for name, note in self.files.items() if name not in names})

    def with_output(self, key: str, note: OutputNote | None) -> MadeRecord:
        """The record with an output that was made to its end, or, with None, with one that was not."""
        others = {other: known for other, known in self.outputs.items() if other != key}
        return replace(self, outputs=others if note is None else {**others, key: note})

    def with_sources(self, name: str, files: tuple[str, ...]) -> MadeRecord:
        """The record with the files that what is called `name` was made from."""
        return replace(self, sources={**self.sources, name: files})


NO_RECORD = MadeRecord()


def read_record(folder: Path) -> MadeRecord:
    """The note in a folder; ``NO_RECORD`` where there is none that makes sense."""
    try:
        return _record(json.loads(_note_text(folder / RECORD_NAME)))
    except (OSError, ValueError, KeyError, TypeError, AttributeError, OverflowError, RecursionError):
        return NO_RECORD


def write_record(folder: Path, record: MadeRecord) -> None:
    """Write the note into the folder, whole or not at all.

    Raises : OutputError where it cannot be written
    """
    note: dict[str, Any] = {"format": _FORMAT, "outputs": {}, "files": {}, "sources": {}}
    for key, output in record.outputs.items():
        note["outputs"][key] = {"made_from": output.made_from, **({"beside": output.beside} if output.beside else {})}
    for name, file in record.files.items():
        note["files"][name] = {"of": file.key, "size": file.size, "sha256": list(file.prints)}
    for called, files in record.sources.items():
        note["sources"][called] = list(files)
    write_text(folder / RECORD_NAME, json.dumps(note, indent=1, sort_keys=True) + "\n")


def fingerprint(
    inputs: Sequence[Path], options: Sequence[str] = (), *, digests: Mapping[Path, bytes] | None = None
) -> str:
    """One string that changes with the input files, the options, this program or a library that it draws with.

    inputs  : files in a fixed order; their names count too, since step ids are made of names
    digests : the SHA-256 of those that have been read, as they were then
    """
    known = digests or {}
    digest = hashlib.sha256(_program().encode())
    for option in options:
        digest.update(b"\0option\0" + option.encode())
    for path in inputs:
        held = known.get(path) or hashlib.sha256(path.read_bytes()).digest()
        digest.update(b"\0input\0" + path.name.encode() + b"\0" + held)
    return digest.hexdigest()


def is_plain_name(name: str) -> bool:
    """Whether a name is such as our writers give, relative to the folder: not hidden, not absolute, no way up."""
    parts = name.split("/")
    return len(parts) <= _DEEPEST and all(part and not part.startswith(".") and part.isprintable() for part in parts)


def _note_text(path: Path) -> str:
    """The text of a note that is a plain file of a sensible size: neither a pipe nor a link to a device."""
    handle = os.open(path, os.O_RDONLY | _PLAIN)
    with open(handle, "rb") as stream:
        state = os.fstat(handle)
        if not stat.S_ISREG(state.st_mode) or state.st_size > _LARGEST:
            raise ValueError("no note")
        return stream.read(_LARGEST + 1).decode("utf-8")


def _record(note: Any) -> MadeRecord:
    if note.get("format") != _FORMAT:
        return _of_before(note)
    files = {
        _name(name): FileNote(key=_text(file["of"]), size=_size(file["size"]), prints=tuple(map(_text, file["sha256"])))
        for name, file in note["files"].items()
    }
    outputs = {
        _text(key): OutputNote(made_from=_text(output["made_from"]), beside=_text(output.get("beside", "")))
        for key, output in note["outputs"].items()
    }
    sources = {_text(name): tuple(map(_text, paths)) for name, paths in note["sources"].items()}
    return MadeRecord(files=files, outputs=outputs, sources=sources)


def _of_before(note: Any) -> MadeRecord:
    """A note of the first format, which knew files by their sizes alone: enough to write over them, never to remove."""
    sizes = {name: size for files in note["outputs"].values() for name, size in files.items()}
    return MadeRecord(files={_name(name): FileNote(key="", size=_size(size)) for name, size in sizes.items()})


def _name(name: Any) -> str:
    if not is_plain_name(_text(name)):
        raise ValueError("no file of ours")
    return str(name)


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise ValueError("no text")
    value.encode("utf-8")  # a half of a surrogate pair is no part of a name
    return value


def _size(value: Any) -> int:
    if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value < 1 << 53:
        raise ValueError("no size")
    return value


@cache
def _program() -> str:
    """A hash over this program's own source and the versions of the libraries that decide what outputs look like."""
    digest = hashlib.sha256()
    ours = Path(__file__).parent
    for package in (ours, ours.parent / "scenes"):
        for path in sorted(package.rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                digest.update(path.relative_to(package.parent).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    for library in LIBRARIES:
        try:
            version = metadata.version(library)
        except metadata.PackageNotFoundError:
            version = "missing"
        digest.update(f"{library}={version}\0".encode())
    return digest.hexdigest()
