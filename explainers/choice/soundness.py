"""Whether an item has exactly one right option, or why not; and what a teacher should look at all the same."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from ..document.notation import listed, shown, shown_pair, shown_point
from ..errors import Fault
from ..geometry.congruence import motions_onto
from ..geometry.hausdorff import hausdorff_distance
from ..geometry.outline import Outline
from ..geometry.rigid_motion import Ring
from ..geometry.rings import extent, shortest_side
from .model import Judgement, Verdict, Warning_
from .printed import APART_MM, OPTION_MM, printed_mm
from .question import OPTION_LABELS, Question, WarningKind

__all__ = ["repeated_outlines", "unsound_because", "warnings"]

NEARLY_RIGHT = 0.03  # of the area of the result
TOO_FINE = 1.0 / 30.0  # of the larger extent of the drawing
TOO_FINE_OPTION = 0.112  # of the largest option: measured, options share a row in which a finer side is under 24 px


def unsound_because(verdicts: Sequence[Judgement], *, outline_given: bool = False) -> tuple[str, ...]:
    """Plain sentences; none where exactly one option is right.

    outline_given : as `Question.outline_given`
    """
    outline = _called(outline_given)
    right = [verdict.label for verdict in verdicts if verdict.same]
    if len(right) == 1:
        return ()
    if right:
        return (f"Options {', '.join(right[:-1])} and {right[-1]} all fit: each is {outline}.",)
    flipped = [verdict.label for verdict in verdicts if verdict.mirrored]
    also = f" Option {flipped[0]} is its mirror image, which no turn makes right." if flipped else ""
    return (f"No option is right: none of them is {outline} turned, shifted or scaled.{also}",)


def _called(outline_given: bool) -> str:
    return "the outline" if outline_given else "the finished outline"


def repeated_outlines(outlines: Sequence[Outline | None], outline: Outline, tolerance: float) -> list[Fault]:
    """Faults of wrong options that are the same as an earlier wrong one; two right ones are a matter of soundness.

    outlines : of the options, in their own coordinates; None for one that is not known
    outline  : the result
    """
    faults = []
    for index, shape in enumerate(outlines):
        for earlier, other in enumerate(outlines[:index]):
            if shape is None or other is None:
                continue
            near = tolerance * math.sqrt(other.area / outline.area)
            if motions_onto(shape, other, near) and not motions_onto(shape, outline, tolerance):
                faults.append(
                    Fault(
                        field=f"options[{index}]",
                        message=f"option {OPTION_LABELS[index]} is the same outline as option {OPTION_LABELS[earlier]}",
                        fix="change one of them, or leave it out: turning and scaling do not make another outline",
                    )
                )
                break
    return faults


def warnings(
    item: Question,
    drawn: Sequence[tuple[str, Ring]],
    outline: Outline,
    verdicts: Sequence[Verdict],
    symmetry_order: int,
) -> tuple[Warning_, ...]:
    """What a teacher should look at in any question, accepted or not; none of it makes an item unsound.

    drawn : (field, ring) of all that is drawn to one scale before the options are
    """
    found = list(_closed_walks(item))
    if symmetry_order > 1:
        found.append(
            Warning_(
                kind=WarningKind.SYMMETRIC_OUTLINE,
                field="options",
                message=f"{_called(item.outline_given)} looks the same in {symmetry_order} turned positions, "
                "which makes it easier to recognise",
            )
        )
    found.extend(_nearly_right(verdicts, outline))
    found.extend(_too_fine(drawn))
    found.extend(_too_fine_options(item, verdicts))
    return tuple(found)


def _closed_walks(item: Question) -> Iterator[Warning_]:
    """Walks that miss their start along a straight side, which a slip in a length does as well."""
    for closing in item.closing:
        if not closing.is_doubtful or closing.runs_on is None:
            continue
        step, length, whole = closing.runs_on
        end, start = map(shown_point, closing.side)
        yield Warning_(
            kind=WarningKind.CLOSED_WALK,
            field=closing.path,
            message=f"the walk ends at {end} and not at its start {start}: with the side of {shown(closing.length)} "
            f"put in between them, the side of step {step} is {shown(whole)} long, where the step says {shown(length)}",
            fix="check the length of each step, or end the walk with close if that side is meant",
        )


def _nearly_right(verdicts: Sequence[Verdict], outline: Outline) -> Iterator[Warning_]:
    """Wrong options that differ from the result by little area, or nowhere by much."""
    for index, verdict in enumerate(verdicts):
        if verdict.same:
            continue
        apart_mm = printed_mm(hausdorff_distance(verdict.fit.laid, outline), outline)
        part = verdict.fit.difference / outline.area
        if part < NEARLY_RIGHT or apart_mm < APART_MM:
            yield Warning_(
                kind=WarningKind.NEARLY_RIGHT,
                field=f"options[{index}]",
                message=f"option {verdict.label} is nearly right: it differs by {100 * part:.2g} % of the area, "
                f"by at most about {apart_mm:.2g} mm where the outline is printed {OPTION_MM:g} mm across",
            )


def _too_fine_options(item: Question, verdicts: Sequence[Verdict]) -> list[Warning_]:
    """Options with sides too short to be seen beside the largest option, since all share one scale.

    Each is told by its shortest side, in the coordinates of the option: those of its corners, or else of the base.
    """
    boxes = [extent(verdict.drawn.apply(verdict.outline.exterior)) for verdict in verdicts]
    largest = max((max(right - left, top - bottom) for left, bottom, right, top in boxes), default=0.0)
    shortest = [min(verdict.outline.sides, key=lambda side: math.dist(*side)) for verdict in verdicts]
    fine = [
        index
        for index, verdict in enumerate(verdicts)
        if math.dist(*shortest[index]) * verdict.drawn.scale < TOO_FINE_OPTION * largest
    ]
    if not fine:
        return []
    owners: dict[str, list[str]] = {}
    for index in fine:
        side = f"{shown_pair(shortest[index])}, {math.dist(*shortest[index]):.3g} long"
        owners.setdefault(side, []).append(verdicts[index].label)
    told = "; ".join(
        f"{side}, of {'option' if len(labels) == 1 else 'options'} {listed(labels, 'and')}"
        for side, labels in owners.items()
    )
    message = f"sides too fine to be seen well beside the largest option: {told}"
    # Options that are made have no place of their own in the file.
    field = f"options[{fine[0]}]" if item.made is None else "options.make"
    other = "draw those sides longer, or show the option larger by scale:" if item.made is None else "try another seed:"
    fix = f'{other}; or let it stand, by accepted: {{fine-options: "your reason"}}'
    return [Warning_(kind=WarningKind.FINE_OPTIONS, field=field, message=message, fix=fix)]


def _too_fine(drawn: Sequence[tuple[str, Ring]]) -> list[Warning_]:
    """Sides too short to be seen, in a drawing to one scale."""
    boxes = [extent(ring) for _, ring in drawn]
    largest = max(max(right - left, top - bottom) for left, bottom, right, top in boxes)
    warned: list[Warning_] = []
    for field, ring in drawn:
        shortest = shortest_side((ring,))
        if shortest < TOO_FINE * largest and field not in {warning.field for warning in warned}:
            warned.append(
                Warning_(
                    kind=WarningKind.FINE_SIDES,
                    field=field,
                    message=f"a side is only {shortest:.3g} long: too fine to be seen in a drawing",
                )
            )
    return warned
