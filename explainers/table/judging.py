"""Who judges the texts of a sitting: this process, or another one that no text can hold up."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from ..errors import Fault
from ..process_apart import Lost, ProcessApart, TookTooLong
from .mends import mends_of
from .sitting import reading_of
from .state import Judged, Sheets, judged, later_of, state_of

__all__ = ["LATER", "MENDS", "STATE", "Judge", "JudgingApart", "answered"]

STATE, LATER, MENDS = "state", "later", "mends"
_LONGEST_S = 20.0
_SHEETS = Sheets()

Judge = Callable[[str, str, Path, Callable[[], bool]], dict[str, Any]]
"""(which answer, text, path, whether nobody wants it any more) -> the answer; raises GivenUp."""


def answered(which: str, text: str, path: Path, unwanted: Callable[[], bool] | None = None) -> dict[str, Any]:
    """The first or the second answer about a text; never raises for what it holds."""
    now = _judged_once(text, path)
    try:
        return _answer(which, now, path)
    except Exception as error:  # a fault of ours must not end the drawing: the next change may be past it
        return refused(which, text, path, f"the program itself failed here ({type(error).__name__})")


class JudgingApart(ProcessApart):
    """Judges as ``answered`` does, elsewhere."""

    def __init__(self, *, longest_s: float = _LONGEST_S) -> None:
        """longest_s : how long one answer may take"""
        super().__init__(answered, longest_s=longest_s)

    def __call__(self, which: str, text: str, path: Path, unwanted: Callable[[], bool]) -> dict[str, Any]:
        """The answer.

        Raises : GivenUp
        """
        try:
            found: dict[str, Any] = self.done(which, text, path, unwanted=unwanted)
        except TookTooLong:
            return refused(which, text, path, f"this takes longer than {self._longest_s:g} s to solve")
        except Lost as lost:
            return refused(which, text, path, f"the program itself failed here (code {lost.code})")
        return found


def refused(which: str, text: str, path: Path, message: str) -> dict[str, Any]:
    """The answer where there is none."""
    fix = "undo the last change, or use fewer corners or pieces, or write out the options that are to be made"
    fault = Fault(field="", file=str(path), message=message, fix=fix)
    reading = replace(reading_of(text, path), begun=None)  # nothing of it is solved here
    now = Judged(text=text, reading=reading, solution=None, faults=(fault,))
    if which == MENDS:
        return {"mends": [], "failed": message}
    return _answer(which, now, path) if which == STATE else {**_answer(which, now, path), "failed": message}


def _answer(which: str, now: Judged, path: Path) -> dict[str, Any]:
    if which == MENDS:
        return mends_of(now, path)
    return state_of(now, _SHEETS) if which == STATE else later_of(now)


@lru_cache(maxsize=2)
def _judged_once(text: str, path: Path) -> Judged:
    return judged(text, path)
