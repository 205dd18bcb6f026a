"""An answer as the object that ``explainers solve --json`` prints."""

from __future__ import annotations

from typing import Any

from ..geometry.rigid_motion import Ring
from .model import Answer

__all__ = ["solution_json"]

DIGITS = 9  # decimals: finer than anything typed, coarser than rounding errors


def solution_json(solution: Answer) -> dict[str, Any]:
    """Of a solution or of the bare answer: coordinates in the question's, no needless corners, numbers never -0."""
    return {
        "item": solution.item.name,
        "sound": solution.sound,
        "key": solution.key,
        "area": _number(solution.outline.area),
        "outline": _ring(solution.outline.exterior),
        "holes": [_ring(hole) for hole in solution.outline.holes],
        "turns": [_number(turn_deg) for turn_deg in solution.turns_deg],
        "options": [
            {"label": verdict.label, "same": verdict.same, "mirrored": verdict.mirrored}
            for verdict in solution.verdicts
        ],
    }


def _ring(ring: Ring) -> list[list[float]]:
    return [[_number(x), _number(y)] for x, y in ring]


def _number(value: float) -> float:
    return round(float(value), DIGITS) + 0.0
