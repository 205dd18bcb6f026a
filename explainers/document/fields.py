"""One field at a time: a composed value read as a text, a name, a number, a point, or a fault that says why not.

Every function returns None where the value is wrong, with the fault already added; callers go on, so that all the
faults of a file come to light in one run.
"""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from ..errors import Fault
from ..typeface.faces import missing_in
from .file_text import TextOf, text_of_file
from .nodes import ListNode, MapNode, Node, ScalarNode
from .notation import listed, nearest, shown

__all__ = [
    "MAX_CORNERS",
    "MAX_NAME",
    "MAX_NUMBER",
    "NAME",
    "Faults",
    "Table",
    "choice_of",
    "degrees_of",
    "duplicates",
    "is_plain_number",
    "kind_of_node",
    "list_of",
    "name_of",
    "number_of",
    "shown_text_of",
    "table_of",
    "text_of",
    "whole_of",
]

MAX_NUMBER = 1e6
MAX_CORNERS = 300
MAX_NAME = 60

NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
_NUMBER = re.compile(r"[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?", re.ASCII)
_LEADING_ZERO = re.compile(r"[-+]?0\d", re.ASCII)
_DECIMAL_COMMA = re.compile(r"([-+]?\d{1,9}),(\d{1,9})", re.ASCII)
_FRACTION = re.compile(r"([-+]?\d{1,9})\s*/\s*(\d{1,9})", re.ASCII)
_RUN_TOGETHER = re.compile(r"([a-z]{2,12})(?: |: ?)(\S.{0,40})")
_NOT_FINITE = re.compile(r"[-+]?\.?(inf|infinity|nan)", re.IGNORECASE)
_NOT_OF_NAMES = re.compile(r"[^a-z0-9]+")
_WRITE_NUMBER = "write a plain number, such as 2 or 1.5"


@dataclass(slots=True)
class Faults:
    """What is wrong in one file, as it is found."""

    file: Path = Path()  # what it names is looked for in the same folder
    opened: TextOf = text_of_file  # what opens the files that it names
    found: list[Fault] = field(default_factory=list)
    notes: list[object] = field(default_factory=list)  # what is no fault, but for somebody to know who can read it

    def add(self, path: str, message: str, fix: str) -> None:
        """Note one fault at a field."""
        self.found.append(Fault(field=path, message=message, fix=fix))


@dataclass(frozen=True, slots=True)
class Table:
    """A mapping of the file whose keys are known; unknown ones are already noted."""

    node: MapNode
    path: str
    faults: Faults
    misspelt: frozenset[str] = frozenset()  # known keys that an unknown key was probably meant to be
    owner: str = ""  # whose keys they are, as faults say it

    def __contains__(self, key: str) -> bool:
        return key in self.node.entries

    def get(self, key: str) -> Node | None:
        """The value of a key, or None where the key is not there."""
        entry = self.node.entries.get(key)
        return entry.value if entry else None

    def at(self, key: str) -> str:
        """The field path of a key."""
        return f"{self.path}.{key}" if self.path else key

    def due(self, key: str, owner: str, fix: str) -> Node | None:
        """The value of a key that must be there; one that is only misspelt is noted already."""
        node = self.get(key)
        if node is None and key not in self.misspelt:
            self.faults.add(self.at(key), f"the key {key} is missing from {owner}", fix)
        return node


def table_of(node: Node, path: str, faults: Faults, *, keys: Sequence[str], owner: str, fix: str) -> Table | None:
    """A mapping, with a fault for each key that is not one of ``keys``."""
    if not isinstance(node, MapNode):
        faults.add(path, f"{owner} is {kind_of_node(node)} where keys with values are due", fix)
        return None
    misspelt = set()
    for key in node.entries:
        if key in keys:
            continue
        free = [other for other in keys if other not in node.entries]
        near = nearest(key, free)
        if run := _RUN_TOGETHER.match(key):  # {turned 90} in braces is a key without a value
            word = nearest(run[1], free)
            if word:
                misspelt.add(word)
                message = f"{_clipped(key)} stands here where a key, a colon, a space and a value are due"
                faults.add(f"{path}.{word}" if path else word, message, f"write {word}: {run[2]}")
                continue
        if near:
            misspelt.add(near)
            advice = f"write {near}"
        else:
            like = nearest(key, keys)
            why = f"{like} is there already" if like else f"the keys are {listed(keys, 'and')}"
            advice = f"take it out; {why}"
        faults.add(f"{path}.{key}" if path else key, f"{owner} has no key called {_clipped(key)}", advice)
    return Table(node, path, faults, frozenset(misspelt), owner)


def list_of(
    node: Node, path: str, faults: Faults, *, least: int, most: int, noun: str, fix: str
) -> tuple[Node, ...] | None:
    """A list of ``least`` to ``most`` things; the fault counts them. A list of the wrong length is None.

    noun : in the plural, one that an s makes
    """
    if not isinstance(node, ListNode):
        faults.add(path, f"{kind_of_node(node)} stands here where a list of {noun} is due", fix)
        return None
    count = len(node.items)
    if not least <= count <= most:
        bound = f"at least {least}" if count < least else f"at most {most}"
        has = f"no {noun}" if not count else f"1 {noun.removesuffix('s')}" if count == 1 else f"{count} {noun}"
        verb = "is" if bound.endswith(" 1") else "are"
        faults.add(path, f"the list has {has}; {bound} {verb} allowed", fix)
        return None
    return node.items


def shown_text_of(node: Node, path: str, faults: Faults, *, most: int, fix: str) -> str | None:
    """A text that is shown in pictures and on pages, as ``text_of``: every character must be in the typeface."""
    text = text_of(node, path, faults, most=most, fix=fix)
    missing = missing_in(text) if text else ()
    if not missing:
        return text
    told = [f"{sign} (U+{ord(sign):04X})" if sign.isprintable() else f"U+{ord(sign):04X}" for sign in missing[:3]]
    signs, more = listed(told), f", nor for {len(missing) - 3} more" if len(missing) > 3 else ""
    faults.add(path, f"the typeface has no sign for {signs}{more}", "write it with other characters")
    return None


def text_of(node: Node, path: str, faults: Faults, *, most: int, fix: str) -> str | None:
    """One line of text, white space evened out; a number or yes counts as the text that was typed."""
    if not isinstance(node, ScalarNode):
        faults.add(path, f"{kind_of_node(node)} stands here where a text is due", fix)
        return None
    text = " ".join(unicodedata.normalize("NFC", node.text).split())
    if node.is_null or not text:
        faults.add(path, "nothing is written here", fix)
        return None
    # Format characters (Cf) join emoji and Indic letters; every other C class cannot be shown.
    odd = next((char for char in text if unicodedata.category(char) in ("Cc", "Cn", "Co", "Cs")), None)
    if odd is not None:
        faults.add(path, f"the text holds a character that cannot be shown (U+{ord(odd):04X})", "delete that character")
        return None
    if len(text) > most:
        faults.add(path, f"the text has {len(text)} characters; at most {most} are allowed", "shorten it")
        return None
    return text


def name_of(node: Node, path: str, faults: Faults, *, example: str) -> str | None:
    """A name: lower-case letters, digits and hyphens between them."""
    fix = f"write a name such as {example}"
    text = text_of(node, path, faults, most=MAX_NAME, fix=fix)
    if text is None or NAME.fullmatch(text):
        return text
    plain = _NOT_OF_NAMES.sub("-", unicodedata.normalize("NFKD", text.lower()).encode("ascii", "ignore").decode())
    faults.add(
        path,
        f"the name {_clipped(text)} may hold only lower-case letters, digits, and hyphens between them",
        f"write {plain.strip('-') or example}",
    )
    return None


def choice_of(
    node: Node, path: str, faults: Faults, choices: Sequence[str], *, offered: Sequence[str] = ()
) -> str | None:
    """One of a few words.

    offered : the same words as they are named to the teacher, where more must be said of one
    """
    named = listed(offered or choices)
    fix = f"write {named}"
    text = text_of(node, path, faults, most=MAX_CORNERS, fix=fix)
    if text is None or text in choices:
        return text
    near = nearest(text, choices)
    faults.add(path, f"{_clipped(text)} stands here where {named} is due", f"write {near}" if near else fix)
    return None


def number_of(
    node: Node,
    path: str,
    faults: Faults,
    *,
    least: float = -MAX_NUMBER,
    most: float = MAX_NUMBER,
    smaller: str = "use larger units, so that the numbers get smaller",
) -> float | None:
    """A finite number between ``least`` and ``most``, both allowed.

    smaller : how to mend one that is too large where nothing else bounds it
    """
    if not isinstance(node, ScalarNode):
        faults.add(path, f"{kind_of_node(node)} stands here where a number is due", _WRITE_NUMBER)
        return None
    text = node.text
    if node.is_null:
        faults.add(path, "nothing is written here where a number is due", _WRITE_NUMBER)
        return None
    if not node.quoted and _NUMBER.fullmatch(text) and not _LEADING_ZERO.match(text):
        value = float(text)
        if least <= value <= most:
            return value
        if abs(value) > MAX_NUMBER and (least, most) == (-MAX_NUMBER, MAX_NUMBER):
            faults.add(
                path,
                f"{_clipped(text)} is too large: numbers go up to {MAX_NUMBER:,.0f}",
                smaller,
            )
        else:
            faults.add(
                path,
                f"{_clipped(text)} is out of range",
                f"write a number from {shown(least)} to {shown(most)}",
            )
        return None
    message, fix = _no_number(text, quoted=node.quoted)
    faults.add(path, message, fix)
    return None


def degrees_of(node: Node, path: str, faults: Faults) -> float | None:
    """A turn in degrees, any finite number."""
    smaller = "a full turn is 360 degrees, so write a number from -360 to 360 that leads to the same place"
    return number_of(node, path, faults, smaller=smaller)


def whole_of(node: Node, path: str, faults: Faults, *, least: int, most: int) -> int | None:
    """A whole number between ``least`` and ``most``."""
    value = number_of(node, path, faults, least=least, most=most)
    if value is None:
        return None
    if value != int(value):
        faults.add(path, f"{shown(value)} is not a whole number", f"write a whole number from {least} to {most}")
        return None
    return int(value)


def _no_number(text: str, *, quoted: bool) -> tuple[str, str]:
    """Why a text is no number, and what to write in its place."""
    shown_text = _clipped(text)
    stripped = text.strip()
    if comma := _DECIMAL_COMMA.fullmatch(stripped):
        return f"{shown_text} has a comma where a full stop is due", f"write {comma[1]}.{comma[2]}"
    if (part := _FRACTION.fullmatch(stripped)) and float(part[2]):
        value = float(part[1]) / float(part[2])
        return f"{shown_text} is a fraction, which a file cannot hold", f"write {shown(value)}"
    if _NOT_FINITE.fullmatch(stripped):
        return f"{shown_text} is not a finite number", _WRITE_NUMBER
    plain = stripped.replace("\N{MINUS SIGN}", "-").replace("\N{EN DASH}", "-").replace("_", "").removesuffix("°")
    if _NUMBER.fullmatch(plain) and math.isfinite(float(plain)):
        value = float(plain)
        if quoted:
            return f"{shown_text} stands in quotation marks, so it is a text and not a number", f"write {shown(value)}"
        if _LEADING_ZERO.match(plain):
            return f"{shown_text} begins with a zero, which may mean another number", f"write {shown(value)}"
        return f"{shown_text} is not written as a plain number", f"write {shown(value)}"
    return f"{shown_text} is not a number", _WRITE_NUMBER


def is_plain_number(text: str) -> bool:
    """Whether a text is written as numbers are in a file."""
    return _NUMBER.fullmatch(text) is not None


def kind_of_node(node: Node) -> str:
    """What stands there, in words of a message."""
    if isinstance(node, ListNode):
        return "a list" if node.items else "an empty list"
    if isinstance(node, MapNode):
        return "a set of keys with values" if node.entries else "an empty set of keys"
    if node.is_null:
        return "nothing"
    return f"the text {_clipped(node.text)}" if node.quoted or not _NUMBER.fullmatch(node.text) else "a number"


def _clipped(text: str) -> str:
    """A typed text for a message, in quotation marks, cut short and without anything that cannot be shown."""
    clean = "".join(char if char.isprintable() else " " for char in text)
    return f'"{clean if len(clean) <= 40 else clean[:37] + "..."}"'


def duplicates(names: Sequence[str | None]) -> Iterator[tuple[int, int]]:
    """(index of the first, index of the later one) for each name given again; None is passed over."""
    first: dict[str, int] = {}
    for index, name in enumerate(names):
        if name is None:
            continue
        if name in first:
            yield first[name], index
        else:
            first[name] = index
