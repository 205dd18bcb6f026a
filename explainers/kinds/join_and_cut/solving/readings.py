"""Marks and pieces that can be read two ways: where a careful learner may still take another side or another end."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from ....choice.model import Warning_
from ....choice.question import OPTION_LABELS
from ....geometry.angles import wrapped_deg
from ....geometry.congruence import rotational_symmetry_order
from ....geometry.locate import span_on
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring
from ....geometry.tolerance import MEANT_DEG, authoring_tolerance
from ....words.mark_names import SIGN_NAMES, the_mark
from ..model import BASE, Item, Piece, PieceWarning
from .placement import Placement

__all__ = ["readings"]

MISREAD = frozenset("pqbdunMWNZ69")  # turned, each looks like another
# Each of a row looks like the others when it is turned, or when only its size tells them apart.
ALIKE = ("pbqd", "un", "MW", "NZ", "69", "Cc", "Kk", "Oo0", "Ss", "Vv", "Ww", "Xx", "Zz", "Il1")
PLAINLY_EASIER_DEG = 45.0  # a turn smaller by this much is one that a learner takes instead
STOPS_SHORT = 0.04  # of the base's extent: a mark that ends this near to a corner seems to end at it


def readings(item: Item, placements: Sequence[Placement]) -> Iterator[Warning_]:
    """What a teacher should look at in the pieces, whatever the options are."""
    for index, placement in enumerate(placements):
        if abs(placement.turn_deg) <= MEANT_DEG:
            yield Warning_(
                kind=PieceWarning.NO_TURN,
                field=f"pieces[{index}].turned",
                message=f"{placement.piece.name} is shown as it lies: no turn to find",
            )
    yield from _misread_marks(item)
    yield from _marks_like_options(item)
    yield from _two_way_marks(item)
    yield from _symmetric_pieces(item, placements)


def _misread_marks(item: Item) -> Iterator[Warning_]:
    """Marks that look like another sign when the sheet is turned."""
    for index, piece in enumerate(item.pieces):
        if piece.mark not in SIGN_NAMES and MISREAD.intersection(piece.mark):
            yield Warning_(
                kind=PieceWarning.MISREAD_MARK,
                field=f"pieces[{index}].mark",
                message=f"the mark {piece.mark} is easily misread when the sheet is turned",
            )


def _marks_like_options(item: Item) -> Iterator[Warning_]:
    """Marks with the letter of an option: told of "mark A" and of "option A", a listener mixes them up."""
    count = len(item.options) or (item.made.make + 1 if item.made else 0)
    labels = OPTION_LABELS[:count]
    for index, piece in enumerate(item.pieces):
        label = piece.mark.upper()
        if len(label) == 1 and label in labels:
            taken = {other.mark for other in item.pieces}
            free = next(sign for sign in SIGN_NAMES if sign not in taken)
            yield Warning_(
                kind=PieceWarning.MARK_LIKE_OPTION,
                field=f"pieces[{index}].mark",
                message=f"the mark {piece.mark} of {piece.name} has the letter of option {label}",
                fix=f"write sign: {free} in its place, or a letter that no option has, such as K",
            )


def _two_way_marks(item: Item) -> Iterator[Warning_]:
    """Marks that could be taken for another piece's, or for the whole of a side of which they cover nearly all."""
    tolerance = authoring_tolerance(item.extent)
    for (_, first), (index, second) in combinations(enumerate(item.pieces), 2):
        as_long = abs(math.dist(*first.side) - math.dist(*second.side)) < STOPS_SHORT * item.extent
        if as_long and not {first.mark, second.mark} & set(SIGN_NAMES) and _look_alike(first.mark, second.mark):
            yield Warning_(
                kind=PieceWarning.TWO_WAY_MARK,
                field=f"pieces[{index}].mark",
                message=f"the marks {first.mark} and {second.mark} look alike and their sides are equally long: "
                f"{second.name} could be brought to where {first.name} belongs",
            )
    for index, piece in enumerate(item.pieces):
        own = (Outline.of(piece.corners).simplified(tolerance).exterior,)
        places = (("side", piece.side, own, piece.name), ("meets", piece.meets, _rings_of(piece.of, item), piece.of))
        for key, marked, rings, owner in places:
            span = span_on(rings, marked, tolerance)
            if span is None:
                continue
            short = [math.dist(*ends) for ends in zip(span.part, span.whole, strict=True)]
            if any(tolerance < left_over < STOPS_SHORT * item.extent for left_over in short):
                yield Warning_(
                    kind=PieceWarning.TWO_WAY_MARK,
                    field=f"pieces[{index}].{key}",
                    message=f"{the_mark(piece.mark)} on {owner} marks a part that stops just short of a corner: "
                    "it could be read as reaching it",
                )


def _symmetric_pieces(item: Item, placements: Sequence[Placement]) -> Iterator[Warning_]:
    """One line on the pieces that look the same in several turned positions, where that makes a turn plainly easier.

    Such a piece brought to its place by another end gives the same outline, so its symmetry matters only where a
    learner may then turn it by much less than the solution tells, or not at all.
    """
    told: list[tuple[int, str]] = []
    for index, placement in enumerate(placements):
        piece, turn_deg = placement.piece, placement.turn_deg
        order = rotational_symmetry_order(Outline.of(piece.corners), authoring_tolerance(item.extent))
        others = [wrapped_deg(turn_deg + 360.0 * k / order) for k in range(order)]
        easiest = min(others, key=lambda other: (round(abs(other), 6), -other))
        if abs(turn_deg) - abs(easiest) < PLAINLY_EASIER_DEG:
            continue
        alike = f"{piece.name} looks the same in {order} turned positions"
        asked = f"the {_turn(turn_deg)} that its mark asks for"
        told.append((index, f"{alike}: {_article(easiest)} does as well as {asked}"))
    if told:
        yield Warning_(
            kind=PieceWarning.SYMMETRIC_PIECE,
            field=f"pieces[{told[0][0]}]",
            message="; ".join(message for _, message in told),
        )


def _article(turn_deg: float) -> str:
    words = _turn(turn_deg)
    return words if words.startswith("no ") else f"a {words}"


def _turn(turn_deg: float) -> str:
    size = abs(turn_deg)
    if size <= MEANT_DEG:
        return "no turn"
    if size >= 180.0 - MEANT_DEG:
        return "half turn"
    return f"turn of {size:.4g} degrees {'anticlockwise' if turn_deg > 0 else 'clockwise'}"


def _rings_of(owner: str, item: Item) -> tuple[Ring, ...]:
    tolerance = authoring_tolerance(item.extent)
    if owner == BASE:
        return item.base.simplified(tolerance).rings
    host: Piece | None = next((piece for piece in item.pieces if piece.name == owner), None)
    return () if host is None else (Outline.of(host.corners).simplified(tolerance).exterior,)


def _look_alike(mark: str, other: str) -> bool:
    return len(mark) == len(other) and all(
        a == b or any(a in row and b in row for row in ALIKE) for a, b in zip(mark, other, strict=True)
    )
