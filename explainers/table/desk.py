"""A sitting with what is known of it, shared by requests and by whoever watches the file: each text is judged once."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

from ..document.file_text import MAX_BYTES
from ..document.merging import Clash
from ..editing.command import Command, command_from, described
from ..editing.sheet import CannotEdit
from ..errors import OutputError
from ..process_apart import GivenUp
from ..web.bell import Bell
from .judging import LATER, MENDS, STATE, Judge, answered
from .sitting import Changed, Clashed, Outcome, Sitting, kind_of_text
from .written_options import commands_of

__all__ = ["Desk", "Told"]

Told = tuple[int, dict[str, Any]]
"""An answer: its status as HTTP has it, and its JSON."""

_MOST_COMMANDS = 50  # of one edit
_OF_THE_PAGE = "this is a fault of the page: load it again"


class Desk:
    """One sitting; safe for several threads."""

    def __init__(self, sitting: Sitting, judge: Judge = answered, judge_later: Judge = answered) -> None:
        """judge, judge_later : give the first and the second answer, so that no change has to wait for the second"""
        self.sitting = sitting
        self.bell = Bell()  # rung whenever anything is other than before
        self.closed = False
        self._judge, self._judge_later = judge, judge_later
        self._judging, self._judging_later = threading.Lock(), threading.Lock()
        # Which answer -> the text of which it was given last, and what was given.
        self._answers: dict[str, tuple[str, dict[str, Any]]] = {which: ("", {}) for which in (STATE, LATER, MENDS)}

    @property
    def tag(self) -> str:
        """Stands for all that there is to tell: another one, whenever that has changed."""
        sitting = self.sitting
        other = sitting.other
        asked = "-" if other is None else f"{other.why} {other.digest[:8]}"  # a file that is gone has no digest
        return f"{sitting.revision} {int(sitting.is_saved)} {asked}"

    def commands(self) -> dict[str, type[Command]]:
        """Every command that this file knows, by its name."""
        return commands_of(kind_of_text(self.sitting.text))

    def described(self) -> list[dict[str, Any]]:
        """The commands for whoever writes a page."""
        return [described(command) for command in self.commands().values()]

    def state(self) -> dict[str, Any]:
        """All that a page shows, but what comes later."""
        with self._judging:
            revision, text = self._known(STATE)
            return {"revision": revision, **self._about_file(), "text": text, **self._answers[STATE][1]}

    def later(self) -> dict[str, Any]:
        """What takes longer, of the text as it stands."""
        with self._judging_later:
            revision, _ = self._known(LATER)
            return {"revision": revision, **self._answers[LATER][1]}

    def mends(self) -> dict[str, Any]:
        """What mends the faults and warnings of the text as it stands."""
        with self._judging_later:
            revision, _ = self._known(MENDS)
            return {"revision": revision, **self._answers[MENDS][1]}

    def edit(self, body: Any) -> Told:
        """Do what a page asks for: commands, or a whole text."""
        revision = _revision(body)
        if isinstance(body, dict) and isinstance(text := body.get("text"), str):
            if len(text) > MAX_BYTES:
                return 413, {"done": False, "why": "refused", "message": "the text is too long", "fix": "shorten it"}
            return self._done(lambda: self.sitting.write(text, revision))
        return self._done(lambda: self.sitting.edit(self._commands_in(body), revision))

    def tried(self, body: Any) -> Told:
        """What commands would come to, such as while a corner is dragged: nothing is done, and nothing kept."""
        try:
            sheet = self.sitting.tried(self._commands_in(body), _revision(body))
        except CannotEdit as error:
            return _refused(error)
        if sheet is None:
            return 409, {"done": False, "why": "stale", "clashes": [], "state": self.state()}
        with self._judging:
            found = self._judge(STATE, sheet.text, self.sitting.path, lambda: False)
        state = {"revision": _revision(body), **self._about_file(), "text": sheet.text, **found}
        return 200, {"done": False, "notes": [note.told() for note in sheet.notes], "state": state}

    def undo(self, body: Any) -> Told:
        """Take the last change back."""
        return self._done(lambda: self.sitting.undo(_revision(body)))

    def redo(self, body: Any) -> Told:
        """Do it again."""
        return self._done(lambda: self.sitting.redo(_revision(body)))

    def answer(self, body: Any) -> Told:
        """Say which text is meant."""
        keep = body.get("keep") if isinstance(body, dict) else None
        if keep not in ("ours", "theirs"):
            return _refused(CannotEdit("keep is ours or theirs", _OF_THE_PAGE))
        return self._done(lambda: self.sitting.answer(keep, _revision(body)))

    def look_at_file(self) -> None:
        """Take in what others did to the file."""
        try:
            changed = self.sitting.look_at_file()
        except OutputError:  # it cannot be read just now: looked at again with the next change
            return
        if changed:
            self.bell.ring()

    def close(self) -> None:
        """Let everybody go, and the file."""
        self.closed = True
        self.bell.ring()
        self.sitting.close()

    def _commands_in(self, body: Any) -> list[Command]:
        asked = body.get("commands") if isinstance(body, dict) else None
        if not isinstance(asked, list) or not 0 < len(asked) <= _MOST_COMMANDS:
            raise CannotEdit("no commands, or too many at once", _OF_THE_PAGE)
        known = self.commands()
        return [command_from(each, known) for each in asked]

    def _done(self, change: Callable[[], Outcome]) -> Told:
        try:
            outcome = change()
        except CannotEdit as error:
            return _refused(error)
        except OutputError as error:
            return 500, {"done": False, "why": "failed", "message": str(error), "fix": ""}
        finally:
            self.bell.ring()
        if isinstance(outcome, Changed):
            notes = [note.told() for note in outcome.notes]
            return 200, {"done": True, "notes": notes, "merged": outcome.merged, "state": self.state()}
        clashes = outcome.clashes if isinstance(outcome, Clashed) else ()
        why = "clash" if isinstance(outcome, Clashed) else "stale"
        return 409, {"done": False, "why": why, "clashes": [_clash(each) for each in clashes], "state": self.state()}

    def _known(self, which: str) -> tuple[int, str]:
        """The revision and the text of which an answer is there now; each text is judged once."""
        while True:
            revision, text = self.sitting.snapshot()
            if text == self._answers[which][0]:
                return revision, text
            try:
                judge = self._judge if which == STATE else self._judge_later
                found = judge(which, text, self.sitting.path, lambda: self.sitting.text != text)  # noqa: B023 - now
            except GivenUp:
                continue
            self._answers[which] = (text, found)
            return revision, text

    def _about_file(self) -> dict[str, Any]:
        sitting, other = self.sitting, self.sitting.other
        undo, redo = sitting.undo_steps
        asked = None if other is None else {
            "why": other.why, "fault": other.fault, "clashes": [_clash(each) for each in other.clashes],
            "has_text": other.text is not None,
        }  # fmt: skip
        return {
            "file": {
                "name": sitting.path.name,
                "saved": sitting.is_saved,
                "new": sitting.is_new,
                "taken_up": sitting.taken_up,
                "failed": sitting.failed,
                "other": asked,
            },
            "undo": undo,
            "redo": redo,
        }


def _revision(body: Any) -> int:
    found = body.get("revision") if isinstance(body, dict) else None
    return found if isinstance(found, int) and not isinstance(found, bool) else -1


def _refused(error: CannotEdit) -> Told:
    return 422, {"done": False, "why": "refused", "message": str(error), "fix": error.fix}


def _clash(clash: Clash) -> dict[str, Any]:
    return {
        "field": clash.field,
        "ours": {"text": clash.ours, "line": clash.our_line},
        "theirs": {"text": clash.theirs, "line": clash.their_line},
    }
