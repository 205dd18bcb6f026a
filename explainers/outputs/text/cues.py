"""The cue sheet: a table for whoever speaks or cuts the lesson, the same cues as WebVTT and SRT, and more WebVTT.

Chapters and descriptions stand in files of their own: a file of WebVTT holds one kind of cue. A picture is
described from the moment at which it stands until the next one is, and never beyond its step. A pause is long enough to
hear all of a picture, so that there it is described once more and whole. No two descriptions overlap.
"""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path

from ...figure.model import Figure
from ...frames.moment import frame_figure
from ...safe_write import write_files
from ...sentences import writers
from ...storyboard.spoken import words_a_minute
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.captions import chapters_vtt_text, clock, srt_text, timed_captions, vtt_of, vtt_text
from ..shared.remarks import remarks_on
from ..shared.seen_and_said import MomentKind, moments
from .changes import change_in_words

__all__ = ["descriptions_vtt_text", "write_cues"]

_BYTE_ORDER_MARK = "\ufeff"  # without it spreadsheet programs read UTF-8 as an old code page
_TAKEN_FOR_A_FORMULA = re.compile(r"""[\s"'“”‘’]*[=+\-@＝＋－＠−]""")
_TAKEN_FOR_A_NUMBER = re.compile(r"[\d.,:/%’ -]+")


def write_cues(timeline: Timeline, folder: Path, *, captions: bool = True) -> tuple[Path, ...]:
    """NAME.cues.csv, .vtt, .srt, .chapters.vtt and .descriptions.vtt in the folder; all five or none.

    captions : false where NAME.vtt and NAME.srt stand there with a clip: the second and third would be the same files

    The first three agree in count, times and words. The table has one row a caption and nothing else, so that a
    spreadsheet program can sort and sum it. Its last column, "whose words", says "teacher" where the teacher's own
    words take the place of ours; else what must be said of ours, where no speaker of the language has read them or a
    machine speaks.
    """
    name = timeline.storyboard.name
    with speaking(timeline.storyboard.language):
        table = _table(timeline)
    return write_files(
        folder,
        {
            f"{name}.cues.csv": table,
            **({f"{name}.cues.vtt": vtt_text(timeline), f"{name}.cues.srt": srt_text(timeline)} if captions else {}),
            f"{name}.cues.chapters.vtt": chapters_vtt_text(timeline),
            f"{name}.cues.descriptions.vtt": descriptions_vtt_text(timeline),
        },
    )


def _table(timeline: Timeline) -> str:
    steps = {step.id: step for step in timeline.storyboard.steps}
    language, remarks = timeline.storyboard.language, " ".join(remarks_on(timeline))
    text = io.StringIO(newline="")
    text.write(_BYTE_ORDER_MARK)
    rows = csv.writer(text, lineterminator="\r\n")  # RFC 4180
    rows.writerow(writers.cue_columns())
    seen: Figure | None = None
    for number, cue in enumerate(timed_captions(timeline), start=1):
        step, words = steps[cue.step_id], " ".join(cue.lines)
        ms = cue.end_ms - cue.start_ms
        # The last frame in which the caption stands: the one after it may be the next step's.
        figure = frame_figure(timeline, min(timeline.frames, max(1, round(cue.end_ms * timeline.fps / 1000))) - 1)
        whose = writers.own_words_mark() if step.teachers_own else _plain(remarks)
        row = (
            *(str(number), _plain(step.id), clock(cue.start_ms), clock(cue.end_ms), clock(ms)),
            *(_plain(step.chapter), _plain(words), f"{words_a_minute(words, ms / 1000, language):.0f}"),
            *(_plain(change_in_words(seen, figure, timeline.storyboard.things)), whose),
        )
        rows.writerow(row)
        seen = figure
    return text.getvalue()


def _plain(cell: str) -> str:
    """The cell as text that no spreadsheet program takes for a formula, a number or a date.

    Some drop quotation marks and spaces before they look; full-width signs count as the plain ones.
    """
    tidy = " ".join(cell.split())
    return f"'{tidy}" if _TAKEN_FOR_A_FORMULA.match(tidy) or _TAKEN_FOR_A_NUMBER.fullmatch(tidy) else tidy


def descriptions_vtt_text(timeline: Timeline) -> str:
    """The descriptions as WebVTT, one line a cue."""
    seen = [moment for moment in moments(timeline) if moment.kind is not MomentKind.SAID]
    # Where a pause begins with a new picture, the pause tells it.
    waits = {moment.start_s for moment in seen if moment.kind is MomentKind.WAIT}
    told = [moment for moment in seen if moment.kind is MomentKind.WAIT or moment.start_s not in waits]
    return vtt_of((moment.start_s, moment.end_s, (moment.text,)) for moment in told if moment.text)
