"""The cue sheet: a table for whoever speaks or cuts the lesson, the same cues as WebVTT and SRT, and more WebVTT.

Chapters and descriptions stand in files of their own: a file of WebVTT holds one kind of cue. A picture is
described from the moment at which it stands until the next one is, and never beyond its step. A pause is long enough to
hear all of a picture, so that there it is described once more and whole. No two descriptions overlap.
"""

from __future__ import annotations

import csv
import io
from pathlib import Path

from ...safe_write import write_files
from ...sentences import writers
from ...storyboard.spoken import words_a_minute
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.captions import TimedText, chapters_vtt_text, clock, srt_text, timed_captions, vtt_of, vtt_text
from ..shared.remarks import remarks_on
from ..shared.seen_and_said import MomentKind, moments

__all__ = ["descriptions_vtt_text", "write_cues"]

_BYTE_ORDER_MARK = "\ufeff"  # without it spreadsheet programs read UTF-8 as an old code page
_STARTS_A_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def write_cues(timeline: Timeline, folder: Path, *, captions: bool = True) -> tuple[Path, ...]:
    """NAME.cues.csv, .vtt, .srt, .chapters.vtt and .descriptions.vtt in the folder; all five or none.

    captions : false where NAME.vtt and NAME.srt stand there with a clip: the second and third would be the same files

    The first three agree in count, times and words; a step in which nothing is said has a row without words in the
    table. The last column, "whose words", says "teacher" where the teacher's own words take the place of ours. A row
    at the end says so where no speaker of the language has read ours, or a machine speaks.
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
    spoken: dict[str, list[TimedText]] = {}
    for cue in timed_captions(timeline):
        spoken.setdefault(cue.step_id, []).append(cue)
    language = timeline.storyboard.language
    text = io.StringIO(newline="")
    text.write(_BYTE_ORDER_MARK)
    rows = csv.writer(text, lineterminator="\r\n")  # RFC 4180
    rows.writerow(writers.cue_columns())
    for step in timeline.storyboard.steps:
        for cue in spoken.get(step.id) or [_silence(timeline, step.id)]:
            words = " ".join(cue.lines)
            pace = f"{words_a_minute(words, (cue.end_ms - cue.start_ms) / 1000, language):.0f}" if words else ""
            own = writers.own_words_mark() if words and step.teachers_own else ""
            times = (clock(cue.start_ms), clock(cue.end_ms))
            row = (step.id, *times, step.chapter, step.picture.alt, words, pace, own)
            rows.writerow(_plain(cell) for cell in row)
    rows.writerows([remark] for remark in remarks_on(timeline))
    return text.getvalue()


def _silence(timeline: Timeline, step_id: str) -> TimedText:
    start, end = timeline.step_span(step_id)
    ms = [round(frame / timeline.fps * 1000) for frame in (start, end)]
    return TimedText(start_ms=ms[0], end_ms=ms[1], lines=())


def _plain(cell: str) -> str:
    """The cell as text that no spreadsheet program takes for a formula."""
    tidy = " ".join(cell.split())
    return f"'{tidy}" if tidy.startswith(_STARTS_A_FORMULA) else tidy


def descriptions_vtt_text(timeline: Timeline) -> str:
    """The descriptions as WebVTT, one line a cue."""
    seen = [moment for moment in moments(timeline) if moment.kind is not MomentKind.SAID]
    # Where a pause begins with a new picture, the pause tells it.
    waits = {moment.start_s for moment in seen if moment.kind is MomentKind.WAIT}
    told = [moment for moment in seen if moment.kind is MomentKind.WAIT or moment.start_s not in waits]
    return vtt_of((moment.start_s, moment.end_s, (moment.text,)) for moment in told if moment.text)
