"""`explainers words`: each step of a lesson with what is said and why, and how the teacher's own words stand."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from .door import REFUSED, SOUND, at_the_door, tell, worst

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from ..batch import Job
    from ..own_words import Review
    from ..storyboard.model import Step
    from ..storyboard.own_words import StepWords

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers words items/first-blocks.yaml         each step id, words, facts
  explainers words items/first-blocks.yaml --own   only what you wrote
  explainers words items/a.yaml --paste all        a block to paste and edit
  explainers words items/a.yaml --paste a.b.turn   the same of one step
  explainers words items/a.yaml --accept all       your words still fit
  explainers words items/a.yaml --accept a.b.turn  those of one step do

Write words of your own under `words:` in the lesson's file, each by its step id; --paste prints them as they go
there. Keep the lines that you change, and leave out the others: those go on following the picture."""

EVERY_STEP = "all"

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def words(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Lessons, items, or folders of them.")],
    own: Annotated[bool, typer.Option("--own", help="Only the steps that have words of your own.")] = False,
    paste: Annotated[
        list[str] | None,
        typer.Option("--paste", metavar="STEP", help="Print what is said as a block for the file: a step id, or all."),
    ] = None,
    accept: Annotated[
        list[str] | None,
        typer.Option("--accept", metavar="STEP", help="The facts of now are seen: a step id, or all."),
    ] = None,
) -> int:
    """List each step with its words and facts; accept changed facts."""
    from ..batch import Built, jobs_of

    codes = []
    for found in jobs_of(paths):
        if isinstance(found, Built):
            codes.append(tell(found.error, found.source) if found.error else SOUND)
        else:
            with found.in_own_verbs():
                codes.append(_block(found, paste) if paste else _list(found, own=own, accept=accept or []))
    return worst(codes)


def _list(job: Job, *, own: bool, accept: Sequence[str]) -> int:
    from ..storyboard.own_words import Standing
    from .reports import tell_word_warnings
    from .streams import complain, say

    review = _review(job)
    by_id = {entry.step_id: entry for entry in review.words} if review is not None else {}
    if accept and not _are_known(job, accept, by_id):
        return REFUSED
    if review is not None and accept:
        seen = set(by_id) if EVERY_STEP in accept else set(accept)
        kept = review.keep(seen)
        complain(f"{job.source}: {f'noted in {kept}' if kept else 'nothing to note'}")
        review = _review(job)
        assert review is not None
        by_id = {entry.step_id: entry for entry in review.words}
    for step in _steps(job):
        if own and step.id not in by_id:
            continue
        for line in _lines(step, job, by_id.get(step.id)):
            say(line)
    for entry in by_id.values():
        if entry.standing is Standing.GONE:
            say(f"{entry.step_id}  (no such step: left out)")
            say(f"    yours: {entry.said}")
    if review is not None:
        tell_word_warnings(review)
    return SOUND


def _block(job: Job, wanted: Sequence[str]) -> int:
    """What is said at some steps, or at all, as keys and values for the lesson's file."""
    from json import dumps

    from .streams import complain, say

    own = dict(job.lesson.words) if job.lesson is not None else {}
    spoken = {step.id: " ".join(step.narration) for step in _steps(job) if step.narration}
    unknown = [step_id for step_id in wanted if step_id != EVERY_STEP and step_id not in spoken]
    for step_id in unknown:
        complain(f"{job.source}: nothing is said at a step {step_id}. To mend it: take an id that words lists.")
    if unknown:
        return REFUSED
    if own:
        say(f"# For {job.source.name}, which has words: already: these lines go below it.")
    elif job.lesson is None:
        say("# For a lesson that shows this item.")
    if not own:
        say("words:")
    for step_id, said in spoken.items():
        if step_id in wanted or (EVERY_STEP in wanted and step_id not in own):
            say(f"  {step_id}: {dumps(own.get(step_id, said), ensure_ascii=False)}")
    return SOUND


def _review(job: Job) -> Review | None:
    from ..own_words import review_words

    return review_words(job.source, job.written, job.lesson, job.solutions) if job.lesson is not None else None


def _are_known(job: Job, accept: Sequence[str], by_id: Mapping[str, StepWords]) -> bool:
    """Whether there are words for each step that is to be accepted; it is said where there are not."""
    from .streams import complain

    unknown = [step_id for step_id in accept if step_id != EVERY_STEP and step_id not in by_id]
    for step_id in unknown:
        complain(f"{job.source}: there are no words of yours for {step_id}. To mend it: take an id under words:.")
    return not unknown


def _steps(job: Job) -> Sequence[Step]:
    """The steps with the tool's own words."""
    from dataclasses import replace

    from ..lesson.planner import plan_item, plan_lesson

    if job.lesson is None:
        return plan_item(job.solutions[0], job.theme).steps
    return plan_lesson(replace(job.lesson, words=()), job.solutions, job.theme).steps


def _lines(step: Step, job: Job, entry: StepWords | None) -> list[str]:
    from ..storyboard.own_words import Standing, known_of

    said = " ".join(step.narration) or "(nothing is said)"
    state = "" if entry is None else "  (the facts have changed)" if entry.standing is Standing.CHANGED else "  (yours)"
    lines = [f"{step.id}{state}"]
    if entry is not None:
        lines += [f"    yours: {entry.said}", f"    instead of: {said}"]
    else:
        lines.append(f"    {'yours' if step.teachers_own else 'says'}: {said}")
    known = known_of(step, job.solutions)
    return [*lines, *(f"    fact: {line}" for line in known.lines)]
