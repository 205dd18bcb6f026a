"""A teacher's own words over time: a small file beside the lesson notes what was true when they were written.

The file, NAME.words.json beside NAME.yaml, is there only for lessons with ``words:``. It is made when something is made
from the lesson, and never by looking alone. The lesson's own file is never written to. If the note is lost, the words
are taken for new; if it cannot be read, it is left as it is and nothing is noted.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .choice.model import Solution
from .document.source_map import SourceMap
from .errors import Fault
from .item.model import Lesson
from .lesson.planner import plan_lesson
from .plain_file import check_plain
from .safe_write import write_text
from .storyboard.model import Step
from .storyboard.own_words import Known, Noted, Standing, StepWords, to_note, words_of_lesson

__all__ = ["Review", "memory_file", "review_words"]

_LARGEST = 8_000_000  # bytes; a lesson of the most words there may be stays well below
_ABOUT = "What was true of each step when its words were written. Kept by explainers; see: explainers words"


@dataclass(frozen=True, slots=True, kw_only=True)
class Review:
    """A lesson's words as they stand, and what to do about them."""

    path: Path  # of the lesson
    written: SourceMap  # where each field of its file stands
    words: tuple[StepWords, ...]
    noted: Mapping[str, Noted]
    unreadable: str = ""  # why the note beside the lesson cannot be read

    @property
    def warnings(self) -> tuple[Fault, ...]:
        """What the teacher should look at, each at its line; none of it is a reason to refuse the lesson."""
        found = [fault for own in self.words for fault in _warnings(own, self.path)]
        if self.unreadable:
            memory = memory_file(self.path)
            found.append(
                Fault(file=str(memory), field="", message=self.unreadable, fix="delete it, or bring back an older one")
            )
        return self.written.placed(found)

    def keep(self, accepted: Collection[str] = ()) -> Path | None:
        """Note what is true of new words, and of those whose changed facts are accepted; None where nothing changes.

        Raises : OutputError if the note cannot be written
        """
        after = to_note(self.words, self.noted, accepted)
        if self.unreadable or after == self.noted:
            return None
        path = memory_file(self.path)
        if not after:
            path.unlink(missing_ok=True)
            return None
        return write_text(path, json.dumps(_as_json(after), indent=1, ensure_ascii=False) + "\n")


def review_words(
    path: Path,
    written: SourceMap,
    lesson: Lesson,
    solutions: Sequence[Solution],
    steps: Sequence[Step] | None = None,
) -> Review:
    """The words of a lesson held against its facts as they are now, and as they were noted.

    path      : of the lesson's file
    written   : where each field of that file stands
    solutions : one for each part, in order, all sound
    steps     : of the lesson, where it has been planned already
    """
    noted, unreadable = _read(memory_file(path))
    if steps is None:
        steps = plan_lesson(lesson, solutions).steps if lesson.words else ()
    words = words_of_lesson(lesson, solutions, steps, noted)
    return Review(path=path, written=written, words=words, noted=noted, unreadable=unreadable)


def memory_file(lesson: Path) -> Path:
    """The note beside a lesson's file."""
    return lesson.with_suffix(".words.json")


def _warnings(own: StepWords, path: Path) -> list[Fault]:
    field = f"words.{own.step_id}"
    found = []
    if own.standing is Standing.GONE:
        then = f"; when these words were written, its facts were: {_told(own.then)}" if own.then else ""
        near = f"did you mean {own.nearest}? If not, " if own.nearest else ""
        found.append(
            Fault(
                field=field,
                message=f"no step of this lesson has that id, so these words are left out{then}",
                fix=f"{near}take them out of the file, or give them the id of another step",
            )
        )
    if own.standing is Standing.CHANGED and own.then is not None and own.now is not None:
        same = own.then.lines == own.now.lines
        now = "the same figures at another place" if same else _told(own.now)
        found.append(
            Fault(
                field=field,
                message=f"the facts have changed since these words were written; then: {_told(own.then)}; now: {now}",
                fix=f"change the words, or, if they still fit, run: explainers words {path} --accept {own.step_id}",
            )
        )
    for clause in own.against:
        found.append(Fault(field=field, message=clause, fix="change the words, or the item if they are right"))
    return found


def _told(known: Known) -> str:
    return "; ".join(known.lines) or "none"


def _as_json(noted: Mapping[str, Noted]) -> dict[str, Any]:
    words = {
        step_id: {"said": note.said, "facts": list(note.known.lines), "print": note.known.print}
        for step_id, note in noted.items()
    }
    return {"about": _ABOUT, "words": words}


def _read(path: Path) -> tuple[dict[str, Noted], str]:
    """(what is noted, why it cannot be read or "")."""
    try:
        check_plain(path)
        if path.stat().st_size > _LARGEST:
            return {}, "the note of what was true when words were written is far too large to be one"
        words = json.loads(path.read_text(encoding="utf-8"))["words"]
        return {str(step_id): _noted(entry) for step_id, entry in words.items()}, ""
    except FileNotFoundError:
        return {}, ""
    except OSError as error:
        return {}, f"the note of what was true when words were written cannot be read ({error.strerror})"
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}, "the note of what was true when words were written cannot be read"


def _noted(entry: Any) -> Noted:
    said, facts, print_ = entry["said"], entry["facts"], entry["print"]
    if not (isinstance(said, str) and isinstance(print_, str) and isinstance(facts, list)):
        raise ValueError("not a note")
    if not all(isinstance(line, str) for line in facts):
        raise ValueError("not a note")
    return Noted(said=said, known=Known(lines=tuple(facts), print=print_))
