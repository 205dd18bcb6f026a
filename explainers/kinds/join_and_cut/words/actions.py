"""Joining and cutting in words: what is written on pieces, and what claims that one is joined, or cut away."""

from __future__ import annotations

import re

from ....choice.fact import Deed
from ....words.messages import message_as, say_as
from ....words.names import named
from ..model import Does

__all__ = ["DEEDS", "deed_label", "piece_label"]

# What a theme says unless it has words of its own, and then in the language of the lesson.
_DEEDS = {"join": message_as("a label", "join"), "cut": message_as("a label", "cut")}


def deed_label(does: str, word: str) -> str:
    """What becomes of a piece, "join" or "cut", as a theme's own word says it or else as the language does."""
    return say_as(*_DEEDS[does]) if word == _DEEDS[does][1] else word


def piece_label(deed: str, name: str) -> str:
    """What becomes of a piece, with its name: "join: flag"."""
    return say_as("a label", "{deed}: {piece}", deed=deed, piece=named(name))


_CUTTING = re.compile(r"(?<!the )(?<!\ba )\bcut(?:s|ting)?\b(?! (?:side|edge|line|cloth)s?\b)", re.I)
_JOINING = re.compile(r"(?<!marks )(?<!sides )\b(?:join(?:s|ed|ing)?|sew(?:s|n|ed|ing)?|stitch(?:es|ed|ing)?)\b", re.I)

DEEDS = {
    Does.JOIN: Deed(claim=_JOINING, counterclaim=_CUTTING),
    Does.CUT: Deed(claim=_CUTTING, counterclaim=_JOINING),
}
