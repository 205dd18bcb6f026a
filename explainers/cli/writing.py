"""One output of each lesson or item named: what `clip`, `deck`, `cues`, `stills` have in common."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from ..batch import Built, jobs_of
from ..item.faults import ReportedFaults
from ..making import Making
from .door import SOUND, tell, worst
from .progress import shown_progress
from .reports import tell_aside, tell_voice, tell_warnings_of, tell_words
from .streams import say

if TYPE_CHECKING:
    from ..figure.theme import Theme
    from ..sentences.variants import Aspect

__all__ = ["DEFAULT_FOLDER", "write_each"]

DEFAULT_FOLDER = Path("render_out")


def write_each(
    outputs: str | Sequence[str],
    paths: Sequence[Path],
    to: Path | None,
    theme: Theme | None = None,
    pace: str | None = None,
    by_hand: Mapping[Aspect, str | int | bool | None] | None = None,
    **options: object,
) -> int:
    """Write one output of everything named, or several, to the end, for the worst exit code.

    to      : the folder of one input's output; with several inputs, the folder that holds a folder for each
    theme   : in place of each lesson's own
    pace    : the name of one, in place of each lesson's own
    by_hand : what tells files of these options from the ordinary ones, by their names
    The options of an output stand in place of what a lesson's file says.
    """
    from ..intake.workspace import Workspace  # here: --help must stay light
    from ..item.series_folder import is_many

    codes, told, workspace = [], ReportedFaults(), Workspace()
    wanted = (outputs,) if isinstance(outputs, str) else outputs
    for found in jobs_of(paths, theme, pace, workspace=workspace):
        if isinstance(found, Built):
            codes.append(tell(found.error, found.source, told) if found.error else SOUND)
            continue
        tell_warnings_of(found)
        written: list[Path] = []
        making = None
        try:
            direct = to if to is not None and not is_many(paths, workspace.opened) else None
            making = Making(found, direct or (to or DEFAULT_FOLDER) / found.name)
            with shown_progress() as progress:
                for output in wanted:
                    written += making.write(output, progress, by_hand=by_hand, folder=direct, **options)
                making.write_lists()
        except Exception as error:  # told like any other, so that the inputs after this one are still made
            codes.append(tell(error, found.source))
        else:
            tell_words(found)
            tell_voice(found)
        tell_aside(making.made.aside if making is not None else ())
        for path in written:
            say(str(path))
    return worst(codes)
