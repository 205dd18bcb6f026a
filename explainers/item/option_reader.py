"""The options of an item: outlines drawn by hand, outlines made from the result, or a request to make them."""

from __future__ import annotations

from collections.abc import Sequence

from ..document.fields import (
    Faults,
    Table,
    choice_of,
    degrees_of,
    duplicates,
    list_of,
    name_of,
    number_of,
    table_of,
    whole_of,
)
from ..document.nodes import ListNode, MapNode
from ..document.notation import listed, nearest
from ..geometry.rigid_motion import Ring
from .model import MadeOptions, Option
from .outline_reader import outline_of
from .ring_reader import RING_EXAMPLE, RING_KEYS, WAYS

__all__ = ["MADE_KEYS", "OPTION_KEYS", "options_of"]

OPTION_KEYS = ("outline", "slip", "piece", *RING_KEYS, "holes", "turned", "scale", "name")
MADE_KEYS = ("make", "seed")
LEAST_OPTIONS, MOST_OPTIONS = 3, 6
LEAST_SCALE, MOST_SCALE = 0.01, 100.0
MAX_SEED = 2**31 - 1
DEFAULT_MADE = MadeOptions(make=4, seed=1)


def options_of(table: Table, piece_names: Sequence[str | None]) -> tuple[tuple[Option, ...], MadeOptions | None]:
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
    for first, again in duplicates([option.name if option else None for option in options]):
        faults.add(
            f"options[{again}].name",
            f"options number {first + 1} and number {again + 1} have the same name",
            "give each option a name of its own, or leave the names out",
        )
    return tuple(option or Option() for option in options), None


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


def _option(table: Table, piece_names: Sequence[str | None]) -> Option | None:
    faults = table.faults
    before = len(faults.found)
    node = table.get("turned")
    turned = degrees_of(node, table.at("turned"), faults) if node else 0.0
    node = table.get("scale")
    scale = number_of(node, table.at("scale"), faults, least=LEAST_SCALE, most=MOST_SCALE) if node else 1.0
    node = table.get("name")
    name = name_of(node, table.at("name"), faults, example="short-flag") if node else None
    drawn: tuple[Ring, tuple[Ring, ...]] | None = None
    slip = piece = None
    way = next((key for key in WAYS if key in table), None)
    if way or ("holes" in table and "outline" not in table):
        _keep_apart(table, ("outline", "slip", "piece"), way or "holes", "an option drawn by hand")
        drawn = outline_of(table, "the option")
    elif "outline" in table or "slip" in table:
        _keep_apart(table, ("holes", "from"), "outline", "an option made from the result")
        slip, piece = _slip(table, piece_names)
    else:
        fix = f"add outline: result, or corners: {RING_EXAMPLE}, or walk: or ready:"
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


def _slip(table: Table, piece_names: Sequence[str | None]) -> tuple[str | None, str | None]:
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
    elif piece and piece_names and None not in piece_names and piece not in piece_names:
        names = [name for name in piece_names if name]
        near = nearest(piece, names)
        fix = f"write {near}" if near else f"write {listed(names)}"
        faults.add(path, f"there is no piece called {piece}", fix)
    return slip, piece
