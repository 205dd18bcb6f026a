"""A close look that is not seen: nothing is laid out or drawn."""

from __future__ import annotations

from functools import cached_property

from ....choice.stages.unseen import blank
from ....figure.model import Figure
from ....geometry.rigid_motion import Similarity
from ..drawing.look import Look, LookPhase
from ..facts.landmark import LandmarkFact

__all__ = ["UnseenLook"]


class UnseenLook(Look):
    """The outline at any scale."""

    @cached_property
    def view(self) -> Similarity:
        """Any view."""
        return Similarity()

    def figure(self, alt: str, fact: LandmarkFact, phase: LookPhase) -> Figure:
        """No picture."""
        return blank("look", phase)
