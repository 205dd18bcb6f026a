"""The warnings that an item accepts, each with the teacher's reason.

As typed: ``accepted: {no-turn: "the first item of the series is meant to be easy"}``.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from ..choice.question import Accepted, WarningKind
from ..document.format import Field, Format, Record
from ..document.values import plain_text
from ..document.yaml_text import Written, text_yaml

__all__ = ["GENERAL_WARNINGS", "accepted_example", "accepted_field", "accepted_format"]

MAX_REASON = 300

_REASON = plain_text(MAX_REASON, fix="write why this warning may stand: none is silenced without a reason")

# Those of any question with outlines as options, with what they mean.
GENERAL_WARNINGS: dict[str, str] = {
    WarningKind.SYMMETRIC_OUTLINE: "the finished outline looks the same in several turned positions",
    WarningKind.NEARLY_RIGHT: "a wrong option hardly differs from the finished outline",
    WarningKind.FINE_SIDES: "sides of what is asked are too short to be seen",
    WarningKind.FINE_OPTIONS: "sides of options are too short to be seen",
    WarningKind.CLOSED_WALK: "the side put in to close a walk makes a step's side longer",
}


def accepted_example(warnings: Iterable[str]) -> str:
    """One warning with a reason, as it stands below ``accepted:``."""
    return f'{next(iter(warnings))}: "this one is meant to be easy"'


def accepted_format(warnings: Iterable[str]) -> Format:
    """The kinds of warning that may be accepted, each a key."""
    names = tuple(map(str, warnings))
    return Format(
        owner="the list of accepted warnings",
        fix=f"write a kind of warning with your reason, such as {accepted_example(names)}",
        rows=tuple(Field(name, _REASON, "why this warning may stand") for name in names),
    )


def accepted_field(warnings: Iterable[str]) -> Field:
    """The field of an item."""
    return Field(
        "accepted",
        replace(accepted_format(warnings).value(_accepted), write=_written),
        "warnings that you have looked at, each with your reason",
        default=(),
    )


def _accepted(record: Record) -> tuple[Accepted, ...]:
    """Those that read well; a kind that there is not, or one without a reason, is a fault."""
    return tuple(Accepted(kind=name, reason=reason) for name, reason in record.values.items() if reason)


def _written(accepted: Iterable[Accepted]) -> Written:
    return {entry.kind: text_yaml(entry.reason) for entry in accepted}
