"""An outline told as a walk round it: ``walk: right 4, up 2, left 2, up 2, left 2``.

A step is a direction with a length (``right 4``), both at once for a slanted side (``right 3 up 4``), a diagonal over
the corners of squares (``up-left 2``: 2 to the left and 2 up), or an angle, anticlockwise from right, with a length
(``60deg 3``). The last side may be left out where it runs straight along the squares; any other one is asked for by the
word ``close``, so that a slip in a length comes to light as a walk that does not close.
"""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from typing import Protocol

from ..choice.question import ClosingSide
from ..document.fields import MAX_CORNERS, Faults, number_of
from ..document.nodes import ListNode, Node, ScalarNode
from ..document.notation import nearest, shown_point
from ..geometry.locate import distance_to_side
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import larger_extent
from ..geometry.tolerance import authoring_tolerance

__all__ = ["CLOSE", "DIRECTIONS", "STEP_PATTERN", "WALK_EXAMPLE", "rounded", "walk_begun", "walk_of"]

WALK_EXAMPLE = "right 4, up 2, left 2, up 2, left 2"
CLOSE = "close"
DIRECTIONS: dict[str, tuple[int, int]] = {
    "right": (1, 0),
    "left": (-1, 0),
    "up": (0, 1),
    "down": (0, -1),
    "up-right": (1, 1),
    "up-left": (-1, 1),
    "down-right": (1, -1),
    "down-left": (-1, -1),
}
DECIMALS = 12  # so that 0.1 and 0.2 make the 0.3 that a list of corners would have

_LENGTH = r"(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?"
_FAR = rf"\s+(?!0*(\.0*)?([eE]\S*)?(\s|,|$)){_LENGTH}"
_ALONG, _ACROSS = rf"(left|right){_FAR}", rf"(up|down){_FAR}"
_SIDE = rf"({_ALONG}(\s+{_ACROSS})?|{_ACROSS}(\s+{_ALONG})?|(up|down)-(left|right){_FAR})"
_ANGLE = rf"([-+]?{_LENGTH}\s*(deg|degrees|°){_FAR})"
STEP_PATTERN = rf"\s*({_SIDE}|{_ANGLE})\s*"
"""A step as an editor may know it; what is wrong in one is said by ``walk_of``."""

_TURNED_STEP = re.compile(r"(\S*?)\s*(?:deg|degrees|°)\s+(\S+)")
_NO_SPACE = re.compile(r"([a-z-]{2,10})(\d.{0,12})")
_FIX = "write a direction and a length, such as right 2, up-left 1.5 or 60deg 3"


class _Refuse(Protocol):
    def __call__(self, message: str, fix: str = ...) -> None: ...


def walk_of(node: Node, path: str, faults: Faults, *, start: Point) -> Ring | None:
    """The corners of a walk, the start first and not repeated; None where a step is wrong or the walk does not close.

    The side that closes it, which is no step, is noted.

    start : where the walk begins, item units
    """
    steps = _steps(node, path, faults)
    if steps is None:
        return None
    closes = steps[-1][0] == CLOSE
    moves = [_move(text, f"step {n}", at, faults) for n, (text, at) in enumerate(steps[: -1 if closes else None], 1)]
    whole = [move for move in moves if move is not None]
    if len(whole) < len(moves):
        return None
    ring = [start]
    for dx, dy in whole:
        ring.append(rounded((ring[-1][0] + dx, ring[-1][1] + dy)))
    return _closed(tuple(ring), path, faults, asked=closes)


def walk_begun(node: Node, *, start: Point) -> Ring:
    """The corners that a walk comes to before its first step that is wrong; the start alone where that is step 1."""
    faults = Faults()
    steps = _steps(node, "", faults) or []
    ring = [start]
    for text, at in steps:
        move = None if text == CLOSE else _move(text, "", at, faults)
        if move is None:
            break
        ring.append(rounded((ring[-1][0] + move[0], ring[-1][1] + move[1])))
    return tuple(ring)


def rounded(point: Point) -> Point:
    """A computed point as it would be typed."""
    x, y = (round(number, DECIMALS) + 0.0 for number in point)
    return x, y


def _steps(node: Node, path: str, faults: Faults) -> list[tuple[str, str]] | None:
    """Each step as typed, white space evened out, with the field it stands in."""
    fix = f"tell the steps, such as walk: {WALK_EXAMPLE}"
    if isinstance(node, ScalarNode) and not node.is_null and node.text.strip():
        steps = [(" ".join(text.split()), path) for text in node.text.strip().removesuffix(",").split(",")]
    elif isinstance(node, ListNode) and node.items:
        steps = []
        for index, item in enumerate(node.items):
            at = f"{path}[{index}]"
            if not isinstance(item, ScalarNode):
                faults.add(at, f"step {index + 1} is not a direction and a length", _FIX)
                return None
            steps.append((" ".join(item.text.split()), at))
    else:
        faults.add(path, "a walk is due here: steps with commas between them", fix)
        return None
    if len(steps) > MAX_CORNERS:
        faults.add(path, f"the walk has {len(steps)} steps; at most {MAX_CORNERS} are allowed", "walk round less")
        return None
    return steps


def _move(text: str, name: str, path: str, faults: Faults) -> Point | None:
    """One step as a shift, or None with what is wrong in it."""
    said = f'{name}, "{_clipped(text)}"' if text else name

    def refuse(message: str, fix: str = _FIX) -> None:
        faults.add(path, f"{said}: {message}", fix)

    if not text:
        refuse("nothing is written between two commas", "take one of the commas out")
        return None
    if text == CLOSE:
        refuse("only the last step can close the walk", "take it out, or put it last")
        return None
    if turned := _TURNED_STEP.fullmatch(text):
        inner = Faults()
        angle, length = (number_of(ScalarNode(part, False, 0), "", inner) for part in turned.groups())
        if inner.found or angle is None or length is None:
            refuse(inner.found[0].message, inner.found[0].fix)
            return None
        if length <= 0:
            refuse("a length is more than 0", "write the length of the side, such as 60deg 3")
            return None
        return length * math.cos(math.radians(angle)), length * math.sin(math.radians(angle))
    words = text.split()
    shifts: list[Point] = []
    for word, number in zip(words[::2], [*words[1::2], None], strict=False):
        shift = _way(word, number, refuse)
        if shift is None:
            return None
        shifts.append(shift)
    return _slanted(shifts, refuse)


def _way(word: str, number: str | None, refuse: _Refuse) -> Point | None:
    """One direction with its length."""
    way = DIRECTIONS.get(word)
    if way is None and (joined := _NO_SPACE.fullmatch(word)) and joined[1] in DIRECTIONS:
        refuse(f"a space is missing between {joined[1]} and its length", f"write {joined[1]} {joined[2]}")
        return None
    if way is None and number is None and nearest(word, [CLOSE]):
        refuse(f'"{_clipped(word)}" is no step', f"write {CLOSE} to come back to the start")
        return None
    if way is None:
        other = "-".join(reversed(word.split("-")))
        near = other if other in DIRECTIONS else nearest(word, DIRECTIONS)
        refuse(f'"{_clipped(word)}" is no direction', f"write {near}" if near else _FIX)
        return None
    if number is None:
        refuse(f"{word} has no length", f"write how far, such as {word} 2")
        return None
    inner = Faults()
    length = number_of(ScalarNode(number, False, 0), "", inner)
    if length is None:
        refuse(inner.found[0].message, inner.found[0].fix)
        return None
    if length <= 0:
        refuse("a length is more than 0", "turn the direction round, such as left 2 for right -2, or take the step out")
        return None
    return way[0] * length, way[1] * length


def _slanted(shifts: Sequence[Point], refuse: _Refuse) -> Point | None:
    """One direction alone, or one along and one across for a slanted side."""
    if len(shifts) == 1:
        return shifts[0]
    along = [dx for dx, dy in shifts if dx and not dy]
    across = [dy for dx, dy in shifts if dy and not dx]
    if len(shifts) != 2 or len(along) != 1 or len(across) != 1:
        refuse(
            "one step goes left or right and up or down, each once at most",
            "put a comma between steps; a slanted side is written as right 3 up 4",
        )
        return None
    return along[0], across[0]


def _closed(corners: Ring, path: str, faults: Faults, *, asked: bool) -> Ring | None:
    tolerance = authoring_tolerance(larger_extent(corners))
    (x0, y0), (x, y) = corners[0], corners[-1]
    home = math.dist(corners[0], corners[-1]) <= tolerance
    if home:
        corners = corners[:-1]
    if len(corners) < 3:
        fix = f"tell the steps all the way round, such as walk: {WALK_EXAMPLE}"
        faults.add(path, f"an outline needs at least 3 corners; this walk passes {len(corners)}", fix)
        return None
    if not home and not asked and abs(x - x0) > tolerance and abs(y - y0) > tolerance:
        faults.add(
            path,
            f"the walk does not close: it ends at {shown_point(corners[-1])}, "
            f"from where the way back to {shown_point(corners[0])} is slanted",
            f"check the length of each step, or end the walk with {CLOSE} if that side is meant",
        )
        return None
    if not home:
        runs_on = _runs_on(corners, tolerance)
        faults.notes.append(ClosingSide(path=path, side=(corners[-1], corners[0]), asked=asked, runs_on=runs_on))
    return corners


def _runs_on(corners: Ring, tolerance: float) -> tuple[int, float, float] | None:
    """Whether the closing side goes straight on into the first step, or on from the last: (step, its length, both's).

    Where it does, the miss of the start can be as well a slip in a length as a start in the middle of a side.
    """
    ways = ((1, corners[-1], corners[0], corners[1]), (len(corners) - 1, corners[-2], corners[-1], corners[0]))
    for step, start, middle, stop in ways:
        if distance_to_side(middle, (start, stop)) <= tolerance:
            length = math.dist(middle, stop) if step == 1 else math.dist(start, middle)
            return step, length, math.dist(start, stop)
    return None


def _clipped(text: str) -> str:
    clean = "".join(char if char.isprintable() else " " for char in text)
    return clean if len(clean) <= 40 else clean[:37] + "..."
