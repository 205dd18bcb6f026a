"""Shuffled versions of an item: the same options in another order."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import replace
from typing import TypeVar

from .question import Question

__all__ = ["MOST_VERSIONS", "in_order", "orders"]

Q = TypeVar("Q", bound=Question)

MOST_VERSIONS = 6  # three options, the fewest there may be, stand in six orders: no two versions need be alike


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
