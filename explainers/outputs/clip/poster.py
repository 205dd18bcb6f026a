"""The poster of a clip: the one picture that stands for it where it is listed, as SVG and PNG."""

from __future__ import annotations

from pathlib import Path

from ...drawing.svg import svg_of
from ...errors import OutputError
from ...frames.content_key import drawing_keys
from ...safe_write import work_folder, write_files
from ...storyboard.timeline import Timeline
from ...video.encoder import EncoderOptions
from .drawing_job import DrawingJob, Shot, png_path
from .drawing_process import Progress
from .drawn_shots import have_drawn

__all__ = ["write_poster"]


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
