"""What stands in a recording script, cue by cue, as HTML: one body for the page on screen and those on paper."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from html import escape

from ...figure.paper import MM_PER_PT, Picture, Printing, wrapped_lines
from ...sentences.published import clock
from ...sentences.read_out import (
    cue_heading,
    nothing_said,
    own_words_of_teacher,
    script_about,
    script_title,
    seconds_to_fill,
    silence,
)
from ...sentences.writers import in_the_clip
from ...storyboard.model import Step
from ...storyboard.timeline import Timeline
from ...typeface.embedded import FAMILIES
from .remarks import remarks_on
from .seen_and_said import Moment, MomentKind, moments
from .steps import drawn_part, picture_of, undecorated

__all__ = ["LINE_HEIGHT", "PAPER", "PICTURE_MM", "SCRIPT_CSS", "SIZES_PT", "CueRead", "cues_read", "script_body"]

PAPER = Printing(large=True)  # A4; no type under 18 pt
PICTURE_MM = 72.0  # its width
SIZES_PT = (21.0, 18.0)  # of the words; the smaller one where they would fill a page
LINE_HEIGHT = 1.3
_ROOM_MM = 160.0  # for the words of one cue, so that it stands on one page with its picture and its chapter's heading
_LEAST_SILENCE_S = 0.75  # a shorter one is a breath, which nobody has to be told of

SCRIPT_CSS = f"""
html {{ font: 18pt/{LINE_HEIGHT} {FAMILIES}; color: #000; background: #fff }}
body, h1, h2, h3, p {{ margin: 0; padding: 0 }}
h1 {{ font-size: 26pt; line-height: 1.2; margin-bottom: 3mm }}
h2 {{ font-size: 22pt; line-height: 1.2; margin-top: 8mm; break-after: avoid }}
h3 {{ font-size: 20pt; line-height: 1.2; margin-bottom: 2mm; break-after: avoid }}
.cue {{ break-inside: avoid; margin-top: 5mm; padding-top: 3mm; border-top: 0.5mm solid #000 }}
.top {{ display: flex; gap: 5mm; margin-bottom: 2mm }}
.picture {{ flex: none; width: {PICTURE_MM}mm }}
.about {{ flex: 1; min-width: 0; line-height: 1.25; overflow-wrap: anywhere }}
.line {{ font-size: {SIZES_PT[0]:g}pt; margin-top: 1.5mm }}
.long .line {{ font-size: {SIZES_PT[1]:g}pt }}
.wait {{ margin-top: 1.5mm; padding-left: 4mm; border-left: 1.2mm solid #000; font-weight: bold }}
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class CueRead:
    """One step as it is read aloud."""

    number: int  # from 1
    step: Step
    start_s: float
    end_s: float
    parts: tuple[str | float, ...]  # a sentence, or seconds of silence

    @property
    def fill_s(self) -> float:
        """Seconds in which its words are said."""
        return self.end_s - self.start_s - sum(part for part in self.parts if isinstance(part, float))


def cues_read(timeline: Timeline) -> Iterator[CueRead]:
    """Every step, in order."""
    said: dict[str, list[Moment]] = {}
    for moment in moments(timeline):
        if moment.kind is MomentKind.SAID:
            said.setdefault(moment.step.id, []).append(moment)
    for number, step in enumerate(timeline.storyboard.steps, start=1):
        start_s, end_s = (frame / timeline.fps for frame in timeline.step_span(step.id))
        parts: list[str | float] = []
        at_s = start_s
        for moment in said.get(step.id, []):
            if moment.start_s - at_s >= _LEAST_SILENCE_S:
                parts.append(moment.start_s - at_s)
            parts.append(moment.text)
            at_s = moment.end_s
        if end_s - at_s >= _LEAST_SILENCE_S:
            parts.append(end_s - at_s)
        yield CueRead(number=number, step=step, start_s=start_s, end_s=end_s, parts=tuple(parts))


def script_body(timeline: Timeline, shown: Callable[[Picture], str]) -> str:
    """The elements of the body.

    shown : the element that shows a picture
    """
    board = timeline.storyboard
    parts = [f"<h1>{escape(script_title(board.title))}</h1>", f"<p>{escape(script_about())}</p>"]
    parts += [f"<p>{escape(remark)}</p>" for remark in remarks_on(timeline)]
    chapter = ""
    for cue in cues_read(timeline):
        if cue.step.chapter != chapter:
            chapter = cue.step.chapter
            parts.append(f"<h2>{escape(chapter)}</h2>")
        parts.append(_cue(cue, shown))
    return "\n".join(parts)


def _cue(cue: CueRead, shown: Callable[[Picture], str]) -> str:
    step = cue.step
    words = [part for part in cue.parts if isinstance(part, str)]
    about = [step.id, in_the_clip(clock(cue.start_s), clock(cue.end_s))]
    about += [seconds_to_fill(cue.fill_s)] if words else []
    about += [own_words_of_teacher()] if words and step.teachers_own else []
    told = "".join(f"<p>{escape(line)}</p>" for line in about)
    lines = "" if words else f'<p class="wait">{escape(nothing_said())}</p>'
    for part in cue.parts:
        kind, text = ("line", part) if isinstance(part, str) else ("wait", silence(part))
        lines += f'<p class="{kind}">{escape(text)}</p>'
    long = " long" if _fills_a_page(words) else ""
    return (
        f'<section class="cue{long}"><h3>{escape(cue_heading(cue.number, step.heading))}</h3>'
        f'<div class="top"><div class="picture">{shown(_picture(step))}</div><div class="about">{told}</div></div>'
        f"{lines}</section>"
    )


def _fills_a_page(words: list[str]) -> bool:
    size = SIZES_PT[0] * MM_PER_PT
    lines = sum(wrapped_lines(sentence, size, PAPER.width_mm) for sentence in words)
    return lines * size * LINE_HEIGHT > _ROOM_MM


def _picture(step: Step) -> Picture:
    """Without its heading, which is written beside it, and the room for it and for captions."""
    figure = undecorated(picture_of(step))
    box = drawn_part(figure)
    return Picture(figure=figure, box=box, mm_per_unit=PICTURE_MM / box.width)
