"""A note of what a folder's outputs were made from, so that a second run over unchanged input does nothing.

The note is a small JSON file beside the outputs: a fingerprint of everything that decides how they look, then the files
made for each output with their sizes. It is written last. If it cannot be read, or says anything unexpected, the
outputs are made again; so a wrong note costs time, never a wrong output.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from importlib import metadata
from pathlib import Path

from .safe_write import write_text

__all__ = ["RECORD_NAME", "Record", "fingerprint", "read_record"]

RECORD_NAME = ".made.json"

# A new version of any of these may draw, lay out or encode differently.
LIBRARIES = (
    "av",
    "fontpkg-atkinson-hyperlegible",
    "fonttools",
    "manim",
    "manimpango",
    "numpy",
    "python-pptx",
    "shapely",
)


@dataclass(frozen=True, slots=True)
class Record:
    """What was made in `folder`, by output; sizes in bytes by path relative to the folder."""

    folder: Path
    made_from: str  # the fingerprint
    outputs: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    beside: str = ""  # a print of all that was in the folder when the output that lists it was made

    def still_holds(self, output: str) -> bool:
        """Whether every file of an output is there, as large as it was when made."""
        files = self.outputs.get(output)
        return bool(files) and all(_size(self.folder / name) == size for name, size in (files or {}).items())

    def files(self, output: str) -> tuple[Path, ...]:
        """The files that an output was made of."""
        return tuple(self.folder / name for name in self.outputs.get(output, ()))

    def with_output(self, output: str, paths: Iterable[Path]) -> Record:
        """The record once `output` has been made of `paths`, which lie in the folder."""
        files = {path.relative_to(self.folder).as_posix(): path.stat().st_size for path in paths}
        return replace(self, outputs={**self.outputs, output: files})

    def lists(self, output: str) -> bool:
        """Whether an output that lists the folder still holds, and the folder is as it was then."""
        return self.still_holds(output) and self.beside == self._print(output)

    def with_list(self, output: str, paths: Iterable[Path]) -> Record:
        """The record once an output that lists the folder has been made of `paths`."""
        made = self.with_output(output, paths)
        return replace(made, beside=made._print(output))

    def _print(self, output: str) -> str:
        """Changes with every file that is put beside an output, or taken away, or is of another size."""
        own = set(self.files(output))
        digest = hashlib.sha256()
        for path in sorted(self.folder.rglob("*")) if self.folder.is_dir() else ():
            name = path.relative_to(self.folder)
            if path not in own and not any(part.startswith(".") for part in name.parts):
                digest.update(f"{name.as_posix()}\0{_size(path)}\0".encode())
        return digest.hexdigest()

    def write(self) -> None:
        """Write the note into the folder, whole or not at all."""
        note = {"made_from": self.made_from, "outputs": self.outputs, "beside": self.beside}
        write_text(self.folder / RECORD_NAME, json.dumps(note, indent=1, sort_keys=True) + "\n")


def read_record(folder: Path) -> Record | None:
    """The note in a folder, or None where there is none that can be trusted."""
    try:
        note = json.loads((folder / RECORD_NAME).read_text(encoding="utf-8"))
        outputs = {
            str(output): {name: int(size) for name, size in files.items() if _stays_inside(name)}
            for output, files in note["outputs"].items()
        }
        return Record(folder, str(note["made_from"]), outputs, str(note.get("beside", "")))
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def fingerprint(inputs: Sequence[Path], options: Sequence[str] = ()) -> str:
    """One string that changes with the input files, the options, this program or a library that it draws with.

    inputs : files in a fixed order; their names count too, since step ids are made of names
    """
    digest = hashlib.sha256(_program().encode())
    for option in options:
        digest.update(b"\0option\0" + option.encode())
    for path in inputs:
        digest.update(b"\0input\0" + path.name.encode() + b"\0" + hashlib.sha256(path.read_bytes()).digest())
    return digest.hexdigest()


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


def _size(path: Path) -> int | None:
    try:
        return path.stat().st_size if path.is_file() else None
    except OSError:
        return None


def _stays_inside(name: str) -> bool:
    """A note that came with a folder from elsewhere must not have us look at, or remove, files outside it."""
    path = Path(name)
    return not path.is_absolute() and ".." not in path.parts
