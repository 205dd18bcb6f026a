"""Draws an outline again from its alt text alone, as a reader with pencil and paper would.

It shares no code with ``explainers.sentences``.
"""

from __future__ import annotations

import math
import re

__all__ = ["marked_side_in", "rings_drawn_from"]

_SIDE = re.compile(r"side (\d+) of length (?:about )?(\d+(?:\.\d+)?), (?:about )?(\d+(?:\.\d+)?) degrees?")


def rings_drawn_from(alt: str) -> list[list[tuple[float, float]]]:
    """Each ring told in the text, drawn anticlockwise from (0, 0) along the x axis; outside first, then holes."""
    rings: list[list[tuple[float, float]]] = []
    walks = re.split(r"Going anticlockwise", alt)[1:]
    for walk in walks:
        x = y = heading_deg = 0.0
        ring = []
        for expected, (number, length, angle) in enumerate(_SIDE.findall(walk.split(". ")[0]), start=1):
            assert int(number) == expected, f"sides out of order in {walk!r}"
            ring.append((x, y))
            x += float(length) * math.cos(math.radians(heading_deg))
            y += float(length) * math.sin(math.radians(heading_deg))
            heading_deg += 180.0 - float(angle)
        assert math.hypot(x, y) < 0.05 * len(ring), f"the walk does not close: {walk!r}"
        rings.append(ring)
    return rings


def marked_side_in(alt: str, mark: str) -> tuple[int, float | None, float | None]:
    """(number of the side that the mark is on, where on it the mark starts and stops; None for the whole side)."""
    found = re.search(
        rf"(?:Mark|The) {re.escape(mark)} is on side (\d+)"
        r"(?:, from (?:about )?(\d+(?:\.\d+)?) to (?:about )?(\d+(?:\.\d+)?) along it)?\.",
        alt,
    )
    assert found, f"no mark {mark} on a side in {alt!r}"
    return int(found[1]), *(None if part is None else float(part) for part in (found[2], found[3]))  # type: ignore[return-value]
