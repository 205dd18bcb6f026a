"""The outline has material where an option has none."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ...geometry import overlay
from ...geometry.outline import Outline
from ...words.messages import say
from ...words.names import area_in_words, point_in_words, the_option
from .. import fingerprint
from .bare_part import BarePartFact
from .difference import Compared

__all__ = ["MissingPartFact", "missing_parts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MissingPartFact(BarePartFact):
    """The outline has material where the option has none."""

    def holds(self) -> bool:
        """The place is that large, inside the outline, and outside the option."""
        return self.is_only_in(option=False)

    def figures(self) -> fingerprint.FingerprintParts:
        """How large it is."""
        return ("missing", fingerprint.length(self.area))

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """What is in the ring."""
        return (say("In the ring, a part of option {label} is missing.", label=self.label),)

    def in_marking(self) -> str:
        """What it lacks."""
        return say("A part of it is missing.")

    def in_report(self) -> str:
        """How large it is, and where."""
        return f"a part missing, {area_in_words(self.area)} in size, around {point_in_words(self.ring_centre)}"

    def as_line(self) -> str:
        """How large it is."""
        return f"{the_option(self.label)}: a part missing, {area_in_words(self.area)}"


def missing_parts(pair: Compared, place: Outline) -> Iterator[MissingPartFact]:
    """The place, where it is not too much."""
    if place not in pair.fit.extra:
        yield MissingPartFact(**pair.at(place, overlay.pole_of_inaccessibility(place)), area=place.area)
