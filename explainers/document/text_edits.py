"""One value of a YAML text set, put in, taken out or moved; everything else stays byte for byte.

Each function takes a text and gives a new one. A value takes the form of its place: in brackets where it stands in
brackets, on lines of its own elsewhere, its key at the place of the contract. Remarks go where the value goes that they
stand above, beside or in.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from .key_order import ANY_ORDER, KeyOrder
from .laid_out import Collection, LaidOutEntry, Leaf
from .text_places import (
    CannotEdit,
    Part,
    above,
    column_of,
    entry_at,
    is_nothing,
    line_start,
    lines_of_entry,
    mark_of,
    next_line,
    rooted,
    shares_line,
    value_at,
)
from .yaml_text import WIDTH, Written, broken, in_brackets, lines_of

__all__ = ["inserted", "moved", "newline_of", "removed", "renamed_key", "with_value"]

_TAKEN_BACK = re.compile(r"[ \t]*,")


def newline_of(text: str) -> str:
    """How the lines of a text end."""
    return "\r\n" if "\r\n" in text else "\n"


def with_value(text: str, parts: tuple[Part, ...], written: Written, order: KeyOrder = ANY_ORDER) -> str:
    """The text with a value at a path, in the place of what stood there, or new.

    order  : of the keys of the file
    Raises : CannotEdit
    """
    root = rooted(text)
    entry = entry_at(root, parts)
    if entry is not None and not is_nothing(entry.value):
        return _replaced(text, root, parts, entry, written)
    if entry is not None:
        return _filled(text, entry, written, inline=_is_in_brackets(root, parts))
    last, around = parts[-1], parts[:-1]
    if isinstance(last, int):
        raise CannotEdit(f"there is nothing number {last + 1} in that list", "name one that there is")
    parent = value_at(root, around)
    if around and is_nothing(parent):
        return with_value(text, around, {last: written}, order)
    if parent is None:
        return _with_end(text) + _block({last: written}, "", newline_of(text))
    if not isinstance(parent, Collection) or not parent.is_map:
        raise CannotEdit("something else stands there than keys with values", "take it out first")
    return _with_key(text, parent, last, written, _order_at(order, around))


def removed(text: str, parts: tuple[Part, ...]) -> str:
    """The text without what stands at a path; a list that becomes empty stays, as ``[]``.

    Raises : CannotEdit
    """
    root = rooted(text)
    entry, parent = entry_at(root, parts), value_at(root, parts[:-1])
    if entry is None or not isinstance(parent, Collection):
        return text
    if len(parent.entries) == 1:
        if len(parts) == 1:
            return text[: line_start(text, entry.start)] + text[lines_of_entry(text, entry).end :]
        return _replaced(text, root, parts[:-1], _entry(root, parts[:-1]), "{}" if parent.is_map else "[]")
    if parent.in_brackets:
        return _without_in_brackets(text, parent, entry)
    if shares_line(text, entry):
        following = parent.entries[parent.entries.index(entry) + 1]
        return text[: mark_of(text, entry)] + text[mark_of(text, following) :]
    lines = lines_of_entry(text, entry)
    is_head = len(parts) == 1 and entry is parent.entries[0]
    start = lines.start if is_head or (parent.is_map and len(parts) == 1) else above(text, entry)
    return text[:start] + text[lines.end :]


def inserted(
    text: str, parts: tuple[Part, ...], index: int, written: Written, order: KeyOrder = ANY_ORDER, *, raw: str = ""
) -> str:
    """The text with another value in a list; the list is begun where there is none.

    index  : before which of those that there are; beyond the last: at the end
    raw    : the lines of the value as they are to stand, such as they were cut out elsewhere, in place of ``written``
    Raises : CannotEdit
    """
    root = rooted(text)
    found = value_at(root, parts)
    empty = isinstance(found, Collection) and not found.entries and not found.is_map
    if is_nothing(found) or empty:
        return with_value(text, parts, [written], order)
    if not isinstance(found, Collection) or found.is_map:
        raise CannotEdit("something else than a list stands there", "take it out first")
    index = min(index, len(found.entries))
    if found.in_brackets:
        value = in_brackets(written)
        if index < len(found.entries):
            at = found.entries[index].start
            return f"{text[:at]}{value}, {text[at:]}"
        at = found.entries[-1].value.end
        return f"{text[:at]}, {value}{text[at:]}"
    newline = newline_of(text)
    had_end, text = text.endswith("\n"), _with_end(text)
    column = found.entries[0].column
    block = raw or _item_block(written, " " * column, newline)
    if index == 0 and shares_line(text, found.entries[0]):
        at = mark_of(text, found.entries[0])
        block = f"{block[column:]}{' ' * column}"
    else:
        at = above(text, found.entries[index]) if index < len(found.entries) else _list_end(text, found)
    new = text[:at] + block + text[at:]
    return new if had_end else new.removesuffix(newline)


def moved(text: str, parts: tuple[Part, ...], start: int, end: int) -> str:
    """The text with a value of a list at another place of it.

    start, end : its number now, and then
    Raises     : CannotEdit
    """
    found = value_at(rooted(text), parts)
    if not isinstance(found, Collection) or found.is_map:
        raise CannotEdit("no list stands there", "name one that there is")
    count = len(found.entries)
    if not (0 <= start < count and 0 <= end < count):
        raise CannotEdit(f"the list has {count} entries", f"write numbers from 0 to {count - 1}")
    if start == end:
        return text
    order = list(range(count))
    order.insert(end, order.pop(start))
    had_end, newline = text.endswith("\n"), newline_of(text)
    if found.in_brackets or shares_line(text, found.entries[0]):
        slots = [(entry.value.start, entry.value.end) for entry in found.entries]
    else:
        text = _with_end(text)
        slots = [(above(text, entry), lines_of_entry(text, entry).end) for entry in found.entries]
    contents = [text[slots[number][0] : slots[number][1]] for number in order]
    for (slot_start, slot_end), content in reversed(list(zip(slots, contents, strict=True))):
        text = text[:slot_start] + content + text[slot_end:]
    return text if had_end else text.removesuffix(newline)


def renamed_key(text: str, parts: tuple[Part, ...], key: str, written: Written) -> str:
    """The text with another key, and its value, in the place of one that stands there.

    Raises : CannotEdit
    """
    root = rooted(text)
    entry = _entry(root, parts)
    assert entry.key is not None
    start, end = entry.key.start, entry.key.end
    text = text[:start] + key + text[end:]
    return with_value(text, (*parts[:-1], key), written)


def _entry(root: Collection | None, parts: tuple[Part, ...]) -> LaidOutEntry:
    entry = entry_at(root, parts)
    if entry is None:
        raise CannotEdit("there is no such field in the file", "look again at what the file holds")
    return entry


def _order_at(order: KeyOrder, parts: Sequence[Part]) -> KeyOrder:
    for part in parts:
        if isinstance(part, str):
            order = order.of(part)
    return order


def _is_in_brackets(root: Collection | None, parts: tuple[Part, ...]) -> bool:
    """Whether anything around a place is in brackets."""
    around = (value_at(root, parts[:length]) for length in range(len(parts)))
    return any(isinstance(value, Collection) and value.in_brackets for value in around)


def _replaced(
    text: str, root: Collection | None, parts: tuple[Part, ...], entry: LaidOutEntry, written: Written
) -> str:
    old = entry.value
    inline = _is_in_brackets(root, parts) or isinstance(written, str)
    on_lines = isinstance(old, Collection) and not old.in_brackets
    is_long_text = isinstance(old, Leaf) and text.startswith(("|", ">"), old.start)
    if inline and not on_lines and not is_long_text:
        return _spliced(text, old.start, old.end, in_brackets(written))
    if entry.key is None:
        if inline or not on_lines:
            return _spliced(text, old.start, old.end, in_brackets(written))
        block = _item_block(written, " " * entry.column, newline_of(text))
        lines = lines_of_entry(text, entry)
        return _ended_as(text, text[: lines.start] + block + text[lines.end :])
    # From the colon on: a remark beside the key stays there.
    colon = text.index(":", entry.key.end)
    end = old.end
    head = text[colon + 1 : next_line(text, colon)].rstrip("\r\n") if old.start >= next_line(text, colon) else ""
    if inline:
        return f"{text[: colon + 1]} {in_brackets(written)}{head.rstrip()}{text[end:]}"
    indent = " " * entry.column if entry.column else " " * column_of(text, entry.start)
    newline = newline_of(text)
    below = _block_value(written, f"{indent}  ", newline).removesuffix(newline)
    return f"{text[: colon + 1]}{head}{newline}{below}{text[end:]}"


def _filled(text: str, entry: LaidOutEntry, written: Written, *, inline: bool) -> str:
    """A value where a key or a dash has none."""
    if entry.key is None:
        return _spliced(text, entry.value.start, max(entry.value.end, entry.value.start), in_brackets(written))
    colon = text.find(":", entry.key.end)
    if colon < 0:
        raise CannotEdit("a key stands there without a colon", "write a colon after it")
    typed = text[entry.value.start : entry.value.end] if isinstance(entry.value, Leaf) and entry.value.text else ""
    end = entry.value.end if typed else colon + 1
    if inline or isinstance(written, str):
        return f"{text[: colon + 1]} {in_brackets(written)}{text[end:]}"
    newline = newline_of(text)
    indent = " " * column_of(text, entry.key.start)
    rest = next_line(text, end)
    block = _block_value(written, f"{indent}  ", newline)
    head = text[:colon] + ":" + text[end:rest].rstrip("\r\n") + newline
    return head + (block if rest < len(text) or text.endswith("\n") else block.removesuffix(newline)) + text[rest:]


def _with_key(text: str, parent: Collection, key: str, written: Written, order: KeyOrder) -> str:
    """A key where it belongs among those that there are: after all that come before it."""
    rank = order.rank(key)
    before = [entry for entry in parent.entries if entry.key is not None and order.rank(entry.key.text) <= rank]
    last = before[-1] if before else None
    if parent.in_brackets:
        word = f"{key}: {in_brackets(written)}"
        if not parent.entries:
            return f"{text[: parent.start + 1]}{word}{text[parent.start + 1 :]}"
        if last is None:
            at = parent.entries[0].start
            return f"{text[:at]}{word}, {text[at:]}"
        at = max(last.value.end, last.key.end if last.key else 0)
        return f"{text[:at]}, {word}{text[at:]}"
    newline = newline_of(text)
    first = parent.entries[0]
    indent = " " * column_of(text, first.start)
    if last is None:
        block = _block({key: written}, indent, newline)
        if shares_line(text, first):
            return text[: first.start] + block[len(indent) :] + indent + text[first.start :]
        at = line_start(text, first.start)
        return text[:at] + block + text[at:]
    had_end, text = text.endswith("\n"), _with_end(text)
    at = lines_of_entry(text, last).end
    new = text[:at] + _block({key: written}, indent, newline) + text[at:]
    return new if had_end else new.removesuffix(newline)


def _without_in_brackets(text: str, parent: Collection, entry: LaidOutEntry) -> str:
    """A value of a list in brackets taken out with one comma; a remark beside it stays."""
    place = parent.entries.index(entry)
    start, end = entry.start, max(entry.value.end, entry.start)
    comma = _TAKEN_BACK.match(text, end)
    if comma is not None:
        end = comma.end()
        while end < len(text) and text[end] == " ":
            end += 1
        if end < len(text) and text[end] in "\r\n" and not text[line_start(text, start) : start].strip():
            return text[: line_start(text, start)] + text[next_line(text, end) :]
        return text[:start] + text[end:]
    if place == 0:
        return text[:start] + text[end:]
    before = parent.entries[place - 1]
    at = text.index(",", before.value.end)
    between = text[at + 1 : start]
    return text[:at] + ("" if not between.strip() else between.rstrip(" ")) + text[end:]


def _list_end(text: str, found: Collection) -> int:
    return lines_of_entry(text, found.entries[-1]).end


def _with_end(text: str) -> str:
    return text if not text or text.endswith("\n") else text + newline_of(text)


def _ended_as(text: str, new: str) -> str:
    return new if text.endswith("\n") else new.removesuffix(newline_of(text))


def _spliced(text: str, start: int, end: int, value: str) -> str:
    """A value on one line, or on several where the line would be too wide."""
    if value.startswith(("[", "{")):
        column = column_of(text, start)
        lead = " " * column
        if column + len(value) > WIDTH:
            value = newline_of(text).join(broken(lead + value, f"{lead} ", "], ", column + 1))[column:]
    return text[:start] + value + text[end:]


def _block(keys: dict[str, Written], indent: str, newline: str) -> str:
    return "".join(f"{line}{newline}" for line in lines_of(keys, indent))


def _block_value(written: Written, indent: str, newline: str) -> str:
    """Keys or a list on lines of their own."""
    if isinstance(written, dict):
        return _block(written, indent, newline)
    assert isinstance(written, list)
    return "".join(_item_block(each, indent, newline) for each in written)


def _item_block(written: Written, indent: str, newline: str) -> str:
    """One value behind a dash."""
    if not isinstance(written, dict):
        lines = broken(f"{indent}- {in_brackets(written)}", f"{indent}   ", "], ", len(indent) + 3)
        return "".join(f"{line}{newline}" for line in lines)
    first, *more = _block(written, f"{indent}  ", newline).splitlines(keepends=True)
    return f"{indent}- {first[len(indent) + 2 :]}{''.join(more)}"
