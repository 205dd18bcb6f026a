"""The paces by name: how fast a lesson is told, and how long and how wide its captions are. Data only.

Sources: DCMP Captioning Key, presentation rate (current: lower level 130 words a minute, middle 140, upper 160; older
edition: 120 to 130 for lower and middle grades, 32 characters a line, no caption under 2 s). BBC Subtitle Guidelines:
3.1, 37 characters a line, two lines; 4, 160 to 180 words a minute; 4.5, no gap between captions or one of at least 1 s.
7 s at most, and 42 characters and 1 s for adults: general practice, as captioning guides give it. Breaths, rests and
looks are common practice, no source.
"""

from __future__ import annotations

from ..style import PACE_NAMES
from .pacing import SCHOOL_PACE, Pace
from .phrasing import CaptionShape

__all__ = ["PACES", "pace_called"]

# For learners who read slowly, or in a language that is not their own.
_SLOW = Pace(
    words_a_minute=120.0,  # DCMP, older edition, the slowest of its 120 to 130
    least_caption_s=2.0,  # DCMP, older edition
    longest_caption_s=7.0,  # general practice
    least_gap_s=1.0,  # BBC, 4.5
    shape=CaptionShape(max_lines=2, max_characters=32, max_words=12),  # BBC, 3.1; DCMP, older edition
    breath_s=0.5,
    rest_s=1.0,
    look_s=1.5,
)

_ADULT = Pace(
    words_a_minute=160.0,  # DCMP, upper level; BBC, 4, the slowest of its 160 to 180
    least_caption_s=1.0,  # general practice
    longest_caption_s=7.0,  # general practice
    least_gap_s=1.0,  # BBC, 4.5
    shape=CaptionShape(max_lines=2, max_characters=42, max_words=16),  # general practice
    breath_s=0.25,
    rest_s=0.5,
    look_s=0.8,
)

PACES: dict[str, Pace] = dict(zip(PACE_NAMES, (SCHOOL_PACE, _SLOW, _ADULT), strict=True))


def pace_called(name: str) -> Pace:
    """The pace of that name.

    Raises : KeyError for any other; whoever reads names has told what is wrong with one
    """
    return PACES[name]
