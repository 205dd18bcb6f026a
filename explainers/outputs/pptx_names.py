"""What the groups of a figure are called on a slide."""

from __future__ import annotations

from collections.abc import Sequence

from ..figure.model import Entry, Role
from ..figure.subject import Thing
from ..wording import shape_names as words

__all__ = ["group_name"]


def group_name(group: str, entries: Sequence[Entry]) -> str:
    """The name of a group, told by what is in it; a group that no name is known for stays what it is."""
    subjects = (entry.subject for entry in entries if entry.subject is not None)
    own = next((subject for subject in subjects if subject.group == group), None)
    if own is None:
        return words.other_name(group) or group
    if own.thing is Thing.PIECE:
        roles = {entry.role for entry in entries}
        does = next((role.value for role in (Role.JOIN, Role.CUT) if role in roles), None)
        return words.piece_name(int(own.name), does)
    if own.thing is Thing.OPTION:
        return words.option_name(own.name)
    return words.base_name() if own.thing is Thing.BASE else words.other_name(group) or group
