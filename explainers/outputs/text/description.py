"""The description of a clip as plain text, to be pasted where it is published: title, paragraph, chapters, credit."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from ...safe_write import write_text
from ...sentences.published import chapter_line, credit_lines, lasts, series_line
from ...sentences.variants import version_line
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.remarks import remarks_on

__all__ = ["description_text", "write_description"]


def write_description(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    """NAME.txt in the folder.

    Raises : OutputError where it cannot be written
    """
    return (write_text(folder / f"{timeline.storyboard.name}.txt", description_text(timeline)),)


def description_text(timeline: Timeline) -> str:
    """Blocks of lines with a blank line between them; every line ends in a line feed."""
    with speaking(timeline.storyboard.language):
        blocks = ["\n".join(_tidy(line) for line in block) for block in _blocks(timeline)]
    return "\n\n".join(block for block in blocks if block) + "\n"


def _blocks(timeline: Timeline) -> Iterator[tuple[str, ...]]:
    board = timeline.storyboard
    imprint = board.imprint
    series = series_line(imprint.series, imprint.number)
    yield (board.title, series) if series else (board.title,)
    about = (*imprint.about, lasts(timeline.seconds), version_line(board.variant))
    yield (" ".join(line for line in about if line),)
    # Players make chapters of lines that begin with a time, where the first is 0:00.
    yield tuple(chapter_line(chapter.start / timeline.fps, chapter.title) for chapter in timeline.chapters)
    yield credit_lines(imprint.credit, imprint.licence)
    yield remarks_on(timeline)


def _tidy(line: str) -> str:
    return " ".join(line.split())
