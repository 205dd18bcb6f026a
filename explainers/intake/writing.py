"""An item, or its options, as YAML text in the house's form: what the reader reads back as the same values.

Coordinates are rounded to a millionth of what is drawn, far below what a teacher could mean to tell apart.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from ..choice.question import Option
from ..document.yaml_text import in_brackets, lines_of
from ..geometry.rigid_motion import Ring
from ..item.option_reader import OPTION
from ..item.outline_reader import ListedOutline
from ..kinds.join_and_cut.fields.item_reader import BASE, ITEM
from ..kinds.join_and_cut.model import Item

__all__ = ["item_yaml", "options_yaml", "outline_yaml"]


def item_yaml(item: Item, *, comment: Sequence[str] = ()) -> str:
    """The whole file of an item; options are listed where there are any, else asked for.

    comment : lines for the head of the file, without their #
    """
    return "\n".join([*(f"# {line}".rstrip() for line in comment), *lines_of(ITEM.written(item))]) + "\n"


def options_yaml(options: Iterable[Option]) -> list[str]:
    """The lines of a list of options, as they stand below ``options:``."""
    return list(lines_of({"options": [in_brackets(OPTION.written(option)) for option in options]}))[1:]


def outline_yaml(corners: Ring, holes: Sequence[Ring], *, indent: str) -> list[str]:
    """The lines of corners and holes, as they stand below ``base:``."""
    return list(lines_of(BASE.written(ListedOutline(corners, tuple(holes))), indent))
