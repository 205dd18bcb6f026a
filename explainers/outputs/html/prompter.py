"""A prompter: one page to read a lesson from while any recorder runs, which notes when each step was on it.

The page needs nothing beside itself: its pictures, style and script stand in it, named to the browser by their hashes,
and it may ask nothing of any network. Every word of the lesson is escaped.
"""

from __future__ import annotations

from functools import cache
from html import escape
from importlib import resources
from pathlib import Path

from ...drawing.svg import svg_of
from ...safe_write import write_text
from ...sentences.prompter import prompter_about, prompter_buttons, prompter_done, steps_read
from ...storyboard.model import Step
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from .sealed_page import inline_svg, sealed_head

__all__ = ["prompter_page", "write_prompter"]

_ABOUT = "When each step was on the prompter page, in seconds; see: explainers fit --log"


def write_prompter(timeline: Timeline, path: Path) -> Path:
    """Write the page to that file; the path is handed back."""
    return write_text(path, prompter_page(timeline))


def prompter_page(timeline: Timeline) -> str:
    """The page: a section for each step with words, with its picture, its words and its planned seconds."""
    board = timeline.storyboard
    style, script = _static("prompter.css"), _static("prompter.js")
    spoken = [step for step in board.steps if step.narration]
    with speaking(board.language):
        about, done, read, words = prompter_about(), prompter_done(), steps_read(), prompter_buttons()
    named = " ".join(f'data-{name}="{escape(text)}"' for name, text in words.items())
    buttons = "".join(
        f'<button id="{button}" type="button">{escape(words["start" if button == "next" else button])}</button>'
        for button in ("back", "again", "next")
    )
    body = "\n".join(
        [
            f'<body data-lesson="{escape(board.name)}" data-about="{escape(_ABOUT)}" {named}>',
            f'<header><h1>{escape(board.title)}</h1><span id="count"></span>',
            '<span id="left" role="timer"></span></header>',
            f'<progress id="progress" max="{len(spoken)}" value="0" aria-label="{escape(read)}"></progress>',
            "<main>",
            f'<div id="before" class="card"><p>{escape(about)}</p></div>',
            *(_section(step, timeline) for step in spoken),
            f'<div id="after" class="card" hidden><p>{escape(done)}</p>',
            f"<p><code>explainers fit LESSON RECORDING --log {escape(board.name)}.log.json</code></p></div>",
            "</main>",
            f"<footer>{buttons}</footer>",
            f"<script>{script}</script>",
            "</body></html>\n",
        ]
    )
    head = sealed_head(language=board.language, title=board.title, shown=body, style=style, script=script)
    return f"{head}\n{body}"


def _section(step: Step, timeline: Timeline) -> str:
    first, after = timeline.step_span(step.id)
    words = "".join(f"<p>{escape(said)}</p>" for said in step.narration)
    return (
        f'<section data-step="{escape(step.id)}" data-seconds="{(after - first) / timeline.fps:.1f}" hidden>'
        f"<div>{_picture(step)}<p class='step'>{escape(step.id)}</p></div>"
        f"<div class='words'>{words}</div></section>"
    )


def _picture(step: Step) -> str:
    # Without ids, since all the pictures stand on one page.
    return inline_svg(svg_of(step.picture, width_px=960, ids=False))


@cache
def _static(name: str) -> str:
    return (resources.files(__package__) / "static" / name).read_text(encoding="utf-8")
