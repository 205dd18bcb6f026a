"""The lesson beside a desk: which one, its strip of stills, its words, what is built of it.

The text of the item is the desk's; what is told of the lesson follows it without holding a change up. Every answer is
told in ``server``.
"""

from __future__ import annotations

import re
import threading
from collections import OrderedDict
from collections.abc import Callable
from pathlib import Path
from typing import Any

from ..document.nodes import text_at
from ..document.text_places import CannotEdit, composed_once
from ..errors import OutputError
from ..process_apart import GivenUp
from .building import OUTPUTS, Builds
from .desk import Desk, Told
from .lesson_words import WordsClash, put_words
from .lessons_beside import LessonsBeside, stamp_of
from .telling import MOTION, STRIP, Tell, told

__all__ = ["FOLDER", "LessonDesk"]

FOLDER = "render_out"
"""What the folder of outputs is called, beside the file."""

_KEY = re.compile(r"[0-9a-f]{32}")
_MOST_STILLS = 600
_MOST_WORDS = 4000  # characters that are looked at; the readers take fewer
_OF_THE_PAGE = "this is a fault of the page: load it again"


class LessonDesk:
    """Safe for several threads."""

    def __init__(self, desk: Desk, tell: Tell = told, *, given: Path | None = None, out: Path | None = None) -> None:
        """tell  : gives strips and motions, so that no change has to wait for them
        given : the lesson that the page was opened for
        out   : holds a folder for each lesson and item; else ``FOLDER`` beside the item
        """
        self._desk, self._tell = desk, tell
        self._beside = LessonsBeside(desk.sitting.path, given)
        self.builds = Builds((out or desk.sitting.path.parent / FOLDER).absolute(), desk.bell.ring)
        self._chosen: str | None = None  # None: the first there is; "": the item alone
        self._telling, self._changing = threading.Lock(), threading.Lock()
        self._strip: tuple[object, dict[str, Any]] = (None, {})
        self._stills: OrderedDict[str, str] = OrderedDict()
        self.answers: dict[str, Callable[[], Any]] = {"strip": self.strip, "builds": self.builds.told}
        self.changes: dict[str, Callable[[Any], Told]] = {
            "lesson": self.choose, "new-lesson": self.make, "words": self.words, "motion": self.motion,
            "build": self.build, "stop-build": self.stop_build,
        }  # fmt: skip
        self._seen = self._tag()

    def strip(self) -> dict[str, Any]:
        """The steps as they are planned now."""
        with self._telling:
            while True:
                lessons = self._beside.found()
                name = self._name(lessons)
                revision, text = self._desk.sitting.snapshot()
                lesson = lessons.get(name)
                known = (text, name, *self._stamps(lesson))
                if self._strip[0] != known:
                    there = frozenset(self._stills)
                    unwanted = lambda text=text: self._desk.sitting.text != text  # noqa: E731
                    try:
                        found = self._tell(STRIP, (text, self._desk.sitting.path, lesson, there), unwanted) or {}
                    except GivenUp:
                        continue
                    self._keep(found.pop("svgs", {}), [step["key"] for step in found["steps"]])
                    self._strip = (known, found)
                    self._strip = ((text, name, *self._stamps(lesson)), found)  # its inputs are known only now
                found = {key: value for key, value in self._strip[1].items() if key != "inputs"}
                return {
                    "revision": revision, "lesson": name, "lessons": list(lessons), "offer": self._offer(),
                    "folder": str(self.builds.folder), **found
                }  # fmt: skip

    def still(self, key: str) -> str | None:
        """A still as SVG; None for one that is not known."""
        return self._stills.get(key) if _KEY.fullmatch(key) else None

    def choose(self, body: Any) -> Told:
        """Which lesson is told; "" for the item alone."""
        name = _text(body, "lesson")
        if name != "" and name not in self._beside.found():
            return _refused(f"there is no lesson {(name or '?')[:60]} that shows this item", "choose another one")
        self._chosen = name
        self._ring()
        return 200, {"done": True}

    def make(self, body: Any) -> Told:
        """Make a lesson of the item, under the name that was offered."""
        sitting = self._desk.sitting
        with self._changing:
            if not sitting.is_saved:
                return _refused("the question is not in its file yet", "mend what is marked on the page first")
            root = composed_once(sitting.text).root
            try:
                made = self._beside.made(_text(body, "name") or "", text_at(root, "title") if root is not None else "")
            except OutputError as error:
                return 500, {"done": False, "why": "failed", "message": str(error), "fix": ""}
            if made is None:
                return _refused("that name is taken by now", "look at the name that is offered now, and press again")
            self._chosen = made.name
        self._ring()
        return 200, {"done": True, "lesson": made.name}

    def words(self, body: Any) -> Told:
        """Put words of a teacher's own into the lesson."""
        name, step, said, was = (_text(body, key) for key in ("lesson", "step", "said", "was"))
        if name is None or step is None or said is None or was is None or len(said) > _MOST_WORDS:
            return _refused("no words, or too many of them", "write fewer words")
        lesson = self._beside.found().get(name)
        if lesson is None:
            return _refused("these words have no lesson to go to", "make a lesson of this item first")
        if step not in {each["id"] for each in self._strip[1].get("steps", ())}:
            return _refused("this step is there no more", "look at the steps again")
        try:
            with self._changing:
                put_words(lesson, step, " ".join(said.split()), was)
        except WordsClash as clash:
            return 409, {"done": False, "why": "clash", "theirs": clash.theirs}
        except CannotEdit as error:
            return _refused(str(error), error.fix)
        except OutputError as error:
            return 500, {"done": False, "why": "failed", "message": str(error), "fix": ""}
        finally:
            self._ring()
        return 200, {"done": True}

    def motion(self, body: Any) -> Told:
        """How a step comes to move."""
        key = _text(body, "key") or ""
        found = None
        if _KEY.fullmatch(key):
            with self._telling:
                found = self._tell(MOTION, (key,), lambda: False)
        if found is None:
            self._strip = (None, {})  # asked for anew, it is known again
            return _refused("this step is there no more", "look at the steps again")
        return 200, {"done": True, "motion": found}

    def build(self, body: Any) -> Told:
        """Begin to build the lesson that is told, or the item."""
        wanted = body.get("outputs") if isinstance(body, dict) else None
        if not isinstance(wanted, list) or not wanted or not all(each in OUTPUTS for each in map(str, wanted)):
            return _refused("nothing to build is chosen", "choose some of what there is")
        sitting = self._desk.sitting
        if not sitting.is_saved:
            return _refused("the question is not in its file yet", "mend what is marked on the page first")
        lessons = self._beside.found()
        source = lessons.get(self._name(lessons), sitting.path)
        if not self.builds.start(source, [str(each) for each in wanted]):
            return 409, {"done": False, "why": "busy", "message": "something is being built already", "fix": "wait"}
        return 200, {"done": True, "builds": self.builds.told()}

    def stop_build(self, body: Any) -> Told:
        """Give up what is being built."""
        self.builds.stop()
        return 200, {"done": True}

    @property
    def tag(self) -> str:
        """Stands for the lesson's file and for the build, as far as a page has to look again."""
        return f"{self._seen}-{self.builds.told()['state']}"

    def look_at_files(self) -> None:
        """See whether others have changed the lesson, or put another one beside the item."""
        if self._tag() != self._seen:
            self._ring()

    def close(self) -> None:
        """End what is being built."""
        self.builds.close()

    def _name(self, lessons: dict[str, Path]) -> str:
        if self._chosen is not None and (self._chosen in lessons or self._chosen == ""):
            return self._chosen
        return next(iter(lessons), "")

    def _offer(self) -> str:
        return self._beside.offered()

    def _stamps(self, lesson: Path | None) -> tuple[object, ...]:
        inputs = (Path(each) for each in self._strip[1].get("inputs", ()))
        watched = {lesson, *inputs} - {None, self._desk.sitting.path}
        return tuple((str(each), stamp_of(each)) for each in sorted(filter(None, watched)))

    def _tag(self) -> str:
        lessons = self._beside.found()
        name = self._name(lessons)
        return format(abs(hash((name, tuple(lessons), self._stamps(lessons.get(name))))), "x")

    def _ring(self) -> None:
        self._seen = self._tag()
        self._desk.bell.ring()

    def _keep(self, svgs: dict[str, str], shown: list[str]) -> None:
        self._stills |= svgs
        for key in shown:
            if key in self._stills:
                self._stills.move_to_end(key)
        while len(self._stills) > _MOST_STILLS:
            self._stills.popitem(last=False)


def _text(body: Any, key: str) -> str | None:
    found = body.get(key) if isinstance(body, dict) else None
    return found if isinstance(found, str) else None


def _refused(message: str, fix: str) -> Told:
    return 422, {"done": False, "why": "refused", "message": message, "fix": fix}
