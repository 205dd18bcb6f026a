"""The deck that learners handle: one page that needs nothing beside itself, and may ask nothing of any network.

What comes after the choice of an item that learners try themselves is packed: it is no secret, but nobody reads it by
chance. Everything else stands in the page as plain data. Ids are numbers, and so are groups, shapes, figures.

The scripts are joined in the order of ``SCRIPTS`` into one, with one scope, named to the browser by its hash. The
policy forbids `style` attributes, and an item's words `innerHTML`. Words of the page come from ``sentences.deck_page``
by key, never from a script. A slide has moments, a step each (``slides.py``); those up to a stop are a run: they play
one after another and their words stand together. What may be done at a moment is an extra, ``{wants(moment),
enter(moment, place, deck), leave()}``: entered when the picture stands still, left when it moves or the run is left.

The page remembers answers in sessionStorage and, a quarter of a second later, in the state of its history entry:
Chromium may lose the first when a file is loaded again on a busy machine, and some browsers keep none for files. The
presenter view is an empty window that this page fills, so that both have one origin, for files too; its style is a
copy that the policy knows by hash. Once the deck is loaded again the old window can only say that it is over.
"""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from importlib import resources
from pathlib import Path

from ...choice.words.choosing import choosing_words
from ...figure.model import Figure
from ...safe_write import write_text
from ...sentences.deck_page import deck_words, hearing_words, presenting_words
from ...sentences.writers import pause_note
from ...storyboard.model import Step, Storyboard
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.steps import heading_label, picture_of
from .body import SEEN, deck_body
from .choice import choice_data, tells, told_data
from .handling import handling_data, loose_data
from .layouts import Layouts, Panels, panels_of
from .motions import easing_data, motions_data
from .palettes import palette_css, palettes_for
from .pictures import NumberedNames, Shelf, figure_markup, page_figure, view_box
from .sealed_page import sealed_head
from .slides import is_stop, parts_of, slides_of
from .sound import MEDIA_FROM, sound_of, spoken_by_machine

__all__ = ["SCRIPTS", "STYLES", "deck_page", "write_html_deck"]

SCRIPTS = (
    *("data.js", "layout.js", "picture.js", "bar.js"),
    *("hand.js", "guide.js", "handle.js", "loose.js"),
    *("clock.js", "choose.js", "answers.js"),
    *("hear.js", "presenter.js", "menu.js", "show.js"),
)
STYLES = ("deck.css", "seats.css", "handle.css", "choose.css", "presenter.css")

_NOTES = 0  # the part with the notes of every slide; the parts of choices are counted from 1
_NO_PICTURES: dict[str, object] = {"shapes": [], "firstShape": 0, "figures": [], "firstFigure": 0}


def write_html_deck(timeline: Timeline, folder: Path) -> Path:
    """NAME.html in the folder.

    Raises : OutputError where it cannot be written, FontError for a character that the typeface lacks
    """
    return write_text(folder / f"{timeline.storyboard.name}.html", deck_page(timeline))


def deck_page(timeline: Timeline) -> str:
    """The page as text; in the lesson's language."""
    with speaking(timeline.storyboard.language):
        return _Page(timeline).text()


class _Page:
    """A page being put together."""

    def __init__(self, timeline: Timeline) -> None:
        # On a page each slide begins with what it is about: a card would keep those waiting who go back and forth.
        told = tuple(step.without_card() for step in timeline.storyboard.steps)
        self.board: Storyboard = replace(timeline.storyboard, steps=told)
        self.timeline = timeline
        self.parts = parts_of(self.board.steps)
        self.slides = slides_of(self.board.steps, self.parts)
        self.colours, self.groups = NumberedNames(), NumberedNames()
        self.open = Shelf(self.colours, self.groups)
        self.layouts = Layouts(self.groups)
        self.sound = sound_of(timeline)
        self.spoken = timeline.narration is not None and bool(timeline.narration.takes)
        self.words = {**deck_words(), **dict(self.board.page_words), **choosing_words(), **presenting_words()}
        if self.spoken:
            self.words |= hearing_words(scratch=spoken_by_machine(timeline))

    def text(self) -> str:
        """The whole document."""
        board = self.board
        ground = picture_of(board.steps[0])
        first = figure_markup(ground, self.open)
        shown = [
            self.slide(number, self.open) if part is None else _closed(number, board.steps[each[0]], part)
            for number, each in enumerate(self.slides)
            for part in (self.parts[each[0]],)
        ]
        sealed = self.sealed()
        label = next((found for step in board.steps if (found := heading_label(step.picture))), None)
        palettes = palettes_for(self.colours.numbers, paper=ground.background, ink=label.colour if label else "#000000")
        data = {
            "lesson": board.name,
            "title": board.title,
            "language": board.language,
            "words": self.words,
            "view": view_box(SEEN),
            "eased": easing_data(),
            "palettes": [palette.name for palette in palettes],
            "slides": shown,
            **self.open.data(),
        }
        script = _script()
        body = [
            *deck_body(board, self.words, first, palettes, packed=len(sealed) > 1),
            f'<script type="application/json" id="open">{_json_in_page(data)}</script>',
            *(f'<script type="text/plain" id="part-{number}">{_packed(text)}</script>' for number, text in sealed),
            f"<script>{script}</script>",
            "</body></html>\n",
        ]
        head = sealed_head(
            language=board.language,
            title=board.title,
            shown="".join((*body, *(text for _, text in sealed))),
            style="\n".join([palette_css(palettes, self.colours.numbers), *map(_static, STYLES)]),
            script=script,
            media=MEDIA_FROM if self.spoken else "",
        )
        return "\n".join((head, *body))

    def slide(self, number: int, shelf: Shelf) -> dict[str, object]:
        """One slide with its moments, their figures put on the shelf."""
        steps = [self.board.steps[each] for each in self.slides[number]]
        shown = [page_figure(picture_of(step)) for step in steps]
        seen = [page_figure(still) for step in steps for still in step.stills]
        keys = self.grounds(steps, shown)
        layouts = []
        for key in dict.fromkeys(keys):
            here = [step for step, own in zip(steps, keys, strict=True) if own == key]
            figures = [page_figure(still) for step in here for still in step.stills]
            layouts.append(
                self.layouts.data(
                    [figure for figure in figures if panels_of(figure) == key[1]],
                    next((step.handling for step in here if step.handling is not None), None),
                )
            )
        return {
            "id": f"s{number + 1}",
            "chapter": steps[0].chapter,
            "view": self.layouts.seen_part(seen),
            "layouts": layouts,
            "moments": [
                {**self.moment(step, each, number, shelf), "layout": [*dict.fromkeys(keys)].index(key)}
                for step, each, key in zip(steps, self.slides[number], keys, strict=True)
            ],
        }

    def grounds(self, steps: Sequence[Step], shown: Sequence[Figure]) -> list[tuple[int, Panels]]:
        """What moments that share a layout have in common: until where the page plays on, and the panels."""
        stops = [is_stop(step) for step in steps]
        return [(sum(stops[:number]), panels_of(figure)) for number, figure in enumerate(shown)]

    def moment(self, step: Step, number: int, slide: int, shelf: Shelf) -> dict[str, object]:
        """What one step shows and says on its slide."""
        figure = picture_of(step)
        first, after = self.timeline.step_span(step.id)
        moment: dict[str, object] = {
            "step": step.neutral_id,
            "heading": step.heading,
            "alt": figure.alt,
            "said": list(step.narration),
            "figure": shelf.figure(figure),
            "seconds": round((after - first) / self.timeline.fps, 1),
        }
        if is_stop(step):
            moment["stop"] = True
        if step.teachers_own:
            moment["own"] = True
        if (take := self.sound(step.id)) is not None:
            moment["take"] = take
        if step.pause_s > 0.0:
            moment["pause"] = step.pause_s
        motions = motions_data(step, shelf)
        if motions:
            moment["before"] = shelf.figure(step.stills[0])
            moment["motions"] = motions
            if panels_of(step.stills[0]) != panels_of(figure):
                moment["elsewhere"] = True
        if step.handling is not None:
            laid = step.handling.until
            moment["handling"] = {
                **handling_data(step.handling, self.groups, page_figure(figure)),
                "until": next(
                    (at for at, each in enumerate(self.slides[slide]) if self.board.steps[each].stage == laid), 0
                ),
            }
        if step.choice is not None:
            moment["choice"] = choice_data(step.choice, self.part_after(number))
        if step.loose:
            moment["loose"] = [loose_data(each, self.groups, page_figure(figure)) for each in step.loose]
        return moment

    def part_after(self, number: int) -> int | None:
        """The part that is packed with the answer to the question of this step."""
        item = self.board.steps[number].item
        later = zip(self.board.steps[number + 1 :], self.parts[number + 1 :], strict=True)
        return next((part for step, part in later if part is not None and step.item == item), None)

    def told(self, part: int, shelf: Shelf) -> list[dict[str, object]]:
        """What is said to whoever chooses, of each option of the question that this part answers."""
        for number, step in enumerate(self.board.steps):
            if step.choice is not None and tells(step.choice) and self.part_after(number) == part:
                return told_data(step.choice, shelf.figure)
        return []

    def sealed(self) -> list[tuple[int, str]]:
        """Each part that will be packed, with its number."""
        notes = [[_notes(self.board.steps[each]) for each in slide] for slide in self.slides]
        texts = [(_NOTES, _json({"notes": notes, **_NO_PICTURES}))]
        last = self.open
        for part in sorted({part for part in self.parts if part is not None}):
            last = Shelf(self.colours, self.groups, rests_on=self.open, numbers_from=last)
            slides = [
                [number, self.slide(number, last)]
                for number, each in enumerate(self.slides)
                if self.parts[each[0]] == part
            ]
            texts.append((part, _json({"slides": slides, "told": self.told(part, last), **last.data()})))
        return texts


def _notes(step: Step) -> dict[str, object]:
    """What the teacher reads in the presenter view: the id by which words are written for a step, and paragraphs."""
    pause = [pause_note(step.pause_s)] if step.pause_s > 0.0 else []
    return {"step": step.id, "note": [*([step.note] if step.note else []), *pause]}


def _closed(number: int, step: Step, part: int) -> dict[str, object]:
    """What is known of a slide before its part is opened."""
    return {"id": f"s{number + 1}", "chapter": step.chapter, "part": part, "closed": True}


def _json_in_page(data: object) -> str:
    """JSON that cannot end the element in which it stands."""
    return _json(data).replace("<", "\\u003c")


def _json(data: object) -> str:
    return json.dumps(data, ensure_ascii=False, separators=(",", ":"))


def _packed(text: str) -> str:
    deflate = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    return base64.b64encode(deflate.compress(text.encode()) + deflate.flush()).decode()


@cache
def _script() -> str:
    """The scripts as one, with one scope."""
    return '"use strict";\n{\n' + "\n".join(_static(name) for name in SCRIPTS) + "\n}\n"


@cache
def _static(name: str) -> str:
    return (resources.files(__package__) / "static" / "deck" / name).read_text(encoding="utf-8")
