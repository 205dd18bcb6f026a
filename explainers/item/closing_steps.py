"""The step ``close`` written at the end of walks that leave it out: a side that was put in becomes one that is told."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..document.laid_out import Collection, LaidOutValue, Leaf, laid_out
from .walk_reader import CLOSE

__all__ = ["with_closing_steps"]

_PART = re.compile(r"([^.\[\]]+)|\[(\d+)\]")


def with_closing_steps(text: str, paths: Iterable[str]) -> str:
    """The text of a file with ``close`` as the last step of some of its walks.

    text  : of a file without a fault, with plain line ends and no mark at its start
    paths : the fields of walks, such as ``base.walk``

    Returns : the text as it is where it names values to repeat them
    """
    root = laid_out(text)
    if root is None:
        return text
    added = [_added(text, walk) for walk in (_value_at(root, path) for path in paths) if walk is not None]
    for at, step in sorted(added, reverse=True):
        text = text[:at] + step + text[at:]
    return text


def _value_at(root: Collection, path: str) -> LaidOutValue | None:
    value: LaidOutValue = root
    for key, index in _PART.findall(path):
        if not isinstance(value, Collection):
            return None
        if index:
            value = value.entries[int(index)].value
        else:
            found = (entry.value for entry in value.entries if entry.key is not None and entry.key.text == key)
            value = next(found)
    return value


def _added(text: str, walk: LaidOutValue) -> tuple[int, str]:
    """(where, what) is put into the text."""
    if isinstance(walk, Leaf):
        at = walk.end - 1 if walk.quoted and text[walk.end - 1] in "'\"" else walk.end
        comma = text[:at].rstrip().endswith(",")
        return at, f" {CLOSE}" if comma else f", {CLOSE}"
    last = walk.entries[-1]
    if walk.in_brackets:
        return last.value.end, f", {CLOSE}"
    line_end = text.find("\n", last.value.end)
    return (len(text) if line_end < 0 else line_end), f"\n{' ' * last.column}- {CLOSE}"
