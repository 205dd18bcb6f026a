"""A file in the house's form: keys in the order of the contract, corner lists in brackets, remarks where they belong.

What it means stays as it is: ``rewritten`` reads the new text once more before anyone gets it. Numbers stay as typed.
A list in brackets with remarks between them is only set in or out, since its lines are its author's.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from .file_text import Unreadable
from .key_order import KeyOrder
from .laid_out import Collection, LaidOutEntry, LaidOutValue, Leaf, laid_out, remarks_in
from .yaml_text import broken, text_yaml

__all__ = ["house_form"]

_NUMBER = re.compile(r"[-+.\d]")
_IN_BRACKETS_ONLY_QUOTED = re.compile(r"[,\[\]{}]")


def house_form(text: str, order: KeyOrder) -> str | None:
    """The text in the house's form; None where it names a value to repeat it, or where a remark would be lost.

    text  : of a file without a fault, with plain line ends and no mark at its start
    order : of the keys of its format
    """
    root = laid_out(text)
    if root is None:
        return None
    if root.as_it_is:
        return text.rstrip() + "\n"
    lines = _without_gaps(_Setting(text).mapping(root, "", order, head=True))
    new = "\n".join(lines) + "\n"
    try:
        again = laid_out(new)
    except Unreadable:
        return None
    kept = again is not None and Counter(remarks_in(new, again)) == Counter(remarks_in(text, root))
    return new if kept else None


def _without_gaps(lines: Iterator[str]) -> Iterator[str]:
    """One empty line at most in a row, none at the start."""
    before = ""
    for line in lines:
        if line or before:
            yield line
        before = line


@dataclass(frozen=True, slots=True)
class _Setting:
    """Sets the values of one file anew; each method gives whole lines."""

    text: str

    def mapping(self, found: Collection, indent: str, order: KeyOrder, *, head: bool = False) -> Iterator[str]:
        """Keys on lines of their own.

        head : the remarks above its first key stay at the top, whatever becomes of that key
        """
        entries = _sorted(found.entries, order)
        if head and found.entries:
            first = found.entries[0]
            yield from first.above
            first.above = []
        for entry in entries:
            yield from _own_lines(entry.above, indent)
            assert entry.key is not None
            yield from self._entry(entry, f"{indent}{_scalar(entry.key)}:", indent, order.of(entry.key.text))
        yield from _own_lines(found.below, indent)

    def _list(self, found: Collection, indent: str, order: KeyOrder) -> Iterator[str]:
        """Values behind dashes."""
        for entry in found.entries:
            yield from _own_lines(entry.above, indent)
            if isinstance(entry.value, Collection) and not self._in_line(entry.value):
                deeper = f"{indent}  "
                lines = list(self._block(entry.value, deeper, order))
                remarks = 0  # above what has become the first key: they go above the dash
                while not lines[remarks].strip() or lines[remarks].lstrip().startswith("#"):
                    yield from _own_lines([remark] if (remark := lines[remarks].strip()) else [], indent)
                    remarks += 1
                yield from _own_lines([entry.beside] if entry.beside else [], indent)
                yield f"{indent}- {lines[remarks][len(deeper) :]}"
                yield from lines[remarks + 1 :]
            else:
                yield from self._entry(entry, f"{indent}-", indent, order)
        yield from _own_lines(found.below, indent)

    def _block(self, found: Collection, indent: str, order: KeyOrder) -> Iterator[str]:
        return self.mapping(found, indent, order) if found.is_map else self._list(found, indent, order)

    def _entry(self, entry: LaidOutEntry, start: str, indent: str, order: KeyOrder) -> Iterator[str]:
        """A key or a dash with its value, and the remark beside it."""
        value = entry.value
        if isinstance(value, Collection) and not self._in_line(value):
            yield _beside(start, entry)
            yield from self._block(value, f"{indent}  ", order)
            return
        if isinstance(value, Leaf):
            walk = entry.key is not None and entry.key.text == "walk"
            lines = broken(f"{start} {_scalar(value)}".rstrip(), f"{indent}  ", ", " if walk else " ", len(start) + 1)
        elif value.as_it_is:
            lines = self._as_it_is(value, start, indent)
        else:
            flat = _flat(value, order)
            mark = "], " if "], " in flat else ", "
            lines = broken(f"{start} {flat}", " " * (len(start) + 2), mark, len(start) + 2)
        *first, last = lines
        yield from first
        yield _beside(last, entry)

    def _in_line(self, found: Collection) -> bool:
        """Whether a collection is written in brackets: as it was, or a list of numbers, points or corners."""
        return found.in_brackets or (_is_numbers(found) and not found.is_remarked)

    def _as_it_is(self, found: Collection, start: str, indent: str) -> list[str]:
        """A collection in brackets as typed, its further lines set in or out with the first."""
        first, *more = (line.rstrip() for line in self.text[found.start : found.end].split("\n"))
        by = len(start) + 1 - found.column
        least = len(indent) + 1
        further = [
            " " * max(least, len(line) - len(line.lstrip()) + by) + line.lstrip() if line else "" for line in more
        ]
        return [f"{start} {first}", *further]


def _is_numbers(value: LaidOutValue, levels: int = 2) -> bool:
    if isinstance(value, Leaf):
        return not value.quoted and bool(_NUMBER.match(value.text))
    if value.is_map or levels == 0:
        return False
    return all(_is_numbers(entry.value, levels - 1) for entry in value.entries)


def _sorted(entries: list[LaidOutEntry], order: KeyOrder) -> list[LaidOutEntry]:
    return sorted(entries, key=lambda entry: order.rank(entry.key.text if entry.key else ""))


def _flat(value: LaidOutValue, order: KeyOrder) -> str:
    """A value on one line."""
    if isinstance(value, Leaf):
        plain = _scalar(value)
        return plain if value.quoted or not _IN_BRACKETS_ONLY_QUOTED.search(plain) else text_yaml(plain)
    if not value.is_map:
        return f"[{', '.join(_flat(entry.value, order) for entry in value.entries)}]"
    words = [
        f"{_scalar(entry.key)}: {_flat(entry.value, order.of(entry.key.text))}".rstrip()
        for entry in _sorted(value.entries, order)
        if entry.key
    ]
    return f"{{{', '.join(words)}}}"


def _scalar(leaf: Leaf) -> str:
    """A word or number as typed; a text in quotation marks only where it needs them."""
    return text_yaml(leaf.text) if leaf.quoted else leaf.text


def _own_lines(remarks: list[str], indent: str) -> Iterator[str]:
    for remark in remarks:
        yield indent + remark if remark else ""


def _beside(line: str, entry: LaidOutEntry) -> str:
    """The line with its remark, in its old column where there is room."""
    return f"{line.ljust(entry.beside_column - 2)}  {entry.beside}" if entry.beside else line
