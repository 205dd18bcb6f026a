"""What is shown of one item, as plain values: panels of pictures with a few words each."""

from __future__ import annotations

from dataclasses import dataclass, field

from ...figure.layout import Box
from ...figure.model import Figure
from ...figure.theme import DEFAULT_THEME, Theme

__all__ = ["PX_PER_UNIT", "Panel", "PanelPicture", "Remark", "Sign", "View"]

PX_PER_UNIT = 50.0  # at which pictures are meant to be seen: smaller than a lesson's

Sign = str  # "right", "wrong", "doubt" or "" for none: dresses a panel's heading


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPicture:
    """One figure, with the part of the stage that is seen of it."""

    figure: Figure
    box: Box
    caption: str = ""

    @property
    def width(self) -> float:
        """In CSS pixels."""
        return self.box.width * PX_PER_UNIT


@dataclass(frozen=True, slots=True, kw_only=True)
class Remark:
    """A warning, by the number that it wears in the picture too."""

    number: int
    message: str
    kind: str  # the word by which a teacher accepts it
    line: int = 0  # in the file; 0 where it is not known


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One part of an item."""

    name: str  # unique in a view: "result" for a finished outline, "outline" for one that is given, "option-A"
    heading: str
    sign: Sign = ""
    word: str = ""  # beside the heading: join, cut, fits ...
    line: int = 0  # where it begins in the file
    pictures: tuple[PanelPicture, ...] = ()
    lines: tuple[str, ...] = ()
    typed: tuple[str, ...] = ()  # lines that can be copied into a file
    remarks: tuple[Remark, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """An item, or as much of it as can be read."""

    kind: str  # of the question
    name: str
    title: str
    state: str  # in a few words: sound, the answer is C
    sign: Sign
    because: tuple[str, ...] = ()  # why it is unsound
    groups: tuple[tuple[str, tuple[Panel, ...]], ...] = field(default=())  # (heading, panels)
    notes: tuple[str, ...] = ()  # what is accepted
    small: PanelPicture | None = None  # for a list of items
    theme: Theme = DEFAULT_THEME  # of the pictures, and of the page round them

    @property
    def remarks(self) -> tuple[Remark, ...]:
        """Every warning once, in the order of its number."""
        found = {remark.number: remark for _, panels in self.groups for panel in panels for remark in panel.remarks}
        return tuple(found[number] for number in sorted(found))

    @property
    def ringed_often(self) -> frozenset[int]:
        """The numbers of warnings that more than one panel has."""
        numbers = [remark.number for _, panels in self.groups for panel in panels for remark in panel.remarks]
        return frozenset(number for number in numbers if numbers.count(number) > 1)
