"""The lesson of an item on the table, as planned: a still a step with its words, and how it comes to move.

Done in a process apart, since planning takes longer than a verdict; see ``ToldApart``. What is drawn is known by its
content, so that a step that nobody has changed is neither drawn nor sent again.
"""

from __future__ import annotations

import hashlib
from collections import OrderedDict, defaultdict
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from ..batch import Built, Job, jobs_of
from ..document.file_text import OpenedFiles, place_of
from ..drawing.svg import svg_of
from ..errors import ExplainersError, Fault, UnsoundItemError, faults_of
from ..frames.content_key import drawing_keys
from ..intake.workspace import Workspace
from ..outputs.html.body import SEEN
from ..outputs.html.engine import moving_picture, seen_figure
from ..own_words import review_words
from ..process_apart import Lost, ProcessApart, TookTooLong
from ..storyboard.model import Step

__all__ = ["MOTION", "STRIP", "Tell", "ToldApart", "lines_of_error", "told"]

STRIP, MOTION = "strip", "motion"
_LONGEST_S = 60.0
_STILL_PX = 480
_MOST_KEPT = 400  # steps

Tell = Callable[[str, tuple[Any, ...], Callable[[], bool]], dict[str, Any] | None]
"""(STRIP or MOTION, what it is asked of, whether nobody wants it any more) -> the answer; raises GivenUp."""

_STEPS: OrderedDict[str, Step] = OrderedDict()  # by key; those told of last come last


class OpenedOver(OpenedFiles):
    """Files as they stand, but one of them as it is being drawn."""

    def __init__(self, path: Path, text: str) -> None:
        super().__init__()
        self._place, self._drawn = place_of(path), text

    def __call__(self, path: Path) -> str:
        """As ``OpenedFiles``."""
        return self._drawn if place_of(path) == self._place else super().__call__(path)


def told(which: str, asked: tuple[Any, ...], unwanted: Callable[[], bool] | None = None) -> dict[str, Any] | None:
    """A strip, of (text, path of the item, path of the lesson or None, keys of stills that are there already); or a
    motion, of (key,), None where that step is no longer known. Never raises for what files hold."""
    try:
        return _strip(*asked) if which == STRIP else _motion(*asked)
    except Exception as error:  # a fault of ours must not end the drawing: the next change may be past it
        return _failed(f"the program itself failed here ({type(error).__name__})") if which == STRIP else None


class ToldApart(ProcessApart):
    """Tells as ``told`` does, elsewhere."""

    def __init__(self, *, longest_s: float = _LONGEST_S) -> None:
        """longest_s : how long one answer may take"""
        super().__init__(told, longest_s=longest_s)

    def __call__(self, which: str, asked: tuple[Any, ...], unwanted: Callable[[], bool]) -> dict[str, Any] | None:
        """As ``Tell``."""
        try:
            found: dict[str, Any] | None = self.done(which, asked, unwanted=unwanted)
        except TookTooLong:
            return _failed(f"this takes longer than {self._longest_s:g} s to tell") if which == STRIP else None
        except Lost as lost:
            return _failed(f"the program itself failed here (code {lost.code})") if which == STRIP else None
        return found


def lines_of_error(error: Exception, path: Path) -> list[str]:
    """What the command line says of an error, a line each."""
    if isinstance(error, UnsoundItemError):
        return str(error).splitlines()
    if isinstance(error, ExplainersError) and not getattr(error, "faults", ()):
        return [str(error)]
    return [" ".join(str(fault).splitlines()) for fault in faults_of(error, path)]


def _failed(*why: str) -> dict[str, Any]:
    return {"steps": [], "svgs": {}, "inputs": [], "gone": [], "why": list(why)}


def _strip(text: str, item: Path, lesson: Path | None, there: frozenset[str]) -> dict[str, Any]:
    workspace = Workspace()
    workspace.opened = OpenedOver(item, text)
    source = lesson or item
    (found,) = jobs_of([source], workspace=workspace)
    if isinstance(found, Built):
        return _failed(*lines_of_error(found.error or RuntimeError(), source))
    steps = found.storyboard().steps
    shown = [step.without_card() for step in _of_item(steps, found, item)]
    keys = _keys(shown)
    _keep(keys, shown)
    warnings, gone = _warnings(found, steps, shown)
    own = dict(found.lesson.words) if found.lesson is not None else {}
    return {
        "inputs": [str(path) for path in found.inputs],
        "why": [],
        "gone": gone,
        "svgs": {
            key: svg_of(seen_figure(step.picture), width_px=_STILL_PX, ids=False, box=SEEN)
            for key, step in zip(keys, shown, strict=True)
            if key not in there
        },
        "steps": [
            {
                "id": step.id,
                "key": key,
                "heading": step.heading,
                "said": " ".join(step.narration),
                "own": own.get(step.id, ""),
                "moves": len(step.beats) > 1,
                "pause_s": step.pause_s,
                "alt": step.picture.alt,
                "warnings": warnings[step.id],
            }
            for key, step in zip(keys, shown, strict=True)
        ],
    }


def _of_item(steps: Sequence[Step], job: Job, item: Path) -> list[Step]:
    """The steps that tell the item; all of them where it is the only one."""
    if job.lesson is None or len(job.lesson.parts) == 1:
        return list(steps)
    names = {
        solution.item.name
        for part, solution in zip(job.lesson.parts, job.solutions, strict=True)
        if place_of(part.show) == place_of(item)
    }
    return [step for step in steps if step.item in names]


def _warnings(job: Job, steps: Sequence[Step], shown: Sequence[Step]) -> tuple[dict[str, list[Any]], list[Any]]:
    """What `check` says of the teacher's own words: by step, and of words for steps of this item that are gone."""
    found: dict[str, list[Any]] = defaultdict(list)
    if job.lesson is None:
        return found, []
    with job.in_own_verbs():
        review = review_words(job.source, job.written, job.lesson, job.solutions, steps)
    there = {f"words.{step.id}": step.id for step in steps}
    gone = []
    for fault in review.warnings:
        if fault.field in there:
            found[there[fault.field]].append(_plain(fault))
        else:
            gone.append(_plain(fault))
    return found, gone


def _plain(fault: Fault) -> dict[str, Any]:
    return {"field": fault.field, "line": fault.line, "message": fault.message, "fix": fault.fix}


def _keys(steps: Sequence[Step]) -> list[str]:
    """By what each step is known: all that it shows, in pictures and in words."""
    drawn = drawing_keys([step.beats for step in steps])
    seconds_and_words = [
        [(type(beat).__name__, getattr(beat, "seconds", 0.0)) for beat in step.beats]
        + [still.alt for still in step.stills]
        for step in steps
    ]
    return [
        hashlib.sha256(f"{key} {rest!r}".encode()).hexdigest()[:32]
        for key, rest in zip(drawn, seconds_and_words, strict=True)
    ]


def _keep(keys: Sequence[str], steps: Sequence[Step]) -> None:
    for key, step in zip(keys, steps, strict=True):
        _STEPS[key] = step
        _STEPS.move_to_end(key)
    while len(_STEPS) > _MOST_KEPT:
        _STEPS.popitem(last=False)


def _motion(key: str) -> dict[str, Any] | None:
    step = _STEPS.get(key)
    return moving_picture(step) if step is not None else None
