"""A timeline for tests in which the writers are stand-ins too: no more than a name and a length."""

from __future__ import annotations

from dataclasses import dataclass

from explainers.batch import Job
from explainers.figure.theme import Theme

__all__ = ["StandInTimeline", "stand_in_timeline"]


@dataclass(frozen=True)
class _Board:
    name: str
    variant: tuple[str, ...] = ()


@dataclass(frozen=True)
class StandInTimeline:
    storyboard: _Board
    seconds: float = 300.0


def stand_in_timeline(job: Job, theme: Theme | None = None) -> StandInTimeline:
    """In place of ``Job.timeline``."""
    return StandInTimeline(_Board(job.name))
