"""The transcript: what is said and what is seen, step by step, in place of the clip, as plain text and as a page.

The page needs nothing beside itself and runs nothing: its style stands in it, named to the browser by its hash.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from pathlib import Path

from ...safe_write import write_files
from ...sentences.published import chapter_line, credit_lines, series_line
from ...sentences.read_out import on_screen, own_words_of_teacher, said, to_wait, transcript_about, transcript_title
from ...storyboard.timeline import Timeline
from ...typeface.embedded import FAMILIES
from ...words.messages import speaking
from ..shared.seen_and_said import Moment, MomentKind, moments
from .sealed_page import sealed_head

__all__ = ["transcript_html", "transcript_text", "write_transcript"]


def write_transcript(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    """NAME.transcript.txt and NAME.transcript.html in the folder; both or none.

    Raises : OutputError where they cannot be written
    """
    name = timeline.storyboard.name
    files = {
        f"{name}.transcript.txt": transcript_text(timeline),
        f"{name}.transcript.html": transcript_html(timeline),
    }
    return write_files(folder, files)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """One paragraph of a step."""

    kind: MomentKind
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """One step in lines."""

    heading: str
    lines: tuple[_Line, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chapter:
    heading: str  # with its time
    steps: tuple[_Told, ...]


def transcript_text(timeline: Timeline) -> str:
    """Plain text: blocks with a blank line between them, chapters underlined."""
    with speaking(timeline.storyboard.language):
        blocks = ["\n".join(_head(timeline)), transcript_about()]
        for chapter in _chapters(timeline):
            blocks.append(f"{chapter.heading}\n{'=' * len(chapter.heading)}")
            blocks += ["\n".join((step.heading, *(line.text for line in step.lines))) for step in chapter.steps]
        blocks.append("\n".join(_foot(timeline)))
    return "\n\n".join(block for block in blocks if block) + "\n"


def transcript_html(timeline: Timeline) -> str:
    """A page: a heading for each chapter, under it one for each step."""
    board = timeline.storyboard
    with speaking(board.language):
        title, *about = _head(timeline)
        parts = [f"<h1>{escape(title)}</h1>", *(f"<p>{escape(line)}</p>" for line in (*about, transcript_about()))]
        for chapter in _chapters(timeline):
            parts.append(f"<section>\n<h2>{escape(chapter.heading)}</h2>")
            for step in chapter.steps:
                parts.append(f"<h3>{escape(step.heading)}</h3>")
                parts += [f'<p class="{line.kind.value}">{escape(line.text)}</p>' for line in step.lines]
            parts.append("</section>")
        foot = "".join(f"<p>{escape(line)}</p>" for line in _foot(timeline))
    end = ["</main>", f"<footer>{foot}</footer>" if foot else "", "</body></html>\n"]
    body = "\n".join(["<body><main>", *parts, *end])
    return f"{sealed_head(language=board.language, title=title, shown=body, style=_CSS)}\n{body}"


def _head(timeline: Timeline) -> tuple[str, ...]:
    imprint = timeline.storyboard.imprint
    series = series_line(imprint.series, imprint.number)
    return tuple(_tidy(line) for line in (transcript_title(timeline.storyboard.title), series) if line)


def _foot(timeline: Timeline) -> tuple[str, ...]:
    imprint = timeline.storyboard.imprint
    lines = (*credit_lines(imprint.credit, imprint.licence), imprint.draft)
    return tuple(_tidy(line) for line in lines if line)


def _chapters(timeline: Timeline) -> Iterator[_Chapter]:
    steps = {step.id: step for step in timeline.storyboard.steps}
    told = {step_id: tuple(own) for step_id, own in itertools.groupby(moments(timeline), lambda m: m.step.id)}
    for chapter, run in zip(
        timeline.chapters, itertools.groupby(steps.values(), key=lambda step: step.chapter), strict=True
    ):
        yield _Chapter(
            heading=_tidy(chapter_line(chapter.start / timeline.fps, chapter.title)),
            steps=tuple(
                _Told(heading=_tidy(step.heading), lines=tuple(_lines(told.get(step.id, ())))) for step in run[1]
            ),
        )


def _lines(own: tuple[Moment, ...]) -> Iterator[_Line]:
    """The moments of a step as lines; sentences that follow each other stand on one."""
    for kind, run in itertools.groupby(own, key=lambda moment: moment.kind):
        texts = [_tidy(moment.text) for moment in run]
        if kind is MomentKind.WAIT:
            yield _Line(kind=kind, text=to_wait(own[0].step.pause_s))
        elif kind is MomentKind.SAID:
            yield _Line(kind=kind, text=said(" ".join(texts)))
        else:
            yield from (_Line(kind=kind, text=on_screen(text)) for text in texts if text)
    if own and own[0].step.teachers_own and any(moment.kind is MomentKind.SAID for moment in own):
        yield _Line(kind=MomentKind.SAID, text=own_words_of_teacher())


def _tidy(line: str) -> str:
    return " ".join(line.split())


_CSS = f"""
body {{ margin: 0 auto; max-width: 44rem; padding: 1.5rem 1.2rem; background: #FFFFFF; color: #1F2A37;
  font: 1.125rem/1.6 {FAMILIES}; }}
h1 {{ font-size: 1.8rem; line-height: 1.25; margin: 0 0 .5rem; }}
h2 {{ font-size: 1.4rem; line-height: 1.3; margin: 2.5rem 0 .8rem; padding-bottom: .2rem;
  border-bottom: 2px solid #1F2A37; }}
h3 {{ font-size: 1.125rem; margin: 1.6rem 0 .3rem; }}
p {{ margin: .3rem 0; overflow-wrap: break-word; }}
.seen, .wait {{ border-left: 4px solid #5B6776; padding-left: .8rem; color: #46505D; }}
footer {{ margin-top: 3rem; border-top: 1px solid #5B6776; padding-top: .8rem; font-size: 1rem; }}
@media print {{ body {{ max-width: none; font-size: 12pt; }} h2, h3 {{ break-after: avoid; }} }}
"""
