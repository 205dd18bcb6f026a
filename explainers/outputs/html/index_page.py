"""The page that opens a lesson's folder: the clip with captions and chapters, then every file and what it is for.

It is written last, looks at what is in the folder, and links to files beside itself alone. A page opened as a file may
not fetch the captions, so they stand in it; every word of the lesson is escaped, and no network is ever asked.

A page opened as a file has an origin of its own, so `'self'` alone would shut out the clip beside it: hence `media-src
'self' file: blob:`. A server that knows no parts of files lets no player seek; there the script fetches the clip
whole, past the cache, and plays it as a blob.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from functools import cache
from html import escape
from importlib import resources
from itertools import groupby
from pathlib import Path
from urllib.parse import quote

from ...drawing.svg import svg_of
from ...errors import OutputError
from ...figure.theme import Theme
from ...figure.themes import DARK, LIGHT
from ...safe_write import write_text
from ...sentences import index_page as words
from ...sentences.published import clock, credit_lines, lasts, series_line
from ...sentences.sheets import CutOutWords
from ...sentences.variants import version_line
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.captions import cue_text, timed_captions, vtt_text
from .index_parts import FoundFile, FoundPart, found_parts
from .sealed_page import inline_svg, sealed_head

__all__ = ["INDEX_NAME", "index_html", "write_index"]

INDEX_NAME = "index.html"

# What lies beside the page: as a file it has an origin of its own, so that 'self' alone would shut it out.
_BESIDE = "'self' file:"

_MANY = 3  # links on one line of a card


def write_index(timeline: Timeline, folder: Path) -> tuple[Path, ...]:
    """index.html in the folder, for what is there now.

    Raises : OutputError where it cannot be written, or a file of the lesson has its name
    """
    if timeline.storyboard.name == Path(INDEX_NAME).stem:
        raise OutputError(
            f"{folder / INDEX_NAME}: the slides of a lesson called {timeline.storyboard.name!r} have the name of the "
            "page that lists them. To mend it: give the lesson another name"
        )
    return (write_text(folder / INDEX_NAME, index_html(timeline, folder)),)


def index_html(timeline: Timeline, folder: Path) -> str:
    """The page for that folder, as it is now."""
    board = timeline.storyboard
    style, script = f"{_palettes()}\n{_static('index.css')}", _static("index.js")
    with speaking(board.language):
        # Whatever variant is played, the page lists them all; files of one lesson alone may lie in any folder.
        parts = list(found_parts(folder, list(dict.fromkeys((board.name.partition(".")[0], folder.name)))))
        clip = _clip_in(folder, timeline)
        body = [
            f"<body>\n<header>\n<h1>{escape(_tidy(board.title))}</h1>",
            *(f"<p>{escape(_tidy(line))}</p>" for line in _about(timeline, clip is not None)),
            "</header>\n<main>",
            *(_player(timeline, clip, parts) if clip else _still_picture(folder, timeline)),
            *(_group(group, list(run), board.cut_outs) for group, run in groupby(parts, key=lambda part: part.group)),
            "</main>",
            _foot(timeline),
            *([f"<script>{script}</script>"] if clip else []),
            "</body></html>\n",
        ]
        head = sealed_head(
            language=board.language, title=board.title, shown="".join(body), style=style,
            script=script if clip else "", images=_BESIDE if clip else "", media=f"{_BESIDE} blob:" if clip else "",
            fetches="'self'" if clip else "",
        )  # fmt: skip
    return "\n".join((head, *body))


def _clip_in(folder: Path, timeline: Timeline) -> Path | None:
    """The clip, if it is there and was made from the lesson as it is now, which its captions tell."""
    clip = folder / f"{timeline.storyboard.name}.mp4"
    return clip if clip.is_file() and not _of_before(folder, timeline) else None


def _of_before(folder: Path, timeline: Timeline) -> bool:
    """Whether there is a clip with other captions than the lesson has now."""
    captions = folder / f"{timeline.storyboard.name}.vtt"
    if not captions.is_file() or not captions.with_suffix(".mp4").is_file():
        return False
    return captions.read_bytes() != vtt_text(timeline).encode()


def _about(timeline: Timeline, with_clip: bool) -> Iterator[str]:
    imprint = timeline.storyboard.imprint
    if series := series_line(imprint.series, imprint.number):
        yield series
    of_clip = (lasts(timeline.seconds), version_line(timeline.storyboard.variant)) if with_clip else ()
    if about := " ".join(line for line in (*imprint.about, *of_clip) if line):
        yield about


def _player(timeline: Timeline, clip: Path, parts: Iterable[FoundPart]) -> Iterator[str]:
    posters = [file for part in parts if part.thing is words.IndexItem.POSTER for file in part.files]
    poster = next((f' poster="{_link(file)}"' for file in posters if file.place.endswith(".png")), "")
    yield f'<section class="clip" aria-labelledby="the-clip"><h2 id="the-clip">{escape(words.clip_heading())}</h2>'
    yield '<div class="watch"><div class="screen">'
    yield (
        f'<video id="video" src="{escape(quote(clip.name))}"{poster} controls playsinline preload="metadata"'
        f' width="1920" height="1080" aria-labelledby="the-clip"></video>'
    )
    yield (
        f'<p><button type="button" id="captions" data-on="{escape(words.captions_on())}"'
        f' data-off="{escape(words.captions_off())}" hidden>{escape(words.captions_on())}</button></p>'
    )
    yield f'<p id="trouble" role="alert" data-words="{escape(words.clip_unplayable())}"></p></div>'
    yield f'<nav aria-labelledby="chapters"><h3 id="chapters">{escape(words.chapters_heading())}</h3><ol>'
    for chapter in timeline.chapters:
        # Half a frame in, so that no rounding of a player shows the frame before.
        at_s = (chapter.start + 0.5) / timeline.fps
        time = escape(clock(chapter.start / timeline.fps))
        title = escape(_tidy(chapter.title))
        yield f'<li><button type="button" data-at="{at_s:.4f}"><span>{time}</span> <b>{title}</b></button></li>'
    yield "</ol></nav></div></section>"
    yield f'<script type="application/json" id="cues">{_cues(timeline)}</script>'


def _cues(timeline: Timeline) -> str:
    """The captions for the page's script; nothing in them can end the element."""
    cues = [[cue.start_ms / 1000, cue.end_ms / 1000, cue_text(cue)] for cue in timed_captions(timeline)]
    told = {"label": words.captions_track(), "language": timeline.storyboard.language, "cues": cues}
    return json.dumps(told, ensure_ascii=False).replace("<", "\\u003c")


def _still_picture(folder: Path, timeline: Timeline) -> Iterator[str]:
    if _of_before(folder, timeline):
        yield f"<p>{escape(words.clip_of_before())}</p>"
    poster = timeline.storyboard.poster
    if poster is not None:
        yield f'<div class="poster">{inline_svg(svg_of(poster, width_px=960, ids=False))}</div>'


def _group(group: words.Group, parts: list[FoundPart], to_cut: CutOutWords | None) -> str:
    heading = f'<h2 id="{group.value}">{escape(words.group_heading(group))}</h2>'
    cards = "".join(_card(part, to_cut) for part in parts)
    return f'<section aria-labelledby="{group.value}">{heading}<ul class="parts">\n{cards}</ul></section>'


def _card(part: FoundPart, to_cut: CutOutWords | None) -> str:
    title = escape(words.title_of(part.thing, to_cut))
    links = "".join(
        f'<a href="{_link(file)}"><span class="unseen">{title}: </span>{escape(file.label)}'
        f" <small>{escape(words.size_in_words(file.size))}</small></a>"
        for file in part.files
    )
    wide = ' class="many"' if len(part.files) > _MANY else ""
    purpose = escape(words.purpose_of(part.thing, to_cut))
    return f"<li{wide}><h3>{title}</h3><p>{purpose}</p><p class='files'>{links}</p></li>\n"


def _link(file: FoundFile) -> str:
    return escape(quote(file.place))


def _foot(timeline: Timeline) -> str:
    imprint = timeline.storyboard.imprint
    lines = [line for line in (*credit_lines(imprint.credit, imprint.licence), imprint.draft) if line]
    return f"<footer>{''.join(f'<p>{escape(_tidy(line))}</p>' for line in lines)}</footer>" if lines else ""


def _tidy(line: str) -> str:
    return " ".join(line.split())


def _palettes() -> str:
    """Our light theme as the page's colours, and our dark one for those whose machine asks for it."""
    return f":root {{ {_palette(LIGHT)} }}\n@media (prefers-color-scheme: dark) {{ :root {{ {_palette(DARK)} }} }}"


def _palette(theme: Theme) -> str:
    named = {"paper": theme.paper, "ink": theme.ink, "quiet": theme.quiet, "table": theme.table, "tray": theme.tray}
    named |= {"edge": theme.panel_stroke, "attention": theme.attention, "stitch": theme.stitch_to_come}
    return " ".join(f"--{name}: {colour};" for name, colour in named.items())


@cache
def _static(name: str) -> str:
    return (resources.files(__package__) / "static" / name).read_text(encoding="utf-8")
