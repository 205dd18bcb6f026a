"""What a new item of the turned outline tells of its keys."""

from __future__ import annotations

from ....item.glossary import Explanation, keys_explained, outline_explained, outline_in_one
from ....item.option_reader import option_format
from ..slips.registry import SLIPS
from ..words.slips import in_brief
from .item_reader import KEYS, SHOWN

__all__ = ["key_glossary"]


def key_glossary() -> dict[str, Explanation]:
    """By top-level key, what is told below it."""
    return {
        "outline": outline_explained(SHOWN),
        "options": (
            "To say them one by one: a list such as - {outline: result, slip: flipped, turned: 45}",
            outline_in_one(keys_explained(option_format(KEYS.slip_keys, KEYS.result)), "what is shown"),
            "Slips, each of the whole outline",
            {slip: in_brief(slip) for slip in SLIPS},
        ),
    }
