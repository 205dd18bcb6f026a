"""The lessons that show an item: found beside it, named by whoever opened the page, or made of the item alone.

A page names a lesson by what it was told here; nothing that it says becomes a path.
"""

from __future__ import annotations

import json
import os
import re
from pathlib import Path

from ..document.composing import compose_file
from ..document.file_text import MAX_BYTES, place_of
from ..document.nodes import ListNode, MapNode, text_at
from ..document.yaml_text import text_yaml
from ..errors import OutputError
from ..item.folder import kind_of_file
from ..safe_write import reported, work_folder

__all__ = ["LessonsBeside", "Stamp", "shown_items", "stamp_of"]

_MOST_LOOKED_AT = 500  # files of the folder
_NO_NAME = re.compile(r"[^a-z0-9]+")
_PLAIN_FILE = re.compile(r"[A-Za-z][A-Za-z0-9_-]*\.yaml")

Stamp = tuple[int, int]
"""When a file was changed last, and its size: another one whenever it was written."""


def stamp_of(path: Path) -> Stamp:
    """Of a file as it stands; (0, 0) where there is none."""
    try:
        seen = path.stat()
    except OSError:
        return (0, 0)
    return seen.st_mtime_ns, seen.st_size


class LessonsBeside:
    """The lessons that show one item."""

    def __init__(self, item: Path, given: Path | None = None) -> None:
        """given : a lesson that shows it, wherever it stands"""
        self._item, self._given = item, given.resolve() if given is not None else None
        self._looked: dict[Path, tuple[Stamp, bool]] = {}

    def found(self) -> dict[str, Path]:
        """By the names that a page is told, the given one first; read anew where a file has changed."""
        paths = [] if self._given is None else [self._given]
        try:
            with os.scandir(self._item.parent) as entries:
                names = sorted(entry.name for entry in entries if entry.name.endswith(".yaml"))
        except OSError:
            names = []
        paths += [self._item.parent / name for name in names[:_MOST_LOOKED_AT]]
        places = dict.fromkeys(path for path in paths if path != self._item and self._shows(path))
        found: dict[str, Path] = {}
        for path in places:
            if not any(place_of(path) == place_of(other) for other in found.values()):
                found[os.path.relpath(path, self._item.parent)] = path
        return found

    def offered(self) -> str:
        """The name of a lesson that could be made of the item: beside it, and free."""
        names = (f"{self._item.stem}-lesson{number}.yaml" for number in ("", *(f"-{n}" for n in range(2, 1000))))
        return next(name for name in names if not os.path.lexists(self._item.parent / name))

    def made(self, offered: str, title: str) -> Path | None:
        """A lesson of the item alone under the name that was offered; None where that is taken by now.

        Raises : OutputError where it cannot be written
        """
        if offered != self.offered():
            return None
        path = self._item.parent / self.offered()
        name = _NO_NAME.sub("-", path.stem.lower()).strip("-")
        show = self._item.name if _PLAIN_FILE.fullmatch(self._item.name) else json.dumps(self._item.name)
        lines = [f"lesson: {text_yaml(name)}", *([f"title: {text_yaml(title)}"] if title else [])]
        lines += ["parts:", f"  - {{show: {show}, as: worked-example}}"]
        with reported(path), work_folder(path.parent) as work:
            (work / path.name).write_text("\n".join(lines) + "\n", encoding="utf-8")
            try:
                os.link(work / path.name, path)  # unlike renaming, this never takes the place of another file
            except FileExistsError:
                return None
            except OSError:  # a file system without such names
                try:
                    with path.open("xb") as stream:
                        stream.write((work / path.name).read_bytes())
                except FileExistsError:
                    return None
        return path

    def _shows(self, path: Path) -> bool:
        stamp = stamp_of(path)
        known = self._looked.get(path)
        if known is None or known[0] != stamp:
            known = self._looked[path] = (stamp, stamp != (0, 0) and _shows(path, self._item))
        return known[1]


def _shows(path: Path, item: Path) -> bool:
    """Whether a file is a lesson with a part that shows the item, whatever else is wrong in it."""
    if not path.is_file():  # one that waits for a writer would hold everything up
        return False
    try:
        with path.open("rb") as stream:
            if item.name.encode() not in stream.read(MAX_BYTES):  # most files of a large folder: not read any further
                return False
    except (OSError, UnicodeEncodeError):
        return False
    if kind_of_file(path) != "lesson" or (root := compose_file(path).root) is None:
        return False
    parts = root.entries.get("parts")
    if parts is None or not isinstance(parts.value, ListNode):
        return False
    shown = [text_at(part, "show", most=1000) for part in parts.value.items if isinstance(part, MapNode)]
    return any(name and place_of(path.parent / name) == place_of(item) for name in shown)


def shown_items(lesson: Path) -> dict[str, Path]:
    """The files that a lesson shows, by their names without the ending, as far as it can be read.

    Raises : OutputError where it shows none
    """
    root = compose_file(lesson).root
    parts = root.entries.get("parts") if root is not None else None
    nodes = parts.value.items if parts is not None and isinstance(parts.value, ListNode) else ()
    shown = [text_at(part, "show", most=1000) for part in nodes if isinstance(part, MapNode)]
    found = {Path(name).stem: lesson.parent / name for name in shown if name}
    if not found:
        raise OutputError(f"{lesson}: this lesson shows no item. To mend it: list one under parts, or name an item.")
    return found
