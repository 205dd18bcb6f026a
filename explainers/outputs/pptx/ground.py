"""What a deck's slides are laid on: our own empty deck, or a school's slide file, with the place for the pictures."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from ...errors import Fault, OutputError
from ...figure.layout import Box, extent_of_entries
from ...figure.model import STAGE_HEIGHT, STAGE_WIDTH, Area, Entry, Figure, Label, Role
from ...frames.page import SLIDE_EMU, Page
from ...typeface.faces import label_box
from ..shared.steps import undecorated
from .blank import blank_deck, title_layout
from .template import chosen_layout, free_places, template_deck

if TYPE_CHECKING:
    from pptx.presentation import Presentation as Deck
    from pptx.slide import SlideLayout

__all__ = ["Ground", "own_ground", "school_ground"]

_PAD = 0.2  # of paper round a picture on a school's slide
_LEAST = 0.4  # of the slide's width that a picture as wide as the stage may be left


@dataclass(frozen=True, slots=True)
class Ground:
    """A deck without slides, and how slides are laid on it.

    page  : where the stage lies on a slide, in EMU
    paper : what of the stage is seen on a school's slide, a sheet of paper under the picture; None on our own, where
            the slide itself is the paper and the stage
    """

    deck: Deck
    layout: SlideLayout
    page: Page
    paper: Box | None = None

    def laid_out(self, figure: Figure) -> tuple[Entry, ...]:
        """The entries that become shapes, without the heading, which is the title of the slide.

        The row of stitches along the top edge, which nothing else meets, is read last, not before the picture.
        """
        if self.paper is None:
            return (*undecorated(figure).entries, *(entry for entry in figure.entries if entry.role == Role.PROGRESS))
        left, bottom, right, top = self.paper.left, self.paper.bottom, self.paper.right, self.paper.top
        # Colours of a figure are checked against its own background, not against the school's.
        under = Area(id="paper", group="paper", role=Role.PANEL, rounded=_PAD, fill=figure.background,
                     rings=(((left, bottom), (right, bottom), (right, top), (left, top)),))  # fmt: skip
        return (under, *undecorated(figure).entries)


def own_ground(paper: str, ink: str) -> Ground:
    """Our own deck: the stage fills the slide."""
    deck = blank_deck(paper, ink)
    return Ground(deck, title_layout(deck), SLIDE_EMU)


def school_ground(template: Path, figures: Sequence[Figure], *, keeps_links: bool = False) -> Ground:
    """A school's deck; the pictures are as large as the largest free place lets them, all at one scale.

    keeps_links : whether what the file fetches from elsewhere is kept
    Raises : OutputError where the file is not fit for it
    """
    deck = template_deck(template, keeps_links=keeps_links)
    layout = chosen_layout(deck)
    paper = _seen(figures)
    unit, across, down = max(
        (
            (min((right - x) / paper.width, (bottom - y) / paper.height), (x + right) / 2, (y + bottom) / 2)
            for x, y, right, bottom in free_places(deck, layout)
        ),
        default=(0.0, 0.0, 0.0),
    )
    if unit < _LEAST * deck.slide_width / STAGE_WIDTH:
        message = f'the layout "{layout.name}" leaves no room for a picture beside its title and its ornaments'
        fix = "give the file a layout of the kind Title Only whose title leaves most of the slide free"
        raise OutputError(str(Fault(file=str(template), field="template", message=message, fix=fix)))
    middle_x, middle_y = paper.middle
    page = Page(unit * STAGE_WIDTH, across - middle_x * unit, down - (STAGE_HEIGHT - middle_y) * unit)
    return Ground(deck, layout, page, paper)


def _seen(figures: Iterable[Figure]) -> Box:
    """What the pictures take up on the stage, with paper round it."""
    entries = [entry for figure in figures for entry in undecorated(figure).entries]
    boxes = [Box(*label_box(entry)) for entry in entries if isinstance(entry, Label)]
    shapes = [entry for entry in entries if not isinstance(entry, Label)]
    boxes += [extent_of_entries(shapes)] if shapes else []
    if not boxes:
        return Box(0.0, 0.0, STAGE_WIDTH, STAGE_HEIGHT)
    return Box(
        max(0.0, min(box.left for box in boxes) - _PAD),
        max(0.0, min(box.bottom for box in boxes) - _PAD),
        min(STAGE_WIDTH, max(box.right for box in boxes) + _PAD),
        min(STAGE_HEIGHT, max(box.top for box in boxes) + _PAD),
    )
