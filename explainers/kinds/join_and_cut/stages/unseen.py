"""A telling whose pictures are left blank: every word and every length is there, nothing is laid out or drawn.

To know how long a lesson takes, ten times as fast as with its pictures. A blank picture says in its alternative text
which picture it stands for, so that a run of moves sees the same changes of picture as with the real ones.
"""

from __future__ import annotations

from functools import cached_property

from ....choice.differences.difference import DifferenceFact
from ....choice.drawing.choices import Choices
from ....choice.model import Verdict
from ....figure.model import Figure
from ....figure.motion import Glide
from ....figure.theme import Theme
from ....geometry.rigid_motion import Similarity
from ..drawing.cloth import Cloth, group_of
from ..drawing.replay import Replay
from ..drawing.sheet import Sheet
from ..drawing.table import Phase, Table
from ..slips.slip_fact import PieceSlipFact
from .telling import Telling

__all__ = ["UnseenTelling"]


class UnseenTelling(Telling):
    """The same telling, unseen."""

    is_seen = False

    @staticmethod
    def card(lines: tuple[str, ...], alt: str, theme: Theme) -> Figure:
        """A title card without its lines."""
        return _blank("card")

    @staticmethod
    def counting_down(figure: Figure, *, left: int, patches: int, left_s: float, theme: Theme) -> Figure:
        """The picture without its clock."""
        return figure

    @cached_property
    def sheet(self) -> Sheet:
        """A question sheet without a layout."""
        return _Sheet(solution=self.solution, theme=self.theme)

    @cached_property
    def table(self) -> Table:
        """A work table at any scale."""
        return _Table(solution=self.solution, theme=self.theme)

    @cached_property
    def choices(self) -> Choices:
        """The options in their true places, which say how far each is turned."""
        return _Choices(solution=self.solution, theme=self.theme)

    def replay(self, fact: PieceSlipFact) -> Replay:
        """A slip that is not drawn."""
        return _Replay(choices=self.choices, fact=fact)


def _blank(*stands_for: object) -> Figure:
    return Figure(background="#ffffff", entries=(), alt=repr(stands_for))


class _Sheet(Sheet):
    @property
    def base_view(self) -> Similarity:
        return Similarity()

    def piece_glide(self, index: int) -> Glide:
        return Glide(group=group_of(index), about=(0.0, 0.0))

    def figure(self, alt: str) -> Figure:
        return _blank("sheet")


class _Table(Table):
    @cached_property
    def cloth(self) -> Cloth:
        return Cloth(solution=self.solution, theme=self.theme, scale=1.0)

    @cached_property
    def view(self) -> Similarity:
        return Similarity()

    def figure(self, done: int, phase: Phase, alt: str) -> Figure:
        return _blank("table", done, phase)

    def outlined(self, alt: str) -> Figure:
        return _blank("outlined")

    def alone(self, alt: str) -> Figure:
        return _blank("alone")


class _Choices(Choices):
    def figure(  # type: ignore[override]
        self,
        alt: str,
        *,
        settled: tuple[str, ...] = (),
        laid: Verdict | None = None,
        agreement: object = None,
        reason: DifferenceFact | None = None,
        kept: bool = False,
    ) -> Figure:
        return _blank("choices", settled, laid and laid.label, reason is not None or kept)


class _Replay(Replay):
    def figure(self, alt: str, *, settled: tuple[str, ...]) -> Figure:
        return _blank("replay", settled, self.fact.label)
