"""What a new item of joining and cutting tells of its keys."""

from __future__ import annotations

from ....choice.slip import SlipCase
from ....item.glossary import Explanation, keys_explained, outline_explained, outline_in_one
from ....item.option_reader import option_format
from ..slips.registry import SLIPS
from ..words.slips import in_brief
from .item_reader import BASE, KEYS
from .piece_reader import PIECE

__all__ = ["key_glossary"]


def key_glossary() -> dict[str, Explanation]:
    """By top-level key, what is told below it."""
    slips = {
        name: in_brief(SlipCase(slip=name)) + ("" if spec.needs_piece else ", which needs no piece:")
        for name, spec in SLIPS.items()
    }
    return {
        "base": outline_explained(BASE),
        "pieces": (
            "Each has a marked side, which must meet a marked side of the base or of an earlier piece:",
            outline_in_one(keys_explained(PIECE), "the base"),
        ),
        "options": (
            "To say them one by one: a list such as - {outline: result, slip: flipped, turned: 45}",
            outline_in_one(keys_explained(option_format(KEYS.slip_keys, KEYS.result)), "the base"),
            "Slips, each with piece: and a name",
            slips,
        ),
    }
