"""A teacher's own words beside what is true of their steps: which still stand, which do not, which belong nowhere.

Words are told apart by what was known of their step when they were written. Nothing is changed in here, and no file is
read: what was known comes in, what should be known from now on goes out.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from enum import StrEnum

from ..choice.fingerprint import fingerprint_of
from ..choice.model import Solution
from ..figure.model import Label
from ..figure.subject import Thing
from ..item.model import Lesson
from ..sentences.contradictions import contradictions
from ..sentences.fact_lines import fact_lines, options_line, pause_line
from .model import PAUSE, TASK, Step

__all__ = ["Known", "Noted", "Standing", "StepWords", "known_of", "to_note", "words_of_lesson"]


class Standing(StrEnum):
    """How a teacher's words stand to their step."""

    STANDS = "stands"  # the facts are those for which they were written
    NEW = "new"  # written since the facts were last noted
    CHANGED = "changed"  # the facts are others now
    GONE = "gone"  # no step has that id


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What is known of a step: in words to compare, and a print that changes with anything that matters."""

    lines: tuple[str, ...]
    print: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Noted:
    """Words as they were when they were looked at last, and what was known of their step then."""

    said: str
    known: Known


@dataclass(frozen=True, slots=True, kw_only=True)
class StepWords:
    """The teacher's words for one step id."""

    step_id: str
    said: str
    standing: Standing
    now: Known | None  # None where the step is gone
    then: Known | None  # None where it was never noted
    against: tuple[str, ...] = ()  # what in the words contradicts the facts, a plain clause each
    nearest: str = ""  # of a step that is gone: the id most like it


def words_of_lesson(
    lesson: Lesson, solutions: Sequence[Solution], steps: Sequence[Step], noted: Mapping[str, Noted]
) -> tuple[StepWords, ...]:
    """The words that the lesson's file gives, in its order.

    solutions : of the lesson's items
    steps     : of the whole lesson
    noted     : what was known of the steps before, by step id
    """
    by_id = {step.id: step for step in steps}
    return tuple(_standing(step_id, said, by_id, steps, solutions, noted) for step_id, said in lesson.words)


def _standing(
    step_id: str,
    said: str,
    by_id: Mapping[str, Step],
    steps: Sequence[Step],
    solutions: Sequence[Solution],
    noted: Mapping[str, Noted],
) -> StepWords:
    before = noted.get(step_id)
    # Words that were written anew were written for what is true now.
    then = before.known if before is not None and before.said == said else None
    step = by_id.get(step_id)
    if step is None:
        near = get_close_matches(step_id, by_id, n=1)
        old = before.known if before is not None else None
        return StepWords(
            step_id=step_id, said=said, standing=Standing.GONE, now=None, then=old, nearest=near[0] if near else ""
        )
    now = known_of(step, solutions)
    standing = Standing.NEW if then is None else Standing.STANDS if then.print == now.print else Standing.CHANGED
    beside = [fact for other in steps if step.item and other.item == step.item for fact in other.facts]
    against = contradictions(said, step.facts, beside=beside, pause_s=_pause_told(step, steps))
    return StepWords(step_id=step_id, said=said, standing=standing, now=now, then=then, against=against)


def to_note(words: Sequence[StepWords], noted: Mapping[str, Noted], accepted: Collection[str] = ()) -> dict[str, Noted]:
    """What should be known from now on: new words with what is true now, the others as they were.

    accepted : ids of steps whose changed facts have been looked at
    """
    after: dict[str, Noted] = {}
    for own in words:
        is_seen = own.standing is Standing.NEW or own.step_id in accepted
        if own.now is not None and is_seen:
            after[own.step_id] = Noted(said=own.said, known=own.now)
        elif own.step_id in noted:
            after[own.step_id] = noted[own.step_id]
    return after


def known_of(step: Step, solutions: Sequence[Solution]) -> Known:
    """What is known of a step.

    solutions : of the lesson's items; the step's own is found by its item
    """
    solution = _solution_of(step, solutions)
    origin = solution.item.lower_left if solution else (0.0, 0.0)
    lines = list(fact_lines(step.facts))
    parts: list[object] = [fact.fingerprint(origin) for fact in step.facts]
    if step.pause_s > 0.0:
        lines.append(pause_line(step.pause_s))
        parts.append(round(step.pause_s, 3))
    labels = _options_shown(step)
    # Options are facts only of the steps that try them; what comes before speaks of all at once.
    if labels and all(fact.is_asked for fact in step.facts):
        lines.append(options_line(labels))
        parts.append(labels)
    return Known(lines=tuple(lines), print=fingerprint_of(parts))


def _options_shown(step: Step) -> tuple[str, ...]:
    """The letters of the options that a step's picture shows."""
    letters = (entry for entry in step.picture.entries if isinstance(entry, Label))
    return tuple(e.text for e in letters if e.subject is not None and e.subject.thing == Thing.OPTION)


def _solution_of(step: Step, solutions: Sequence[Solution]) -> Solution | None:
    return next((found for found in solutions if found.item.name == step.item), None)


def _pause_told(step: Step, steps: Sequence[Step]) -> float:
    """The pause that words of a step may speak of: its own, or the one that its question is followed by."""
    waiting = (other.pause_s for other in steps if other.item == step.item and other.stage == PAUSE)
    return next(waiting, step.pause_s) if step.stage == TASK else step.pause_s
