"""Drawing in a process of its own, so that no file can hold up the one that watches.

A file that takes long is given up as soon as it has changed, or else when it has had its time; one that brings the
process down costs that process alone.
"""

from __future__ import annotations

from pathlib import Path

from ..errors import Fault
from ..figure.theme import DEFAULT_THEME, Theme
from ..process_apart import GivenUp, Lost, ProcessApart, TookTooLong
from .drawn import Drawn, drawn, failed

__all__ = ["DrawingApart"]

_LONGEST_S = 20.0


class DrawingApart(ProcessApart):
    """Draws as ``drawn`` does, elsewhere; call it with a path and a theme."""

    def __init__(self, *, longest_s: float = _LONGEST_S) -> None:
        """longest_s : how long one file may take"""
        super().__init__(drawn, longest_s=longest_s)

    def __call__(self, path: Path, theme: Theme = DEFAULT_THEME) -> Drawn | None:
        """The file drawn, or None where it has changed before that was done."""
        state = _state(path)
        try:
            found: Drawn = self.done(path, theme, unwanted=lambda: _state(path) != state)
        except GivenUp:
            return None
        except TookTooLong:
            return Drawn(faults=(_too_long(path, self._longest_s),))
        except Lost as lost:
            return Drawn(faults=(failed(path, f"the drawing process ended with code {lost.code}"),))
        return found


def _too_long(path: Path, longest_s: float) -> Fault:
    return Fault(
        file=str(path),
        field="",
        message=f"this takes longer than {longest_s:g} s to solve",
        fix="use fewer corners or pieces, or write the options out where they are to be made",
    )


def _state(path: Path) -> tuple[int, int, int] | None:
    try:
        state = path.stat()
    except (OSError, ValueError):
        return None
    return state.st_mtime_ns, state.st_ino, state.st_size
