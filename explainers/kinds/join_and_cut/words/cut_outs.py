"""What is said of the pieces that are cut out and laid by hand."""

from __future__ import annotations

from ....sentences.sheets import CutOutWords
from ....words.messages import say

__all__ = ["cut_out_words", "keep_this_side_up"]


def cut_out_words() -> CutOutWords:
    """What they are called, on the sheet and on the folder's page."""
    return CutOutWords(
        sheet=say("{title}: pieces to cut out", title="{title}"),
        title=say("Pieces to cut out"),
        purpose=say("The pieces on paper, to cut out and turn by hand."),
    )


def keep_this_side_up() -> str:
    """For whoever lays them."""
    return say("Keep every piece with this side up: turn it as you like, but never flip it over.")
