"""Pictures left blank: to know how long a lesson takes, ten times as fast as with its pictures.

A blank picture says in its alternative text which picture it stands for, so that a run of moves sees the same changes
of picture as with the real ones. Nothing is laid out or drawn; every word and every length is there.
"""

from __future__ import annotations

from ...figure.model import Figure
from ...figure.theme import Theme
from ..differences.difference import DifferenceFact
from ..drawing.choices import Choices
from ..drawing.comparing import Comparing
from ..model import Verdict
from ..walk import WalkFact

__all__ = ["UnseenChoices", "UnseenComparing", "blank", "blank_card", "blank_chapter"]


def blank(*stands_for: object) -> Figure:
    """A picture of nothing, told apart from others by what it stands for."""
    return Figure(background="#ffffff", entries=(), alt=repr(stands_for))


def blank_card(lines: tuple[str, ...], alt: str, theme: Theme) -> Figure:
    """A title card without its lines."""
    return blank("card")


def blank_chapter(title: str, doing: str, place: tuple[int, int], alt: str, theme: Theme) -> Figure:
    """The card of a question without its words."""
    return blank("chapter", place)


class UnseenChoices(Choices):
    """The options in their true places, which say how far each is turned."""

    def figure(  # type: ignore[override]
        self,
        alt: str,
        *,
        settled: tuple[str, ...] = (),
        laid: Verdict | None = None,
        reason: DifferenceFact | None = None,
        kept: bool = False,
    ) -> Figure:
        """No picture."""
        return blank("choices", self.is_spread, sorted(settled), laid and laid.label, reason is not None or kept)


class UnseenComparing(Comparing):
    """An option beside the outline, in its true place, which says how far it goes."""

    def figure(
        self,
        alt: str,
        fact: WalkFact | None = None,
        *,
        walked: bool | None = None,
        whole: bool = False,
        is_out: bool = False,
    ) -> Figure:
        """No picture."""
        return blank("beside", self.verdict.label, fact is not None, walked, is_out)
