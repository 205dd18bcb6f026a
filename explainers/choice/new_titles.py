"""Titles for new questions: names as quilt blocks have them, which say nothing of an outline, a piece or a slip.

A learner reads the title, so it is no number of a variation and no word for how hard one is; and since it is drawn by
chance alone, nothing can be told from it.
"""

from __future__ import annotations

from .presentation import rng_for
from .variations import Level

__all__ = ["new_title"]

# Plants, and places that have no outline of their own: no bridge, no arch, no corner.
FIRST = (
    "Alder",
    "Apple",
    "Aspen",
    "Barley",
    "Bramble",
    "Cedar",
    "Cherry",
    "Clover",
    "Elder",
    "Fern",
    "Hazel",
    "Heather",
    "Juniper",
    "Lavender",
    "Linden",
    "Maple",
    "Meadow",
    "Mulberry",
    "Nettle",
    "Poppy",
    "Rowan",
    "Sorrel",
    "Thistle",
    "Willow",
)
SECOND = (
    "Bay",
    "Common",
    "Cottage",
    "Court",
    "Dale",
    "Farm",
    "Fields",
    "Forest",
    "Garden",
    "Green",
    "Grove",
    "Harbour",
    "Heath",
    "Island",
    "Lane",
    "Market",
    "Mill",
    "Orchard",
    "Park",
    "Road",
    "Spring",
    "Valley",
    "Village",
    "Wood",
)


def new_title(original: str, *, seed: int, level: Level, number: int) -> str:
    """The title of the new question of this number, from 1; no two of one run are alike.

    original : the name of the item that it is varied from
    """
    titles = [(first, second) for first in FIRST for second in SECOND]
    rng_for(seed, original, f"titles {level}").shuffle(titles)
    first, second = titles[(number - 1) % len(titles)]
    return f"The {first} {second} block"
