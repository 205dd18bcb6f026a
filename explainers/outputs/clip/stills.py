"""Pictures of a lesson as SVG and PNG: the stills, one for everything that is held; the poster, one for the whole."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from ...drawing.svg import svg_of
from ...errors import OutputError
from ...figure.model import Figure
from ...frames.content_key import drawing_keys
from ...safe_write import work_folder, write_files
from ...storyboard.model import Storyboard
from ...storyboard.timeline import Timeline
from ...video.encoder import EncoderOptions
from ..shared.said_below import worded_stills
from .drawing_job import DrawingJob, Shot, png_path
from .drawing_process import Progress
from .drawn_shots import have_drawn

__all__ = ["named_stills", "write_poster", "write_stills"]


def write_stills(timeline: Timeline, folder: Path, *, progress: Progress | None = None) -> tuple[Path, ...]:
    """Write NUMBER-STEP.svg and NUMBER-STEP.png (1920 x 1080) for each still of each step, in order.

    Only what was never drawn before is drawn; see `drawn_shots`.

    progress : called with the pictures drawn so far and the pictures to draw; never, if there are none
    Raises   : OutputError if they cannot be drawn or written, FontError for a missing typeface or character
    """
    stills = tuple(named_stills(timeline.storyboard))
    keys = dict(zip([name for name, _ in stills], drawing_keys(figure for _, figure in stills), strict=True))
    shots = {keys[name]: Shot(name=keys[name], key=keys[name], shows=figure, png=True) for name, figure in stills}
    with work_folder(folder) as work:
        have_drawn(DrawingJob(options=EncoderOptions(), shots=tuple(shots.values())), work, progress)
        files: dict[str, bytes | str] = {}
        for name, figure in stills:
            files[f"{name}.svg"] = svg_of(figure)
            files[f"{name}.png"] = png_path(work, keys[name]).read_bytes()
        return write_files(folder, files)


def named_stills(storyboard: Storyboard) -> Iterator[tuple[str, Figure]]:
    """Every still, with what is said over it, and the stem of its file's name: 012-corner-block.flag.turn.

    The number sorts, the id says which. Steps that try an option are all called the same: a list of files must not tell
    which one is kept.
    """
    count = sum(len(step.stills) for step in storyboard.steps)
    digits = max(3, len(str(count)))
    number = 0
    for step in storyboard.steps:
        for figure in worded_stills(step):
            number += 1
            name = re.sub(r"[^a-z0-9.-]+", "-", step.neutral_id.lower())
            yield f"{number:0{digits}d}-{name}", figure


def write_poster(timeline: Timeline, folder: Path, *, progress: Progress | None = None) -> tuple[Path, ...]:
    """NAME.poster.svg and NAME.poster.png (1920 x 1080); both or none.

    progress : called with the pictures drawn so far and the pictures to draw; never, if it was drawn before
    Raises   : OutputError if it cannot be drawn or written, FontError for a missing typeface or character
    """
    board = timeline.storyboard
    if board.poster is None:
        raise OutputError(f"{board.name}: this storyboard was planned without a poster")
    (key,) = drawing_keys([board.poster])
    shot = Shot(name=key, key=key, shows=board.poster, png=True)
    with work_folder(folder) as work:
        have_drawn(DrawingJob(options=EncoderOptions(), shots=(shot,)), work, progress)
        files: dict[str, bytes | str] = {
            f"{board.name}.poster.svg": svg_of(board.poster),
            f"{board.name}.poster.png": png_path(work, key).read_bytes(),
        }
        return write_files(folder, files)
