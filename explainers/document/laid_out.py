"""A YAML file as it is laid out: its values in place, and the remarks above, beside and below them.

For rewriting a file that has been read without a fault: what a value means is for the reader, here it is text between
two places. A remark is whatever stands behind a # outside every value.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml

from .yaml_events import events_of, index_of

__all__ = ["Collection", "LaidOutEntry", "LaidOutValue", "Leaf", "laid_out", "remarks_in"]

_REMARK = re.compile("#.*")
_EMPTY_LINE = re.compile(r"^[ \t]*$", re.MULTILINE)


@dataclass(slots=True, eq=False)
class Leaf:
    """A word, number or text; white space in it evened out, as the reader takes it."""

    start: int
    end: int
    text: str
    quoted: bool


@dataclass(slots=True, eq=False)
class Collection:
    """A list, or keys with values."""

    start: int
    end: int
    is_map: bool
    in_brackets: bool
    column: int  # of its first key or dash, or of its bracket
    entries: list[LaidOutEntry] = field(default_factory=list)
    below: list[str] = field(default_factory=list)  # remarks after the last entry, "" for an empty line
    as_it_is: bool = False  # in brackets, with remarks between them: nobody but its author knows how to set it

    @property
    def is_remarked(self) -> bool:
        """Whether any remark stands inside."""
        return (
            self.as_it_is
            or any(self.below)
            or any(entry.beside or any(entry.above) for entry in self.entries)
            or any(isinstance(entry.value, Collection) and entry.value.is_remarked for entry in self.entries)
        )


LaidOutValue = Leaf | Collection


@dataclass(slots=True, eq=False)
class LaidOutEntry:
    """A value of a list, or a key with its value."""

    start: int
    key: Leaf | None
    value: LaidOutValue
    column: int = 0  # of the key, or of the dash
    above: list[str] = field(default_factory=list)  # remarks on lines of their own, "" for an empty line
    beside: str = ""
    beside_column: int = 0


class _RepeatsItself(Exception):
    """A value is named by & to be repeated by *, or has a tag."""


def laid_out(text: str) -> Collection | None:
    """The file's keys with their values; None where a value is named to be repeated.

    text   : of a file that composes without a fault, with plain line ends and no mark at its start
    Raises : Unreadable where it is no such text
    """
    events = events_of(text)
    try:
        root = next(_value(event, events, text) for event in events if isinstance(event, yaml.NodeEvent))
    except _RepeatsItself:
        return None
    assert isinstance(root, Collection)
    _place_remarks(text, root)
    return root


def remarks_in(text: str, root: Collection) -> list[str]:
    """Every remark of a file, in order."""
    return [remark for _, remark in sorted(_remarks(text, root))]


def _value(event: yaml.NodeEvent, events: Iterator[yaml.Event], text: str) -> LaidOutValue:
    if not isinstance(event, yaml.ScalarEvent | yaml.CollectionStartEvent) or event.anchor or event.tag:
        raise _RepeatsItself
    start, after = index_of(event.start_mark), index_of(event.end_mark)
    if isinstance(event, yaml.ScalarEvent):
        end = start + len(text[start:after].rstrip())
        return Leaf(start, end, " ".join(event.value.split()), bool(event.style))
    column = start - (text.rfind("\n", 0, start) + 1)
    found = Collection(start, start, isinstance(event, yaml.MappingStartEvent), bool(event.flow_style), column)
    key: Leaf | None = None
    for inner in events:
        if isinstance(inner, yaml.CollectionEndEvent):
            if found.in_brackets:
                found.end = index_of(inner.end_mark)
            break
        assert isinstance(inner, yaml.NodeEvent)
        value = _value(inner, events, text)
        if found.is_map and key is None:
            assert isinstance(value, Leaf)
            key = value
            continue
        found.entries.append(LaidOutEntry(key.start if key else value.start, key, value))
        found.end = max(value.end, key.end if key else 0)
        key = None
    if not found.in_brackets:
        for entry in found.entries:
            at = entry.start if found.is_map else text.rfind("-", 0, entry.start)
            entry.column = at - (text.rfind("\n", 0, at) + 1)
        found.column = found.entries[0].column
    return found


def _leaves(value: LaidOutValue) -> Iterator[Leaf]:
    """All words and numbers, keys among them, in order."""
    if isinstance(value, Leaf):
        yield value
        return
    for entry in value.entries:
        if entry.key:
            yield entry.key
        yield from _leaves(entry.value)


def _remarks(text: str, root: Collection) -> Iterator[tuple[int, str]]:
    """(place, remark) for each."""
    before = 0
    for leaf in _leaves(root):
        for found in _REMARK.finditer(text, before, leaf.start):
            yield found.start(), found[0].rstrip()
        if text.startswith(("|", ">"), leaf.start):  # the first line of a text of several lines may have one
            head = text[leaf.start : leaf.end].split("\n", 1)[0]
            for found in _REMARK.finditer(head):
                yield leaf.start + found.start(), found[0].rstrip()
        before = leaf.end
    for found in _REMARK.finditer(text, before):
        yield found.start(), found[0].rstrip()


@dataclass(frozen=True, slots=True, eq=False)
class _Place:
    """An entry that stands on lines of its own, with the collections around it, outermost first."""

    entry: LaidOutEntry
    around: tuple[Collection, ...]


def _places(collection: Collection, around: tuple[Collection, ...] = ()) -> Iterator[_Place]:
    around = (*around, collection)
    for entry in collection.entries:
        yield _Place(entry, around)
        if isinstance(entry.value, Collection) and not entry.value.in_brackets:
            yield from _places(entry.value, around)


def _place_remarks(text: str, root: Collection) -> None:
    """Give each remark, and each empty line, to the entry that it stands beside, above or below."""
    remarks = sorted(_remarks(text, root))
    if root.in_brackets:
        root.as_it_is = bool(remarks)
        return
    places = list(_places(root))
    found = remarks + [(empty.start(), "") for empty in _EMPTY_LINE.finditer(text.rstrip())]
    count = 0  # of the entries that begin before
    for at, remark in sorted(found):
        while count < len(places) and places[count].entry.start <= at:
            count += 1
        before = places[count - 1] if count else None
        after = places[count] if count < len(places) else None
        line = text.rfind("\n", 0, at) + 1
        ahead = text[line:at]
        if before and _stands_inside(at, remark, before.entry.value):
            continue
        if before and remark and not ahead.strip() and at < before.entry.value.start and not _has_own_lines(before):
            before.entry.above.append(remark)  # between a key and its value
            continue
        if remark and ahead.strip(" -") and before:
            entry = before.entry
            if entry.beside:
                entry.above.append(entry.beside)
            entry.beside, entry.beside_column = remark, at - line
            continue
        _put_between(remark, len(ahead) - len(ahead.lstrip(" ")) if "-" in ahead else len(ahead), before, after, root)


def _has_own_lines(place: _Place) -> bool:
    value = place.entry.value
    return isinstance(value, Collection) and not value.in_brackets


def _stands_inside(at: int, remark: str, value: LaidOutValue) -> bool:
    """Whether a remark or an empty line stands within a value that is set as one."""
    if not value.start <= at < value.end or (isinstance(value, Collection) and not value.in_brackets):
        return False
    if isinstance(value, Collection) and remark:
        value.as_it_is = True
    return isinstance(value, Collection) or not remark


def _put_between(remark: str, column: int, before: _Place | None, after: _Place | None, root: Collection) -> None:
    """What stands on a line of its own belongs to what follows; set further in, to the end of what it ends."""
    if after is not None and (not remark or column <= after.entry.column):
        after.entry.above.append(remark)
        return
    ended = [each for each in (before.around if before else (root,)) if after is None or each not in after.around]
    fitting = [each for each in ended if each.column <= column]
    if fitting:
        fitting[-1].below.append(remark)
    elif after is not None:
        after.entry.above.append(remark)
    else:
        root.below.append(remark)
