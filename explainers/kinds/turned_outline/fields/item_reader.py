"""The key of an item of the turned outline, the question that it makes, where a lesson may stop in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ....choice.question import WarningKind
from ....document.format import Field, Format, Record
from ....document.values import name
from ....geometry.outline import Outline
from ....geometry.rigid_motion import Ring
from ....item.accepted_reader import GENERAL_WARNINGS
from ....item.item_format import QuestionKeys
from ....item.outline_reader import OUTLINE, ListedOutline
from ....item.ring_reader import RING_EXAMPLE
from ....item.stops import Stops
from ..model import TurnedOutline

__all__ = ["KEYS", "SHOWN", "STOPS"]

SHOWN = Format(owner="the outline", fix=f"write corners: {RING_EXAMPLE} below outline:", rows=(OUTLINE,))


@dataclass(frozen=True, slots=True)
class _Typed:
    outline: Outline
    corners: Ring  # in the order of the file


def _typed(record: Record) -> _Typed | None:
    outline = record["outline"]
    return outline and _Typed(Outline.of(*outline), outline[0])


def _item(record: Record, shared: Mapping[str, Any]) -> tuple[TurnedOutline | None, TurnedOutline | None]:
    """The item twice: there is nothing of it to begin with but the outline."""
    typed = record["outline"]
    if typed is None:
        return None, None
    item = TurnedOutline(**shared, outline=typed.outline, clockwise=typed.corners != typed.outline.exterior)
    return item, item


KEYS = QuestionKeys(
    rows=(
        Field(
            "outline",
            SHOWN.value(_typed),
            "the outline that is shown, and is to be found again turned",
            due=f"add outline: with corners: {RING_EXAMPLE} below it",
            write=lambda item: SHOWN.written(ListedOutline(item.corners, item.outline.holes)),
        ),
    ),
    slip_keys=(Field("slip", name("flipped"), "the slip that makes it, such as flipped or part-moved"),),
    result="the outline as it is",
    warnings={
        **GENERAL_WARNINGS,
        WarningKind.SYMMETRIC_OUTLINE: "the outline looks the same in several turned positions",
        WarningKind.NEARLY_RIGHT: "a wrong option hardly differs from the outline",
        WarningKind.FINE_SIDES: "sides of the outline are too short to be seen",
    },
    subjects=lambda record: (),
    build=_item,
)


STOPS = Stops(names=("options",), example="options")
