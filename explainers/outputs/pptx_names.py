"""What the groups of a figure are called on a slide, from the ids that figures give them."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..figure.model import Entry, Role
from ..wording import shape_names as words

__all__ = ["group_name"]

_PIECE = re.compile(r"piece-(\d+)")
_OPTION = re.compile(r"option-([a-z])")


def group_name(group: str, entries: Iterable[Entry]) -> str:
    """The name of a group, told by its id and what is in it; an id that no name is known for stays what it is."""
    if found := _PIECE.fullmatch(group):
        roles = {entry.role for entry in entries}
        does = next((role.value for role in (Role.JOIN, Role.CUT) if role in roles), None)
        return words.piece_name(int(found[1]), does)
    if found := _OPTION.fullmatch(group):
        return words.option_name(found[1].upper())
    if group == "base":
        return words.base_name()
    return words.other_name(group) or group
