"""An item, or its options, as YAML text in the house's form: what the reader reads back as the same values.

Coordinates are rounded to a millionth of what is drawn, far below what a teacher could mean to tell apart.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..choice.question import Question
from ..document.yaml_text import lines_of
from .item_reader import format_of_kind

__all__ = ["item_yaml", "options_yaml"]


def item_yaml(item: Question, *, comment: Sequence[str] = ()) -> str:
    """The whole file of an item; options are listed where there are any, else asked for.

    comment : lines for the head of the file, without their #
    """
    written = format_of_kind(item.kind).written(item)
    return "\n".join([*(f"# {line}".rstrip() for line in comment), *lines_of(written)]) + "\n"


def options_yaml(item: Question) -> list[str]:
    """The lines of an item's options, as they stand below ``options:``."""
    return list(lines_of({"options": format_of_kind(item.kind).written(item)["options"]}))[1:]
