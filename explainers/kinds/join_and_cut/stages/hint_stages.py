"""The stage that hints at each piece: which sides must meet, over the question sheet; no piece is turned or laid."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ....choice.fact import verified
from ....figure.model import Figure, Lines, Role
from ....figure.subject import Subject
from ....sentences.lesson import Chapter
from ....storyboard.model import Step
from ....storyboard.run import Run
from ..drawing.assembly_drawing import PIECE, THE_BASE, piece_subject
from ..words import hints as words
from ..words.alt import sheet_alt
from .context import PieceContext

__all__ = ["hints"]

_FADE_S = 0.7


def hints(context: PieceContext) -> Iterator[Step]:
    """A hint a piece."""
    for index, fact in enumerate(context.facts):
        run = Run(context.last)
        run.move(_pointed(context, index), seconds=_FADE_S)
        step = context.step(
            "hint",
            Chapter.YOUR_TURN,
            words.piece_heading(fact),
            run.beats,
            verified(fact, words.piece_hint(fact)),
            facts=(fact,),
            subject=Subject(thing=PIECE, name=fact.piece.name),
            reveals=False,
        )
        yield replace(step, goes_on=index > 0)


def _pointed(context: PieceContext, index: int) -> Figure:
    """The sheet with both sides of one mark in the colour of attention."""
    shown = context.asked.figure
    if not context.is_seen:
        return replace(shown, alt=f"{shown.alt} {index}")
    sheet, placement = context.sheet, context.solution.placements[index]
    owner = sheet.assembly.partner_owner(index)
    on = (piece_subject(index), THE_BASE if owner is None else piece_subject(owner))
    own = sheet.piece_glide(index).at(1.0).apply(sheet.base_view.apply(placement.side))
    partner = sheet.base_view.apply(placement.partner)
    if owner is not None:
        partner = sheet.piece_glide(owner).at(1.0).apply(partner)
    lines = tuple(
        Lines(
            id=f"hint-{name}",
            group=subject.group,
            subject=subject,
            role=Role.POINTER,
            segments=((side[0], side[1]),),
            stroke=context.theme.attention,
            width=context.theme.pointer_width,
        )
        for name, subject, side in zip(("own", "partner"), on, (own, partner), strict=True)
    )
    alt = " ".join((sheet_alt(context.solution), words.pointed_alt(context.facts[index])))
    return replace(shown, entries=(*shown.entries, *lines), alt=alt)
