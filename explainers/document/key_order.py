"""The order in which the keys of a mapping, and of all that stands in it, are set in a file."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

__all__ = ["ANY_ORDER", "KeyOrder"]


@dataclass(frozen=True, slots=True)
class KeyOrder:
    """The order of a mapping, or of each mapping of a list."""

    keys: tuple[str, ...] = ()
    inside: Mapping[str, KeyOrder] = field(default_factory=dict)  # of a key's value, where it has any

    def of(self, key: str) -> KeyOrder:
        """The order within the value of a key."""
        return self.inside.get(key, ANY_ORDER)

    def rank(self, key: str) -> int:
        """The place of a key; those that are not named share the last one, so that they keep their own order."""
        return self.keys.index(key) if key in self.keys else len(self.keys)

    def then(self, other: KeyOrder) -> KeyOrder:
        """The order of a value that may be of either kind."""
        return KeyOrder((*self.keys, *other.keys), {**self.inside, **other.inside})


ANY_ORDER = KeyOrder()
