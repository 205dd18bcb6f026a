"""What belongs together on a slide, and the order in which it is laid: one group a thing, looking as the figure does.

A teacher who moves a thing moves all that is drawn of it: a base with its seams and marks, an option with its letter
and its sign, a piece with its word. A figure draws them in between other things. What is brought together is laid as
early as what it covers allows, so that the things that are taught first are read first.
"""

from __future__ import annotations

from collections.abc import Sequence
from heapq import heapify, heappop, heappush
from itertools import groupby

from ...errors import OutputError
from ...figure.mark_signs import sign_rings
from ...figure.model import Area, Arrow, Circle, Dots, Entry, Label, Lines, Role
from ...figure.strokes import arrow_parts, circle_ring
from ...geometry.ink import Ink, region, shared_area, spots, strokes
from ...typeface.faces import label_box

__all__ = ["gathered"]

_SEEN = 1e-4  # of the stage: an overlap of a smaller area than a pixel or two at 1080p is none
_MISSED = 1e-2  # the end of a line on a neighbour, tucked under it instead: nobody misses it, and a thing stays whole

Group = tuple[str, list[Entry]]
Covers = dict[tuple[int, int], float]  # (a run, a later one that covers some of it) -> how much


def gathered(entries: Sequence[Entry]) -> list[Group]:
    """The entries by their groups, in the order in which they are laid, with the name of each group.

    Whatever covers something in the figure covers it here. A thing that lies both under and over another one cannot
    be one group then, and stays in as many as it is drawn in.
    """
    laid = [entry for entry in entries if entry.opacity > 0.0]
    runs = [(name, list(members)) for name, members in groupby(laid, key=_owner)]
    covers = _covers(runs)
    parts: dict[str, list[list[int]]] = {}  # of each group, the runs that are laid as one
    for number, (name, _) in enumerate(runs):
        parts.setdefault(name, [[]])[0].append(number)
    while True:
        order, stuck = _order(parts, covers)
        if not stuck:
            return [(name, [entry for number in part for entry in runs[number][1]]) for name, part in order]
        faintest = min((pair for pair in covers if stuck.issuperset(pair)), key=covers.__getitem__)
        if covers[faintest] < _MISSED:
            del covers[faintest]
        else:
            _split(parts, stuck)


def _owner(entry: Entry) -> str:
    """The group of what an entry is drawn of, or else its own in the figure."""
    if entry.subject is None or entry.role == Role.PANEL:
        return entry.group
    return entry.subject.group


def _covers(runs: Sequence[Group]) -> Covers:
    inks = [[_ink(entry) for entry in members] for _, members in runs]
    found = {
        (early, late): sum(shared_area(under, above) for under in inks[early] for above in inks[late])
        for late in range(len(runs))
        for early in range(late)
        if runs[early][0] != runs[late][0]
    }
    return {pair: area for pair, area in found.items() if area > _SEEN}


def _order(parts: dict[str, list[list[int]]], covers: Covers) -> tuple[list[tuple[str, list[int]]], set[int]]:
    """The parts in an order that keeps what covers what, the earliest first, and the runs that have no place in it."""
    rows = [(name, part) for name, of_one in parts.items() for part in of_one]
    row_of = {run: row for row, (_, part) in enumerate(rows) for run in part}
    follows: list[set[int]] = [set() for _ in rows]
    for early, late in covers:
        if row_of[early] != row_of[late]:
            follows[row_of[early]].add(row_of[late])
    waits = [sum(row in after for after in follows) for row in range(len(rows))]
    ready = [(rows[row][1][0], row) for row in range(len(rows)) if not waits[row]]
    heapify(ready)
    order = []
    while ready:
        _, row = heappop(ready)
        order.append(rows[row])
        for later in follows[row]:
            waits[later] -= 1
            if not waits[later]:
                heappush(ready, (rows[later][1][0], later))
    return order, {run for row, (_, part) in enumerate(rows) if waits[row] for run in part}


def _split(parts: dict[str, list[list[int]]], stuck: set[int]) -> None:
    """Lay the last run of a part by itself, of the part that is drawn in most runs."""
    rows = [(len(part), name, part) for name, of_one in parts.items() for part in of_one if stuck.issuperset(part)]
    _, name, part = max(rows)
    parts[name].append([part.pop()])


def _ink(entry: Entry) -> Ink:
    """What is seen of an entry: inside a filled outline, the line of an empty one, the box of a word."""
    match entry:
        case Area(fill=None):
            return strokes([(*ring, ring[0]) for ring in entry.rings], entry.width)
        case Area():
            return region(entry.rings)
        case Lines():
            return strokes(entry.segments, entry.width)
        case Dots():
            return spots(entry.centres, entry.radius)
        case Label() if entry.sign:
            return region(sign_rings(entry.sign, entry.at, entry.size))
        case Label():
            left, bottom, right, top = label_box(entry)
            return region([((left, bottom), (right, bottom), (right, top), (left, top))])
        case Arrow():
            shaft, head = arrow_parts(entry)
            return strokes([shaft, (*head, head[0])], entry.width)
        case Circle():
            ring = circle_ring(entry.centre, entry.radius)
            return strokes([(*ring, ring[0])], entry.width) if entry.fill is None else region([ring])
    raise OutputError(f"an entry of kind {type(entry).__name__} cannot be put on a slide")
