"""Where in a file each field stands: lines by field path, and faults placed at the line of their field."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from ..errors import Fault

__all__ = ["IN_PLACE_OF_CORNERS", "SourceMap", "in_line_order"]

# Keys that give an outline without listing its corners, of which other rooms know nothing.
IN_PLACE_OF_CORNERS = ("walk", "ready")
_CORNERS = re.compile(r"(.*\.)corners\b")
_LAST_PART = re.compile(r"(\.[^.\[\]]*|\[\d+\]|^[^.\[\]]+)$")


@dataclass(frozen=True, slots=True)
class SourceMap:
    """The line of every field of one file."""

    file: str
    lines: Mapping[str, int] = field(default_factory=dict)  # field path -> line, counted from 1

    def line_of(self, path: str) -> int:
        """The line of a field, or else of the nearest thing known around it; 0 when nothing is known."""
        while path not in self.lines and path:
            path = _LAST_PART.sub("", path) if _LAST_PART.search(path) else ""
        return self.lines.get(path, 0)

    def placed(self, faults: Iterable[Fault]) -> tuple[Fault, ...]:
        """The faults with file and line filled in where they are not known yet, in line order.

        A fault of another file is left as it is: its field says nothing about a line of this one.
        """
        return in_line_order(self._placed(fault) if fault.file in ("", self.file) else fault for fault in faults)

    def _placed(self, fault: Fault) -> Fault:
        path = self._as_written(fault.field)
        return replace(fault, field=path, file=self.file, line=fault.line or self.line_of(path))

    def _as_written(self, path: str) -> str:
        """A field of an outline's corners, where the file gives them by another key: that key."""
        corners = _CORNERS.match(path)
        if corners is None or corners[0] in self.lines:
            return path
        written = (corners[1] + other for other in IN_PLACE_OF_CORNERS)
        return next((other for other in written if other in self.lines), path)


def in_line_order(faults: Iterable[Fault]) -> tuple[Fault, ...]:
    """Sorted by line within a file, files in the order in which they first appear; the same fault only once."""
    unique = list(dict.fromkeys(faults))
    rank = {file: index for index, file in reversed(list(enumerate(fault.file for fault in unique)))}
    return tuple(sorted(unique, key=lambda fault: (rank[fault.file], fault.line)))
