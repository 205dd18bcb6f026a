"""What a sieve counts or compares, marked on the outline and on the options; a walk round two outlines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import chain

from ...figure.model import Circle, Entry, Lines, Role
from ...figure.subject import THE_OUTLINE, Subject, option_subject
from ...figure.theme import Theme
from ...geometry.outline import Outline
from ...geometry.rigid_motion import Similarity
from ...geometry.rings import sides
from ..model import Verdict
from ..sieves.sieve import SieveFact, SieveMarks
from ..walk import WalkFact
from .choices import Choices
from .chosen import on_option

__all__ = ["DOT", "SMALL_DOT", "WALKER", "alike_entries", "marks_at", "sieve_entries", "walk_entries", "walker_group"]

WALKER = "walker"
DOT, SMALL_DOT = 0.13, 0.09  # radius on the outline, and on an option in its cell
_START_RING = 2.0  # of a dot's radius


def walker_group(label: str, of_option: bool) -> str:
    """The marker that goes round: entries that move as one.

    label : of the option that is walked round with the outline; each pair has markers of its own, so that none jumps
    """
    return f"{WALKER}-{label}-option" if of_option else f"{WALKER}-{label}-outline"


def sieve_entries(choices: Choices, fact: SieveFact, labels: Iterable[str]) -> tuple[Entry, ...]:
    """What is counted, on the outline and on these of its options."""
    wanted = frozenset(labels)
    view, theme = choices.view, choices.theme
    entries = list(marks_at("outline", THE_OUTLINE, fact.outline, fact.marks_on(fact.outline), view, theme, dot=DOT))
    verdicts = {verdict.label: verdict for verdict in choices.solution.verdicts}
    for option in fact.options:
        if option.label in wanted:
            own = option_subject(option.label)
            view = on_option(choices.cells, verdicts[option.label])
            marks = fact.marks_on(option.outline)
            entries += marks_at(own.group, own, option.outline, marks, view, theme, dot=SMALL_DOT)
    return tuple(entries)


def alike_entries(choices: Choices, verdict: Verdict) -> tuple[Entry, ...]:
    """Every corner and every hole of the outline, and the same of the option that is it."""
    outline, theme = choices.solution.outline, choices.theme
    own = option_subject(verdict.label)
    marks = SieveMarks(corners=tuple(chain(*outline.rings)), rings=outline.holes)
    view = on_option(choices.cells, verdict)
    return (
        *marks_at("outline", THE_OUTLINE, outline, marks, choices.view, theme, dot=DOT),
        *marks_at(own.group, own, outline, marks, view, theme, dot=SMALL_DOT),
    )


def marks_at(
    name: str, subject: Subject, outline: Outline, marks: SieveMarks, view: Similarity, theme: Theme, *, dot: float
) -> Iterator[Entry]:
    """Dots on corners, wide lines along sides and round holes, in the colour of attention.

    Each is called after the corner at which it stands or starts, so that from one sieve to the next what is marked
    again stays, and what is not fades: nothing jumps to another corner.

    outline : in whose coordinates the marks are
    view    : from these to the stage
    """
    number_of = {corner: number for number, corner in enumerate(chain(*outline.rings), start=1)}
    for point in chain(*marks.sides, marks.corners):  # a side may start between two corners
        number_of.setdefault(point, len(number_of) + 1)
    marked = [*marks.sides, *(side for ring in marks.rings for side in sides(ring))]
    segments = [view.apply_side(side) for side in marked]
    if segments:
        yield Lines(
            id="-".join((name, "pointed-sides", *(str(number_of[start]) for start, _ in marked))),
            group="pointed",
            subject=subject,
            role=Role.POINTER,
            segments=tuple(segments),
            stroke=theme.attention,
            width=theme.pointer_width * (1.0 if dot == DOT else 0.8),
        )
    for corner in marks.corners:
        yield Circle(
            id=f"{name}-pointed-{number_of[corner]}",
            group="pointed",
            subject=subject,
            role=Role.POINTER,
            centre=view.apply_point(corner),
            radius=dot,
            fill=theme.attention,
        )


def walk_entries(
    fact: WalkFact, outline: Outline, view: Similarity, theme: Theme, *, of_option: bool, dot: float = DOT
) -> Iterator[Entry]:
    """Where a walk starts, and what comes on it; and the marker, at its start.

    outline : one of the two of the fact
    view    : from its coordinates to the stage
    """
    subject = option_subject(fact.label) if of_option else THE_OUTLINE
    name = f"walk-{fact.label}-option" if of_option else f"walk-{fact.label}-outline"
    path = fact.path_on(outline)
    marks = SieveMarks(corners=fact.corners_on(outline), sides=fact.sides_on(outline), rings=fact.holes_on(outline))
    yield from marks_at(name, subject, outline, marks, view, theme, dot=dot)
    yield Circle(
        id=f"{name}-start",
        group="pointed",
        subject=subject,
        role=Role.POINTER,
        centre=view.apply_point(path[0]),
        radius=_START_RING * dot,
        stroke=theme.attention,
        width=theme.sign_width,
    )
