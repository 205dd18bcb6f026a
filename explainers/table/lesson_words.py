"""A teacher's own words for a step, put into the lesson's file or taken out of it; the rest of the file stays.

The file is read anew for each change and written only over what was read: where another has changed the same words
meanwhile, nothing is written, and who asks is told of them.
"""

from __future__ import annotations

from pathlib import Path

from ..document.file_text import MAX_BYTES, text_of_file
from ..document.nodes import MapNode, ScalarNode
from ..document.text_edits import removed, with_value
from ..document.text_places import CannotEdit, composed_once
from ..document.yaml_text import text_yaml
from ..errors import Fault, OutputError
from ..intake.lesson_reader import LESSON
from ..intake.reader import scan_lesson
from .item_file import FileState, read_file, written_file

__all__ = ["WordsClash", "put_words", "with_words"]

_TRIES = 5


class WordsClash(Exception):
    """Others have given the step other words since."""

    def __init__(self, theirs: str) -> None:
        super().__init__("the words of this step are others now")
        self.theirs = theirs


def put_words(path: Path, step_id: str, said: str, was: str) -> None:
    """Give a step words of the teacher's own.

    said   : "" for the program's own again
    was    : the teacher's own that were seen; "" for none
    Raises : WordsClash; CannotEdit where the words are not taken; OutputError where the file cannot be written
    """
    for _ in range(_TRIES):
        seen = read_file(path, MAX_BYTES)
        if seen.text is None:
            raise CannotEdit(seen.fault or f"there is no file {path.name} any more", "look at the lesson's file")
        now = _words_in(seen.text, step_id)
        if now == said:
            return
        if now != was:
            raise WordsClash(now)
        text = with_words(seen.text, step_id, said)
        _refuse_new_faults(path, seen, text)
        if read_file(path, MAX_BYTES).digest == seen.digest:
            written_file(path, text, marked=seen.marked)
            return
    raise OutputError(f"{path}: the file is being changed all the time. To mend it: try again in a moment.")


def with_words(text: str, step_id: str, said: str) -> str:
    """A lesson's text with words for a step, or without them where there are none.

    Raises : CannotEdit
    """
    if said:
        return with_value(text, ("words", step_id), text_yaml(said), LESSON.order)
    root = composed_once(text).root
    entry = root.entries.get("words") if root is not None else None
    if entry is None or not isinstance(entry.value, MapNode) or step_id not in entry.value.entries:
        return text
    if len(entry.value.entries) > 1:
        return removed(text, ("words", step_id))
    # With the last words their key goes too, as it came; not where somebody has written a remark in there.
    without = removed(text, ("words",))
    last = text_yaml(_words_in(text, step_id))
    came_so = with_value(without, ("words", step_id), last, LESSON.order) == text
    return without if came_so else _emptied(text, step_id)


def _emptied(text: str, step_id: str) -> str:
    """The text without its last words, their key left with nothing; remarks on lines of their own stay below it."""
    new = removed(text, ("words", step_id)).splitlines(keepends=True)
    old = text.splitlines(keepends=True)
    lost = [line for line in old if line.lstrip().startswith("#") and line not in new]
    at = next((number for number, line in enumerate(new, start=1) if line.startswith("words:")), len(new))
    return "".join([*new[:at], *lost, *new[at:]])


def _words_in(text: str, step_id: str) -> str:
    root = composed_once(text).root
    if root is None:
        raise CannotEdit("the lesson's file cannot be read just now", "mend it in an editor first")
    entry = root.entries.get("words")
    own = entry.value.entries.get(step_id) if entry is not None and isinstance(entry.value, MapNode) else None
    return own.value.text if own is not None and isinstance(own.value, ScalarNode) else ""


def _refuse_new_faults(path: Path, seen: FileState, text: str) -> None:
    """What the reader of lessons does not take is not written."""
    before = {(fault.field, fault.message) for fault in _faults(path, seen.text or "")}
    for fault in _faults(path, text):
        if (fault.field, fault.message) not in before:
            raise CannotEdit(fault.message, fault.fix)


def _faults(path: Path, text: str) -> tuple[Fault, ...]:
    def opened(asked: Path) -> str:
        return text if asked == path else text_of_file(asked)

    return scan_lesson(path, opened).faults
