"""An option has material where the outline has none."""

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

__all__ = ["ExtraPartFact", "extra_parts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraPartFact(BarePartFact):
    """The option has material where the outline has none."""

    def holds(self) -> bool:
        """The place is that large, inside the option, and outside the outline."""
        return self.is_only_in(option=True)

    def figures(self) -> fingerprint.FingerprintParts:
        """How large it is."""
        return ("extra", fingerprint.length(self.area))

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """What is in the ring."""
        return (say("In the ring, option {label} has a part too many.", label=self.label),)

    def in_marking(self) -> str:
        """What it has."""
        return say("It has a part too many.")

    def in_report(self) -> str:
        """How large it is, and where."""
        return f"a part too many, {area_in_words(self.area)} in size, around {point_in_words(self.ring_centre)}"

    def as_line(self) -> str:
        """How large it is."""
        return f"{the_option(self.label)}: a part too many, {area_in_words(self.area)}"


def extra_parts(pair: Compared, place: Outline) -> Iterator[ExtraPartFact]:
    """The place, where it is too much."""
    if place in pair.fit.extra:
        yield ExtraPartFact(**pair.at(place, overlay.pole_of_inaccessibility(place)), area=place.area)
