"""What may mend a fault of a piece, found by the field where it stands; whoever offers it tries it first.

Two marked sides that are not as long as each other can be brought together in several ways: the piece made larger or
smaller as a whole, one corner of it moved, or only a part of the longer side marked.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from typing import Any

from ....document.notation import shown
from ....editing.drawn import DrawnOutline
from ....editing.proposals import Proposal, leaf_text, likest, slug_of
from ....editing.sheet import Sheet
from ....geometry.rigid_motion import Point, Ring, Side
from ....geometry.rings import sides
from ....words.mark_names import SIGN_NAMES
from ..model import BASE, Does

__all__ = ["piece_proposals"]

_PIECE = re.compile(r"pieces\[(\d+)\](?:\.(\w+))?")
_MOST_SIDES = 6  # that are tried in the place of one that is no side
_TURNS = (90.0, 135.0, 45.0, 180.0)
NAMES = ("flag", "tab", "wing", "fin", "notch", "foot", "tip", "ear")


def piece_proposals(sheet: Sheet, field: str, outlines: Sequence[DrawnOutline]) -> Iterator[Proposal]:
    """What may mend a fault or a warning at a field of a piece.

    outlines : the base and the pieces, as drawn
    """
    match = _PIECE.match(field)
    pieces = [each for each in outlines if each.role == "piece"]
    if match is None or int(match[1]) >= len(pieces):
        return
    number, key = int(match[1]), match[2] or ""
    piece, at = pieces[number], f"pieces[{number}]"
    text = leaf_text(sheet, f"{at}.{key}") if key else ""
    if key == "piece":
        yield from _names(number, text, [str(each.more.get("name", "")) for each in pieces])
    elif key == "does":
        words = {Does.JOIN: "Join it on", Does.CUT: "Cut it away"}
        near = [Does(each) for each in likest(text, list(Does), 1)]
        for does in near or Does:
            yield Proposal(words=words[does], commands=({"do": "set", "at": f"{at}.does", "value": str(does)},))
    elif key == "turned":
        for turn in _TURNS:
            yield Proposal(
                words=f"Show it turned by {turn:g}°",
                commands=({"do": "set", "at": f"{at}.turned", "value": turn},),
                group="turn",
            )
    elif key in ("mark", "sign"):
        yield from _marks(number, text)
    elif key == "of":
        yield from _partners(number, text, pieces)
    elif key == "side":
        yield from _other_sides(number, piece, key, piece.corners, "Mark side")
    elif key == "meets":
        base = next((each for each in outlines if each.role == BASE), None)
        yield from _meetings(number, piece, base, pieces)


def _names(number: int, text: str, taken: Sequence[str]) -> Iterator[Proposal]:
    own = slug_of(text)
    free = [name for name in ((own,) if own and own != BASE else ()) if name not in taken]
    free += [name for name in NAMES if name not in taken]
    for name in free[:2]:
        change = {"do": "rename-piece", "piece": number, "name": name}
        if taken.count(text) > 1:  # those that name it mean the other one, as far as anybody can tell
            change = {"do": "set", "at": f"pieces[{number}].piece", "value": name}
        yield Proposal(words=f"Call it {name}", commands=(change,), group="name")


def _marks(number: int, text: str) -> Iterator[Proposal]:
    change: dict[str, Any] = {"do": "set-mark", "piece": number}
    for near in likest(text, list(SIGN_NAMES), 1):
        yield Proposal(words=f"Mark it with the {near}", commands=({**change, "sign": near},), group="mark")
    yield Proposal(words="Mark it with the sign of its place", commands=(change,), group="mark")
    for sign in SIGN_NAMES:
        yield Proposal(words=f"Mark it with the {sign}", commands=({**change, "sign": sign},), group="mark")


def _partners(number: int, text: str, pieces: Sequence[DrawnOutline]) -> Iterator[Proposal]:
    earlier = [str(each.more["name"]) for each in pieces[:number] if each.more.get("does") == Does.JOIN]
    for near in likest(text, [BASE, *earlier], 1):
        yield Proposal(
            words=f"Let it meet {_called(near)}", commands=({"do": "marry", "piece": number, "of": near},), group="of"
        )
    later = next((n for n, each in enumerate(pieces) if n > number and each.more.get("name") == text), None)
    if later is not None:
        yield Proposal(
            words=f"Put it after {_called(text)}",
            commands=({"do": "reorder", "at": "pieces", "from": number, "to": later},),
        )
    for name in [BASE, *earlier]:
        yield Proposal(
            words=f"Let it meet {_called(name)}",
            commands=({"do": "marry", "piece": number, "of": name},),
            group="of",
            alone=True,
        )


def _called(name: str) -> str:
    return f"the {name}"


def _meetings(
    number: int, piece: DrawnOutline, base: DrawnOutline | None, pieces: Sequence[DrawnOutline]
) -> Iterator[Proposal]:
    name = str(piece.more.get("of", BASE))
    partner = base if name == BASE else next((each for each in pieces if each.more.get("name") == name), None)
    if partner is None:
        return
    own, met = _ends(piece.more.get("side"), piece.corners), _ends(piece.more.get("meets"), partner.corners)
    if own and met and _is_on(own, (piece.corners,)) and _is_on(met, (partner.corners, *partner.holes)):
        yield from _as_long(number, piece, own, met)
        return
    for earlier in pieces[:number]:
        there = str(earlier.more.get("name", ""))
        if met and there and there != name and _is_on(met, (earlier.corners,)):
            yield Proposal(
                words=f"Let it meet {_called(there)}",
                commands=({"do": "marry", "piece": number, "of": there},),
                group="of",
            )
    long = math.dist(*own) if own else None
    for ring in (partner.corners, *partner.holes):
        yield from _other_sides(number, piece, "meets", ring, "Let it meet side", met, long)


def _as_long(number: int, piece: DrawnOutline, own: Side, met: Side) -> Iterator[Proposal]:
    """The two sides are sides, but not as long as each other."""
    long, asked = math.dist(*own), math.dist(*met)
    if not long or not asked:
        return
    times, at = asked / long, f"pieces[{number}].corners"
    name = str(piece.more.get("name") or "piece")
    start, end = own
    scaled = [_along((start, corner), times) for corner in piece.corners]
    new_end = _along(own, times)
    marry: dict[str, Any] = {"do": "marry", "piece": number}
    yield Proposal(
        words=f"Make the whole {name} {shown(times)} times as large",
        commands=(
            {"do": "set-corners", "at": at.removesuffix(".corners"), "corners": [list(point) for point in scaled]},
            {**marry, "side": [list(start), list(new_end)]},
        ),
    )
    corner = next((n for n, point in enumerate(piece.corners) if math.dist(point, end) < 1e-9), None)
    if corner is not None:
        yield Proposal(
            words=f"Move corner {corner + 1} of the {name}: its side is {shown(asked)} long then",
            commands=(
                {"do": "move-corner", "at": at.removesuffix(".corners"), "corner": corner, "to": list(new_end)},
                {**marry, "side": [list(start), list(new_end)]},
            ),
        )
    if long > asked:
        yield Proposal(
            words=f"Mark only {shown(asked)} of its side",
            commands=({**marry, "side": [list(start), list(new_end)]},),
        )
    else:
        part = _along(met, long / asked)
        yield Proposal(
            words=f"Let it meet only {shown(long)} of that side",
            commands=({**marry, "meets": [list(met[0]), list(part)]},),
        )


def _other_sides(
    number: int,
    piece: DrawnOutline,
    key: str,
    ring: Ring,
    words: str,
    met: Side | None = None,
    long: float | None = None,
) -> Iterator[Proposal]:
    """The side that is nearest to what is marked now, or a part of it."""
    now = met if key == "meets" else _ends(piece.more.get(key), ring)
    if len(ring) < 2 or not piece.more.get(key) or (now is None and isinstance(piece.more.get(key), list)):
        return
    every = list(enumerate(sides(ring)))
    if now is not None:
        target = now
        every.sort(key=lambda one: _apart(target, one[1]))
    for place, side in every[:_MOST_SIDES]:
        near = now is None or math.dist(side[0], now[0]) <= math.dist(side[1], now[0])
        start, end = side if near else side[::-1]
        whole = math.dist(*side)
        part = (start, _along((start, end), long / whole)) if long and whole > long else (start, end)
        yield Proposal(
            words=f"{words} {place + 1}",
            commands=({"do": "marry", "piece": number, key: [list(point) for point in part]},),
            group=key,
            alone=now is None,  # the number of a side that there is not says nothing of which is meant
        )


def _ends(side: Any, ring: Ring) -> Side | None:
    if isinstance(side, int):
        return sides(ring)[side - 1] if 1 <= side <= len(ring) else None
    return (tuple(side[0]), tuple(side[1])) if side else None


def _is_on(pair: Side, rings: Sequence[Ring]) -> bool:
    """Whether both points lie on one side, as nearly as they are typed."""
    return any(
        all(math.dist(a, p) + math.dist(p, b) - math.dist(a, b) < 1e-3 * max(1.0, math.dist(a, b)) for p in pair)
        for ring in rings
        for a, b in (sides(ring) if len(ring) > 1 else ())
    )


def _along(side: Side, part: float) -> Point:
    (ax, ay), (bx, by) = side
    return (round(ax + (bx - ax) * part, 9), round(ay + (by - ay) * part, 9))


def _apart(one: Side, other: Side) -> float:
    return min(
        math.dist(one[0], other[0]) + math.dist(one[1], other[1]),
        math.dist(one[0], other[1]) + math.dist(one[1], other[0]),
    )
