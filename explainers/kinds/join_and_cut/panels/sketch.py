"""Base and pieces of a file that cannot be solved: whatever corners and marks it gives, right or wrong.

A mark that does not lie on its side, or an outline that crosses itself, is best mended where it is seen. So each
outline is drawn as it is listed, each mark from the one point to the other, and what has a fault is in the colour of
faults.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from ....choice.panels.grid import ROOM, scale_to_fit
from ....choice.panels.named_sides import broken_line, corner_line
from ....choice.panels.plot import Plot
from ....choice.panels.view import Panel
from ....document.fields import Faults, Table
from ....document.nodes import ListNode, MapEntry, MapNode, Node, ScalarNode, text_at
from ....document.points import pair_of
from ....figure.model import Role
from ....figure.theme import Theme
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring, Side
from ....geometry.rings import sides
from ....item.ring_reader import ring_begun, ring_in
from ....typeface.faces import missing_in
from ....words.mark_names import SIGN_NAMES
from ..fields.marks import position_sign
from ..model import BASE

__all__ = ["sketched"]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Listed:
    """Base or piece, as far as it is there."""

    name: str
    heading: str
    path: str
    line: int
    ring: Ring | None
    begun: Ring = ()  # without a ring, its corners up to where it breaks
    holes: tuple[Ring, ...] = ()
    mark: str = ""
    side: Side | int | None = None
    meets: Side | int | None = None
    of: str = BASE


def sketched(root: MapNode, wrong: Collection[str], theme: Theme) -> tuple[Panel, ...]:
    """The base and the pieces, as far as they can be read; `wrong` are the fields with faults."""
    listed = list(_listed(root))
    return tuple(
        _panel(thing, listed, wrong, theme) if thing.ring is not None else _broken(thing, theme)
        for thing in listed
        if thing.ring is not None or len(set(thing.begun)) > 1
    )


def _listed(root: MapNode) -> Iterator[_Listed]:
    base = root.entries.get("base")
    if base is not None and isinstance(base.value, MapNode):
        table = Table(base.value, "base", Faults())
        holes = table.get("holes")
        inner = holes.items if isinstance(holes, ListNode) else ()
        rings = [_ring(Table(MapNode({"corners": _entry(hole)}, base.line), "", Faults())) for hole in inner]
        yield _Listed(
            name=BASE,
            heading="The base",
            path="base",
            line=base.line,
            ring=_ring(table),
            begun=ring_begun(table),
            holes=tuple(ring for ring in rings if ring),
        )
    pieces = root.entries.get("pieces")
    for index, node in enumerate(pieces.value.items if pieces and isinstance(pieces.value, ListNode) else ()):
        if not isinstance(node, MapNode):
            continue
        table = Table(node, f"pieces[{index}]", Faults())
        name = text_at(node, "piece") or f"piece {index + 1}"
        yield _Listed(
            name=name,
            heading=name,
            path=table.path,
            line=node.line,
            ring=_ring(table),
            begun=ring_begun(table),
            mark=_mark_of(node, index),
            side=_mark(table, "side"),
            meets=_mark(table, "meets"),
            of=text_at(node, "of") or BASE,
        )


def _broken(thing: _Listed, theme: Theme) -> Panel:
    plot = Plot((thing.begun,), scale_to_fit((thing.begun,), *ROOM), theme)
    plot.broken(thing.begun)
    return Panel(
        name=_name_of(thing),
        heading=thing.heading,
        line=thing.line,
        pictures=(plot.picture(f"{thing.heading} on a grid, up to where it breaks"),),
        lines=(broken_line(thing.begun),),
    )


def _name_of(thing: _Listed) -> str:
    return BASE if thing.name == BASE else thing.path.replace("[", "-").rstrip("]")


def _panel(thing: _Listed, listed: list[_Listed], wrong: Collection[str], theme: Theme) -> Panel:
    assert thing.ring is not None
    outline = Outline.of(thing.ring, thing.holes)
    marks: list[tuple[str, str, Side]] = []
    for other in listed:
        for key, given, owner in (("side", other.side, other.name), ("meets", other.meets, other.of)):
            pair = _ends(given, thing.ring)
            if owner == thing.name and other.name != BASE and pair is not None:
                marks.append((other.mark, f"{other.path}.{key}", pair))
    rings = (*outline.rings, *(pair for _, _, pair in marks))
    plot = Plot(rings, scale_to_fit(rings, *ROOM), theme)
    at_fault = any(field.startswith(thing.path) and _is_outline(field[len(thing.path) :]) for field in wrong)
    role, fill = (BASE, theme.base) if thing.name == BASE else (Role.OPTION, theme.option)
    stroke, dash = (theme.wrong, theme.dash) if at_fault else (theme.ink, None)
    plot.material(outline, role, fill, stroke=stroke, dash=dash)
    for number, (letter, field, pair) in enumerate(marks, start=1):
        is_wrong = any(faulty.startswith(field) for faulty in wrong)
        plot.mark(pair, letter, min(number, 6), outline, wrong=is_wrong)
    plot.numbered(thing.ring)
    return Panel(
        name=_name_of(thing),
        heading=thing.heading,
        line=thing.line,
        pictures=(plot.picture(f"{thing.heading} on a grid, with {len(thing.ring)} numbered corners"),),
        lines=(corner_line(thing.ring),),
    )


def _is_outline(rest: str) -> bool:
    return rest.startswith((".corners", ".walk", ".ready", ".holes", ".from"))


def _ends(given: Side | int | None, ring: Ring) -> Side | None:
    if isinstance(given, int):
        return sides(ring)[given - 1] if 1 <= given <= len(ring) else None
    return given


def _mark(table: Table, key: str) -> Side | int | None:
    node = table.get(key)
    if isinstance(node, ScalarNode):
        return int(node.text) if node.text.isascii() and node.text.isdigit() and len(node.text) < 4 else None
    return pair_of(node, table.at(key), Faults(), fix="") if node is not None else None


def _ring(table: Table) -> Ring | None:
    typed = ring_in(table)
    return typed.corners if typed is not None and len(set(typed.corners)) > 1 else None


def _letter(mark: str) -> str:
    """A mark as far as it can be drawn: what is not a letter of the typeface is a fault that is told elsewhere."""
    drawn = mark[:3] or "?"
    return "?" if missing_in(drawn) else drawn


def _mark_of(node: MapNode, place: int) -> str:
    """What its sides are marked with: what is written, or else the sign of its place."""
    if letters := text_at(node, "mark"):
        return _letter(letters)
    sign = text_at(node, "sign")
    return sign if sign in SIGN_NAMES else position_sign(place, (), ())


def _entry(node: Node) -> MapEntry:
    return MapEntry(node, node.line)
