"""One question being told: what its stages have in common, and the figure that was shown last."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property

from ....choice.drawing.choices import Choices
from ....choice.fact import Fact
from ....figure.dress import counting_down, title_figure
from ....figure.model import Figure
from ....figure.subject import Subject
from ....figure.theme import Theme
from ....storyboard.model import Beat, Step
from ....wording.lesson import Chapter, chapter
from ..drawing.replay import Replay
from ..drawing.sheet import Sheet
from ..drawing.table import Table
from ..slips.slip_fact import PieceSlipFact
from ..solving.solution import JoinAndCutSolution

__all__ = ["Telling"]


class Telling:
    """What the stages of one item are told from.

    titled  : whether chapters bear the item's title, as in a lesson of several items
    to_try  : whether learners are asked to try first
    pause_s : how long they get; 0 where they are not asked
    asks    : where to stop and ask, as the lesson's file names it
    last    : the figure that the step before left on the stage
    is_seen : whether its pictures are drawn; see ``unseen``
    """

    is_seen = True
    card = staticmethod(title_figure)  # the picture of a title card
    counting_down = staticmethod(counting_down)  # the picture of a pause

    def __init__(
        self,
        solution: JoinAndCutSolution,
        theme: Theme,
        *,
        titled: bool,
        to_try: bool,
        pause_s: float = 0.0,
        asks: Sequence[str] = (),
    ) -> None:
        self.solution = solution
        self.theme = theme
        self.titled = titled
        self.to_try = to_try
        self.pause_s = pause_s
        self.asks = tuple(asks)
        self.last = Figure(background=theme.paper, entries=())

    @cached_property
    def sheet(self) -> Sheet:
        """The question sheet."""
        return Sheet(solution=self.solution, theme=self.theme)

    @cached_property
    def table(self) -> Table:
        """The work table."""
        return Table(solution=self.solution, theme=self.theme)

    @cached_property
    def choices(self) -> Choices:
        """The options beside the outline."""
        return Choices(solution=self.solution, theme=self.theme)

    def replay(self, fact: PieceSlipFact) -> Replay:
        """A slip that makes one of the options."""
        return Replay(choices=self.choices, fact=fact)

    def step(
        self,
        stage: str,
        kind: Chapter,
        heading: str,
        beats: Iterable[Beat],
        narration: Sequence[str],
        *,
        note: str = "",
        facts: Sequence[Fact] = (),
        subject: Subject | None = None,
        reveals: bool = True,
    ) -> Step:
        """A step of this item; notes what it leaves on the stage."""
        row = tuple(beats)
        step = Step(
            stage=stage,
            item=self.solution.item.name,
            subject=subject,
            reveals=reveals,
            chapter=chapter(kind, title=self.solution.item.title if self.titled else ""),
            heading=heading,
            beats=row,
            narration=tuple(narration),
            note=note,
            facts=tuple(facts),
        )
        self.last = step.picture
        return step
