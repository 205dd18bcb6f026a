"""What the groups of a figure are called on a slide."""

from __future__ import annotations

from collections.abc import Sequence

from ...figure.model import Entry, is_cloth
from ...wording import shape_names as words

__all__ = ["group_name"]


def group_name(group: str, entries: Sequence[Entry]) -> str:
    """The name of a group, told by what is in it; a group that no name is known for stays what it is."""
    subjects = (entry.subject for entry in entries if entry.subject is not None)
    own = next((subject for subject in subjects if subject.group == group), None)
    named = None
    if own is not None:
        cloth = next((entry.role for entry in entries if is_cloth(entry.role)), "")
        named = words.one_of_several(own.thing, own.name, cloth)
    return named or words.other_name(group) or group
