"""The outputs of one job in one folder: each under a name of its own, noted, and never over what another made."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from .job import Job
from .made_folder import MadeFolder, key_of
from .made_record import fingerprint

if TYPE_CHECKING:
    from .sentences.variants import Aspect
    from .storyboard.timeline import Timeline

__all__ = ["Making", "OutputProgress", "write_output"]

OutputProgress = Callable[[str, int, int], None]  # (what is being made, parts done, parts in all)
Aspects = Mapping["Aspect", "str | int | bool | None"]


class Making:
    """One job in one folder.

    made : what is known of the folder, and what was put aside in it

    Raises : RecordingError where what is remembered of a voice cannot be read
    """

    def __init__(self, job: Job, folder: Path) -> None:
        self.job = job
        self.folder = folder
        self.made = MadeFolder(folder, (job.source,))
        fit = job.voice()
        self._is_scratch = fit is not None and fit.scratch
        # Once, and not when something has been made: an input that is saved meanwhile must count as changed.
        self._input = fingerprint((*job.inputs, *(() if fit is None else (fit.note,))), digests=job.digests)
        self._timelines: dict[str, Timeline] = {}  # by the theme's description
        self.made.sweep()

    def name(self, output: str, by_hand: Aspects | None = None) -> str:
        """The lesson's name with the words of the variant that is made.

        by_hand : aspects that the command alone knows of
        """
        from .outputs.registry import spec

        if spec(output).lists_folder:
            return self.job.name
        return ".".join((self.job.name, *self._words(output, by_hand)))

    def _words(self, output: str, by_hand: Aspects | None = None) -> tuple[str, ...]:
        from .outputs.registry import spec
        from .sentences.variants import words_of

        return words_of({**self.job.aspects(spec(output), scratch=self._is_scratch), **(by_hand or {})})

    def key(self, output: str, by_hand: Aspects | None = None) -> str:
        """The key of an output in the note of the folder."""
        return key_of(self.name(output, by_hand), output)

    def made_from(self, output: str) -> str:
        """The fingerprint of everything that decides how an output looks."""
        from .outputs.registry import spec

        wanted = spec(output)
        look = self.job.look(wanted)
        words = repr(look.verbs) if look.verbs else ""
        options = [repr(look) if wanted.themed else words, self.job.pace if wanted.timed else ""]
        if wanted.lists_folder:
            options.append(self._played())
        if self._has_captions(output):
            options.append("captions stand beside the clip")
        return hashlib.sha256("\0".join([self._input, *options]).encode()).hexdigest()

    def holds(self, output: str) -> bool:
        """Whether an output is there already, from the same input; one that lists the folder as it is now."""
        from .outputs.registry import spec

        holds = self.made.holds_list if spec(output).lists_folder else self.made.holds
        return holds(self.key(output), self.made_from(output))

    def write(
        self,
        output: str,
        progress: OutputProgress | None = None,
        *,
        by_hand: Aspects | None = None,
        folder: Path | None = None,
        **options: object,
    ) -> tuple[Path, ...]:
        """Write an output; the files are noted, and what an earlier run made of it beside is removed.

        by_hand : aspects that the command alone knows of
        folder  : for its files, in place of the usual one
        options : of the writer, in place of what the lesson's file says
        Raises  : OutputError if it cannot be written, or there is none of that name
        """
        from .outputs.registry import spec

        wanted, name, key = spec(output), self.name(output, by_hand), self.key(output, by_hand)
        timeline = (
            self._listed()
            if wanted.lists_folder
            else _called(self.timeline(output), name, self._words(output, by_hand))
        )
        inside = f"{wanted.inside}{name[len(self.job.name) :]}" if wanted.inside else ""
        beside = {"captions": False} if self._has_captions(output) else {}
        wished = {**self.job.options(wanted), **beside, **options}
        with self.made.writing(key, self._given(output, by_hand, options)):
            written = write_output(output, timeline, folder or self.folder / inside, progress=progress, **wished)
        self.made.finish(key, self.made_from(output), written, lists=wanted.lists_folder)
        return written

    def _given(self, output: str, by_hand: Aspects | None, options: Mapping[str, object]) -> list[Path]:
        """The files given by hand of which the name of a variant has no more than their names."""
        from .outputs.registry import spec
        from .sentences.variants import TEMPLATE, THEME

        if spec(output).lists_folder:
            return []
        aspects = {**self.job.aspects(spec(output), scratch=self._is_scratch), **(by_hand or {})}
        theme, template = self.job.theme_given, options.get("template")
        given = [Path(theme.file)] if aspects.get(THEME) and theme is not None and theme.file else []
        return [*given, template] if aspects.get(TEMPLATE) and isinstance(template, Path) else given

    def write_lists(self) -> None:
        """Make anew what lists the folder, where there is any: it has to be true of what is there now."""
        for output in self.lists():
            if not self.holds(output):
                self.write(output)

    def lists(self) -> list[str]:
        """The outputs that list the folder, of those that are in it."""
        from .outputs.registry import WRITERS

        return [output for output, spec in WRITERS.items() if spec.lists_folder and self.made.files(self.key(output))]

    def timeline(self, output: str) -> Timeline:
        """The lesson, planned and timed, in the theme of an output."""
        from .outputs.registry import spec

        look = self.job.look(spec(output))
        if repr(look) not in self._timelines:
            self._timelines[repr(look)] = self.job.timeline(look)
        return self._timelines[repr(look)]

    def outdated(self, made: Sequence[str]) -> tuple[str, ...]:
        """The other outputs of this variant in the folder that were made from other input."""
        from .outputs.registry import WRITERS

        found = []
        for output, spec in WRITERS.items():
            known = None if output in made or spec.lists_folder else self.made.made_from(self.key(output))
            if known is not None and known != self.made_from(output):
                found.append(output)
        return tuple(found)

    def _has_captions(self, output: str) -> bool:
        """Whether the captions that an output would write are there already, with a clip of the same name and input."""
        from .outputs.registry import spec

        return spec(output).captioned and self.name("clip") == self.name(output) and self.holds("clip")

    def _played(self) -> str:
        """The name of the clip that the page of the folder plays: the lesson's own, or this variant for want of it."""
        own = (self.folder / f"{self.job.name}.mp4").is_file()
        return self.job.name if own else self.name("clip")

    def _listed(self) -> Timeline:
        """The lesson as the page of the folder tells it: with the times of the clip that it plays."""
        name = self._played()
        if name == self.name("clip"):
            return _called(self.timeline("clip"), name, self._words("clip"))
        from .storyboard.pacing import pace

        plain = replace(self.job, theme_given=None, pace_given=None, scratch=False)
        fit = plain.voice()
        timeline = pace(plain.storyboard(), plain.profile) if fit is not None and fit.scratch else plain.timeline()
        return _called(timeline, name)


def write_output(
    output: str, timeline: Timeline, folder: Path, *, progress: OutputProgress | None = None, **options: object
) -> tuple[Path, ...]:
    """Write one output by its name, into that very folder, whatever is in it.

    Raises : OutputError if it cannot be written, or there is none of that name
    """
    from .outputs.registry import spec

    write = spec(output).load()
    if progress is not None and spec(output).reports:
        what = f"{timeline.storyboard.name}: {output}"
        options["progress"] = lambda done, total: progress(what, done, total)
    written = write(timeline, folder, **options)
    return (written,) if isinstance(written, Path) else tuple(written)


def _called(timeline: Timeline, name: str, variant: tuple[str, ...] = ()) -> Timeline:
    """The timeline of a storyboard by that name, which its files get, and with the words of that variant."""
    if (timeline.storyboard.name, timeline.storyboard.variant) == (name, variant):
        return timeline
    return replace(timeline, storyboard=replace(timeline.storyboard, name=name, variant=variant))
