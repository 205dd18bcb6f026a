"""Which entries of a changed list are those of the list before: by name, by what they hold, at last by their place."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from .fields import is_plain_number
from .laid_out import Collection, LaidOutValue, Leaf

__all__ = ["aligned", "meaning"]

_NAMES = ("piece", "name", "show")  # keys by which an entry of a list is known


def meaning(value: LaidOutValue | None) -> Any:
    """What a value says, however it is laid out: numbers by their size, keys in any order."""
    if value is None:
        return None
    if isinstance(value, Leaf):
        if not value.quoted and is_plain_number(value.text):
            return float(value.text) + 0.0
        return value.text
    if value.is_map:
        return {entry.key.text: meaning(entry.value) for entry in value.entries if entry.key is not None}
    return [meaning(entry.value) for entry in value.entries]


def aligned(before: Collection, after: Collection) -> list[int | None]:
    """For each entry of the later list the number that it had in the earlier one; None for a new one."""
    olds, news = ([meaning(entry.value) for entry in each.entries] for each in (before, after))
    found: list[int | None] = [None] * len(news)
    free = set(range(len(olds)))

    def pair(new: int, old: int) -> None:
        found[new] = old
        free.discard(old)

    names = [_name(value) for value in olds]
    for new, value in enumerate(news):
        name = _name(value)
        if name is not None and names.count(name) == 1 and names.index(name) in free:
            pair(new, names.index(name))
    for same_place in (True, False):
        for new, value in enumerate(news):
            if found[new] is None:
                old = next((old for old in sorted(free) if olds[old] == value and (old == new or not same_place)), None)
                if old is not None:
                    pair(new, old)
    open_ = [new for new, old in enumerate(found) if old is None]
    if len(open_) == len(free):  # each was changed where it stands, a name perhaps
        for new, old in zip(open_, sorted(free), strict=True):
            pair(new, old)
        return found
    likeness = sorted(
        ((-_shared(news[new], olds[old]), abs(new - old), new, old) for new in open_ for old in free),
    )
    for shared, _, new, old in likeness:
        if shared and found[new] is None and old in free:
            pair(new, old)
    return found


def _name(value: Any) -> Any:
    return next((value[key] for key in _NAMES if key in value), None) if isinstance(value, dict) else None


def _shared(one: Any, other: Any) -> int:
    """How many keys say the same in both; of entries that bear other names, none."""
    if not isinstance(one, dict) or not isinstance(other, dict) or _name(one) != _name(other):
        return 0
    return sum(other.get(key) == value for key, value in one.items() if key not in _ALIKE)


_ALIKE: Sequence[str] = ("outline", "turned", "scale", "does")  # that many entries have in common
