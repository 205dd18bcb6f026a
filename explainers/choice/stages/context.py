"""One question being told: what its stages have in common, and the figure that was shown last.

A kind builds a context of its own on this one, with the pictures that only its questions have.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import cached_property

from ...figure.model import Figure
from ...figure.motion import Glide
from ...figure.subject import Subject
from ...figure.theme import Theme
from ...geometry.rigid_motion import Similarity
from ...item.model import Manner
from ...item.stops import Stop
from ...sentences.lesson import Chapter, chapter
from ...storyboard.doing import Loose
from ...storyboard.model import Beat, Step
from ..drawing.choices import Choices
from ..drawing.comparing import Comparing
from ..drawing.marked import alike_entries, sieve_entries
from ..drawing.option_cells import OptionCells
from ..fact import Fact
from ..model import Solution, Verdict
from ..sieves.sieve import SieveFact, SieveMarks
from ..sieves.sifting import Sifting, sifting_of, walk_of
from ..strategy import Candidate, StrategyFact
from ..walk import WalkFact
from ..words.alt import check_alt
from ..words.task import check
from .loose import loose_outline
from .unseen import UnseenChoices, UnseenComparing, blank

__all__ = ["AskedQuestion", "Part", "StageContext", "StageSettings"]


class Part(StrEnum):
    """A part of a telling that a shorter one does without."""

    AHEAD = "ahead"  # looking ahead, before what comes out is shown
    WALK = "walk"  # the right option walked round before it is laid on
    REMEMBER = "remember"


@dataclass(frozen=True, slots=True, kw_only=True)
class StageSettings:
    """How a question is told.

    titled  : whether chapters bear the question's title, as in a lesson of several
    pause_s : how long learners get to try first; 0 where they are not asked
    asks    : where to stop and ask
    slips_told : whether it is told how a wrong option comes about
    leaves_out : parts of the telling that are left out, so that it takes less time
    remembered : the strategies that earlier questions of the lesson have told, so that none is told twice
    is_seen : whether pictures are drawn; without them a telling has its words, motions and lengths all the same
    """

    manner: Manner
    theme: Theme
    titled: bool = False
    pause_s: float = 0.0
    asks: tuple[Stop, ...] = ()
    slips_told: bool = False
    leaves_out: frozenset[Part] = frozenset()
    remembered: tuple[str, ...] = ()
    is_seen: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedQuestion:
    """A question as it is asked: it answers nothing."""

    figure: Figure
    cells: OptionCells | None  # the options as the picture shows them; None where it is not drawn
    narration: tuple[str, ...]
    facts: tuple[Fact, ...] = ()
    loose: tuple[Loose, ...] = ()  # what learners may move about in it by hand


class StageContext:
    """What the stages of one question are told from.

    last    : the figure that the step before left on the stage
    settled : the options that have been ruled out so far, in the order in which they were
    away    : how what is away from its place in that figure comes back to it; () where nothing is
    arranged : how the options are arranged in it
    beside  : the option that is away because it stands beside the outline in that figure
    """

    def __init__(self, solution: Solution, settings: StageSettings) -> None:
        self.solution = solution
        self.settings = settings
        self.last = Figure(background=settings.theme.paper, entries=())
        self.settled: list[Verdict] = []
        self.away: tuple[Glide, ...] = ()
        self.arranged = self.spread
        self.beside: Verdict | None = None

    @property
    def theme(self) -> Theme:
        """Colours, patterns, words."""
        return self.settings.theme

    @property
    def is_seen(self) -> bool:
        """Whether pictures are drawn."""
        return self.settings.is_seen

    @cached_property
    def choices(self) -> Choices:
        """The options beside the outline, which is large, to be laid on."""
        kind = Choices if self.is_seen else UnseenChoices
        return kind(solution=self.solution, theme=self.theme)

    @cached_property
    def spread(self) -> Choices:
        """The options beside the outline, all as large as there is room, to be compared."""
        return replace(self.choices, is_spread=True)

    @property
    def sizes_differ(self) -> bool:
        """Whether an option is drawn to another scale than the others."""
        return len({option.scale for option in self.solution.item.options}) > 1

    @cached_property
    def compared(self) -> AskedQuestion:
        """The question of a quick check: the outline with the options beside it."""
        return AskedQuestion(
            figure=self.spread.figure(check_alt(self.solution)),
            cells=self.spread.cells if self.is_seen else None,
            narration=check(sizes_differ=self.sizes_differ, outline_given=self.solution.item.outline_given),
            loose=(loose_outline(self.spread),) if self.is_seen else (),
        )

    @cached_property
    def asked(self) -> AskedQuestion:
        """The whole question. A kind that shows more than an outline to compare asks it in a way of its own."""
        return self.compared

    @property
    def outline_view(self) -> Similarity:
        """From the outline's own coordinates to where it is drawn when it has been worked out."""
        return self.spread.view

    @cached_property
    def sifting(self) -> Sifting:
        """The sieves of the question."""
        return sifting_of(self.solution)

    def sifted(self, fact: SieveFact, labels: tuple[str, ...], settled: tuple[str, ...], alt: str) -> Figure:
        """The options beside the outline, with what a sieve counts on the outline and on these options."""
        if not self.is_seen:
            # Where an option has none of what is counted, nothing more is marked when it is its turn.
            marked = [o.label for o in fact.options if o.label in labels and fact.marks_on(o.outline) != SieveMarks()]
            return blank("sift", fact.stage, marked, sorted(settled))
        shown = self.spread.figure(alt, settled=settled)
        return replace(shown, entries=(*shown.entries, *sieve_entries(self.spread, fact, labels)))

    def counted_alike(self, verdict: Verdict, settled: tuple[str, ...], alt: str) -> Figure:
        """The options beside the outline, with all corners and holes marked on the outline and on the right one."""
        if not self.is_seen:
            return blank("alike", verdict.label, sorted(settled))
        shown = self.arranged.figure(alt, settled=settled)
        return replace(shown, entries=(*shown.entries, *alike_entries(self.arranged, verdict)))

    def walk_of(self, verdict: Verdict) -> WalkFact | None:
        """The walk round the outline and an option that is the same, or that flipped; None where none is clear."""
        return walk_of(self.solution, verdict)

    def comparing(self, verdict: Verdict) -> Comparing:
        """The option beside the outline, alone and large."""
        kind = Comparing if self.is_seen else UnseenComparing
        return kind(choices=self.arranged, verdict=verdict)

    def own_strategies(self) -> Iterable[Candidate]:
        """The strategies to remember that only questions of this kind have."""
        return ()

    def picture_of(self, fact: StrategyFact) -> Figure | None:
        """The picture that shows a strategy of this kind; None for a general one."""
        return None

    def step(
        self,
        stage: str,
        kind: Chapter,
        heading: str,
        beats: Iterable[Beat],
        narration: Sequence[str],
        *,
        before: str = "",
        note: str = "",
        facts: Sequence[Fact] = (),
        subject: Subject | None = None,
        reveals: bool = True,
        goes_on: bool = False,
    ) -> Step:
        """A step of this question; notes what it leaves on the stage.

        before : the heading until the last motion, where the other gives away how the step ends
        """
        step = Step(
            stage=stage,
            item=self.solution.item.name,
            subject=subject,
            reveals=reveals,
            chapter=chapter(kind, title=self.solution.item.title if self.settings.titled else ""),
            heading=heading,
            heading_before=before,
            beats=tuple(beats),
            narration=tuple(narration),
            note=note,
            facts=tuple(facts),
            goes_on=goes_on,
        )
        self.last = step.picture
        return step
