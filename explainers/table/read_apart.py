"""What is done with a dropped file in the process apart: its sketch once, a proposal for each way in which it is asked.

Nothing here raises: whatever a file holds, the answer says in words what came of it.
"""

from __future__ import annotations

import contextlib
import hashlib
import math
import os
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ..tracing.proposal import Proposal, ProposedPiece, TracedOutline
    from ..tracing.sketch import Sketch
    from ..tracing.source import Source

__all__ = ["Asked", "proposed"]

_MOST_MEMORY = 2_500_000_000  # bytes that can be written; the largest that is read takes a third of that
_DIGITS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """How a file is to be read."""

    unit: float
    grid: float
    slide: int
    base: int | None
    without: frozenset[int]
    holes: frozenset[int]
    pieces: frozenset[int]
    source: str
    name: str
    title: str | None


class _Kept:
    """The sketch that was read last."""

    key: tuple[bytes, float, int] | None = None
    found: tuple[Source, Sketch] | None = None
    bounded = False


def proposed(data: bytes, asked: Asked) -> dict[str, Any]:
    """The answer about a file."""
    from ..errors import OutputError
    from ..tracing.sketch import Refused

    _bound()
    try:
        return _proposed(data, asked)
    except Refused as stop:
        return _refused(stop.message, stop.fix, stop.line)
    except OutputError as error:  # the library for pictures is not installed
        message, _, fix = str(error).partition(". To mend it: ")
        return _refused(message, fix.rstrip("."))
    except MemoryError:
        return _refused("it takes too much memory to read", "save it smaller")
    except Exception as error:  # a fault of ours must not end the process
        return _refused(f"the program itself failed over it ({type(error).__name__})", "save it in another format")


def _bound() -> None:
    """No file gets more memory than that, where the system can say so."""
    if _Kept.bounded:
        return
    _Kept.bounded = True
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # each thread would set memory aside, and none is needed
    with contextlib.suppress(ImportError, OSError, ValueError):
        import resource

        # What is written alone: threads and libraries take addresses that they never use, the more the more cores.
        _, most = resource.getrlimit(resource.RLIMIT_DATA)
        if most == resource.RLIM_INFINITY or most > _MOST_MEMORY:
            resource.setrlimit(resource.RLIMIT_DATA, (_MOST_MEMORY, most))


def _refused(message: str, fix: str, line: int = 0) -> dict[str, Any]:
    return {"why": "refused", "message": message[:400], "fix": fix[:400], "line": line}


def _sketch(data: bytes, asked: Asked) -> tuple[Source, Sketch]:
    from ..tracing.source import sketch_in

    key = (hashlib.sha256(data).digest(), asked.unit, asked.slide)
    if _Kept.key != key or _Kept.found is None:
        _Kept.key, _Kept.found = None, None
        found = sketch_in(data, unit=asked.unit, slide=asked.slide)
        _Kept.key, _Kept.found = key, found
    return _Kept.found


def _proposed(data: bytes, asked: Asked) -> dict[str, Any]:
    from ..tracing.choosing import Choice
    from ..tracing.source import Source, proposal_chosen
    from ..tracing.written import item_text

    kind, sketch = _sketch(data, asked)
    choice = Choice(base=asked.base, without=asked.without, holes=asked.holes, pieces=asked.pieces)
    proposal = proposal_chosen(sketch, choice, grid=asked.grid)
    by_name = {piece.outline.name: piece for piece in proposal.pieces}
    return {
        "kind": {Source.PICTURE: "picture", Source.SLIDE: "slide", Source.DRAWING: "drawing"}[kind],
        "size": _point(proposal.size),
        "plane": [list(row) for row in proposal.plane.rows],
        "outlines": [_outline(each, by_name.get(each.name), proposal) for each in proposal.outlines],
        "left_out": [
            {"number": shape.number, "rings": [_ring(map(sketch.plane.on_source, ring)) for ring in shape.rings]}
            for shape in sketch.shapes
            if shape.number in asked.without
        ],
        "open": [
            {"about": each.about, "message": each.message, "fix": each.fix, "at": _point(each.on_source)}
            for each in proposal.open
        ],
        "passed": [
            {"name": each.name, "message": each.message, "fix": each.fix, "at": _point(each.on_source)}
            for each in proposal.passed
        ],
        "remarks": list(proposal.remarks),
        "text": item_text(proposal, name=asked.name, source=asked.source, title=asked.title),
    }


def _outline(outline: TracedOutline, piece: ProposedPiece | None, proposal: Proposal) -> dict[str, Any]:
    from ..tracing.reading import SURE
    from ..tracing.shown import clear_place

    plane = proposal.plane
    host = next((each for each in proposal.outlines if piece is not None and each.name == piece.of), proposal.base)
    return {
        "number": outline.number,
        "name": outline.name,
        "role": "base" if outline is proposal.base else "piece",
        "does": piece.does if piece is not None else None,
        "sure": outline.sure >= SURE,
        "doubts": list(outline.doubts),
        "corners": _ring(outline.corners),
        "holes": [_ring(hole) for hole in outline.holes],
        "rings": [_ring(ring) for ring in outline.on_source],
        "hole_numbers": list(outline.hole_numbers),
        "place": _point(plane.on_source(clear_place(outline, proposal))),
        "mark": piece.mark if piece is not None else None,
        "side": _ring(map(plane.on_source, piece.side)) if piece is not None and piece.side else None,
        "meets": _ring(map(plane.on_source, piece.meets)) if piece is not None and piece.meets else None,
        "of": host.name if piece is not None else None,
    }


def _ring(points: Iterable[Any]) -> list[list[float] | None]:
    return [_point(point) for point in points]


def _point(point: Any) -> list[float] | None:
    """A place as JSON takes it; None where it lies at no finite one."""
    if point is None or not all(map(math.isfinite, point)):
        return None
    return [round(float(value), _DIGITS) for value in point]
