"""Printed sheets as plain values: what stands on each, in order; no page is broken in here."""

from __future__ import annotations

from dataclasses import dataclass

from ...figure.paper import Picture, Printing
from ...storyboard.model import Imprint
from ..words.marking import MarkingEntry

__all__ = ["AnsweredItem", "AskedItem", "CutOutItem", "MarkedItem", "SheetSet", "SheetStill"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedItem:
    """One question."""

    heading: str
    task: tuple[str, ...]
    picture: Picture
    labels: tuple[str, ...]
    options: Picture | None = None  # on a second page, where the first has no room to show every side of them


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
