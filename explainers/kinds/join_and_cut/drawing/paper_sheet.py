"""The question of one item as it is printed: the same as on the stage, laid out anew for a page."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from ....choice.drawing.option_cells import OptionCells, largest_extent, options_on_paper
from ....choice.drawing.question_page import EDGE
from ....figure.layout import Box, extent_of
from ....figure.model import Entry
from ....figure.paper import Picture
from ....figure.subject import Thing
from ....geometry.angles import wrapped_deg
from ....geometry.rigid_motion import Similarity
from ....geometry.rings import shortest_side
from ....typeface.faces import face
from ....words.names import named
from ..words.actions import action_label
from .assembly_drawing import AssemblyDrawing
from .paper_layout import GAP, fit_paper
from .sheet import Sheet, _Arranged
from .sheet_layout import Needs, SheetLayout

__all__ = ["PaperSheet", "TwoPageSheet"]

_TAG = "-sheet"
_STEP = 0.96  # from one scale that is tried to the next
_SHARES = (0.36, 0.42, 0.48, 0.54, 0.60, 0.66)  # of the height, for base and pieces
_BASE_LEAST = 0.7  # of what is wished for: options matter more, since what tells them apart is finer
_GOOD_ENOUGH = 0.97


@dataclass(frozen=True)
class PaperSheet(Sheet):
    """The printed sheet of one item, as high as it needs to be.

    width       : stage units, from x = 0
    height      : stage units at most; the sheet's upper edge lies at y = 0
    mm_per_unit : on paper
    base_mm     : what the base is to measure across, unless there is less room
    option_mm   : the same for the largest option
    """

    width: float = 18.0
    height: float = 18.0
    mm_per_unit: float = 10.0
    base_mm: float = 62.0
    option_mm: float = 44.0

    def picture(self, alt: str) -> Picture:
        """The whole sheet at its printed size."""
        figure = self.figure(alt)
        return Picture(
            figure=figure,
            box=Box(-EDGE, self._arranged.options.room.bottom - EDGE, self.width + EDGE, EDGE),
            mm_per_unit=self.mm_per_unit,
        )

    @property
    def _foot(self) -> float:
        """How far down the options may reach."""
        return -self.height

    @property
    def scales_mm(self) -> tuple[float, float]:
        """What a unit of the item measures on paper: in base and pieces, in the options."""
        return self._arranged.assembly.scale * self.mm_per_unit, self._arranged.options.scale * self.mm_per_unit

    @cached_property
    def _arranged(self) -> _Arranged:
        scale, _ = max((self._roughly(share) for share in _SHARES), key=self._worth)
        most = max(self.height * share for share in _SHARES)
        best: tuple[tuple[float, float], AssemblyDrawing, SheetLayout, OptionCells] | None = None
        while True:  # with letters, base and pieces take more room: smaller ones may leave the options enough
            assembly = AssemblyDrawing(solution=self.solution, theme=self.theme, scale=scale, tag=_TAG)
            layout = fit_paper(self.width, 0.0, most, self._needs(assembly))
            options = None if layout is None else self._options(layout.pieces.bottom)
            if layout is not None and options is not None:
                worth = self._worth((scale, options))
                if best is None or worth > best[0]:
                    best = (worth, assembly, layout, options)
                if best[0][0] >= _GOOD_ENOUGH or self._base_worth(scale) <= best[0][0]:
                    break
            scale *= _STEP
        _, assembly, layout, options = best
        return _Arranged(assembly, layout, options, min(self._shortest(assembly.scale), options.shortest_side))

    def _shortest(self, scale: float) -> float:
        """The shortest side of base and pieces at this scale."""
        rings = list(self.solution.item.base.rings)
        rings += [placement.ring for placement in self.solution.placements]
        return scale * shortest_side(rings)

    def _word_text(self, index: int) -> tuple[str, float]:
        """Never smaller than the theme's type: what has no room is left out, since the page says it too."""
        piece = self.solution.placements[index].piece
        size, said = self.theme.word_size, action_label(piece.does, self.theme.fabrics[piece.does].word)
        text = f"{said}: {named(piece.name)}"
        most = self.width - 1.0 if len(self.solution.placements) == 1 else self.width / 2 - 1.0
        return (text, size) if face(bold=True).width(text, size) <= most else (said, size)

    def _roughly(self, share: float) -> tuple[float, OptionCells | None]:
        """(scale of base and pieces, options below them) where so much of the height is theirs; letters left out."""
        base = extent_of(self.solution.item.base.exterior)
        scale = self.base_mm / self.mm_per_unit / max(base.width, base.height)
        shown = [
            extent_of(Similarity(turn_deg=wrapped_deg(-placement.turn_deg)).apply(placement.ring))
            for placement in self.solution.placements
        ]
        while True:
            pieces = tuple((box.width * scale, box.height * scale) for box in shown)
            needs = Needs((base.width * scale, base.height * scale), pieces, self._word_widths)
            layout = fit_paper(self.width, 0.0, self.height * share, needs)
            if layout is not None:
                return scale, self._options(layout.pieces.bottom)
            scale *= _STEP

    def _worth(self, tried: tuple[float, OptionCells | None]) -> tuple[float, float]:
        """How near both scales come to what is wished for: first the worse of the two."""
        scale, options = tried
        if options is None:
            return (0.0, 0.0)
        of_base = self._base_worth(scale)
        of_options = options.scale * self._option_extent * self.mm_per_unit / self.option_mm
        return (min(of_base, of_options, 1.0), min(of_base, 1.0 / _BASE_LEAST) + of_options)

    def _base_worth(self, scale: float) -> float:
        base = extent_of(self.solution.item.base.exterior)
        return scale * max(base.width, base.height) * self.mm_per_unit / (_BASE_LEAST * self.base_mm)

    @cached_property
    def _option_extent(self) -> float:
        return largest_extent(self.solution)

    def _options(self, foot: float) -> OptionCells | None:
        """The options below base and pieces."""
        wished = self.option_mm / self.mm_per_unit
        return options_on_paper(self.solution, Box(0.0, self._foot, self.width, foot - GAP), wished=wished)


@dataclass(frozen=True)
class TwoPageSheet(PaperSheet):
    """A question on two pages: base and pieces on one, the options on the next, each as large as is wished for.

    On the stage the options lie below base and pieces, all ``height`` of a page further down.

    options_height : stage units at most, on the second page
    """

    options_height: float = 18.0

    def pictures(self, asked_alt: str, options_alt: str) -> tuple[Picture, Picture]:
        """Base and pieces; the options."""
        options = self._arranged.options.room
        first = Box(0.0, self._arranged.layout.pieces.bottom, self.width, 0.0)
        return self._page(asked_alt, first, options=False), self._page(options_alt, options, options=True)

    def _page(self, alt: str, box: Box, *, options: bool) -> Picture:
        whole = self.figure(alt)
        entries = tuple(entry for entry in whole.entries if _is_of_options(entry) is options)
        box = Box(-EDGE, box.bottom - EDGE, self.width + EDGE, box.top + EDGE)
        return Picture(figure=replace(whole, entries=entries), box=box, mm_per_unit=self.mm_per_unit)

    @property
    def _foot(self) -> float:
        return -self.height - GAP - self.options_height

    @cached_property
    def _arranged(self) -> _Arranged:
        options = self._options(-self.height)
        assert options is not None
        scale, _ = self._roughly(1.0)
        while True:
            assembly = AssemblyDrawing(solution=self.solution, theme=self.theme, scale=scale, tag=_TAG)
            layout = fit_paper(self.width, 0.0, self.height, self._needs(assembly))
            if layout is not None:
                return _Arranged(assembly, layout, options, min(self._shortest(assembly.scale), options.shortest_side))
            scale *= _STEP


def _is_of_options(entry: Entry) -> bool:
    return entry.subject is not None and entry.subject.thing == Thing.OPTION
