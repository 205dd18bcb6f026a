"""The deck that learners handle: one page that needs nothing beside itself, and may ask nothing of any network.

What comes after the choice of an item that learners try themselves is packed: it is no secret, but nobody reads it by
chance. Everything else stands in the page as plain data. Ids are numbers, and so are groups, shapes, figures.

The scripts are joined in the order of ``SCRIPTS`` into one, with one scope, named to the browser by its hash. The
policy forbids `style` attributes, and an item's words `innerHTML`. Words of the page come from ``sentences.deck_page``
by key, never from a script. What may be done at a slide is an extra, ``{wants(slide), enter(slide, place, deck),
leave()}``: entered when the picture stands still, left when it moves or the slide is left.

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
from functools import cache
from importlib import resources
from pathlib import Path

from ...choice.words.choosing import choosing_words
from ...safe_write import write_text
from ...sentences.deck_page import deck_words, hearing_words, presenting_words
from ...sentences.writers import pause_note
from ...storyboard.model import PAUSE, Step, Storyboard
from ...storyboard.timeline import Timeline
from ...words.messages import speaking
from ..shared.steps import heading_label, picture_of
from .body import SEEN, deck_body
from .choice import choice_data, tells, told_data
from .handling import handling_data
from .motions import easing_data, motions_data
from .palettes import palette_css, palettes_for
from .pictures import NumberedNames, Shelf, figure_markup, page_figure, view_box
from .sealed_page import sealed_head
from .sound import MEDIA_FROM, sound_of, spoken_by_machine

__all__ = ["SCRIPTS", "STYLES", "deck_page", "write_html_deck"]

SCRIPTS = ("data.js", "picture.js", "handle.js", "choose.js", "hear.js", "presenter.js", "show.js")
STYLES = ("deck.css", "handle.css", "choose.css", "presenter.css")

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
        self.board: Storyboard = timeline.storyboard
        self.parts = _parts(self.board.steps)
        self.colours, self.groups = NumberedNames(), NumberedNames()
        self.open = Shelf(self.colours, self.groups)
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
            self.slide(number, step, self.open) if part is None else _closed(number, step, part)
            for number, (step, part) in enumerate(zip(board.steps, self.parts, strict=True))
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

    def slide(self, number: int, step: Step, shelf: Shelf) -> dict[str, object]:
        """One slide, its figures put on the shelf."""
        figure = picture_of(step)
        slide: dict[str, object] = {
            "id": f"s{number + 1}",
            "chapter": step.chapter,
            "heading": step.heading,
            "alt": figure.alt,
            "said": list(step.narration or self.asked(number)),
            "figure": shelf.figure(figure),
        }
        if step.teachers_own:
            slide["own"] = True
        if (take := self.sound(step.id)) is not None:
            slide["take"] = take
        if step.pause_s > 0.0:
            slide["pause"] = step.pause_s
        motions = motions_data(step, shelf)
        if motions:
            slide["before"] = shelf.figure(step.stills[0])
            slide["motions"] = motions
        if step.handling is not None:
            slide["handling"] = handling_data(step.handling, self.groups, page_figure(figure))
        if step.choice is not None:
            slide["choice"] = choice_data(step.choice, self.part_after(number))
        return slide

    def asked(self, number: int) -> tuple[str, ...]:
        """What stands beside a silent choice: the words of its question, which may be read as long as it lasts."""
        steps = self.board.steps
        if steps[number].choice is None:
            return ()
        earlier = (step for step in reversed(steps[:number]) if step.item == steps[number].item)
        return next((step.narration for step in earlier if step.narration), ())

    def part_after(self, number: int) -> int | None:
        """The part that is packed with the answer to the question of this slide."""
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
        texts = [(_NOTES, _json({"notes": [_notes(step) for step in self.board.steps], **_NO_PICTURES}))]
        last = self.open
        for part in sorted({part for part in self.parts if part is not None}):
            last = Shelf(self.colours, self.groups, rests_on=self.open, numbers_from=last)
            slides = [
                [number, self.slide(number, step, last)]
                for number, step in enumerate(self.board.steps)
                if self.parts[number] == part
            ]
            texts.append((part, _json({"slides": slides, "told": self.told(part, last), **last.data()})))
        return texts


def _notes(step: Step) -> list[str]:
    """What the teacher reads in the presenter view, a paragraph each."""
    return [*([step.note] if step.note else []), *([pause_note(step.pause_s)] if step.pause_s > 0.0 else [])]


def _parts(steps: Sequence[Step]) -> list[int | None]:
    """Of each step the number of the part that is packed with it; None of those that are open."""
    numbers: dict[str, int] = {}
    parts: list[int | None] = []
    for step in steps:
        parts.append(numbers.get(step.item) if step.reveals else None)
        if step.stage == PAUSE:
            numbers[step.item] = len(numbers) + 1
    return parts


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
