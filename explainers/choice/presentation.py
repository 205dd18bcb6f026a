"""How options are shown: made ones in what order and how turned, shuffled ones in each version of a sheet.

Neither the place of the right one nor its turn gives anything away.

Chance comes from the seed and the item's name through a hash, so that the same file always gives the same sheet and
two items of a bank are drawn independently. Nothing is balanced afterwards: a bank in which every place comes up
equally often lets a learner rule places out (Attali and Bar-Hillel 2003).
"""

from __future__ import annotations

import hashlib
import random
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from .question import Question

__all__ = ["MOST_VERSIONS", "STEP_DEG", "in_order", "key_place", "more_turns", "orders", "rng_for", "shown_turns"]

STEP_DEG = 15  # turns are whole multiples: no two options then come so near in turn that they look alike

Q = TypeVar("Q", bound=Question)
MOST_VERSIONS = 6  # three options, the fewest there may be, stand in six orders: no two versions need be alike


def rng_for(seed: int, item_name: str, purpose: str) -> random.Random:
    """A source of chance of its own for each purpose, so that drawing more for one changes nothing of another."""
    digest = hashlib.sha256(f"{purpose}\n{seed}\n{item_name}".encode()).digest()
    return random.Random(int.from_bytes(digest, "big"))


def key_place(seed: int, item_name: str, count: int) -> int:
    """The place of the right option among ``count``, from 0; every place is equally likely over a bank of items."""
    digest = hashlib.sha256(f"key place\n{seed}\n{item_name}".encode()).digest()
    return int.from_bytes(digest, "big") % count  # 256 bits: what the remainder favours is far below any counting


def shown_turns(rng: random.Random, orders: Sequence[int], key: int) -> tuple[float, ...]:
    """A turn in degrees for each option, 0 to 345, no two alike.

    orders : in how many turned positions each option looks the same
    key    : which of them is right

    No option is shown as it comes out: were that kept from the right one alone, it could be told by it. For the same
    reason the right one is never the only one at whole quarter turns. All are drawn from one bag.
    """
    bag = list(range(STEP_DEG, 360, STEP_DEG))
    while True:
        turns = rng.sample(bag, len(orders))
        if any(_as_it_comes_out(turn, order) for turn, order in zip(turns, orders, strict=True)):
            continue
        if [turn % 90 == 0 for turn in turns].count(True) == 1 and turns[key] % 90 == 0:
            continue
        return tuple(float(turn) for turn in turns)


def more_turns(rng: random.Random, turns: Sequence[float | None], orders: Sequence[int], key: int) -> tuple[float, ...]:
    """The turns with one in the place of each None, by the rules of `shown_turns` as far as the others allow it.

    orders, key : as for `shown_turns`
    """
    there = [turn for turn in turns if turn is not None]
    bag = [turn for turn in range(STEP_DEG, 360, STEP_DEG) if all((turn - other) % 360.0 for other in there)]
    open_places = [index for index, turn in enumerate(turns) if turn is None]
    quarters = [turn is not None and turn % 90.0 == 0.0 for turn in turns]
    # What looks the same at every quarter turn would be shown as it comes out.
    must_join = quarters[key] and quarters.count(True) == 1 and any(orders[index] % 4 for index in open_places)
    while True:
        drawn = rng.sample(bag, len(open_places))
        if any(_as_it_comes_out(turn, orders[index]) for turn, index in zip(drawn, open_places, strict=True)):
            continue
        if must_join and all(turn % 90 for turn in drawn):
            continue
        found = iter(drawn)
        return tuple(float(next(found)) if turn is None else turn for turn in turns)


def _as_it_comes_out(turn: int, order: int) -> bool:
    return turn * order % 360 == 0


def orders(count: int, key: int, versions: int, *, seed: int, name: str) -> list[tuple[int, ...]]:
    """An order of the options for each version, all different; the first is that of the file.

    The right option stands at another place in each version, as long as there are places: whoever copies a neighbour's
    letter is found out.

    count   : of options, 3 or more
    key     : index of the right one in the file
    name    : the item's, so that items do not move alike
    Returns : for each version the indexes of the file's options, in the version's order
    """
    if not 1 <= versions <= MOST_VERSIONS:
        raise ValueError(f"there are 1 to {MOST_VERSIONS} versions, not {versions}")
    chance = random.Random(f"{seed}:{name}")
    others = [index for index in range(count) if index != key]
    places = [place for place in range(count) if place != key]
    chance.shuffle(places)
    places.insert(0, key)
    found = [tuple(range(count))]
    while len(found) < versions:
        place = places[len(found) % count]
        for _ in range(200):
            rest = chance.sample(others, len(others))
            order = (*rest[:place], key, *rest[place:])
            if order not in found:
                break
        else:  # every order with the right one at that place is taken
            place = (place + 1) % count
            continue
        found.append(order)
    return found


def in_order(question: Q, order: Sequence[int]) -> Q:
    """The question with its options in another order: to be solved anew, so that every label is true."""
    return replace(question, options=tuple(question.options[index] for index in order), made=None)
