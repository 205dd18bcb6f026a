"""What is to be made of one lesson or item: read, solved, sound, with whatever was asked for by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from contextlib import AbstractContextManager

    from .choice.model import Solution
    from .document.source_map import SourceMap
    from .figure.theme import Theme
    from .fitting.memory import FittedVoice
    from .item.model import Lesson
    from .outputs.registry import WriterSpec
    from .sentences.variants import Aspect
    from .storyboard.model import Storyboard
    from .storyboard.pacing import Pace
    from .storyboard.timeline import Timeline

__all__ = ["Job"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A lesson to make, or an item as a lesson of one worked example; solved and sound."""

    source: Path
    name: str
    inputs: tuple[Path, ...]  # every file that decides how it looks, in a fixed order
    lesson: Lesson | None  # None: an item alone
    solutions: tuple[Solution, ...]
    written: SourceMap  # where each field of its file stands
    own_theme: Theme  # as the lesson's file says
    own_pace: str  # the name of it
    theme_given: Theme | None = None  # by hand, in place of its own
    pace_given: str | None = None
    digests: Mapping[Path, bytes] = field(default_factory=dict)  # of those inputs that have been read
    scratch: bool = False  # with the machine's voice, even where a recorded one is remembered

    @property
    def theme(self) -> Theme:
        """Its theme on a screen."""
        return self.theme_given or self.own_theme

    @property
    def pace(self) -> str:
        """The name of its pace."""
        return self.pace_given or self.own_pace

    @property
    def profile(self) -> Pace:
        """Its pace."""
        from .storyboard.paces import pace_called

        return pace_called(self.pace)

    def look(self, output: WriterSpec) -> Theme:
        """The theme of an output: on paper black on white, unless one was given by hand."""
        return self.theme_given or self._own_look(output)

    def _own_look(self, output: WriterSpec) -> Theme:
        from .figure.themes import PRINT

        return PRINT.in_words_of(self.own_theme) if output.on_paper else self.own_theme

    def storyboard(self, theme: Theme | None = None) -> Storyboard:
        """The lesson, planned.

        theme : in place of the one on a screen
        """
        from .lesson.planner import plan_item, plan_lesson

        look = theme or self.theme
        if self.lesson is None:
            return plan_item(self.solutions[0], look)
        return plan_lesson(self.lesson, self.solutions, look)

    def voice(self) -> FittedVoice | None:
        """What is remembered of the voice that it is made with.

        Raises : RecordingError where that cannot be read
        """
        from .fitting.memory import read_fit

        return read_fit(self.source, scratch=True if self.scratch else None)

    def timeline(self, theme: Theme | None = None) -> Timeline:
        """The lesson, planned and timed: by the voice that was fitted to it, or else paced by its words.

        theme  : in place of the one on a screen
        Raises : RecordingError where what is remembered of a voice cannot be read
        """
        from .storyboard.pacing import pace

        fit = self.voice()
        if fit is None:
            return pace(self.storyboard(theme), self.profile)
        from .fitting.fitted import fitted_timeline

        return fitted_timeline(self.storyboard(theme), fit, self.profile)

    def aspects(self, output: WriterSpec, *, scratch: bool) -> dict[Aspect, str | int | bool | None]:
        """In what an output differs from the one that the lesson's file alone asks for.

        scratch : whether a machine speaks it
        """
        from .sentences.variants import PACE, SCRATCH, THEME

        aspects: dict[Aspect, str | int | bool | None] = {SCRATCH: scratch}
        own, given = self._own_look(output), self.theme_given
        if given is not None and (given != own if output.themed else given.verbs != own.verbs):
            aspects[THEME] = given.name
        if output.timed and self.pace_given is not None and self.pace_given != self.own_pace:
            aspects[PACE] = self.pace_given
        return aspects

    def options(self, output: WriterSpec) -> dict[str, object]:
        """What an output takes beyond the timeline: from the lesson's file, or of what was proved."""
        if output.certifies:
            return self._certificates()
        if self.lesson is not None and self.lesson.template is not None and output.lays_on_template:
            return {"template": self.lesson.template}
        return {}

    def in_own_verbs(self) -> AbstractContextManager[None]:
        """What is said meanwhile, in the language that is being spoken, is said in the verbs of the theme."""
        from .words.messages import speaking, spoken_language

        return speaking(spoken_language().tag, self.theme.verbs)

    def _certificates(self) -> dict[str, object]:
        # Of each item once, however often it is shown.
        from .choice.certificate import certificate
        from .choice.words.certificate import certificate_lines, print_scale

        items = {solution.item.name: solution for solution in self.solutions}
        with self.in_own_verbs():
            return {
                "certificates": [certificate_lines(certificate(solution)) for solution in items.values()],
                "scale": print_scale(outline_given=any(solution.item.outline_given for solution in items.values())),
            }
