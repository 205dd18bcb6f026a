"""`explainers build`: every output of every lesson."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from .door import SOUND, at_the_door, tell, worst
from .manner_options import PaceOption, ThemeOption, pace_given, theme_given

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers build items/first-blocks.yaml         one lesson
  explainers build items/                          all lessons, all items
  explainers build items/ --only deck --only cues  no clips, no stills
  explainers build items/ --workers 4              four at a time

One line an output. What was made from the same files before is not made again, which is said."""

_MOST_NAMED = 6  # files of one output

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def build(
    paths: Annotated[list[Path], typer.Argument(metavar="PATH", help="Lessons, items, series, or folders of them.")],
    to: Annotated[Path, typer.Option("--to", metavar="FOLDER", help="Holds a folder for each lesson and item.")] = Path(
        "render_out"
    ),
    only: Annotated[
        list[str] | None,
        typer.Option("--only", metavar="OUTPUT", help="clip, deck, cues, transcript, ...; repeatable."),
    ] = None,
    workers: Annotated[
        int,
        typer.Option("--workers", metavar="N", min=1, help="How many lessons at a time; each takes half a gigabyte."),
    ] = 1,
    theme: ThemeOption = None,
    pace: PaceOption = None,
) -> int:
    """Make every output, or --only some, of all that is named."""
    from ..batch import ALL_OUTPUTS
    from ..batch import build as built_each
    from ..item.faults import ReportedFaults
    from .progress import shown_progress
    from .reports import tell_aside, tell_left_out, tell_length, tell_voice, tell_warnings_of, tell_words
    from .streams import complain, say

    codes, told = [], ReportedFaults()
    wanted = tuple(dict.fromkeys(only or ALL_OUTPUTS))
    look, speed = theme_given(theme), pace_given(pace)
    with shown_progress() as bars:
        overall = bars.overall if bars is not None else None
        for built in built_each(paths, to, wanted, bars, workers=workers, overall=overall, theme=look, pace=speed):
            if built.job is not None:
                tell_warnings_of(built.job)
            if built.job is not None and not built.error:
                tell_words(built.job)
                tell_voice(built.job)
                tell_length(built.source, built.seconds)
                if built.job.lesson is not None:
                    tell_left_out(built.source, built.job.lesson, built.job.solutions)
            tell_aside(built.aside)
            for output, files in built.made_by:
                say(f"{output}: {_in_brief(files)}")
            if built.unchanged:
                complain(f"{built.source}: nothing to do: {built.folder} was made before from the same files")
            elif built.kept_outputs:
                kept = ", ".join(built.kept_outputs)
                complain(f"{built.source}: made before from the same files, so not made again: {kept}")
            if built.folder is not None and built.made and (built.folder / "index.html").is_file():
                say(f"look first: {built.folder / 'index.html'}")
            for folder in built.left_over:
                complain(
                    f"{folder}: left over from when {built.source} had another name or number; what is made of it now "
                    f"stands in {built.folder}. Delete it once you have what you want of it."
                )
            codes.append(tell(built.error, built.source, told) if built.error else SOUND)
    return worst(codes)


def _in_brief(files: Sequence[Path]) -> str:
    """The files of one output in one line: the first with its folder, the names of the others; many as their folder."""
    first, *others = files
    if len(files) > _MOST_NAMED:
        return f"{first.parent}{os.sep} ({len(files)} files)"
    return ", ".join((str(first), *(other.name for other in others)))
