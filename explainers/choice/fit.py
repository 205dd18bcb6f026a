"""An option laid on the outline as well as it can be."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.outline import Outline
from ..geometry.rigid_motion import Similarity

__all__ = ["Fit"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """An option laid on the result as well as turning, shifting and one scaling of its own allow."""

    motion: Similarity  # from the option's own coordinates to the base's
    laid: Outline  # the option after that motion, needless corners dropped
    extra: tuple[Outline, ...]  # parts of the option outside the result, largest first; slivers left out
    missing: tuple[Outline, ...]  # parts of the result that the option leaves bare, largest first
    difference: float  # area of both together, item units squared; 0 for the right option
