"""What the groups of a figure are called on a slide."""

from __future__ import annotations

from collections.abc import Sequence

from ..figure.model import Entry, is_cloth
from ..figure.subject import Thing
from ..wording import shape_names as words

__all__ = ["group_name"]


def group_name(group: str, entries: Sequence[Entry]) -> str:
    """The name of a group, told by what is in it; a group that no name is known for stays what it is."""
    subjects = (entry.subject for entry in entries if entry.subject is not None)
    own = next((subject for subject in subjects if subject.group == group), None)
    if own is None:
        return words.other_name(group) or group
    if own.thing == "piece":
        return words.piece_name(int(own.name), next((e.role for e in entries if is_cloth(e.role)), None))
    if own.thing == Thing.OPTION:
        return words.option_name(own.name)
    return words.base_name() if own.thing == "base" else words.other_name(group) or group
