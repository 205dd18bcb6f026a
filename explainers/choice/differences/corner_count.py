"""An option has more corners than the outline, or fewer."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ...geometry import overlay
from ...geometry.locate import nearest_corner
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point
from ...geometry.tolerance import plain
from ...words.messages import say, say_count
from ...words.names import number_of, point_in_words, the_option
from ..fingerprint import FingerprintParts
from .difference import Compared, DifferenceFact, Marks, is_at

__all__ = ["CornerCountFact", "counts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerCountFact(DifferenceFact):
    """The option has more corners than the outline, or fewer; ``corner`` is one that the other lacks."""

    option_corners: int
    outline_corners: int
    corner: Point
    on_option: bool  # whose corner it is

    def holds(self) -> bool:
        """The counts are right and differ, and the one has a corner at the place where the other has none."""
        counted = self.option_corners, self.outline_corners
        shapes = self.option.simplified(self.tolerance), self.outline.simplified(self.tolerance)
        if counted != tuple(shape.corner_count for shape in shapes) or counted[0] == counted[1]:
            return False
        owner, other = shapes if self.on_option else shapes[::-1]
        return (
            DifferenceFact.holds(self)
            and nearest_corner(self.corner, _corners(owner))[0] <= self.tolerance
            and nearest_corner(self.corner, _corners(other))[0] > plain(self.tolerance)
            and is_at(self.corner, self.place, self.tolerance)
        )

    @property
    def is_seen_alone(self) -> bool:
        """A corner that only the outline has leaves nothing to be seen on the option."""
        return self.on_option

    def figures(self) -> FingerprintParts:
        """How many, and whose corner is told."""
        return ("corners", self.option_corners, self.outline_corners, self.on_option)

    def marks_over_outline(self) -> Marks:
        """The corner."""
        return Marks(spot=self.corner, corner=self.corner)

    def marks_of_choice(self) -> Marks:
        """The corner, where the option has it."""
        return Marks(spot=self.corner, corner=self.corner if self.on_option else None)

    def heading(self) -> str:
        """Which way the counts differ."""
        if self.option_corners > self.outline_corners:
            return say("{labels}: too many corners", labels=self.label)
        return say("{labels}: too few corners", labels=self.label)

    def over_outline(self) -> tuple[str, ...]:
        """The corner, then both counts."""
        if self.on_option:
            here = say("Here option {label} has a corner, but the outline has none.", label=self.label)
        else:
            here = say("Here the outline has a corner, but option {label} has none.", label=self.label)
        return (here, self._counted())

    def of_choice(self, *, outline_given: bool = False) -> tuple[str, ...]:
        """What is in the ring, then both counts."""
        label = self.label
        if outline_given and self.on_option:
            here = say("In the ring, option {label} has a corner, but the outline has none.", label=label)
        elif outline_given:
            here = say("In the ring, option {label} has no corner, but the outline has one.", label=label)
        elif self.on_option:
            here = say("In the ring, option {label} has a corner, but the finished outline has none.", label=label)
        else:
            here = say("In the ring, option {label} has no corner, but the finished outline has one.", label=label)
        return (here, self._counted())

    def _counted(self) -> str:
        if self._has_holes:
            return say_count(
                "Option {label} has {count} corner in all, but the outline has {others}.",
                "Option {label} has {count} corners in all, but the outline has {others}.",
                self.option_corners,
                label=self.label,
                others=self.outline_corners,
            )
        return say_count(
            "Option {label} has {count} corner, but the outline has {others}.",
            "Option {label} has {count} corners, but the outline has {others}.",
            self.option_corners,
            label=self.label,
            others=self.outline_corners,
        )

    @property
    def _has_holes(self) -> bool:
        return bool(self.option.holes or self.outline.holes)

    def in_marking(self) -> str:
        """Both counts."""
        return say_count(
            "It has {count} corner, where the outline has {others}.",
            "It has {count} corners, where the outline has {others}.",
            self.option_corners,
            others=self.outline_corners,
        )

    def practise(self) -> str:
        """Counting."""
        return say("Practise counting the corners of an outline before you choose.")

    def in_report(self) -> str:
        """Both counts, then the corner."""
        corners = f"{number_of(self.option_corners, 'corner')}, where the outline has {self.outline_corners}"
        whose = "its" if self.on_option else "the outline's"
        return f"{corners}; {whose} corner at {point_in_words(self.corner)} has no partner"

    def as_line(self) -> str:
        """Both counts."""
        return f"{the_option(self.label)}: {number_of(self.option_corners, 'corner')}, not {self.outline_corners}"


def counts(pair: Compared, place: Outline) -> Iterator[CornerCountFact]:
    """More corners, or fewer, with a corner at the place that the other lacks."""
    counted = pair.fit.laid.corner_count, pair.outline.corner_count
    if counted[0] == counted[1]:
        return
    lonely = [(-round(gap, 6), corner) for gap, corner in pair.once(_lonely_corners) if pair.near(corner, place)]
    for _, corner in sorted(lonely):
        yield CornerCountFact(
            **pair.at(place, overlay.inside_near(place, corner)),
            option_corners=counted[0],
            outline_corners=counted[1],
            corner=corner,
            on_option=counted[0] > counted[1],
        )


def _lonely_corners(pair: Compared) -> list[tuple[float, Point]]:
    """(how far from any corner of the other, corner) of the one that has more corners."""
    shapes = sorted((pair.fit.laid, pair.outline), key=lambda shape: shape.corner_count)
    fewer, more = map(_corners, shapes)
    gaps = ((min(math.dist(corner, there) for there in fewer), corner) for corner in more)
    return [(gap, corner) for gap, corner in gaps if gap > plain(pair.tolerance)]


def _corners(outline: Outline) -> tuple[Point, ...]:
    return tuple(corner for ring in outline.rings for corner in ring)
