"""The pieces of an item: their keys, their marks, and whether both marked sides are sides of the same length."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from ....document import schema_values as schema
from ....document.fields import MAX_CORNERS, Faults, Table, duplicates, list_of, whole_of
from ....document.format import Field, Format, Record
from ....document.nodes import ListNode, Node, ScalarNode
from ....document.notation import listed, nearest, shown_lengths, typed_pair
from ....document.points import pair_of
from ....document.values import Value, angle, member, name
from ....document.yaml_text import Written, decimals_for, points_yaml
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Point, Ring, Side
from ....geometry.rings import larger_extent, sides
from ....geometry.tolerance import authoring_tolerance, within
from ....item.outline_checks import check_marked_side, check_ring, lies_on_a_side
from ....item.ring_reader import RING, TypedRing
from ..model import BASE, Does, Piece
from .free_sides import Room, taken_by
from .inner_cuts import in_place_of_inner_cut
from .marks import LETTERS, ONE_MARK, SIGN, give_marks

__all__ = ["PIECE", "PIECES", "Draft", "Typed", "check_pieces"]

MAX_PIECES = 6

_LIKE_A_NUMBER = re.compile(r"[-+]?[\d.]+")
_SIDE_EXAMPLE = "[[0, 0], [2, 0]]"


_Ends = tuple[Point, Point] | None
TypedSide = tuple[Point, Point] | int
"""A marked side as typed: its two ends, or its number."""


@dataclass(frozen=True, slots=True)
class Typed:
    """A base with its corners in the order of the file, which its sides are numbered by."""

    outline: Outline
    corners: Ring


@dataclass(slots=True)
class Draft:
    """A piece as far as it could be read."""

    table: Table
    name: str | None = None
    does: Does | None = None
    ring: TypedRing | None = None
    corners: Ring | None = None
    typed_side: TypedSide | None = None
    typed_meets: TypedSide | None = None
    side: tuple[Point, Point] | None = None
    meets: tuple[Point, Point] | None = None
    of: str | None = None
    sign: str | None = None
    letters: str | None = None
    mark: str | None = None  # the one or the other, or the sign that it is given
    turned: float | None = None
    fine: bool = True  # false once the marks are seen not to fit
    piece: Piece | None = None

    @property
    def called(self) -> str:
        return self.name or "the piece"


_PIECES_FIX = "list 1 to 6 pieces, each beginning with - piece:"


def _drafts(node: Node, path: str, faults: Faults) -> list[Draft | None]:
    """The pieces in their order, each as far as it could be read; None for one that is no piece at all."""
    items = list_of(node, path, faults, least=1, most=MAX_PIECES, noun="pieces", fix=_PIECES_FIX)
    beyond = 0
    if items is None:  # of too many, the first are still worth looking at
        typed = node.items if isinstance(node, ListNode) else ()
        items, beyond = typed[:MAX_PIECES], len(typed[MAX_PIECES:])
    records = [PIECE.read(item, f"{path}[{index}]", faults) for index, item in enumerate(items)]
    return [*(_draft(record) if record else None for record in records), *[None] * min(beyond, 1)]


def _draft(record: Record) -> Draft:
    draft = Draft(record.table, **record.values)
    draft.corners = draft.ring.corners if draft.ring else None
    draft.mark = draft.letters or draft.sign
    written = [key for key in ("mark", "sign") if key in record.table]
    draft.fine = not written or (draft.mark is not None and len(written) == 1)
    return draft


def check_pieces(drafts: Sequence[Draft | None], base: Typed | None) -> None:
    """Whether the pieces fit one another and the base; those that do get their piece."""
    read = [draft for draft in drafts if draft is not None]
    _check_names(read)
    give_marks(read)
    for index, draft in enumerate(read):
        _check_marks(draft, read[:index], read[index + 1 :], base)
        draft.piece = _finished(draft)


def _side(node: Node, path: str, faults: Faults) -> TypedSide | None:
    if isinstance(node, ScalarNode) and _LIKE_A_NUMBER.fullmatch(node.text):
        return whole_of(node, path, faults, least=1, most=MAX_CORNERS)
    fix = f"write two points, such as {_SIDE_EXAMPLE}, or the number of a side"
    return pair_of(node, path, faults, fix=fix)


def _numbered(mark: TypedSide | None, corners: Ring | None, path: str, faults: Faults, owner: str) -> _Ends:
    """The ends of a marked side, given by itself or by its number; None where there is no such side."""
    if not isinstance(mark, int):
        return mark
    if corners is None:
        return None
    if mark > len(corners):
        fix = f"write a number from 1 to {len(corners)}; side 1 runs from the first corner to the second"
        faults.add(path, f"there is no side {mark}: {owner} has {len(corners)} sides", fix)
        return None
    return sides(corners)[mark - 1]


def _check_names(drafts: Sequence[Draft]) -> None:
    for draft in drafts:
        if draft.name == BASE:
            draft.table.faults.add(
                draft.table.at("piece"), "a piece cannot be called base", "give it another name, such as flag"
            )
            draft.fine = False
    for first, again in duplicates([draft.name for draft in drafts]):
        draft = drafts[again]
        draft.table.faults.add(
            draft.table.at("piece"),
            f"two pieces are called {draft.name}: number {first + 1} and number {again + 1}",
            "give each piece a name of its own",
        )
        draft.fine = False


def _check_marks(draft: Draft, earlier: Sequence[Draft], later: Sequence[Draft], base: Typed | None) -> None:
    """The piece's outline, and both marked sides on straight sides of the same length."""
    faults = draft.table.faults
    extent = base.outline.larger_extent if base else larger_extent(draft.corners) if draft.corners else 0.0
    tolerance = authoring_tolerance(extent)
    owner = draft.name or "the piece"
    if draft.ring and not check_ring(draft.ring, faults, owner=owner, tolerance=tolerance):
        draft.corners = None
    draft.side = _numbered(draft.typed_side, draft.corners, draft.table.at("side"), faults, owner)
    if (
        draft.corners
        and draft.side
        and not check_marked_side(
            draft.side, (draft.corners,), draft.table.at("side"), faults, owner=owner, tolerance=tolerance
        )
    ):
        draft.fine = False
    partner = _partner(draft, earlier, later, base)
    rings, listed_corners, whose = partner or ((), None, "")
    draft.meets = _numbered(draft.typed_meets, listed_corners, draft.table.at("meets"), faults, whose)
    if draft.meets is None:
        return
    room = Room(rings, taken_by(draft, earlier), tolerance)
    if partner and not check_marked_side(
        draft.meets, rings, draft.table.at("meets"), faults, owner=whose, tolerance=tolerance,
        advice=_meant_piece(draft, earlier, tolerance)
        or _meant_hole(draft, base, tolerance)
        or room.advice(draft.meets, math.dist(*draft.side) if draft.side and draft.fine else None),
    ):  # fmt: skip
        draft.fine = False
    if draft.side and (draft.corners or base) and draft.fine:
        _check_lengths(draft, draft.side, draft.meets, room)


def _check_lengths(draft: Draft, side: Side, meets: Side, room: Room) -> None:
    own, other = math.dist(*side), math.dist(*meets)
    if within(abs(own - other), room.tolerance):
        return
    own_text, other_text = shown_lengths(own, other)
    part = room.nearest(meets, own)
    such_as = f"meets: {typed_pair(part)}" if part else ""
    if not part and draft.corners and (part := Room((draft.corners,), (), room.tolerance).nearest(side, other)):
        such_as = f"side: {typed_pair(part)}"
    draft.table.faults.add(
        draft.table.at("meets"),
        f"the marked side of {draft.called} is {own_text} long, but the side that it must meet is {other_text} long",
        "mark two sides, or parts of sides, of the same length" + (f", such as {such_as}" if such_as else ""),
    )
    draft.fine = False


def _partner(
    draft: Draft, earlier: Sequence[Draft], later: Sequence[Draft], base: Typed | None
) -> tuple[tuple[Ring, ...], Ring, str] | None:
    """The rings that ``meets`` must lie on, the corners that number their sides, a name; None where not known."""
    faults, path = draft.table.faults, draft.table.at("of")
    if draft.of == BASE:
        return (base.outline.rings, base.corners, "the base") if base else None
    if draft.of is None:
        draft.fine = False
        return None
    choices = [BASE, *(piece.name for piece in earlier if piece.name and piece.does is not Does.CUT)]
    fix = f"write of: {listed(choices)}"
    found = next((piece for piece in earlier if piece.name == draft.of), None)
    if found is not None and found.does is not Does.CUT:
        return ((found.corners,), found.corners, found.called) if found.corners else None
    draft.fine = False
    if found is not None:
        faults.add(path, f"{draft.of} is cut away, so no piece can meet it", fix)
    elif draft.of == draft.name:
        faults.add(path, f"{draft.of} cannot meet itself", fix)
    elif any(piece.name == draft.of for piece in later):
        faults.add(path, f"{draft.of} comes later; a piece can meet only what is already there", fix)
    elif all(piece.name for piece in earlier):  # else it may be the one whose name could not be read
        near = nearest(draft.of, choices)
        faults.add(path, f"there is no piece called {draft.of}", f"write of: {near}" if near else fix)
    return None


def _meant_piece(draft: Draft, earlier: Sequence[Draft], tolerance: float) -> str:
    """The advice to name an earlier joined piece, where ``meets`` fits a side of that one."""
    if draft.of != BASE or "of" in draft.table or draft.meets is None:
        return ""
    for piece in earlier:
        fits = piece.does is Does.JOIN and piece.corners and lies_on_a_side(draft.meets, (piece.corners,), tolerance)
        if piece.name and fits:
            return f"add of: {piece.name} if its side is meant, or name two points of one side of the base"
    return ""


def _meant_hole(draft: Draft, base: Typed | None, tolerance: float) -> str:
    """The advice to write a hole of the base, where a cut must meet two points in its middle."""
    if draft.does is not Does.CUT or draft.of != BASE or base is None or not (draft.meets and draft.corners):
        return ""
    return in_place_of_inner_cut(draft.side, draft.meets, draft.corners, base.outline, tolerance)


def _finished(draft: Draft) -> Piece | None:
    if (
        not draft.fine
        or draft.name is None
        or draft.does is None
        or draft.corners is None
        or draft.side is None
        or draft.meets is None
        or draft.of is None
        or draft.mark is None
        or draft.turned is None
    ):
        return None
    return Piece(
        name=draft.name,
        does=draft.does,
        corners=draft.corners,
        side=draft.side,
        meets=draft.meets,
        of=draft.of,
        mark=draft.mark,
        turned=draft.turned,
    )


def _side_field(key: str, what: str, doc: str) -> Field:
    def write(piece: Piece) -> Written:
        return points_yaml(getattr(piece, key), decimals_for(piece.corners))

    return Field(
        key,
        Value(read=_side, schema=schema.SIDE),
        f"{doc}, or a part of one: two points, or the number of a side",
        attribute=f"typed_{key}",
        due=f"add {key}: with the two ends of {what}, such as {key}: {_SIDE_EXAMPLE}, or with its number",
        write=write,
    )


_NAME = name("flag")
PIECE = Format(
    owner="the piece",
    named_by="name",
    fix=_PIECES_FIX,
    rows=(
        Field(
            "piece",
            replace(_NAME, schema={**_NAME.schema, "not": {"const": BASE}}),
            "the name of the piece, such as flag",
            attribute="name",
            due="give it a name, such as piece: flag",
        ),
        Field(
            "does",
            member(Does),
            "join: it is joined on; cut: it is cut out",
            due="write does: join or does: cut",
        ),
        RING,
        Field("turned", angle(), "how it is shown turned: degrees, anticlockwise (default 0)", default=0.0),
        _side_field("side", "its marked side", "the marked side of the piece"),
        _side_field("meets", "the side that it must meet", "the side that it must meet"),
        Field(
            "of",
            name(BASE),
            "whose side it must meet: base (the default), or an earlier joined piece",
            default=BASE,
        ),
        SIGN,
        LETTERS,
    ),
    rules=(ONE_MARK,),
)

PIECES = Field(
    "pieces",
    Value(
        read=_drafts,
        schema=schema.list_of(PIECE.schema, 1, MAX_PIECES),
        order=PIECE.order,
        write=lambda pieces: [PIECE.written(piece) for piece in pieces],
    ),
    f"1 to {MAX_PIECES} pieces, done in this order",
    due=_PIECES_FIX,
)
