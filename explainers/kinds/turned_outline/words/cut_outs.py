"""What is said of the outline that is cut out and turned by hand."""

from __future__ import annotations

from ....sentences.sheets import CutOutWords
from ....words.messages import say

__all__ = ["cut_out_words", "keep_this_side_up"]


def cut_out_words() -> CutOutWords:
    """What outlines are called, on the sheet and on the folder's page."""
    return CutOutWords(
        sheet=say("{title}: outlines to cut out", title="{title}"),
        title=say("Outlines to cut out"),
        purpose=say("The outlines on paper, to cut out and turn by hand."),
    )


def keep_this_side_up() -> str:
    """For whoever turns it."""
    return say("Keep the outline with this side up: turn it as you like, but never flip it over.")
