"""What the two sides that must meet are marked with: a sign, unless letters are written; each mark once an item."""

from __future__ import annotations

import unicodedata
from collections.abc import Collection, Iterator, Sequence
from typing import Protocol

from ....document.fields import Faults, Table, duplicates, shown_text_of
from ....document.format import Field, Record, Rule
from ....document.nodes import Node, ScalarNode
from ....document.values import Value, choice
from ....document.yaml_text import text_yaml
from ....words.mark_names import SIGN_NAMES

__all__ = ["LETTERS", "ONE_MARK", "SIGN", "Marked", "give_marks", "mark_key", "position_sign"]

MAX_LETTERS = 3


class Marked(Protocol):
    """A piece as far as it could be read: where it stands, what it is called, what it is marked with."""

    table: Table
    name: str | None
    mark: str | None
    fine: bool

    @property
    def called(self) -> str: ...


def _letters(node: Node, path: str, faults: Faults) -> str | None:
    fix = f"write 1 to {MAX_LETTERS} letters or digits, such as K"
    if isinstance(node, ScalarNode) and not node.is_null:
        text = unicodedata.normalize("NFC", node.text)
        if text in SIGN_NAMES:
            faults.add(path, f"{text} is a sign, and mark: takes letters", f"write sign: {text}")
            return None
        if len(text) > MAX_LETTERS:
            fix += ", or sign: and one of our signs, such as leaf"
            faults.add(path, f"the mark has {len(text)} characters; it may have 1 to {MAX_LETTERS}", fix)
            return None
        if any(char.isspace() or unicodedata.category(char).startswith(("C", "M", "Z")) for char in text):
            faults.add(path, "the mark holds white space or a character that cannot be shown by itself", fix)
            return None
    return shown_text_of(node, path, faults, most=MAX_LETTERS, fix=fix)


SIGN = Field(
    "sign",
    choice(SIGN_NAMES),
    f"the sign at both sides, one of its own: {', '.join(SIGN_NAMES)} (default: one for each piece)",
    write=lambda piece: piece.mark if piece.mark in SIGN_NAMES else None,
)
LETTERS = Field(
    "mark",
    Value(
        read=_letters,
        schema={"type": ["string", "number", "boolean"], "pattern": r"^\S+$", "maxLength": MAX_LETTERS},
        write=text_yaml,
    ),
    f"in place of a sign: 1 to {MAX_LETTERS} letters or digits, no label of an option",
    attribute="letters",
    write=lambda piece: None if piece.mark in SIGN_NAMES else text_yaml(piece.mark),
)


def _is_one(record: Record) -> None:
    """Not letters and a sign at once."""
    entries = record.table.node.entries
    if not {"mark", "sign"} <= entries.keys():
        return
    mark, sign = (entries[key].line for key in ("mark", "sign"))
    record.table.faults.add(
        record.table.at("sign"),
        f"the piece is marked twice, with mark on line {mark} and with sign on line {sign}",
        f"keep one of them: take out line {min(mark, sign)} or line {max(mark, sign)}",
    )


ONE_MARK = Rule("a sign or letters, not both", check=_is_one, schema={"not": {"required": ["mark", "sign"]}})


def mark_key(table: Table) -> str:
    """The key under which a piece's mark is written, or would be."""
    return "mark" if "mark" in table else "sign"


def give_marks(drafts: Sequence[Marked]) -> None:
    """A sign for each piece that is left without a mark; the same mark twice is refused."""
    for first, again in duplicates([draft.mark for draft in drafts]):
        draft = drafts[again]
        key = mark_key(draft.table)
        draft.table.faults.add(
            draft.table.at(key),
            f"the {key} {draft.mark} is also that of {drafts[first].called}: nobody could tell which sides meet",
            f"give each piece a {key} of its own",
        )
        draft.fine = False
    used = {draft.mark for draft in drafts if draft.mark}
    named = [draft.name for draft in drafts if draft.name]
    for place, draft in enumerate(drafts):
        if draft.mark is None and not {"mark", "sign"} & draft.table.node.entries.keys():
            draft.mark = position_sign(place, used, named)
            used.add(draft.mark)


def position_sign(place: int, used: Collection[str], names: Collection[str]) -> str:
    """The sign of a piece that is left without a mark: by its place, so that no other piece changes it without need.

    used  : the marks that other pieces have
    names : of the pieces, for "the leaf on the leaf" would be hard to follow
    """
    free = [sign for sign in SIGN_NAMES if sign not in used]
    return next(_liked(free, names, SIGN_NAMES[place % len(SIGN_NAMES)]))


def _liked(free: Sequence[str], names: Collection[str], own: str) -> Iterator[str]:
    plain = [sign for sign in free if not any(sign in name.lower() for name in names)]
    if own in plain:
        yield own
    # From the end, so that pieces further down keep the signs of their places.
    yield from reversed(plain)
    yield from free
