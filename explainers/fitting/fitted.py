"""A lesson timed by the voice that is remembered for it, and what its teacher should know of that voice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..errors import Fault
from ..sentences.variants import SCRATCH, variant_name
from ..sentences.writers import scratch_title
from ..storyboard.model import Storyboard
from ..storyboard.pacing import SCHOOL_PACE, Pace
from ..storyboard.retiming import Take, retime
from ..storyboard.timeline import Narration, Timeline
from ..words.messages import speaking
from .memory import FittedVoice

__all__ = ["SCRATCH_TITLE", "fitted_timeline", "remarks_on", "words_print"]

# What is made with a machine's voice is called so in its title and in the names of its files, wherever it is heard.
SCRATCH_TITLE = "scratch voice"


def fitted_timeline(storyboard: Storyboard, fit: FittedVoice, profile: Pace = SCHOOL_PACE) -> Timeline:
    """The storyboard with the times of its takes; a step without one keeps its planned time."""
    spoken = {step.id for step in storyboard.steps if step.narration}
    used = [take for take in fit.takes if take.step_id in spoken]
    if fit.scratch:
        with speaking(storyboard.language):
            title = scratch_title(storyboard.title)
        storyboard = replace(storyboard, name=variant_name(storyboard.name, {SCRATCH: True}), title=title)
    timeline = retime(storyboard, {take.step_id: Take(speech=take.speech) for take in used}, profile)
    paths = {take.step_id: fit.folder / take.file for take in used}
    voice = Narration(takes=paths, loudness_lufs=fit.loudness_lufs, scratch=fit.scratch)
    return replace(timeline, narration=voice if used else None)


def remarks_on(storyboard: Storyboard, fit: FittedVoice) -> Iterator[Fault]:
    """Stale takes, missing ones, and those whose step is gone; a fault's field is the step's id."""
    takes = {take.step_id: take for take in fit.takes}
    for step in storyboard.steps:
        take = takes.pop(step.id, None)
        if take is None and step.narration:
            yield Fault(
                field=step.id,
                message="there is no take of this step, so it keeps its planned time, in silence",
                fix=f"record it, and fit again with a file called {step.id}.wav among the takes",
            )
        elif take is not None and words_print(take.words) != words_print(" ".join(step.narration)):
            yield Fault(
                field=step.id,
                message=f'the words have changed since this was recorded; then: "{take.words}"',
                fix=f"record this step again, and fit again; where the take still fits, fit with --accept {step.id}",
            )
    for step_id in takes:
        yield Fault(
            field=step_id,
            message="no step of this lesson has that id, so its take is left out",
            fix="fit again without it, or give the file the id of another step",
        )


def words_print(words: str) -> str:
    """What of the words is heard: neither capitals, nor spaces, nor most signs."""
    return " ".join("".join(char if char.isalnum() or char in "°%+=×-−'’." else " " for char in words).lower().split())
