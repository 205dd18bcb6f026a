"""One output of each lesson or item named: what `clip`, `deck`, `cues`, `stills` have in common."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from ..batch import Built, jobs_of, write_output
from ..item.told_once import ToldOnce
from ..outputs.registry import spec
from .door import tell
from .exit_codes import SOUND, worst
from .outcomes import is_many
from .progress import shown_progress
from .streams import say
from .telling import tell_voice, tell_warnings, tell_words

if TYPE_CHECKING:
    from ..figure.theme import Theme

__all__ = ["DEFAULT_FOLDER", "write_each"]

DEFAULT_FOLDER = Path("render_out")


def write_each(
    outputs: str | Sequence[str],
    paths: Sequence[Path],
    to: Path | None,
    theme: Theme | None = None,
    pace: str | None = None,
    **options: object,
) -> int:
    """Write one output of everything named, or several, to the end, for the worst exit code.

    to    : the folder of one input's output; with several inputs, the folder that holds a folder for each
    theme : in place of each lesson's own
    pace  : the name of one, in place of each lesson's own
    The options of an output stand in place of what a lesson's file says.
    """
    codes, told = [], ToldOnce()
    wanted = (outputs,) if isinstance(outputs, str) else outputs
    for found in jobs_of(paths, theme, pace):
        if isinstance(found, Built):
            codes.append(tell(found.error, found.source, told) if found.error else SOUND)
            continue
        tell_warnings(found.source, found.solutions)
        written: list[Path] = []
        try:
            timeline = found.timeline()
            with shown_progress() as progress:
                for output in wanted:
                    own = (to or DEFAULT_FOLDER) / found.name / spec(output).inside
                    folder = to if to is not None and not is_many(paths) else own
                    wished = {**found.options(output), **options}
                    written += write_output(output, timeline, folder, progress=progress, **wished)
        except Exception as error:  # told like any other, so that the inputs after this one are still made
            codes.append(tell(error, found.source))
        else:
            tell_words(found.source, found.solutions, note=True)
            tell_voice(found)
        for path in written:
            say(str(path))
    return worst(codes)
