"""The options of an item's file put in the place of those that it has; every other line stays as it is.

Only lines are looked at, not their meaning: whoever writes the text to a file reads it once more before it counts.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..document.nodes import MapNode

__all__ = ["with_options"]

_OPTIONS = re.compile(r"(\s*)(['\"]?)options\2\s*:")
_KEY = re.compile(r"(\s*)[\w'\"-]+\s*:")
_COMMENT = re.compile(r"(?<!\s)\s+#")


def with_options(text: str, root: MapNode, lines: Sequence[str]) -> str | None:
    """The text with these lines below ``options:``, or None where the keys do not stand on lines of their own.

    text  : of the whole file, with its own line ends
    root  : the same file as composed
    lines : the list, indented as below a key at the left margin
    """
    newline = "\r\n" if "\r\n" in text else "\n"
    old = text.split(newline)
    entry = root.entries.get("options")
    if entry is None:
        return _added(old, root, lines, newline)
    start = entry.line - 1
    found = _OPTIONS.match(old[start])
    if found is None:
        return None
    later = [other.line - 1 for other in root.entries.values() if other.line > entry.line]
    end = min(later, default=len(old))
    # Comments and empty lines before the next key belong to that key, and a mark of the end to the file.
    margin = len(found[1])
    while end > start + 1 and _is_beside(old[end - 1], margin):
        end -= 1
    # A # before a quotation mark may stand inside a text.
    after = max(found.end(), 1 + old[start].rfind("'"), 1 + old[start].rfind('"'))
    comment = _COMMENT.search(old[start], after)
    head = f"{found[1]}options:{old[start][comment.start() :] if comment else ''}"
    return newline.join([*old[:start], head, *(found[1] + line for line in lines), *old[end:]])


def _added(old: Sequence[str], root: MapNode, lines: Sequence[str], newline: str) -> str | None:
    """The options at the end of a file that has none yet."""
    first = _KEY.match(old[root.line - 1]) if root.entries else None
    if first is None:
        return None
    end = len(old)
    while end > 1 and (not old[end - 1].strip() or old[end - 1].startswith("...")):
        end -= 1
    added = [f"{first[1]}options:", *(first[1] + line for line in lines)]
    return newline.join([*old[:end], *added, *(old[end:] or [""])])


def _is_beside(line: str, margin: int) -> bool:
    stripped = line.strip()
    if not stripped or line.startswith("..."):
        return True
    return stripped.startswith("#") and len(line) - len(line.lstrip()) <= margin
