"""Joining and cutting in somebody's own words: what claims that a piece is joined, or cut away."""

from __future__ import annotations

import re

from ....choice.fact import Deed
from ..model import Does

__all__ = ["DEEDS"]

_CUTTING = re.compile(r"(?<!the )(?<!\ba )\bcut(?:s|ting)?\b(?! (?:side|edge|line|cloth)s?\b)", re.I)
_JOINING = re.compile(r"(?<!marks )(?<!sides )\b(?:join(?:s|ed|ing)?|sew(?:s|n|ed|ing)?|stitch(?:es|ed|ing)?)\b", re.I)

DEEDS = {
    Does.JOIN: Deed(claim=_JOINING, counterclaim=_CUTTING),
    Does.CUT: Deed(claim=_CUTTING, counterclaim=_JOINING),
}
