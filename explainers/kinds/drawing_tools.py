"""What a kind of question gives to be drawn by hand: its own commands, its outlines as they stand and as they lie."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from ..choice.model import Answer
from ..choice.question import Question
from ..document.nodes import MapNode
from ..editing.command import Command
from ..editing.drawn import DrawnOutline
from ..editing.proposals import Proposal
from ..editing.sheet import Sheet
from ..geometry.outline import Outline

__all__ = ["DrawingTools", "LaidPart", "Todo"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidPart:
    """A part of the question brought to its place, in the coordinates of the question."""

    id: str  # of its outline
    turn_deg: float  # from how the sheet shows it, in (-180, 180]
    corners: Sequence[tuple[float, float]]  # where it lies
    side: Sequence[tuple[float, float]]  # its marked side there
    after: Outline  # the outline when it has been dealt with
    line: str = ""  # how it is laid, as a sentence

    def told(self) -> dict[str, Any]:
        """As JSON has it."""
        return {
            "id": self.id,
            "turn_deg": round(self.turn_deg, 9) + 0.0,
            "corners": [list(corner) for corner in self.corners],
            "side": [list(corner) for corner in self.side],
            "after": {
                "corners": list(map(list, self.after.exterior)),
                "holes": [list(map(list, h)) for h in self.after.holes],
            },
            "line": self.line,
        }


@dataclass(frozen=True, slots=True, kw_only=True)
class Todo:
    """Something that a question still needs, in the words of somebody who draws it."""

    fields: tuple[str, ...]  # that are missing from the file until it is done
    words: str  # what to do, as a button says it
    how: str  # how it is done, as a sentence after "Next:"
    does: str  # what a page begins: draw-base, draw-piece, marry, make-options
    piece: str | None = None  # the id of an outline that it is about
    ready: bool = True  # whether it can be done now

    def told(self) -> dict[str, Any]:
        """As JSON has it."""
        return {
            "fields": list(self.fields), "words": self.words, "how": self.how, "does": self.does,
            "piece": self.piece, "ready": self.ready,
        }  # fmt: skip


class DrawingTools(Protocol):
    """Of one kind. Options are the same for all, and so are the commands for outlines, fields and lists."""

    @property
    def commands(self) -> tuple[type[Command], ...]:
        """The commands that only this kind has."""

    def outlines(self, root: MapNode) -> tuple[DrawnOutline, ...]:
        """Its outlines in the order of the file, those that are not there yet empty; options are not among them."""

    def laid(self, answer: Answer) -> tuple[LaidPart, ...]:
        """Its parts brought to their places, in order; nothing where there are none."""

    def laid_so_far(self, question: Question) -> tuple[LaidPart, ...]:
        """The same of a question that cannot be solved yet: as many parts from the first as can be laid."""

    def proposals(self, sheet: Sheet, field: str, root: MapNode) -> Iterable[Proposal]:
        """What may mend a fault or a warning at a field that only this kind has; each is tried before it is offered."""

    def todo(self, root: MapNode) -> Sequence[Todo]:
        """What is still missing from a question, in the order in which it is best done."""
