"""An item from a composed file: every key of the contract, its default and its range.

The keys, defaults and limits are those of the item format in the README. Whether pieces can be laid is for the solver.
"""

from __future__ import annotations

import math
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import larger_extent
from ..geometry.tolerance import authoring_tolerance
from .fields import (
    Faults,
    Table,
    choice_of,
    duplicates,
    list_of,
    name_of,
    number_of,
    pair_of,
    ring_of,
    table_of,
    text_of,
    whole_of,
)
from .model import BASE, Does, Item, MadeOptions, Option, Piece
from .notation import listed, nearest, shown_lengths
from .outline_checks import check_holes, check_marked_side, check_ring, lies_on_a_side
from .source_map import ListNode, MapNode, Node, ScalarNode

__all__ = ["DEFAULT_MARKS", "ITEM_KEYS", "item_of"]

ITEM_KEYS = ("item", "title", "base", "pieces", "options")
BASE_KEYS = ("corners", "holes")
PIECE_KEYS = ("piece", "does", "corners", "turned", "side", "meets", "of", "mark")
OPTION_KEYS = ("outline", "slip", "piece", "corners", "holes", "turned", "scale", "name")
MADE_KEYS = ("make", "seed")

MAX_PIECES = 6
LEAST_OPTIONS, MOST_OPTIONS = 3, 6
MAX_HOLES = 20
MAX_TITLE = 120
MAX_MARK = 3
LEAST_SCALE, MOST_SCALE = 0.01, 100.0
MAX_SEED = 2**31 - 1
DEFAULT_MADE = MadeOptions(make=4, seed=1)

# None of them reads as another letter or digit when it is turned, and none of the first three as an option's label
# beside it but A, which design and habit put first.
DEFAULT_MARKS = ("A", "K", "R", "T", "G", "Y")

_RING_EXAMPLE = "[[0, 0], [2, 0], [0, 2]]"
_SIDE_EXAMPLE = "[[0, 0], [2, 0]]"


def item_of(root: MapNode, stem: str, faults: Faults) -> Item | None:
    """The item, or None where its base or pieces do not read well.

    Faults elsewhere leave it whole enough to be laid out: a bad name gives way to the file's stem, and options of
    which one is bad are left out altogether.
    """
    table = table_of(root, "", faults, keys=ITEM_KEYS, owner="an item", fix="begin with item:")
    if table is None:
        return None
    node = table.due("item", "the file", f"name the item, such as item: {stem or 'corner-block'}")
    name = (name_of(node, "item", faults, example="corner-block") if node else None) or stem or "item"
    title = _title(table, name)
    base = _base(table)
    pieces = _pieces(table, base)
    options, made = _options(table, [piece.name for piece in pieces or () if piece.name])
    whole = [piece.piece for piece in pieces or () if piece.piece is not None]
    if base is None or not pieces or len(whole) < len(pieces):
        return None
    return Item(name=name, title=title, base=base, pieces=tuple(whole), options=options, made=made)


def _title(table: Table, name: str) -> str:
    plain = name.replace("-", " ")
    node = table.get("title")
    if node is None:
        return plain[:1].upper() + plain[1:]
    fix = "write the title, or leave the key out"
    return text_of(node, "title", table.faults, most=MAX_TITLE, fix=fix) or plain


def _base(table: Table) -> Outline | None:
    faults = table.faults
    fix = f"write corners: {_RING_EXAMPLE} below base:"
    node = table.due("base", "the file", f"add base: with corners: {_RING_EXAMPLE} below it")
    base = node and table_of(node, "base", faults, keys=BASE_KEYS, owner="the base", fix=fix)
    if not base:
        return None
    outline = _outline(base, "the base")
    return outline and Outline.of(*outline)


def _outline(table: Table, owner: str) -> tuple[Ring, tuple[Ring, ...]] | None:
    """Corners and holes, checked; None where anything about them is wrong."""
    faults = table.faults
    node = table.due("corners", owner, f"add corners: {_RING_EXAMPLE}")
    exterior = ring_of(node, table.at("corners"), faults, example=_RING_EXAMPLE) if node else None
    if exterior and not check_ring(exterior, table.at("corners"), faults, owner=owner):
        exterior = None
    path = table.at("holes")
    node = table.get("holes")
    if node is None:
        return (exterior, ()) if exterior else None
    fix = f"list each hole as corners, such as holes: [{_RING_EXAMPLE}], or leave the key out"
    items = list_of(node, path, faults, least=0, most=MAX_HOLES, noun="holes", fix=fix)
    if items and _is_point(items[0]):
        faults.add(path, "the corners of a hole stand here without the brackets of the list of holes", fix)
        return None
    tolerance = authoring_tolerance(larger_extent(exterior)) if exterior else None
    holes: list[tuple[int, Ring]] = []
    for index, item in enumerate(items or ()):
        at = f"{path}[{index}]"
        ring = ring_of(item, at, faults, example=_RING_EXAMPLE)
        if ring and check_ring(ring, at, faults, owner="the hole", tolerance=tolerance):
            holes.append((index, ring))
    fine = items is not None and len(holes) == len(items)
    if exterior and not check_holes(exterior, tuple(holes), path, faults, owner=owner):
        fine = False
    return (exterior, tuple(ring for _, ring in holes)) if exterior and fine else None


def _is_point(node: Node) -> bool:
    return isinstance(node, ListNode) and bool(node.items) and all(isinstance(n, ScalarNode) for n in node.items)


@dataclass(slots=True)
class _Draft:
    """A piece as far as it could be read."""

    table: Table
    name: str | None = None
    does: Does | None = None
    corners: Ring | None = None
    side: tuple[Point, Point] | None = None
    meets: tuple[Point, Point] | None = None
    of: str | None = None
    mark: str | None = None
    turned: float | None = None
    fine: bool = True  # false once the marks are seen not to fit
    piece: Piece | None = None

    @property
    def called(self) -> str:
        return self.name or "the piece"


def _pieces(table: Table, base: Outline | None) -> list[_Draft] | None:
    faults = table.faults
    fix = "list 1 to 6 pieces, each beginning with - piece:"
    node = table.due("pieces", "the file", fix)
    items = node and list_of(node, "pieces", faults, least=1, most=MAX_PIECES, noun="pieces", fix=fix)
    if not items:
        return None
    drafts: list[_Draft | None] = []
    for index, item in enumerate(items):
        entry = table_of(item, f"pieces[{index}]", faults, keys=PIECE_KEYS, owner="the piece", fix=fix)
        drafts.append(_draft(entry) if entry else None)
    read = [draft for draft in drafts if draft is not None]
    _check_names(read)
    _give_marks(read)
    for index, draft in enumerate(read):
        _check_marks(draft, read[:index], read[index + 1 :], base)
        draft.piece = _finished(draft)
    return read if len(read) == len(items) else None


def _draft(table: Table) -> _Draft:
    faults = table.faults
    draft = _Draft(table)
    node = table.due("piece", "the piece", "give it a name, such as piece: flag")
    draft.name = name_of(node, table.at("piece"), faults, example="flag") if node else None
    node = table.due("does", draft.called, "write does: join or does: cut")
    word = choice_of(node, table.at("does"), faults, [does.value for does in Does]) if node else None
    draft.does = Does(word) if word else None
    node = table.due("corners", draft.called, f"add corners: {_RING_EXAMPLE}")
    draft.corners = ring_of(node, table.at("corners"), faults, example=_RING_EXAMPLE) if node else None
    draft.side = _side(table, "side", draft.called, "its marked side")
    draft.meets = _side(table, "meets", draft.called, "the side that it must meet")
    node = table.get("of")
    draft.of = name_of(node, table.at("of"), faults, example=BASE) if node else BASE
    node = table.get("turned")
    draft.turned = number_of(node, table.at("turned"), faults) if node else 0.0
    node = table.get("mark")
    draft.mark = _mark(node, table.at("mark"), faults) if node else None
    if node and draft.mark is None:
        draft.fine = False
    return draft


def _side(table: Table, key: str, owner: str, what: str) -> tuple[Point, Point] | None:
    node = table.due(key, owner, f"add {key}: with the two ends of {what}, such as {key}: {_SIDE_EXAMPLE}")
    fix = f"write two points, such as {_SIDE_EXAMPLE}"
    return pair_of(node, table.at(key), table.faults, fix=fix) if node else None


def _mark(node: Node, path: str, faults: Faults) -> str | None:
    fix = "write 1 to 3 letters or digits, such as K"
    if isinstance(node, ScalarNode) and not node.is_null:
        text = unicodedata.normalize("NFC", node.text)
        if len(text) > MAX_MARK:
            faults.add(path, f"the mark has {len(text)} characters; it may have 1 to {MAX_MARK}", fix)
            return None
        if any(char.isspace() or unicodedata.category(char).startswith(("C", "M", "Z")) for char in text):
            faults.add(path, "the mark holds white space or a character that cannot be shown by itself", fix)
            return None
    return text_of(node, path, faults, most=MAX_MARK, fix=fix)


def _check_names(drafts: Sequence[_Draft]) -> None:
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


def _give_marks(drafts: Sequence[_Draft]) -> None:
    """Default marks in order, those that the teacher uses skipped; the same mark twice is refused."""
    for first, again in duplicates([draft.mark for draft in drafts]):
        draft = drafts[again]
        draft.table.faults.add(
            draft.table.at("mark"),
            f"the mark {draft.mark} is also that of {drafts[first].called}: nobody could tell which sides meet",
            "give each piece a mark of its own",
        )
        draft.fine = False
    used = {draft.mark for draft in drafts}
    free = (mark for mark in DEFAULT_MARKS if mark not in used)
    for draft in drafts:
        if draft.mark is None and "mark" not in draft.table:
            draft.mark = next(free)


def _check_marks(draft: _Draft, earlier: Sequence[_Draft], later: Sequence[_Draft], base: Outline | None) -> None:
    """The piece's outline, and both marked sides on straight sides of the same length."""
    faults = draft.table.faults
    extent = base.larger_extent if base else larger_extent(draft.corners) if draft.corners else 0.0
    tolerance = authoring_tolerance(extent)
    owner = draft.name or "the piece"
    if draft.corners and not check_ring(
        draft.corners, draft.table.at("corners"), faults, owner=owner, tolerance=tolerance
    ):
        draft.corners = None
    if (
        draft.corners
        and draft.side
        and not check_marked_side(
            draft.side, (draft.corners,), draft.table.at("side"), faults, owner=owner, tolerance=tolerance
        )
    ):
        draft.fine = False
    partner = _partner(draft, earlier, later, base)
    if draft.meets is None:
        return
    if partner:
        rings, whose = partner
        if not check_marked_side(
            draft.meets, rings, draft.table.at("meets"), faults, owner=whose, tolerance=tolerance,
            advice=_meant_piece(draft, earlier, tolerance),
        ):  # fmt: skip
            draft.fine = False
    if draft.side and (draft.corners or base) and draft.fine:
        _check_lengths(draft, draft.side, draft.meets, tolerance)


def _check_lengths(draft: _Draft, side: tuple[Point, Point], meets: tuple[Point, Point], tolerance: float) -> None:
    own, other = math.dist(*side), math.dist(*meets)
    # Rounding must not refuse a difference that is the tolerance itself.
    if abs(own - other) <= tolerance * (1 + 1e-9):
        return
    own_text, other_text = shown_lengths(own, other)
    draft.table.faults.add(
        draft.table.at("meets"),
        f"the marked side of {draft.called} is {own_text} long, but the side that it must meet is {other_text} long",
        "mark two sides, or parts of sides, of the same length",
    )
    draft.fine = False


def _partner(
    draft: _Draft, earlier: Sequence[_Draft], later: Sequence[_Draft], base: Outline | None
) -> tuple[tuple[Ring, ...], str] | None:
    """The rings that ``meets`` must lie on, with a name for them; None where they are not known."""
    faults, path = draft.table.faults, draft.table.at("of")
    if draft.of == BASE:
        return (base.rings, "the base") if base else None
    if draft.of is None:
        draft.fine = False
        return None
    choices = [BASE, *(piece.name for piece in earlier if piece.name and piece.does is not Does.CUT)]
    fix = f"write of: {listed(choices)}"
    found = next((piece for piece in earlier if piece.name == draft.of), None)
    if found is not None and found.does is not Does.CUT:
        return ((found.corners,), found.called) if found.corners else None
    draft.fine = False
    if found is not None:
        faults.add(path, f"{draft.of} is cut away, so no piece can meet it", fix)
    elif draft.of == draft.name:
        faults.add(path, f"{draft.of} cannot meet itself", fix)
    elif any(piece.name == draft.of for piece in later):
        faults.add(path, f"{draft.of} comes later; a piece can meet only what is already there", fix)
    else:
        near = nearest(draft.of, choices)
        faults.add(path, f"there is no piece called {draft.of}", f"write of: {near}" if near else fix)
    return None


def _meant_piece(draft: _Draft, earlier: Sequence[_Draft], tolerance: float) -> str:
    """The advice to name an earlier joined piece, where ``meets`` fits a side of that one."""
    if draft.of != BASE or "of" in draft.table or draft.meets is None:
        return ""
    for piece in earlier:
        fits = piece.does is Does.JOIN and piece.corners and lies_on_a_side(draft.meets, (piece.corners,), tolerance)
        if piece.name and fits:
            return f"add of: {piece.name} if its side is meant, or name two points of one side of the base"
    return ""


def _finished(draft: _Draft) -> Piece | None:
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


def _options(table: Table, piece_names: Sequence[str]) -> tuple[tuple[Option, ...], MadeOptions | None]:
    faults = table.faults
    fix = "list 3 to 6 options, such as - {outline: result, turned: 90}, or ask for them with {make: 4, seed: 7}"
    node = table.due("options", "the file", fix)
    if node is None:
        return (), None
    if isinstance(node, MapNode):
        return (), _made(node, faults, fix)
    items = list_of(
        node, "options", faults, least=LEAST_OPTIONS, most=MOST_OPTIONS, noun="options", fix="give 3 to 6 options"
    )
    if items is None:  # too few or too many: what is wrong in them is still worth saying
        items = node.items[:MOST_OPTIONS] if isinstance(node, ListNode) else ()
    options: list[Option | None] = []
    for index, item in enumerate(items):
        entry = table_of(item, f"options[{index}]", faults, keys=OPTION_KEYS, owner="the option", fix=fix)
        options.append(_option(entry, piece_names) if entry else None)
    repeated = list(duplicates([option.name if option else None for option in options]))
    for first, again in repeated:
        faults.add(
            f"options[{again}].name",
            f"options number {first + 1} and number {again + 1} have the same name",
            "give each option a name of its own, or leave the names out",
        )
    whole = tuple(option for option in options if option is not None)
    fine = len(whole) == len(options) and len(whole) >= LEAST_OPTIONS and not repeated
    return (whole if fine else ()), None


def _made(node: MapNode, faults: Faults, fix: str) -> MadeOptions | None:
    table = table_of(node, "options", faults, keys=MADE_KEYS, owner="a request for options", fix=fix)
    if table is None:
        return None
    most = MOST_OPTIONS - 1
    count = table.get("make")
    seed = table.get("seed")
    make = whole_of(count, "options.make", faults, least=LEAST_OPTIONS - 1, most=most) if count else DEFAULT_MADE.make
    start = whole_of(seed, "options.seed", faults, least=0, most=MAX_SEED) if seed else DEFAULT_MADE.seed
    return None if make is None or start is None else MadeOptions(make=make, seed=start)


def _option(table: Table, piece_names: Sequence[str]) -> Option | None:
    faults = table.faults
    before = len(faults.found)
    node = table.get("turned")
    turned = number_of(node, table.at("turned"), faults) if node else 0.0
    node = table.get("scale")
    scale = number_of(node, table.at("scale"), faults, least=LEAST_SCALE, most=MOST_SCALE) if node else 1.0
    node = table.get("name")
    name = name_of(node, table.at("name"), faults, example="short-flag") if node else None
    drawn: tuple[Ring, tuple[Ring, ...]] | None = None
    slip = piece = None
    if "corners" in table or ("holes" in table and "outline" not in table):
        _keep_apart(table, ("outline", "slip", "piece"), "corners", "an option drawn by hand")
        drawn = _outline(table, "the option")
    elif "outline" in table or "slip" in table:
        _keep_apart(table, ("holes",), "outline", "an option made from the result")
        slip, piece = _slip(table, piece_names)
    else:
        fix = f"add outline: result, or corners: {_RING_EXAMPLE}"
        faults.add(table.path, "the option has neither outline nor corners", fix)
    if len(faults.found) > before:
        return None
    assert turned is not None
    assert scale is not None
    corners, holes = drawn or (None, ())
    return Option(corners=corners, holes=holes, slip=slip, slip_piece=piece, turned=turned, scale=scale, name=name)


def _keep_apart(table: Table, unwanted: Sequence[str], wanted: str, kind: str) -> None:
    for key in unwanted:
        if key in table:
            table.faults.add(table.at(key), f"{kind} cannot have {key} beside {wanted}", f"take out {key} or {wanted}")


def _slip(table: Table, piece_names: Sequence[str]) -> tuple[str | None, str | None]:
    faults = table.faults
    node = table.due("outline", "the option", "add outline: result")
    if node:
        choice_of(node, table.at("outline"), faults, ("result",))
    node = table.get("slip")
    slip = name_of(node, table.at("slip"), faults, example="flipped") if node else None
    node = table.get("piece")
    if node is None:
        return slip, None
    path = table.at("piece")
    piece = name_of(node, path, faults, example="flag")
    if "slip" not in table:
        fix = "add slip: with its name, or take piece out"
        faults.add(path, "a piece is named, but no slip that happens to it", fix)
    elif piece and piece_names and piece not in piece_names:
        near = nearest(piece, piece_names)
        fix = f"write {near}" if near else f"write {listed(piece_names)}"
        faults.add(path, f"there is no piece called {piece}", fix)
    return slip, piece
