"""What makes an item easy or hard, in stated features; from them a pause to suggest.

The pause is an estimate. Turning in the mind takes time in proportion to the angle (Shepard & Metzler 1971, Science
171, pages 701 to 703: about 60 degrees a second for two figures seen together, the rate from memory), and for flat
outlines hardly depends on how many corners they have (Cooper 1975, Cognitive Psychology 7, pages 20 to 43), so corners
are not counted. Practised adults turn flat outlines several times as fast; the slow rate is right for learners. The
other times are judgement, set so that one piece and five options come to about 30 s: common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ....choice.model import Solution, Verdict
from ....choice.question import WarningKind
from ....geometry.angles import wrapped_deg
from ....geometry.tolerance import authoring_tolerance
from ..facts.meet import is_part_of_side
from ..model import BASE, Does
from .hard_step import HardStep, turn_kind

__all__ = [
    "Features",
    "PausePart",
    "check_pause_s",
    "features",
    "pause_parts",
    "seconds_of_work",
    "suggested_pause_s",
]

TURNING_DEG_PER_S = 60.0  # Shepard & Metzler 1971, see above
READING_S = 5.0  # the sheet as a whole
MEETING_S = 3.0  # a piece's mark and its partner's are found
SPECIAL_S = 2.0  # a part-side mark, a cut, a piece on a piece, an odd angle, a hole: one thing more to think of
LOOKING_S = 1.5  # an option is looked at
CLOSE_S = 4.0  # an option that nearly fits, or is flipped, is looked at twice
LEAST_S, MOST_S, STEP_S = 15.0, 120.0, 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Features:
    """What an item asks of a learner."""

    pieces: int
    total_turn_deg: float  # of all pieces, sizes added
    largest_turn_deg: float
    odd_angles: int  # pieces that turn by no multiple of 45 degrees
    part_side_marks: int  # pieces whose mark, or its partner, covers only a part of a side
    cuts: int
    pieces_on_pieces: int  # pieces that meet an earlier piece
    hole: bool  # in the finished outline
    options: int
    options_turn_deg: float  # of all options, from the way they are shown to lying as well as they can; sizes added
    flipped_option: bool  # an option is the outline turned over
    nearly_right: int  # wrong options that hardly differ from the outline


@dataclass(frozen=True, slots=True, kw_only=True)
class PausePart:
    """What one part of the work takes."""

    work: str  # reading, turning, meeting, thinking, looking, telling-apart
    seconds: float


def features(solution: Solution) -> Features:
    """The features of a solved item."""
    tolerance = authoring_tolerance(solution.item.extent)
    placements = solution.placements
    turns = [abs(placement.turn_deg) for placement in placements]
    return Features(
        pieces=len(placements),
        total_turn_deg=math.fsum(turns),
        largest_turn_deg=max(turns, default=0.0),
        odd_angles=sum(turn_kind(turn) is HardStep.ODD_TURN for turn in turns),
        part_side_marks=sum(
            is_part_of_side(laid.side, laid.ring, laid.partner, laid.before, tolerance) for laid in placements
        ),
        cuts=sum(placement.piece.does is Does.CUT for placement in placements),
        pieces_on_pieces=sum(placement.piece.of != BASE for placement in placements),
        hole=bool(solution.outline.holes),
        options=len(solution.verdicts),
        options_turn_deg=math.fsum(_turn_to_compare(verdict) for verdict in solution.verdicts),
        flipped_option=any(verdict.mirrored for verdict in solution.verdicts),
        nearly_right=sum(
            warning.kind is WarningKind.NEARLY_RIGHT for warning in (*solution.warnings, *solution.accepted)
        ),
    )


def _turn_to_compare(verdict: Verdict) -> float:
    return abs(wrapped_deg(verdict.fit.motion.turn_deg - verdict.drawn.turn_deg))


def pause_parts(found: Features) -> tuple[PausePart, ...]:
    """What each part of the work takes, before anything is rounded."""
    special = found.part_side_marks + found.cuts + found.pieces_on_pieces + found.odd_angles + found.hole
    return (
        PausePart(work="reading", seconds=READING_S),
        PausePart(work="turning", seconds=(found.total_turn_deg + found.options_turn_deg) / TURNING_DEG_PER_S),
        PausePart(work="meeting", seconds=MEETING_S * found.pieces),
        PausePart(work="thinking", seconds=SPECIAL_S * special),
        PausePart(work="looking", seconds=LOOKING_S * found.options),
        PausePart(work="telling-apart", seconds=CLOSE_S * (found.flipped_option + found.nearly_right)),
    )


def suggested_pause_s(solution: Solution) -> float:
    """How long learners might get to try first, from 15 to 120 s in whole fives: an estimate."""
    return _in_fives(seconds_of_work(solution))


def seconds_of_work(solution: Solution) -> float:
    """What all parts of the work take together, before anything is rounded: one number for how hard an item is."""
    return math.fsum(part.seconds for part in pause_parts(features(solution)))


def check_pause_s(solution: Solution) -> float:
    """The same pause where only the options are compared with the finished outline."""
    found = features(solution)
    alone = replace(
        found, pieces=0, total_turn_deg=0.0, odd_angles=0, part_side_marks=0, cuts=0, pieces_on_pieces=0, hole=False
    )
    return _in_fives(math.fsum(part.seconds for part in pause_parts(alone)))


def _in_fives(seconds: float) -> float:
    return min(MOST_S, max(LEAST_S, STEP_S * math.floor(seconds / STEP_S + 0.5)))
