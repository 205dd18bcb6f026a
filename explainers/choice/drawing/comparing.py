"""One option beside the outline, as large as the stage lets both: to be walked round while the others are away."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from ...figure.layout import WHOLE, Box, extent_of, view_into
from ...figure.model import Area, Circle, Entry, Figure, Label, Role
from ...figure.motion import Glide
from ...figure.panels import outline_entries, panel
from ...figure.signs import cross_sign
from ...figure.subject import THE_OUTLINE, option_subject
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Point, Similarity
from ..model import Verdict
from ..walk import WalkFact
from .choices import Choices
from .marked import walk_entries, walker_group

__all__ = ["Comparing"]

_PAD = 0.5
_LETTER = 0.8  # left of the option, for its letter and its sign
_BESIDE = 0.5  # from the option to its letter
_GAP = 0.3  # between the two parts
_WALKER = 0.2  # radius of the marker


@dataclass(frozen=True)
class Comparing:
    """The outline and one option, side by side and equally large, while the other options are away.

    choices : how all of them were arranged before, and are again
    """

    choices: Choices
    verdict: Verdict

    @cached_property
    def outline_view(self) -> Similarity:
        """From the outline's own coordinates to the left of the stage."""
        return view_into(self._outline_extent, self._rooms[0], self._scale)

    @cached_property
    def view(self) -> Similarity:
        """From the option's own coordinates to the right of the stage: turned as the question shows it."""
        drawn = self.verdict.drawn
        room = self._rooms[1]
        return view_into(
            self._shape,
            Box(room.left + _LETTER, room.bottom, room.right, room.top),
            self._scale * self._smaller,
            drawn,
        )

    @property
    def laid_view(self) -> Similarity:
        """From the coordinates in which facts speak of the option to the stage."""
        return self.view.after(self.verdict.fit.motion.inverse())

    def glides(self) -> tuple[Glide, Glide]:
        """The option from its cell and the outline from its place, each to its side of the stage."""
        start, there = self.choices.cells.view(self.verdict.label), self.view
        middle = extent_of(self.verdict.outline.exterior).middle
        own = option_subject(self.verdict.label).group
        outline = self._outline_extent.middle
        return (
            Glide.between(own, middle, start, there),
            Glide.between(THE_OUTLINE.group, outline, self.choices.view, self.outline_view),
        )

    def back_glides(self) -> tuple[Glide, ...]:
        """Both back to where they were."""
        return tuple(go.back for go in self.glides())

    @property
    def _outline_extent(self) -> Box:
        return extent_of(self.choices.solution.outline.exterior)

    @cached_property
    def _shape(self) -> Box:
        return extent_of(self.verdict.drawn.apply(self.verdict.outline.exterior))

    @property
    def _smaller(self) -> float:
        """From the outline's scale to that of the option's own drawing at which both are equally large."""
        return self.verdict.fit.motion.scale / self.verdict.drawn.scale

    @cached_property
    def _scale(self) -> float:
        """The one scale at which both have room beside each other."""
        outline, option = self._outline_extent, self._shape
        tallest = max(outline.height, option.height * self._smaller)
        wide = outline.width + option.width * self._smaller
        return min((WHOLE.width - 4 * _PAD - _LETTER - _GAP) / wide, (WHOLE.height - 2 * _PAD) / tallest)

    @cached_property
    def _rooms(self) -> tuple[Box, Box]:
        """What is left over is shared out evenly."""
        outline = self._outline_extent.width * self._scale
        option = self._shape.width * self._smaller * self._scale
        free = (WHOLE.width - _LETTER - _GAP - outline - option) / 4
        border = WHOLE.left + outline + 2 * free
        return (
            Box(WHOLE.left, WHOLE.bottom, border, WHOLE.top),
            Box(border + _GAP, WHOLE.bottom, WHOLE.right, WHOLE.top),
        )

    def lay_glides(self, choices: Choices) -> tuple[Glide, Glide]:
        """The option onto the outline, turned, and the outline to its place.

        choices : how all are arranged then
        """
        return choices.lay_glide_from(self.verdict, self.view), choices.outline_glide(self.outline_view)

    def outline_glide_from(self, other: Comparing) -> Glide:
        """The outline from where it stands beside another option: each pair is as large as there is room for it."""
        return Glide.between(THE_OUTLINE.group, self._outline_extent.middle, other.outline_view, self.outline_view)

    def walks(self, fact: WalkFact, *, whole: bool) -> tuple[Glide, Glide]:
        """The markers round both outlines, clockwise.

        whole : all the way round, else to the last that is named
        """
        return (
            _along(walker_group(fact.label, False), _path(fact, fact.outline, self.outline_view, whole=whole)),
            _along(walker_group(fact.label, True), _path(fact, fact.option, self.laid_view, whole=whole)),
        )

    def figure(
        self,
        alt: str,
        fact: WalkFact | None = None,
        *,
        walked: bool | None = None,
        whole: bool = False,
        is_out: bool = False,
    ) -> Figure:
        """The two side by side.

        fact   : what the walk shows: where it starts and what comes is marked
        walked : whether the markers have gone their way; None: they are not there
        whole  : whether that way is all round
        is_out : whether the option is ruled out by now
        """
        theme, choices = self.choices.theme, self.choices
        own = option_subject(self.verdict.label)
        rings = tuple(self.view.apply(ring) for ring in self.verdict.outline.rings)
        cloth = Area(
            id=f"{own.group}-cloth", group=own.group, subject=own, role=Role.OPTION, rings=rings, fill=theme.option
        )
        entries: list[Entry] = [
            panel("beside-table", self._rooms[0], theme),
            panel("beside-tray", self._rooms[1], theme, tray=True),
            *outline_entries(choices.solution.outline, self.outline_view, theme),
            cloth,
            replace(cloth, id=own.group, fill=None, stroke=theme.ink, width=theme.side_width),
            self._letter(),
        ]
        if fact is not None:
            if walked is not None:  # beneath the dots, so that one at which a marker has come to rest is still seen
                entries += self._walkers(fact, walked=walked, whole=whole)
            entries += walk_entries(fact, fact.outline, self.outline_view, theme, of_option=False)
            entries += walk_entries(fact, fact.option, self.laid_view, theme, of_option=True)
        if is_out:
            x, y = self._letter().at
            sign = cross_sign("compared-sign", "compared", (x, y - 0.6), theme)
            entries.append(replace(sign, subject=own))
        return Figure(background=theme.paper, entries=tuple(entries), alt=alt)

    def _walkers(self, fact: WalkFact, *, walked: bool, whole: bool) -> Iterable[Entry]:
        for of_option, outline, view in (
            (False, fact.outline, self.outline_view),
            (True, fact.option, self.laid_view),
        ):
            path = _path(fact, outline, view, whole=whole)
            yield Circle(
                id=walker_group(fact.label, of_option),
                group=walker_group(fact.label, of_option),
                subject=option_subject(fact.label) if of_option else THE_OUTLINE,
                role=Role.POINTER,
                centre=path[-1] if walked else path[0],
                radius=_WALKER,
                fill=self.choices.theme.paper,
                stroke=self.choices.theme.attention,
                width=self.choices.theme.sign_width,
            )

    def _letter(self) -> Label:
        left = extent_of(self.view.apply(self.verdict.outline.exterior)).left
        return Label(
            id="compared-letter",
            group="compared",
            subject=option_subject(self.verdict.label),
            role=Role.WORD,
            text=self.verdict.label,
            at=(left - _BESIDE, WHOLE.top - 0.6),
            size=self.choices.theme.option_size,
            colour=self.choices.theme.ink,
            bold=True,
        )


def _path(fact: WalkFact, outline: Outline, view: Similarity, *, whole: bool) -> tuple[Point, ...]:
    return tuple(view.apply(fact.path_on(outline, whole=whole)))


def _along(group: str, path: tuple[Point, ...]) -> Glide:
    start = path[0]
    offsets = [(x - start[0], y - start[1]) for x, y in path[1:]]
    return Glide(group=group, about=start, by=offsets[-1], via=tuple(offsets[:-1]))
