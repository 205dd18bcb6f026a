"""Joining and cutting in words: what is written on pieces, and what claims that one is joined, or cut away."""

from __future__ import annotations

import re

from ....choice.fact import ActionClaims
from ....figure.theme import Theme
from ....words.messages import message_as, say_as
from ....words.names import named
from ..model import Does

__all__ = ["ACTION_CLAIMS", "action_label", "piece_label", "verb_on_page"]

# What a theme says unless it has words of its own, and then in the language of the lesson.
_ACTIONS = {"join": message_as("a label", "join"), "cut": message_as("a label", "cut")}


def action_label(does: str, word: str) -> str:
    """What becomes of a piece, "join" or "cut", as a theme's own word says it or else as the language does."""
    return say_as(*_ACTIONS[does]) if word == _ACTIONS[does][1] else word


def verb_on_page(does: str, theme: Theme) -> str:
    """What becomes of a piece as pages for teachers say it after "to": the theme's own verb, or the usual one."""
    own = theme.verbs.get(does)
    return {"join": "join", "cut": "cut away"}[does] if own is None else own.plain


def piece_label(deed: str, name: str) -> str:
    """What becomes of a piece, with its name: "join: flag"."""
    return say_as("a label", "{deed}: {piece}", deed=deed, piece=named(name))


_CUTTING = re.compile(r"(?<!the )(?<!\ba )\bcut(?:s|ting)?\b(?! (?:side|edge|line|cloth)s?\b)", re.I)
_JOINING = re.compile(r"(?<!marks )(?<!sides )\b(?:join(?:s|ed|ing)?|sew(?:s|n|ed|ing)?|stitch(?:es|ed|ing)?)\b", re.I)

ACTION_CLAIMS = {
    Does.JOIN: ActionClaims(claim=_JOINING, counterclaim=_CUTTING),
    Does.CUT: ActionClaims(claim=_CUTTING, counterclaim=_JOINING),
}
