"""The stages of a telling, each a function that yields steps: the task, the pieces, the outline, the options.

Every stage starts from the figure that was shown last, so that what is seen runs on without a jump.
"""

from __future__ import annotations

from collections.abc import Iterator

from ..figure.cloth import group_of
from ..figure.dress import counting_down
from ..figure.model import Figure
from ..figure.motion import DEGREES_PER_S, Glide, Motion, Trace
from ..figure.table import Phase
from ..figure.yielding import making_way
from ..item.model import Does
from ..solution.facts import DifferenceFact, HardStep, SameFact
from ..solution.hard_step import hardest_step
from ..solution.placement_facts import change_fact, meet_fact, outline_fact, piece_fact, turn_fact
from ..wording import choices as choice_words
from ..wording import notes, picture_alt
from ..wording import steps as step_words
from ..wording import task as task_words
from ..wording.alt import sheet_alt
from ..wording.lesson import Chapter, Heading, heading
from ..wording.names import is_no_turn
from ..wording.remember import remember as remember_words
from ..wording.remember import remember_headline
from .model import Beat, Step, Still
from .telling import Telling

__all__ = [
    "answer",
    "close_up",
    "keep",
    "options",
    "outline",
    "pause",
    "pieces",
    "remember",
    "rule_out",
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
    more = task_words.your_turn(telling.pause_s)
    yield _task(telling, Chapter.YOUR_TURN, heading(Heading.YOUR_TURN), more)


def pause(telling: Telling) -> Iterator[Step]:
    """Time to try: a calm countdown of a few stills over the sheet."""
    each_s = telling.pause_s / _CLOCK_PATCHES
    beats = [
        Still(
            figure=counting_down(
                telling.last,
                left=_CLOCK_PATCHES - passed,
                patches=_CLOCK_PATCHES,
                left_s=telling.pause_s - passed * each_s,
                theme=telling.theme,
            ),
            hold_s=each_s,
        )
        for passed in range(_CLOCK_PATCHES)
    ]
    sheet = telling.last
    step = telling.step("pause", Chapter.YOUR_TURN, heading(Heading.YOUR_TURN), beats, (), note=notes.your_turn_note())
    telling.last = sheet
    yield step


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
            group="base",
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
    narration = (
        (*task_words.pause_over(), *task_words.close_up(facts)) if telling.to_try else task_words.close_up(facts)
    )
    kind = Heading.TOGETHER if telling.to_try else Heading.CLOSE_UP
    beats = telling.from_last(*_moved(telling.last, goal, moves, _ZOOM_S))
    yield telling.step("close-up", Chapter.PIECES, heading(kind), beats, narration, facts=facts)


def pieces(telling: Telling) -> Iterator[Step]:
    """Each piece in order: its marks, its turn, the meeting, what becomes of it."""
    for index in range(len(telling.solution.placements)):
        for tell in PIECE_STAGES:
            yield tell(telling, index)


def _marks(telling: Telling, index: int) -> Step:
    fact = piece_fact(telling.solution, index)
    goal = _table(telling, index, Phase.POINTED)
    return telling.step(
        f"{fact.piece.name}.marks",
        Chapter.PIECES,
        heading(Heading.MARKS, name=fact.piece.name, mark=fact.piece.mark),
        telling.from_last(*_moved(telling.last, goal, (), _FADE_S)),
        step_words.marks(fact),
        note=notes.marks_note(fact),
        facts=(fact,),
    )


def _turn(telling: Telling, index: int) -> Step:
    fact = turn_fact(telling.solution, index)
    before = _table(telling, index, Phase.TURNING)
    beats: list[Beat] = [*_moved(telling.last, before, (), _FADE_S)]
    if not is_no_turn(fact.turn_deg):
        after = _table(telling, index, Phase.TURNED)
        seconds = max(0.6, abs(fact.turn_deg) / DEGREES_PER_S)
        beats += _moved(before, after, (telling.table.turn_glide(index),), seconds)
    kind = Heading.NO_TURN if is_no_turn(fact.turn_deg) else Heading.TURN
    return telling.step(
        f"{fact.name}.turn",
        Chapter.PIECES,
        heading(kind, name=fact.name),
        telling.from_last(*beats),
        step_words.turn(fact),
        note=notes.turn_note(fact),
        facts=(fact,),
    )


def _meet(telling: Telling, index: int) -> Step:
    fact = meet_fact(telling.solution, index)
    goal = _table(telling, index, Phase.MET)
    return telling.step(
        f"{fact.name}.meet",
        Chapter.PIECES,
        heading(Heading.MEET, name=fact.name, mark=fact.mark),
        telling.from_last(*_moved(telling.last, goal, (telling.table.meet_glide(index),), _SHIFT_S)),
        step_words.meet(fact),
        note=notes.meet_note(fact),
        facts=(fact,),
    )


def _change(telling: Telling, index: int) -> Step:
    fact = change_fact(telling.solution, index)
    done = _table(telling, index, Phase.DONE)
    if fact.does is Does.JOIN:
        beats = telling.from_last(*_moved(telling.last, done, (Trace(entry_id=f"seam-{index + 1}"),), _SEAM_S))
        kind = Heading.JOIN
    else:
        opened = _table(telling, index, Phase.OPENED)
        beats = (Still(figure=opened), *_moved(opened, done, (telling.table.back_glide(index),), _SHIFT_S))
        kind = Heading.CUT
    return telling.step(
        f"{fact.name}.{fact.does.value}",
        Chapter.PIECES,
        heading(kind, name=fact.name),
        beats,
        step_words.change(fact),
        note=notes.change_note(fact),
        facts=(fact,),
    )


PIECE_STAGES = (_marks, _turn, _meet, _change)


def outline(telling: Telling) -> Iterator[Step]:
    """Inner lines fade until the outline stands alone."""
    fact = outline_fact(telling.solution)
    alt = picture_alt.alone_alt(telling.solution)
    over, alone = telling.table.outlined(alt), telling.table.alone(alt)
    yield telling.step(
        "outline",
        Chapter.OUTLINE,
        heading(Heading.OUTLINE),
        telling.from_last(*_moved(telling.last, over, (), _FADE_S), *_moved(over, alone, (), _ALONE_S)),
        step_words.outline(fact),
        note=notes.outline_note(),
        facts=(fact,),
    )


def options(telling: Telling) -> Iterator[Step]:
    """The options come back beside the outline."""
    labels = [verdict.label for verdict in telling.solution.verdicts]
    goal = telling.choices.figure(picture_alt.choices_alt(telling.solution))
    move = telling.choices.outline_glide(telling.table.view)
    yield telling.step(
        "options",
        Chapter.OPTIONS,
        heading(Heading.OPTIONS),
        telling.from_last(*_moved(telling.last, goal, (move,), _ZOOM_S)),
        choice_words.options_shown(labels),
    )


def rule_out(telling: Telling) -> Iterator[Step]:
    """The wrong options one by one, each laid on the outline and ringed where it differs."""
    settled: list[str] = []
    for verdict in telling.solution.verdicts:
        if verdict.same:
            continue
        facts = choice_words.reasons_said(verdict)
        reason = next(fact for fact in facts if isinstance(fact, DifferenceFact))
        choices, solution = telling.choices, telling.solution

        def figure(laid: bool, ring: bool) -> Figure:
            shown = verdict if laid else None  # noqa: B023 - called in this round of the loop only
            why = reason if ring else None  # noqa: B023
            alt = picture_alt.choices_alt(solution, settled=tuple(settled), laid=shown, reason=why)  # noqa: B023
            return choices.figure(alt, settled=settled, laid=shown, reason=why)  # noqa: B023

        back = _put_back(telling, settled)
        tray = figure(False, False)
        laid, ringed = figure(True, False), figure(True, True)
        beats = [*back, *_laid_on(telling, tray, laid, choices.lay_glide(verdict))]
        words = choice_words.rule_out(verdict)
        # The ring comes with the sentence that speaks of the place, not before.
        before_place = words.index(choice_words.reason(reason)[0])
        beats += _moved(laid, ringed, (), _FADE_S, after=before_place)
        yield telling.step(
            f"option-{verdict.code}.rule-out",
            Chapter.OPTIONS,
            heading(Heading.OPTION, label=verdict.label),
            telling.from_last(*beats),
            words,
            note=notes.rule_out_note(verdict.label),
            facts=facts,
        )
        settled.append(verdict.label)


def keep(telling: Telling) -> Iterator[Step]:
    """The right option laid on the outline."""
    settled = [verdict.label for verdict in telling.solution.verdicts if not verdict.same]
    (verdict,) = (verdict for verdict in telling.solution.verdicts if verdict.same)
    fact = next(fact for fact in verdict.reasons if isinstance(fact, SameFact))
    solution, choices = telling.solution, telling.choices
    out = tuple(settled)
    tray = choices.figure(picture_alt.choices_alt(solution, settled=out), settled=settled)
    laid = choices.figure(picture_alt.choices_alt(solution, settled=out, laid=verdict), settled=settled, laid=verdict)
    kept_alt = picture_alt.choices_alt(solution, settled=out, laid=verdict, kept=True)
    kept = choices.figure(kept_alt, settled=settled, laid=verdict, kept=True)
    beats = [*_put_back(telling, settled), *_laid_on(telling, tray, laid, choices.lay_glide(verdict))]
    words = choice_words.keep(fact)
    beats += _moved(laid, kept, (), _FADE_S, after=len(words) - 1)
    yield telling.step(
        f"option-{verdict.code}.keep",
        Chapter.OPTIONS,
        heading(Heading.OPTION, label=verdict.label),
        telling.from_last(*beats),
        words,
        note=notes.keep_note(fact),
        facts=(fact,),
    )


def answer(telling: Telling) -> Iterator[Step]:
    """The answer."""
    assert telling.solution.key is not None  # sound items only are told
    label = telling.solution.key
    (verdict,) = (verdict for verdict in telling.solution.verdicts if verdict.same)
    yield telling.step(
        "answer",
        Chapter.ANSWER,
        heading(Heading.ANSWER, label=label),
        telling.from_last(),
        choice_words.answer(label),
        facts=verdict.reasons,
    )


def remember(telling: Telling) -> Iterator[Step]:
    """The one thing to remember, over the picture that shows it."""
    fact = hardest_step(telling.solution)
    yield telling.step(
        "remember",
        Chapter.REMEMBER,
        remember_headline(fact),
        (Still(figure=_hard_picture(telling, fact.kind, fact.name, fact.label)),),
        remember_words(fact),
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
        "task", kind, title, (Still(figure=figure),), (*words, *more), note=notes.task_note(), facts=facts
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


def _moved(
    start: Figure, end: Figure, moves: tuple[Glide | Trace, ...], seconds: float, *, after: int = 0
) -> tuple[Beat, ...]:
    """A motion from a still that stands already, and the still that it ends in.

    after : how many sentences of the step are spoken before it starts
    """
    motion = Motion(start=start, end=end, moves=moves, seconds=seconds, after_sentences=after)
    return (making_way(motion), Still(figure=end))


def _put_back(telling: Telling, settled: list[str]) -> tuple[Beat, ...]:
    """Whatever lies on the outline goes back to the tray; nothing where nothing does."""
    if not settled:
        return ()
    (verdict,) = (verdict for verdict in telling.solution.verdicts if verdict.label == settled[-1])
    alt = picture_alt.choices_alt(telling.solution, settled=tuple(settled))
    goal = telling.choices.figure(alt, settled=settled)
    glide = telling.choices.return_glide(verdict)
    return _moved(telling.last, goal, (glide,), max(0.9, abs(glide.turn_deg) / (2 * DEGREES_PER_S)))


def _laid_on(telling: Telling, tray: Figure, laid: Figure, glide: Glide) -> tuple[Beat, ...]:
    return _moved(tray, laid, (glide,), max(1.2, abs(glide.turn_deg) / DEGREES_PER_S))


def _hard_picture(telling: Telling, kind: HardStep, name: str, label: str) -> Figure:
    solution = telling.solution
    if kind is HardStep.MIRROR:
        (verdict,) = (verdict for verdict in solution.verdicts if verdict.label == label)
        return telling.choices.figure(picture_alt.choices_alt(solution, laid=verdict), laid=verdict)
    names = [placement.piece.name for placement in solution.placements]
    if kind in (HardStep.RING, HardStep.ORDER) or name not in names:
        return telling.table.alone(picture_alt.alone_alt(solution))
    turning = (HardStep.HALF_TURN, HardStep.LARGE_TURN, HardStep.ODD_TURN, HardStep.NO_TURN)
    phase = Phase.TURNED if kind in turning else Phase.MET
    return _table(telling, names.index(name), phase)
