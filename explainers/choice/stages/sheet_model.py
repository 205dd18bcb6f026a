"""Printed sheets as plain values: what stands on each, in order; no page is broken in here."""

from __future__ import annotations

from dataclasses import dataclass

from ...figure.layout import Box
from ...figure.paper import Picture, Printing
from ...geometry.rigid_motion import Point
from ...storyboard.model import Imprint
from ..words.marking import MarkingEntry

__all__ = ["AnsweredItem", "AskedItem", "CutOutItem", "MarkedItem", "SheetPart", "SheetSet", "SheetStill"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPart:
    """Where something lies that the sheet shows turned, in stage units of the picture."""

    middle: Point  # about which it is turned
    room: Box  # what it takes up, with its marks
    option: str = ""  # the letter of an option; "" for a part of the question, such as a piece


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedItem:
    """One question."""

    heading: str
    task: tuple[str, ...]
    picture: Picture
    labels: tuple[str, ...]
    options: Picture | None = None  # on a second page, where the first has no room to show every side of them
    parts: tuple[SheetPart, ...] = ()  # where all of it is one picture: parts of the question in order, then options


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStill:
    """A picture with a line of words under it."""

    picture: Picture
    caption: str


@dataclass(frozen=True, slots=True, kw_only=True)
class AnsweredItem:
    """The answer to one question."""

    heading: str
    key: str
    stills: tuple[SheetStill, ...]
    reasons: tuple[tuple[str, str], ...]  # (label, why) of each wrong option


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedItem:
    """What each option tells of whoever chose it."""

    heading: str
    entries: tuple[MarkingEntry, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutOutItem:
    """The parts of a question to cut out, a picture a page."""

    heading: str
    keep: str  # that parts may be turned, but never flipped
    unit_mm: float  # what one unit of the item measures
    scale: str
    pages: tuple[Picture, ...]
    line: Picture  # to measure; on every page


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSet:
    """All sheets of one lesson, or of items that belong together, in one version; those not asked for are empty."""

    name: str  # what its files are called
    title: str
    language: str
    printing: Printing
    imprint: Imprint
    version: int | None = None  # from 1; None where there are no versions
    keys: tuple[str, ...] = ()  # the letter of the right option of each question, in order
    questions: tuple[AskedItem, ...] = ()
    answers: tuple[AnsweredItem, ...] = ()
    marking: tuple[MarkedItem, ...] = ()
    cut_outs: tuple[CutOutItem, ...] = ()
    cut_outs_title: str = ""  # over the cut-outs
