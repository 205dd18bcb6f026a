"""The base and the pieces as a page draws them, as they stand in the file and as they are laid."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from ....choice.model import Answer
from ....choice.question import Question
from ....document.fields import Faults, Table
from ....document.nodes import ListNode, MapNode, ScalarNode, text_at
from ....document.points import pair_of
from ....editing.command import Command
from ....editing.drawn import DrawnOutline, drawn_outline
from ....editing.proposals import Proposal
from ....editing.sheet import Sheet
from ....words.mark_names import SIGN_NAMES
from ...drawing_tools import LaidPart, Todo
from ..fields.marks import position_sign
from ..model import BASE, Item
from ..solving.laying import laid_so_far, malformed
from ..solving.placement import Placement
from ..solving.solution import JoinAndCutAnswer, JoinAndCutSolution
from .commands import PIECE_COMMANDS
from .mends import piece_proposals
from .todo import todo_of

__all__ = ["Tools"]


class Tools:
    """See ``DrawingTools``."""

    commands: tuple[type[Command], ...] = PIECE_COMMANDS

    def outlines(self, root: MapNode) -> tuple[DrawnOutline, ...]:
        """The base, then the pieces."""
        return tuple(_outlines(root))

    def laid(self, answer: Answer) -> tuple[LaidPart, ...]:
        """Each piece where it lies."""
        if not isinstance(answer, JoinAndCutAnswer | JoinAndCutSolution):
            raise TypeError(f"{answer.item.name} is no answered item of joining and cutting")
        return tuple(map(_laid, answer.placements))

    def laid_so_far(self, question: Question) -> tuple[LaidPart, ...]:
        """The pieces up to the first that cannot be laid."""
        if not isinstance(question, Item) or malformed(question):
            return ()
        return tuple(map(_laid, laid_so_far(question, None)[0]))

    def proposals(self, sheet: Sheet, field: str, root: MapNode) -> Iterator[Proposal]:
        """For what is wrong with a piece."""
        return piece_proposals(sheet, field, self.outlines(root))

    def todo(self, root: MapNode) -> tuple[Todo, ...]:
        """Base, pieces, sides, options."""
        return tuple(todo_of(root, self.outlines(root)))


def _laid(placed: Placement) -> LaidPart:
    return LaidPart(
        id=_id(placed.piece.name),
        turn_deg=placed.turn_deg,
        corners=placed.ring,
        side=placed.side,
        after=placed.after,
        line=placed.as_line(),
    )


def _outlines(root: MapNode) -> Iterator[DrawnOutline]:
    base = root.entries.get("base")
    yield drawn_outline(base.value if base else None, BASE, id_=BASE, role=BASE)
    pieces = root.entries.get("pieces")
    named: set[str] = set()
    for number, node in enumerate(pieces.value.items if pieces and isinstance(pieces.value, ListNode) else ()):
        field = f"pieces[{number}]"
        name = text_at(node, "piece") if isinstance(node, MapNode) else ""
        unique = name if name and name not in named else f"number-{number + 1}"
        named.add(unique)
        more = _more(node, field, number, name) if isinstance(node, MapNode) else {}
        yield drawn_outline(node, field, id_=_id(unique), role="piece", **more)


def _id(name: str) -> str:
    return f"piece-{name}"


def _more(node: MapNode, field: str, number: int, name: str) -> dict[str, Any]:
    table = Table(node, field, Faults())
    sign = text_at(node, "sign")
    letters = text_at(node, "mark")
    return {
        "name": name,
        "does": text_at(node, "does"),
        "turned": _number(text_at(node, "turned")),
        "side": _side(table, "side"),
        "meets": _side(table, "meets"),
        "has_side": "side" in node.entries,
        "has_meets": "meets" in node.entries,
        "of": text_at(node, "of") or BASE,
        "mark": letters,
        "sign": sign if sign in SIGN_NAMES or letters else position_sign(number, (), ()),
    }


def _side(table: Table, key: str) -> Any:
    """Two points, the number of a side, or None where it cannot be read."""
    node = table.get(key)
    if isinstance(node, ScalarNode):
        return int(node.text) if node.text.isascii() and node.text.isdigit() and len(node.text) < 4 else None
    pair = pair_of(node, table.at(key), Faults(), fix="") if node is not None else None
    return None if pair is None else [list(point) for point in pair]


def _number(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        return 0.0
    return value if abs(value) < 1e9 else 0.0
