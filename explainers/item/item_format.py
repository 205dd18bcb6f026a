"""The format of an item: what every item has, around the keys of its kind of question.

The keys, defaults and limits are those of the item format in the README; each row of the tables stands in the module
that reads its value. What a kind adds is a `QuestionKeys`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from ..choice.question import ClosingSide, Question
from ..document.fields import Faults
from ..document.format import Field, Format, Record, Row, Rule
from ..document.nodes import MapNode
from ..document.values import choice, name, shown_text
from .accepted_reader import accepted_field
from .option_reader import check_options, options_field
from .outline_reader import DEFINITIONS

__all__ = ["ItemDraft", "QuestionKeys", "item_format", "read_draft"]

MAX_TITLE = 120

QuestionFields = Mapping[str, Any]
"""The fields of `Question`, by name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class QuestionKeys:
    """What a kind of question adds to an item's file."""

    rows: tuple[Row, ...]  # between the title and the options
    rules: tuple[Rule, ...] = ()  # what must hold between them and the others
    slip_keys: tuple[Field, ...]  # of an option made by a slip: the slip, and what it happens to where one needs it
    result: str = "the finished outline"  # what an option shows that is made by no slip
    warnings: Mapping[str, str]  # every kind of warning that may be accepted, with what it means
    subjects: Callable[[Record], Sequence[str | None]]  # what slips may happen to; None for one that cannot be read
    # From what reads well, the question; beside it, as much of it from the start as reads well, which is the same for
    # one that is whole. None where that leaves nothing to solve.
    build: Callable[[Record, QuestionFields], tuple[Question | None, Question | None]]
    examples: Mapping[str, str] = field(default_factory=dict)  # keys that may be left out, as they stand in a file


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemDraft:
    """An item as far as it could be read."""

    name: str  # the file's stem where no name could be read
    item: Question | None = None  # there where all that its kind adds reads well
    begun: Question | None = None  # as much of it from the start as reads well; None where that leaves nothing


NAME = Field(
    "item",
    name("corner-block"),
    "the name of the item: lower-case letters, digits, hyphens",
    attribute="name",
    due="name the item, such as item: {stem}",
)
_TITLE = Field(
    "title",
    shown_text(MAX_TITLE, fix="write the title, or leave the key out"),
    "what learners read above it (default: from the name)",
)


def item_format(kind: str, keys: QuestionKeys, *, default: str) -> Format:
    """The format of an item of one kind.

    default : the kind of an item that names none
    """
    may_be_left_out = kind == default
    return Format(
        owner="an item",
        missing_from="the file",
        fix="begin with item:",
        rows=(
            NAME,
            _TITLE,
            Field(
                "kind",
                choice((kind,)),
                f"the kind of question{f' (default {default})' if may_be_left_out else ''}",
                due="" if may_be_left_out else f"write kind: {kind}",
                default=kind if may_be_left_out else None,
            ),
            *keys.rows,
            options_field(keys.slip_keys, keys.result),
            accepted_field(keys.warnings),
        ),
        rules=keys.rules,
        definitions=DEFINITIONS,
    )


def read_draft(root: MapNode, table: Format, keys: QuestionKeys, faults: Faults) -> ItemDraft:
    """The item as far as it reads well.

    Faults elsewhere leave it whole enough to be solved: a bad name gives way to the file's stem, and the result stands
    in for an option that could not be read, so that the others keep their numbers.
    """
    record = table.read(root, "", faults)
    if record is None:
        return ItemDraft(name=faults.file.stem)
    name, asked = record["name"] or faults.file.stem, record["options"]
    options = check_options(asked, keys.subjects(record), keys.slip_keys) if asked else ()
    shared = {
        "name": name,
        "title": _title(record, name),
        "options": options,
        "made": asked.made if asked else None,
        "accepted": record["accepted"] or (),
        "closing": tuple(note for note in faults.notes if isinstance(note, ClosingSide)),
    }
    item, begun = keys.build(record, shared)
    return ItemDraft(name=name, item=item, begun=begun)


def _title(record: Record, name: str) -> str:
    plain = name.replace("-", " ")
    return record["title"] or (plain if "title" in record.table else plain[:1].upper() + plain[1:])
