"""The elements of the deck's page: what is seen before any script has run, and what the script fills in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from html import escape

from ...figure.layout import PANEL_FOOT, PANEL_TOP, Box
from ...figure.model import STAGE_WIDTH
from ...sentences.deck_page import needs_scripting
from ...sentences.published import credit_lines, series_line
from ...storyboard.model import Storyboard
from ..shared.steps import picture_of
from .palettes import Palette
from .pictures import view_box

__all__ = ["SEEN", "deck_body"]

# The part of the stage that the picture shows; heading, stitches and words stand in the page itself.
SEEN = Box(0.0, PANEL_FOOT - 0.12, STAGE_WIDTH, PANEL_TOP + 0.12)


def deck_body(
    board: Storyboard, words: Mapping[str, str], first: str, palettes: Sequence[Palette], *, packed: bool
) -> list[str]:
    """The body up to its data, a line each.

    words  : of the page, by key; they are text and are escaped here, like all of the lesson's
    first  : the first picture, as markup
    packed : whether there are solutions that open later
    """
    step = board.steps[0]
    said = "".join(f"<p>{escape(sentence)}</p>" for sentence in step.narration)
    box = " ".join(f"{value:g}" for value in view_box(SEEN))
    imprint = board.imprint
    foot = (series_line(imprint.series, imprint.number), *credit_lines(imprint.credit, imprint.licence), imprint.draft)
    draft = f'<p id="draft">{escape(imprint.draft)}</p>' if imprint.draft else ""
    look = [_look(palette, words) for palette in palettes] if len(palettes) > 1 else []
    return [
        "<body>",
        f'<header><p id="lesson">{escape(board.title)}</p><p id="chapter">{escape(step.chapter)}</p>'
        '<span id="stitches" aria-hidden="true"><span id="sewn"></span></span></header>',
        "<main>",
        f'<div id="title"><h1 id="heading" tabindex="-1">{escape(step.heading)}</h1><div id="views"></div></div>',
        '<div id="shown"><div id="stage"><svg xmlns="http://www.w3.org/2000/svg" id="picture" role="img"'
        f' viewBox="{box}" aria-label="{escape(picture_of(step).alt)}">{first}</svg><div id="over"></div></div>',
        f'<div id="said">{said}</div></div>',
        '<div id="beside"><div id="doing"></div>',
        '<div id="later"></div>',
        f'<div id="size" hidden>{_button("larger", words)}</div>',
        f'<details id="told"><summary>{escape(words["in_words"])}</summary>'
        f'<div id="in-words"><p>{escape(picture_of(step).alt)}</p></div></details>',
        f"<noscript><p>{escape(needs_scripting())}</p></noscript>",
        f"{draft}</div>",
        "</main>",
        '<p id="live" class="unseen" role="status" aria-live="polite"></p>',
        f'<nav id="bar" aria-label="{escape(words["slides"])}" hidden>',
        '<p id="hint"></p>',
        *(_button(key, words) for key in ("menu", "again")),
        '<p id="place"></p>',
        '<button type="button" id="more" hidden></button>',
        *(_button(key, words) for key in ("back", "next")),
        "</nav>",
        f'<dialog id="choices" aria-label="{escape(words["menu"])}">',
        f'<div id="choices-head"><h2>{escape(words["menu"])}</h2>{_button("close", words)}</div>',
        f'<details id="contents" open><summary>{escape(words["contents"])}</summary><div id="list"></div></details>',
        f"<fieldset><legend>{escape(words['colours'])}</legend>",
        *([_look_auto(words), *look] if look else [f"<p>{escape(words['palette_own'])}</p>"]),
        "</fieldset>",
        f"<fieldset><legend>{escape(words['movement'])}</legend>"
        f'<label><input type="checkbox" id="calm">{escape(words["calm"])}</label></fieldset>',
        f'<fieldset id="tools"><legend>{escape(words["more"])}</legend>{_button("print", words)}</fieldset>',
        f"<p>{escape(words['keys'])}</p>",
        *([f'<p id="packed">{escape(words["packed"])}</p>'] if packed else []),
        *(f"<p>{escape(line)}</p>" for line in foot if line),
        "</dialog>",
        '<div id="printed"></div>',
    ]


def _button(key: str, words: Mapping[str, str]) -> str:
    return f'<button type="button" id="{key}">{escape(words[key])}</button>'


def _look(palette: Palette, words: Mapping[str, str]) -> str:
    name = escape(words[f"palette_{palette.name}"])
    return f'<label><input type="radio" name="palette" value="{palette.name}">{name}</label>'


def _look_auto(words: Mapping[str, str]) -> str:
    return f'<label><input type="radio" name="palette" value="" checked>{escape(words["palette_auto"])}</label>'
