"""One option beside the outline, as large as the tray lets it: to be walked round while the other options are away."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cached_property

from ...figure.layout import Box, extent_of, fitting_scale, view_into
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

_PAD = 0.45
_LETTER = 0.75  # at the head of the tray, for the option's letter
_BESIDE = 0.6  # from the letter to the sign that rules it out
_WALKER = 0.2  # radius of the marker


@dataclass(frozen=True)
class Comparing:
    """The outline on the table, one option in the tray."""

    choices: Choices
    verdict: Verdict

    @cached_property
    def view(self) -> Similarity:
        """From the option's own coordinates to the tray: turned as the question shows it."""
        drawn = self.verdict.drawn
        shape = extent_of(drawn.apply(self.verdict.outline.exterior))
        room = self._room
        most = self.choices.view.scale * self.verdict.fit.motion.scale / drawn.scale  # no larger than the outline
        return view_into(shape, room, min(fitting_scale(shape, room), most), drawn)

    @property
    def laid_view(self) -> Similarity:
        """From the coordinates in which facts speak of the option to the tray."""
        return self.view.after(self.verdict.fit.motion.inverse())

    def glide(self) -> Glide:
        """The option from its cell to the middle of the tray."""
        start, there = self.choices.cells.view(self.verdict.label), self.view
        middle = extent_of(self.verdict.outline.exterior).middle
        about, goal = start.apply_point(middle), there.apply_point(middle)
        return Glide(
            group=option_subject(self.verdict.label).group,
            about=about,
            by=(goal[0] - about[0], goal[1] - about[1]),
            scale=there.scale / start.scale,
        )

    def back_glide(self) -> Glide:
        """The option back to its cell."""
        go = self.glide()
        return Glide(
            group=go.group,
            about=(go.about[0] + go.by[0], go.about[1] + go.by[1]),
            by=(-go.by[0], -go.by[1]),
            scale=1.0 / go.scale,
        )

    def lay_glide(self) -> Glide:
        """The option from the middle of the tray to where it lies on the outline."""
        back, lay = self.back_glide(), self.choices.lay_glide(self.verdict)
        by = (back.by[0] + lay.by[0], back.by[1] + lay.by[1])
        return replace(lay, about=back.about, by=by, scale=back.scale * lay.scale)

    def walks(self, fact: WalkFact, *, whole: bool) -> tuple[Glide, Glide]:
        """The markers round both outlines, clockwise.

        whole : all the way round, else to the last that is named
        """
        return (
            _along(walker_group(fact.label, False), _path(fact, fact.outline, self.choices.view, whole=whole)),
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
            panel("table", choices.room, theme),
            panel("tray", choices.cells.room, theme, tray=True),
            *outline_entries(choices.solution.outline, choices.view, theme),
            cloth,
            replace(cloth, id=own.group, fill=None, stroke=theme.ink, width=theme.side_width),
            self._letter(),
        ]
        if fact is not None:
            if walked is not None:  # beneath the dots, so that one at which a marker has come to rest is still seen
                entries += self._walkers(fact, walked=walked, whole=whole)
            entries += walk_entries(fact, fact.outline, choices.view, theme, of_option=False)
            entries += walk_entries(fact, fact.option, self.laid_view, theme, of_option=True)
        if is_out:
            x, y = self._letter().at
            # Beside the letter: below it, the option may reach so far.
            sign = cross_sign(f"{own.group}-sign", "options", (x + _BESIDE, y), theme)
            entries.append(replace(sign, subject=own))
        return Figure(background=theme.paper, entries=tuple(entries), alt=alt)

    def _walkers(self, fact: WalkFact, *, walked: bool, whole: bool) -> Iterable[Entry]:
        for of_option, outline, view in (
            (False, fact.outline, self.choices.view),
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
        tray = self.choices.cells.room
        return Label(
            id="compared-letter",
            group="compared",
            subject=option_subject(self.verdict.label),
            role=Role.WORD,
            text=self.verdict.label,
            at=(tray.left + 0.44, tray.top - 0.48),
            size=self.choices.theme.option_size,
            colour=self.choices.theme.ink,
            bold=True,
        )

    @property
    def _room(self) -> Box:
        inner = self.choices.cells.room.inset(_PAD)
        return Box(inner.left, inner.bottom, inner.right, inner.top - _LETTER + _PAD)


def _path(fact: WalkFact, outline: Outline, view: Similarity, *, whole: bool) -> tuple[Point, ...]:
    return tuple(view.apply(fact.path_on(outline, whole=whole)))


def _along(group: str, path: tuple[Point, ...]) -> Glide:
    start = path[0]
    offsets = [(x - start[0], y - start[1]) for x, y in path[1:]]
    return Glide(group=group, about=start, by=offsets[-1], via=tuple(offsets[:-1]))
