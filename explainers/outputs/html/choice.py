"""What the page of a deck needs to let an option be chosen: the open part, and what is told once one is.

A new text of it is a key in ``choosing_words``. An option is chosen where the picture draws it: the page lays a label
over its cell, and what is said to whoever has chosen is added to what stands there.
"""

from __future__ import annotations

from collections.abc import Callable

from ...figure.model import Figure
from ...storyboard.doing import Choice
from .pictures import view_box

__all__ = ["choice_data", "tells", "told_data"]


def tells(choice: Choice) -> bool:
    """Whether the lesson tells which option is right."""
    return any(option.right is not None for option in choice.options)


def choice_data(choice: Choice, part: int | None = None) -> dict[str, object]:
    """The open part, ready for JSON: the same whichever option is right.

    part    : the number of the part in which the verdicts are packed; None where the lesson does not tell
    Returns : options, each {label, box}; box is the option's cell, [x, y, width, height] in the view box
    """
    options = [{"label": option.label, "box": view_box(option.room)} for option in choice.options]
    return {"options": options, "part": part if tells(choice) else None}


def told_data(choice: Choice, figure: Callable[[Figure], int]) -> list[dict[str, object]]:
    """The part to be packed: of each option whether it is right, what is said, and the number of its figure.

    figure : puts a figure on the shelf of that part and gives its number
    """
    return [
        {
            "label": option.label,
            "right": option.right,
            "said": list(option.said),
            "figure": None if option.figure is None else figure(option.figure),
        }
        for option in choice.options
    ]
