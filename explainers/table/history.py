"""The texts of a sitting: what can be undone, what can be done again, and what each revision was."""

from __future__ import annotations

from collections import OrderedDict, deque
from dataclasses import dataclass

__all__ = ["CHANGE", "REDO", "UNDO", "History", "Steps"]

CHANGE, UNDO, REDO = "change", "undo", "redo"

_MOST_STEPS = 2000
_MOST_HELD = 40_000_000  # characters
_REVISIONS = 300  # a window that is further behind has to load the text anew


_MOST_KEPT = 300  # steps each way, from one sitting to the next
_MOST_KEPT_HELD = 4_000_000  # characters


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """What a sitting hands on to the next: the text, those before it, those that were undone."""

    past: tuple[str, ...]  # the last of them is undone to first
    text: str
    future: tuple[str, ...]  # the last of them is done again first


class History:
    """One text after the other; revisions count up, also when something is undone."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.revision = 1
        self._undo: deque[str] = deque()
        self._redo: list[str] = []
        self._held = 0
        self._revisions: OrderedDict[int, str] = OrderedDict({1: text})

    @classmethod
    def after(cls, steps: Steps) -> History:
        """A history that goes on from those of an earlier sitting."""
        history = cls(steps.text)
        for text in steps.past:
            history._remember(text)
        history._redo = list(steps.future)
        return history

    def steps(self) -> Steps:
        """What is handed on: the nearest steps each way, not too many."""
        past = _nearest(list(self._undo))
        return Steps(past=past, text=self.text, future=_nearest(self._redo))

    def replay(self, move: str, text: str) -> None:
        """Do again what a sitting did: a change, or a step back or forth where it leads to this text."""
        if move == UNDO and self.undone() == text:
            self.undo()
        elif move == REDO and self.redone() == text:
            self.redo()
        elif text != self.text:
            self.change(text)

    @property
    def can_undo(self) -> int:
        """How many steps there are to undo."""
        return len(self._undo)

    @property
    def can_redo(self) -> int:
        """How many steps there are to do again."""
        return len(self._redo)

    def at(self, revision: int) -> str | None:
        """The text of a revision; None for one that is no longer known."""
        return self._revisions.get(revision)

    def change(self, text: str) -> None:
        """A new text; what had been undone is gone."""
        self._remember(self.text)
        self._redo.clear()
        self._become(text)

    def undone(self) -> str | None:
        """The text before the last change; None where there is none."""
        return self._undo[-1] if self._undo else None

    def undo(self) -> None:
        """Go back by one."""
        self._redo.append(self.text)
        text = self._undo.pop()
        self._held -= len(text)
        self._become(text)

    def redone(self) -> str | None:
        """The text that was undone last; None where there is none."""
        return self._redo[-1] if self._redo else None

    def redo(self) -> None:
        """Go forward by one."""
        self._remember(self.text)
        self._become(self._redo.pop())

    def _remember(self, text: str) -> None:
        self._undo.append(text)
        self._held += len(text)
        while len(self._undo) > 1 and (self._held > _MOST_HELD or len(self._undo) > _MOST_STEPS):
            self._held -= len(self._undo.popleft())

    def _become(self, text: str) -> None:
        self.text = text
        self.revision += 1
        self._revisions[self.revision] = text
        held = sum(map(len, self._revisions.values())) if len(self._revisions) % 50 == 0 else 0
        while len(self._revisions) > _REVISIONS or (held > _MOST_HELD and len(self._revisions) > 1):
            held -= len(self._revisions.popitem(last=False)[1])


def _nearest(texts: list[str]) -> tuple[str, ...]:
    """The last of some texts, as many as may be handed on."""
    held = 0
    for count, text in enumerate(reversed(texts)):
        held += len(text)
        if count >= _MOST_KEPT or held > _MOST_KEPT_HELD:
            return tuple(texts[len(texts) - count :])
    return tuple(texts)
