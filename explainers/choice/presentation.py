"""How made options are shown: the place of the right one, and a turn for each, neither of which gives anything away.

Chance comes from the seed and the item's name through a hash, so that the same file always gives the same sheet and
two items of a bank are drawn independently. Nothing is balanced afterwards: a bank in which every place comes up
equally often lets a learner rule places out (Attali and Bar-Hillel 2003).
"""

from __future__ import annotations

import hashlib
import random
from collections.abc import Sequence

__all__ = ["STEP_DEG", "dice_of", "key_place", "shown_turns"]

STEP_DEG = 15  # turns are whole multiples: no two options then come so near in turn that they look alike


def dice_of(seed: int, item_name: str, purpose: str) -> random.Random:
    """A source of chance of its own for each purpose, so that drawing more for one changes nothing of another."""
    digest = hashlib.sha256(f"{purpose}\n{seed}\n{item_name}".encode()).digest()
    return random.Random(int.from_bytes(digest, "big"))


def key_place(seed: int, item_name: str, count: int) -> int:
    """The place of the right option among ``count``, from 0; every place is equally likely over a bank of items."""
    digest = hashlib.sha256(f"key place\n{seed}\n{item_name}".encode()).digest()
    return int.from_bytes(digest, "big") % count  # 256 bits: what the remainder favours is far below any counting


def shown_turns(dice: random.Random, orders: Sequence[int], key: int) -> tuple[float, ...]:
    """A turn in degrees for each option, 0 to 345, no two alike.

    orders : in how many turned positions each option looks the same
    key    : which of them is right

    No option is shown as it comes out: were that kept from the right one alone, it could be told by it. For the same
    reason the right one is never the only one at whole quarter turns. All are drawn from one bag.
    """
    bag = list(range(STEP_DEG, 360, STEP_DEG))
    while True:
        turns = dice.sample(bag, len(orders))
        if any(_as_it_comes_out(turn, order) for turn, order in zip(turns, orders, strict=True)):
            continue
        if [turn % 90 == 0 for turn in turns].count(True) == 1 and turns[key] % 90 == 0:
            continue
        return tuple(float(turn) for turn in turns)


def _as_it_comes_out(turn: int, order: int) -> bool:
    return turn * order % 360 == 0
