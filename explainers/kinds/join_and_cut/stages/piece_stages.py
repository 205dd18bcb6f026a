"""The stages in which a question of joining and cutting is worked out: the pieces one by one, then the outline.

Where a lesson stops, a question about a piece or the outline is asked over the picture that was shown last.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ....choice.fact import verified
from ....choice.finished import outline_fact
from ....choice.stages.context import StageSettings
from ....choice.stages.rows import rows, without_parts
from ....choice.stages.waiting import stop
from ....choice.words import task as asked
from ....figure.motion import DEGREES_PER_S, Glide, Trace
from ....figure.subject import Subject
from ....item.model import Manner
from ....item.stops import Stop
from ....sentences import notes
from ....sentences.lesson import Chapter, Heading, heading
from ....storyboard.model import Step
from ....storyboard.run import Run
from ....words.names import is_no_turn
from ..drawing.assembly_drawing import PIECE, THE_BASE, group_of, seam_id
from ..drawing.work_table import TablePhase
from ..facts.change import change_fact
from ..facts.meet import meet_fact
from ..facts.turn import turn_fact
from ..facts.turn_goal import turn_goal_fact
from ..model import EVERY_PIECE, Does
from ..solving.solution import JoinAndCutSolution
from ..words import steps as step_words
from ..words import task as task_words
from ..words.alt import alone_alt
from ..words.framing import PIECES, PieceHeading, piece_heading
from .context import PieceContext
from .handling import MEET, handling
from .hint_stages import hints

__all__ = ["STAGES_BY_MANNER", "tell"]

_FADE_S = 0.7
_DRAWN_S = 0.3  # the outline over the pieces
_SHIFT_S = 1.6
_ZOOM_S = 1.5
_SEAM_S = 0.9
_ALONE_S = 0.8


def close_up(context: PieceContext) -> Iterator[Step]:
    """From the sheet to the work table: the base and the first piece, larger."""
    sheet, table, facts = context.sheet, context.table, context.facts
    to_try = context.settings.manner.asks_to_try
    goal = context.shown(0, TablePhase.SHOWN)
    first = table.assembly.middle(0)
    start_at = sheet.piece_glide(0)
    about = (start_at.about[0] + start_at.by[0], start_at.about[1] + start_at.by[1])
    scale = table.view.scale / sheet.base_view.scale
    base_from, base_to = sheet.base_view.apply_point(first), table.view.apply_point(first)
    moves = (
        Glide(
            group=THE_BASE.group,
            about=base_from,
            by=(base_to[0] - base_from[0], base_to[1] - base_from[1]),
            scale=scale,
        ),
        Glide(
            group=group_of(0),
            about=about,
            by=(table.slot[0] - about[0], table.slot[1] - about[1]),
            scale=scale,
        ),
    )
    narration = (*(asked.pause_over() if to_try else ()), *task_words.close_up(facts, tried=to_try))
    title = heading(Heading.TOGETHER) if to_try else piece_heading(PieceHeading.CLOSE_UP)
    run = Run(context.last)
    run.move(goal, *moves, seconds=_ZOOM_S)
    yield context.step("close-up", PIECES, title, run.beats, narration, facts=facts)


def pieces(context: PieceContext) -> Iterator[Step]:
    """Each piece in order: its marks, its turn, the meeting, what becomes of it."""
    for index in range(len(context.solution.placements)):
        for stage in PIECE_STAGES:
            yield from stage(context, index)


def _marks(context: PieceContext, index: int) -> Iterator[Step]:
    fact = context.facts[index]
    run = Run(context.last)
    run.move(context.shown(index, TablePhase.POINTED), seconds=_FADE_S)
    step = context.step(
        "marks",
        PIECES,
        piece_heading(PieceHeading.MARKS, mark=fact.piece.mark),
        run.beats,
        verified(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        subject=_subject(fact.piece.name),
        goes_on=index == 0,  # the close-up has pointed at nothing yet
    )
    asked = _asks_turn(context, index) or _asks_meet(context, index)
    yield step if asked else _laid_by_hand(context, index, step)


def _turn(context: PieceContext, index: int) -> Iterator[Step]:
    """First why it turns, over both marked sides as they lie; then the turn."""
    fact, goal = turn_fact(context.solution, index), turn_goal_fact(context.solution, index)
    narration = verified(fact, verified(goal, goal.narration()))
    reasons = len(goal.reason())
    run = Run(context.last)
    run.move(context.shown(index, TablePhase.TURNING), seconds=_FADE_S, after=reasons)
    if not is_no_turn(fact.turn_deg):
        seconds = max(0.6, abs(fact.turn_deg) / DEGREES_PER_S)
        turned = context.shown(index, TablePhase.TURNED)
        run.move(turned, context.table.turn_glide(index), seconds=seconds, after=reasons)
    kind = PieceHeading.NO_TURN if is_no_turn(fact.turn_deg) else PieceHeading.TURN
    yield context.step(
        "turn",
        PIECES,
        piece_heading(kind, name=fact.name),
        run.beats,
        narration,
        note=fact.note(),
        facts=(fact, goal),
        subject=_subject(fact.name),
        goes_on=True,
    )


def _meet(context: PieceContext, index: int) -> Iterator[Step]:
    fact = meet_fact(context.solution, index)
    run = Run(context.last)
    run.move(context.shown(index, TablePhase.MET), context.table.meet_glide(index), seconds=_SHIFT_S)
    yield context.step(
        MEET,
        PIECES,
        piece_heading(PieceHeading.MEET, mark=fact.mark),
        run.beats,
        verified(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        subject=_subject(fact.name),
        goes_on=True,
    )


def _change(context: PieceContext, index: int) -> Iterator[Step]:
    fact = change_fact(context.solution, index)
    done = context.shown(index, TablePhase.DONE)
    if fact.does is Does.JOIN:
        run = Run(context.last)
        run.move(done, Trace(entry_id=seam_id(index)), seconds=_SEAM_S)
        kind = PieceHeading.JOIN
    else:
        # What lies beneath is taken out while the piece still covers it.
        run = Run(context.shown(index, TablePhase.OPENED))
        run.move(done, context.table.back_glide(index), seconds=_SHIFT_S)
        kind = PieceHeading.CUT
    yield context.step(
        fact.does.value,
        PIECES,
        piece_heading(kind, name=fact.name),
        run.beats,
        verified(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        subject=_subject(fact.name),
        goes_on=True,
    )


def _subject(piece: str) -> Subject:
    return Subject(thing=PIECE, name=piece)


def ask_turn(context: PieceContext, index: int) -> Iterator[Step]:
    """Before a piece is turned."""
    if _asks_turn(context, index):
        fact = context.facts[index]
        step = stop(context, "ask-turn", PIECES, step_words.ask_turn(fact), (fact,), _subject(fact.piece.name))
        yield step if _asks_meet(context, index) else _laid_by_hand(context, index, step)


def ask_meet(context: PieceContext, index: int) -> Iterator[Step]:
    """Before a piece is brought to where its marks meet."""
    if _asks_meet(context, index):
        fact = context.facts[index]
        facts = (fact, turn_fact(context.solution, index))  # the picture still shows how the piece has turned
        step = stop(context, "ask-meet", PIECES, step_words.ask_meet(fact), facts, _subject(fact.piece.name))
        yield _laid_by_hand(context, index, step, turned=True)


def ask_outline(context: PieceContext) -> Iterator[Step]:
    """Before the outline stands alone."""
    if _asks_outline(context):
        fact = outline_fact(context.solution.outline, context.solution.tolerance)
        yield stop(context, "ask-outline", Chapter.OUTLINE, step_words.ask_outline(fact), (fact,), goes_on=False)


def _asks_turn(context: PieceContext, index: int) -> bool:
    return Stop("turn", context.facts[index].piece.name) in context.settings.asks


def _asks_meet(context: PieceContext, index: int) -> bool:
    name = context.facts[index].piece.name
    return bool({Stop("meet", name), Stop(EVERY_PIECE)} & set(context.settings.asks))


def _asks_outline(context: PieceContext) -> bool:
    return Stop("outline") in context.settings.asks


def _laid_by_hand(context: PieceContext, index: int, step: Step, *, turned: bool = False) -> Step:
    """The step, in which learners may lay the piece: the last before the lesson does it.

    turned : whether its picture shows the piece turned already
    """
    return replace(step, handling=handling(context.table, index, turned=turned)) if context.is_seen else step


PIECE_STAGES = (_marks, ask_turn, _turn, ask_meet, _meet, _change)


def ahead(context: PieceContext) -> Iterator[Step]:
    """What will come out, before it stands alone: the corners are counted, and those that are lost are taken off.

    It comes when every piece is done, since only then all corners are in the picture, and after the stop at which
    learners are asked for their number, which it answers.
    """
    fact = context.tally
    if fact is None:
        return
    run = Run(context.last)
    run.move(context.counted(fact, settled=False), seconds=_FADE_S)
    run.move(context.counted(fact, settled=True), seconds=_FADE_S, after=len(fact.counting()))
    yield context.step(
        "ahead",
        Chapter.OUTLINE,
        piece_heading(PieceHeading.AHEAD),
        run.beats,
        verified(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        goes_on=_asks_outline(context),
    )


def outline(context: PieceContext) -> Iterator[Step]:
    """Inner lines fade until the outline stands alone."""
    fact = outline_fact(context.solution.outline, context.solution.tolerance)
    alt = alone_alt(context.solution)
    run = Run(context.last)
    run.move(context.table.outlined(alt), seconds=_DRAWN_S)
    run.move(context.table.alone(alt), context.table.alone_glide(), seconds=_ALONE_S)
    narration = step_words.outline(fact, counted=context.tally is not None)
    if len(narration) > step_words.ALONE:
        marked = " ".join((alt, step_words.dotted_alt()))
        run.move(context.alone_counted(marked), seconds=_FADE_S, after=step_words.ALONE)
    yield context.step(
        "outline",
        Chapter.OUTLINE,
        heading(Heading.OUTLINE),
        run.beats,
        narration,
        note=notes.outline_note(),
        facts=(fact,),
        goes_on=context.tally is not None or _asks_outline(context),
    )


STAGES_BY_MANNER = rows(close_up, pieces, ask_outline, ahead, outline, hints=(hints,))


def tell(solution: JoinAndCutSolution, settings: StageSettings) -> Iterator[Step]:
    """The steps that tell a solved item.

    Raises : FactError where a sentence would be false
    """
    is_quick = settings.manner is Manner.QUICK_CHECK
    context = PieceContext(without_parts(solution) if is_quick else solution, settings)
    for stage in STAGES_BY_MANNER[settings.manner]:
        yield from stage(context)
