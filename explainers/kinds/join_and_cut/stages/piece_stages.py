"""The stages of a telling, each a function that yields steps: the task, the pieces, the outline, the options.

Every stage starts from the figure that was shown last, so that what is seen runs on without a jump.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ....choice.fact import said
from ....choice.finished import outline_fact
from ....choice.stages.choosing import choice_to_note, choice_to_tell
from ....choice.words import task as asked
from ....choice.words.alt import choices_alt
from ....figure.model import Figure
from ....figure.motion import DEGREES_PER_S, Glide, Trace
from ....figure.subject import THE_BASE, Subject, Thing
from ....storyboard.model import PAUSE, TASK, Step, Still
from ....storyboard.run import Run
from ....storyboard.waiting import waiting
from ....wording import notes
from ....wording.lesson import Chapter, Heading, heading
from ....words.names import is_no_turn
from ..drawing.cloth import group_of, seam_id
from ..drawing.table import Phase
from ..facts.change import change_fact
from ..facts.meet import meet_fact
from ..facts.piece import piece_fact
from ..facts.turn import turn_fact
from ..model import Does
from ..solving.hard_step import HardStep, hardest_step
from ..words import picture_alt
from ..words import steps as step_words
from ..words import task as task_words
from ..words.alt import sheet_alt
from ..words.framing import PIECES, PieceHeading, piece_heading
from .asking import ask_meet, ask_turn
from .handling import handling
from .telling import Telling

__all__ = [
    "close_up",
    "compare",
    "outline",
    "pause",
    "pause_in_check",
    "pause_to_note",
    "pieces",
    "recall",
    "remember",
    "task",
    "task_to_try",
]

_FADE_S = 0.7
_SHIFT_S = 1.6
_ZOOM_S = 1.5
_SEAM_S = 0.9
_ALONE_S = 1.4
_CLOCK_PATCHES = 6


def task(telling: Telling) -> Iterator[Step]:
    """The task read out over the sheet."""
    yield _task(telling, Chapter.QUESTION, heading(Heading.QUESTION), ())


def task_to_try(telling: Telling) -> Iterator[Step]:
    """The task read out over the sheet, and the learners asked to try it."""
    more = asked.your_turn(telling.pause_s)
    yield _task(telling, Chapter.YOUR_TURN, heading(Heading.YOUR_TURN), more)


def recall(telling: Telling) -> Iterator[Step]:
    """The sheet of a question whose solution is all that is told."""
    figure = telling.sheet.figure(sheet_alt(telling.solution))
    beats = (Still(figure=figure),)
    yield telling.step(
        "recall", Chapter.QUESTION, heading(Heading.QUESTION), beats, asked.recall(), note=notes.task_note()
    )


def pause(telling: Telling) -> Iterator[Step]:
    """Time to try; of each option is known what to say to whoever chooses it."""
    choice = choice_to_tell(telling, telling.sheet.cells) if telling.is_seen else None
    yield replace(_pause(telling), choice=choice)


def pause_to_note(telling: Telling) -> Iterator[Step]:
    """The same where the solution is not told."""
    choice = choice_to_note(telling, telling.sheet.cells) if telling.is_seen else None
    yield replace(_pause(telling), choice=choice)


def pause_in_check(telling: Telling) -> Iterator[Step]:
    """The same of a quick check, whose options stand beside the outline."""
    choice = choice_to_tell(telling, telling.choices.cells) if telling.is_seen else None
    yield replace(_pause(telling), choice=choice)


def _pause(telling: Telling) -> Step:
    return waiting(
        telling,
        PAUSE,
        Chapter.YOUR_TURN,
        heading(Heading.YOUR_TURN),
        seconds=telling.pause_s,
        patches=_CLOCK_PATCHES,
        note=notes.your_turn_note(),
        reveals=False,
    )


def compare(telling: Telling) -> Iterator[Step]:
    """The end of a question without its solution: answers are compared over the sheet."""
    beats = (Still(figure=telling.last),)
    yield telling.step(
        "compare",
        Chapter.YOUR_TURN,
        heading(Heading.YOUR_TURN),
        beats,
        asked.compare(),
        note=notes.compare_note(),
        reveals=False,
    )


def close_up(telling: Telling) -> Iterator[Step]:
    """From the sheet to the work table: the base and the first piece, larger."""
    facts = [piece_fact(telling.solution, index) for index in range(len(telling.solution.placements))]
    sheet, table = telling.sheet, telling.table
    goal = _table(telling, 0, Phase.SHOWN)
    first = table.cloth.middle(0)
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
    narration = (*asked.pause_over(), *task_words.close_up(facts)) if telling.to_try else task_words.close_up(facts)
    title = heading(Heading.TOGETHER) if telling.to_try else piece_heading(PieceHeading.CLOSE_UP)
    run = Run(telling.last)
    run.move(goal, *moves, seconds=_ZOOM_S)
    yield telling.step("close-up", PIECES, title, run.beats, narration, facts=facts)


def pieces(telling: Telling) -> Iterator[Step]:
    """Each piece in order: its marks, its turn, the meeting, what becomes of it."""
    for index in range(len(telling.solution.placements)):
        for stage in PIECE_STAGES:
            yield from stage(telling, index)


def _marks(telling: Telling, index: int) -> Iterator[Step]:
    fact = piece_fact(telling.solution, index)
    run = Run(telling.last)
    run.move(_table(telling, index, Phase.POINTED), seconds=_FADE_S)
    step = telling.step(
        "marks",
        PIECES,
        piece_heading(PieceHeading.MARKS, mark=fact.piece.mark),
        run.beats,
        said(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        subject=_subject(fact.piece.name),
    )
    yield replace(step, handling=handling(telling.table, index)) if telling.is_seen else step


def _turn(telling: Telling, index: int) -> Iterator[Step]:
    fact = turn_fact(telling.solution, index)
    run = Run(telling.last)
    run.move(_table(telling, index, Phase.TURNING), seconds=_FADE_S)
    if not is_no_turn(fact.turn_deg):
        seconds = max(0.6, abs(fact.turn_deg) / DEGREES_PER_S)
        run.move(_table(telling, index, Phase.TURNED), telling.table.turn_glide(index), seconds=seconds)
    kind = PieceHeading.NO_TURN if is_no_turn(fact.turn_deg) else PieceHeading.TURN
    yield telling.step(
        "turn",
        PIECES,
        piece_heading(kind, name=fact.name),
        run.beats,
        said(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        subject=_subject(fact.name),
    )


def _meet(telling: Telling, index: int) -> Iterator[Step]:
    fact = meet_fact(telling.solution, index)
    run = Run(telling.last)
    run.move(_table(telling, index, Phase.MET), telling.table.meet_glide(index), seconds=_SHIFT_S)
    yield telling.step(
        "meet",
        PIECES,
        piece_heading(PieceHeading.MEET, mark=fact.mark),
        run.beats,
        said(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        subject=_subject(fact.name),
    )


def _change(telling: Telling, index: int) -> Iterator[Step]:
    fact = change_fact(telling.solution, index)
    done = _table(telling, index, Phase.DONE)
    if fact.does is Does.JOIN:
        run = Run(telling.last)
        run.move(done, Trace(entry_id=seam_id(index)), seconds=_SEAM_S)
        kind = PieceHeading.JOIN
    else:
        # What lies beneath is taken out while the piece still covers it.
        run = Run(_table(telling, index, Phase.OPENED))
        run.move(done, telling.table.back_glide(index), seconds=_SHIFT_S)
        kind = PieceHeading.CUT
    yield telling.step(
        fact.does.value,
        PIECES,
        piece_heading(kind, name=fact.name),
        run.beats,
        said(fact, fact.narration()),
        note=fact.note(),
        facts=(fact,),
        subject=_subject(fact.name),
    )


def _subject(piece: str) -> Subject:
    return Subject(thing=Thing.PIECE, name=piece)


PIECE_STAGES = (_marks, ask_turn, _turn, ask_meet, _meet, _change)


def outline(telling: Telling) -> Iterator[Step]:
    """Inner lines fade until the outline stands alone."""
    fact = outline_fact(telling.solution.outline, telling.solution.tolerance)
    alt = picture_alt.alone_alt(telling.solution)
    run = Run(telling.last)
    run.move(telling.table.outlined(alt), seconds=_FADE_S)
    run.move(telling.table.alone(alt), seconds=_ALONE_S)
    yield telling.step(
        "outline",
        Chapter.OUTLINE,
        heading(Heading.OUTLINE),
        run.beats,
        step_words.outline(fact),
        note=notes.outline_note(),
        facts=(fact,),
    )


def remember(telling: Telling) -> Iterator[Step]:
    """The one thing to remember, over the picture that shows it."""
    fact = hardest_step(telling.solution)
    yield telling.step(
        "remember",
        Chapter.REMEMBER,
        fact.headline(),
        (Still(figure=_hard_picture(telling, fact.kind, fact.name, fact.label)),),
        fact.narration(),
        note=notes.remember_note(),
        facts=(fact,),
    )


def _task(telling: Telling, kind: Chapter, title: str, more: tuple[str, ...]) -> Step:
    solution = telling.solution
    facts = [piece_fact(solution, index) for index in range(len(solution.placements))]
    scales = {option.scale for option in solution.item.options}
    figure = telling.sheet.figure(sheet_alt(solution))
    words = task_words.task(facts, sizes_differ=len(scales) > 1)
    return telling.step(
        TASK,
        kind,
        title,
        (Still(figure=figure),),
        (*words, *more),
        note=notes.task_note(),
        facts=facts,
        reveals=False,
    )


def _table(telling: Telling, done: int, phase: Phase) -> Figure:
    solution = telling.solution
    if phase is Phase.DONE:
        alt = picture_alt.done_alt(solution, done)
    elif phase in (Phase.MET, Phase.OPENED):
        alt = picture_alt.met_alt(solution, done)
    else:
        alt = picture_alt.table_alt(
            solution,
            done,
            turned=phase is Phase.TURNED,
            pointed=phase is Phase.POINTED,
            arc=phase in (Phase.TURNING, Phase.TURNED),
        )
    return telling.table.figure(done, phase, alt)


def _hard_picture(telling: Telling, kind: HardStep, name: str, label: str) -> Figure:
    solution = telling.solution
    if kind is HardStep.MIRROR:
        (verdict,) = (verdict for verdict in solution.verdicts if verdict.label == label)
        return telling.choices.figure(choices_alt(solution, laid=verdict), laid=verdict)
    names = [placement.piece.name for placement in solution.placements]
    if kind in (HardStep.RING, HardStep.ORDER) or name not in names:
        return telling.table.alone(picture_alt.alone_alt(solution))
    turning = (HardStep.HALF_TURN, HardStep.LARGE_TURN, HardStep.ODD_TURN, HardStep.NO_TURN)
    phase = Phase.TURNED if kind in turning else Phase.MET
    return _table(telling, names.index(name), phase)
