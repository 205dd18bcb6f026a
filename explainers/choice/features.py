"""What makes a question easy or hard, in stated features, and what each part of the work takes.

Times are estimates. Turning in the mind takes time in proportion to the angle (Shepard & Metzler 1971, Science 171,
pages 701 to 703: about 60 degrees a second for two figures seen together, the rate from memory), and for flat outlines
hardly depends on how many corners they have (Cooper 1975, Cognitive Psychology 7, pages 20 to 43), so corners are not
counted. Practised adults turn flat outlines several times as fast; the slow rate is right for learners. The other times
are judgement, set so that one piece and five options come to about 30 s: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, fields

__all__ = [
    "LEAST_S",
    "MOST_S",
    "STEP_S",
    "TURNING_DEG_PER_S",
    "Features",
    "PausePart",
    "counted",
    "in_fives",
]

TURNING_DEG_PER_S = 60.0  # Shepard & Metzler 1971, see above
READING_S = 5.0  # the sheet as a whole
SPECIAL_S = 2.0  # a hole, or whatever else is one thing more to think of
LOOKING_S = 1.5  # an option is looked at
CLOSE_S = 4.0  # an option that nearly fits, or is flipped, is looked at twice
LEAST_S, MOST_S, STEP_S = 15.0, 120.0, 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PausePart:
    """What one part of the work takes."""

    work: str  # reading, turning, thinking, looking, telling-apart, or what a kind adds
    words: str  # the work as a phrase, for a teacher
    seconds: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Features:
    """What comparing the options with the finished outline asks of a learner; a kind adds what comes before that."""

    hole: bool  # in the finished outline
    options: int
    options_turn_deg: float  # of all options, from the way they are shown to lying as well as they can; sizes added
    flipped_option: bool  # an option is the outline turned over
    nearly_right: int  # wrong options that hardly differ from the outline

    @property
    def turned(self) -> str:
        """What is turned, as a phrase."""
        return "options"

    @property
    def turning_deg(self) -> float:
        """The sizes of all turns added."""
        return self.options_turn_deg

    @property
    def special(self) -> int:
        """How many things there are more to think of."""
        return int(self.hole)

    def further_parts(self) -> tuple[PausePart, ...]:
        """Parts of the work that only its kind has."""
        return ()

    def told(self) -> Iterator[str]:
        """What it asks for, a phrase each, for a teacher: only what is there."""
        if self.nearly_right:
            yield counted(self.nearly_right, "option that is nearly right", "options that are nearly right")
        if self.hole:
            yield "a hole"
        if self.flipped_option:
            yield "a flipped option"

    def figures(self) -> dict[str, float]:
        """Every feature by its name, for a program: what the kind adds comes first."""
        names = [each.name for each in fields(self)]
        general = {each.name for each in fields(Features)}
        return {name: getattr(self, name) for name in sorted(names, key=general.__contains__)}

    def pause_parts(self) -> tuple[PausePart, ...]:
        """What each part of the work takes, before anything is rounded."""
        close = self.flipped_option + self.nearly_right
        return (
            PausePart(work="reading", words="reading the sheet", seconds=READING_S),
            PausePart(work="turning", words=f"turning {self.turned}", seconds=self.turning_deg / TURNING_DEG_PER_S),
            *self.further_parts(),
            PausePart(work="thinking", words="what is special", seconds=SPECIAL_S * self.special),
            PausePart(work="looking", words="looking at the options", seconds=LOOKING_S * self.options),
            PausePart(work="telling-apart", words="options that are close", seconds=CLOSE_S * close),
        )

    @property
    def seconds_of_work(self) -> float:
        """What all parts of the work take together, before anything is rounded: one number for how hard it is."""
        return math.fsum(part.seconds for part in self.pause_parts())


def counted(count: int, one: str, several: str) -> str:
    """How many, in figures, of what has a plural of its own: "2 marks on part of a side"."""
    return f"{count} {one if count == 1 else several}"


def in_fives(seconds: float) -> float:
    """A pause to suggest, from 15 to 120 s in whole fives."""
    return min(MOST_S, max(LEAST_S, STEP_S * math.floor(seconds / STEP_S + 0.5)))
