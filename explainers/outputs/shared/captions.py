"""The captions of a timeline as text: WebVTT, SRT, and chapters as WebVTT.

Every file conforms to the strict writer's rules of WebVTT (W3C), not only to what lenient players accept. Identifiers
are plain numbers: a learner may open these files, and a step's own id could say too much. A note, which no player
shows, stands before the words that are the teacher's own, and another at the head where no speaker of the language has
read ours, or a machine speaks; SRT has no notes.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable
from dataclasses import dataclass

from ...sentences.writers import own_words_note
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from .remarks import remarks_on

__all__ = [
    "TimedText",
    "chapters_vtt_text",
    "clock",
    "cue_text",
    "srt_text",
    "timed_captions",
    "vtt_of",
    "vtt_text",
]


_TAG = re.compile(r"<(?=[^\s<])")  # the beginning of what a player of SRT may take for one
_WIDE = str.maketrans({"{": "\N{FULLWIDTH LEFT CURLY BRACKET}", "}": "\N{FULLWIDTH RIGHT CURLY BRACKET}"})


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedText:
    """Text with times in whole milliseconds, as every caption format writes them."""

    start_ms: int
    end_ms: int
    lines: tuple[str, ...]
    step_id: str = ""


def timed_captions(timeline: Timeline) -> tuple[TimedText, ...]:
    """The cues in whole milliseconds: each ends after it starts, and starts never decrease."""
    return tuple(_placed((cue.start_s, cue.end_s, cue.lines, cue.step_id) for cue in timeline.cues))


def cue_text(cue: TimedText) -> str:
    """The words of a cue as WebVTT writes them: tidy, escaped, a line each."""
    return _escaped(_block(cue.lines))


def vtt_text(timeline: Timeline) -> str:
    """The captions as WebVTT."""
    board = timeline.storyboard
    own = {step.id for step in board.steps if step.teachers_own}
    with speaking(board.language):
        return _vtt(timed_captions(timeline), own, remarks=remarks_on(timeline))


def srt_text(timeline: Timeline) -> str:
    """The captions as SRT: the same counts, times and words; what players take for a command stays text.

    The format has no way to escape it. A word joiner, which nobody sees, keeps "<i>" from being obeyed; of braces some
    players drop every pair with all between them, so they are written as the wide ones.
    """
    return "".join(
        f"{number}\n{clock(cue.start_ms, ',')} --> {clock(cue.end_ms, ',')}\n{_for_srt(cue.lines)}\n\n"
        for number, cue in enumerate(timed_captions(timeline), start=1)
    )


def chapters_vtt_text(timeline: Timeline) -> str:
    """The chapters as WebVTT, in a file of their own: one kind of data a file."""
    fps = timeline.fps
    return vtt_of((c.start / fps, c.end / fps, (c.title,)) for c in timeline.chapters)


def vtt_of(cues: Iterable[tuple[float, float, tuple[str, ...]]]) -> str:
    """Any cues as WebVTT: start and end in seconds, in order of their starts, and lines."""
    return _vtt(_placed((start_s, end_s, lines, "") for start_s, end_s, lines in cues))


def clock(ms: int, point: str = ".") -> str:
    """Hours, always written, minutes, seconds and three decimals: "00:01:02.345"."""
    seconds, decimals = divmod(ms, 1000)
    minutes, seconds = divmod(seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{seconds:02d}{point}{decimals:03d}"


def _placed(cues: Iterable[tuple[float, float, tuple[str, ...], str]]) -> tuple[TimedText, ...]:
    placed: list[TimedText] = []
    least_ms = 0
    for start_s, end_s, lines, step_id in cues:
        start_ms = max(round(start_s * 1000), least_ms)
        end_ms = max(round(end_s * 1000), start_ms + 1)
        placed.append(TimedText(start_ms=start_ms, end_ms=end_ms, lines=lines, step_id=step_id))
        least_ms = start_ms
    return tuple(placed)


def _vtt(cues: tuple[TimedText, ...], teachers_own: Collection[str] = (), *, remarks: Iterable[str] = ()) -> str:
    """The cues; a note before the first of each step whose words are the teacher's."""
    text = "WEBVTT\n\n"
    text += "".join(f"NOTE {remark}\n\n" for remark in remarks)
    before = ""
    for number, cue in enumerate(cues, start=1):
        if cue.step_id in teachers_own and cue.step_id != before:
            text += f"NOTE {own_words_note()}\n\n"
        before = cue.step_id
        text += f"{number}\n{clock(cue.start_ms)} --> {clock(cue.end_ms)}\n{cue_text(cue)}\n\n"
    return text


def _block(lines: tuple[str, ...]) -> str:
    """Lines of text with nothing in them that would end a cue early: no blank line, no arrow of a timing line."""
    tidy = (" ".join(line.replace("\0", "").split()).replace("-->", "→") for line in lines)
    return "\n".join(line for line in tidy if line)


def _for_srt(lines: tuple[str, ...]) -> str:
    return _TAG.sub("<\N{WORD JOINER}", _block(lines)).translate(_WIDE)


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
