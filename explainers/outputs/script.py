"""The recording script: what to say, in how many seconds, over which picture; a page to read from, and one to print."""

from __future__ import annotations

from pathlib import Path

from ..safe_write import write_files
from ..storyboard.timeline import Timeline
from .html.script import script_html
from .pdf.script import script_pdf

__all__ = ["write_script"]


def write_script(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    """NAME.script.html and NAME.script.pdf in the folder; both or none.

    Raises : OutputError where they cannot be written, FontError for a character that the typeface lacks
    """
    name = timeline.storyboard.name
    files: dict[str, bytes | str] = {
        f"{name}.script.html": script_html(timeline),
        f"{name}.script.pdf": script_pdf(timeline),
    }
    return write_files(folder, files)
