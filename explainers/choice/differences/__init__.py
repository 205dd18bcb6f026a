"""Why an option is not the outline: a module a kind of difference, with its proof, its fingerprint and its words.

To add a kind: a module with a class below ``ReasonFact``, a line in ``KINDS``, and a line in ``FINDERS`` at its rank.
"""

from __future__ import annotations

from . import (
    corner_angle,
    corner_count,
    extra_part,
    hole,
    mirror,
    missing_part,
    part_elsewhere,
    side_length,
    side_ratio,
)
from .difference import Finder, ReasonFact

__all__ = ["FINDERS", "KINDS"]

KINDS: tuple[type[ReasonFact], ...] = (
    mirror.MirrorFact,
    hole.HoleFact,
    part_elsewhere.PartElsewhereFact,
    corner_angle.CornerAngleFact,
    corner_count.CornerCountFact,
    side_length.SideLengthFact,
    side_ratio.SideRatioFact,
    extra_part.ExtraPartFact,
    missing_part.MissingPartFact,
)

# What is looked for at one place, the clearest first; a kind may come twice, for what is plain and for what is not.
FINDERS: tuple[Finder, ...] = (
    hole.holes,
    part_elsewhere.parts_elsewhere,
    corner_angle.odd_angles,
    side_ratio.ratios_of_scaled,
    side_length.clear_lengths,
    corner_count.counts,
    side_ratio.ratios,
    extra_part.extra_parts,
    missing_part.missing_parts,
    corner_angle.odd_reflex_angles,
    side_length.lengths,
)
