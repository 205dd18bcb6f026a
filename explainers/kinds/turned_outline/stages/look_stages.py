"""The stages in which a turned outline is looked at before its options are tried: a corner, then the way round."""

from __future__ import annotations

from collections.abc import Iterator

from ....choice.stages.context import StageSettings
from ....choice.stages.rows import rows
from ....choice.words import task as asked
from ....sentences.lesson import Heading, heading
from ....storyboard.model import Step
from ....storyboard.run import Run
from ..drawing.look import LookPhase
from ..solution import TurnedOutlineSolution
from ..words import framing as words
from ..words.framing import CLOSE_LOOK, LookHeading, look_heading
from .context import OutlineContext

__all__ = ["STAGES_BY_MANNER", "tell"]

_FADE_S = 0.7
_ZOOM_S = 1.5


def corner(context: OutlineContext) -> Iterator[Step]:
    """The outline comes nearer, and a corner that is known again is ringed."""
    fact, to_try = context.landmark, context.settings.manner.asks_to_try
    narration = (*asked.pause_over(), *fact.of_corner()) if to_try else fact.of_corner()
    run = Run(context.last)
    run.move(context.looked_at(LookPhase.CORNER), context.look.glide(context.spread.view), seconds=_ZOOM_S)
    yield context.step(
        "corner",
        CLOSE_LOOK,
        heading(Heading.TOGETHER) if to_try else look_heading(LookHeading.CORNER),
        run.beats,
        narration,
        note=words.corner_note(),
        facts=(fact,),
    )


def go_round(context: OutlineContext) -> Iterator[Step]:
    """The sides beside that corner, by which a turn is told from a flip."""
    fact = context.landmark
    run = Run(context.last)
    run.move(context.looked_at(LookPhase.ROUND), seconds=_FADE_S)
    yield context.step(
        "round",
        CLOSE_LOOK,
        look_heading(LookHeading.ROUND),
        run.beats,
        fact.of_round(),
        note=words.round_note(),
        facts=(fact,),
        goes_on=True,
    )


STAGES_BY_MANNER = rows(corner, go_round)


def tell(solution: TurnedOutlineSolution, settings: StageSettings) -> Iterator[Step]:
    """The steps that tell a solved item.

    Raises : FactError where a sentence would be false
    """
    context = OutlineContext(solution, settings)
    for stage in STAGES_BY_MANNER[settings.manner]:
        yield from stage(context)
