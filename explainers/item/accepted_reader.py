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

__all__ = ["ACCEPTED", "ACCEPTED_FIELD"]

MAX_REASON = 300

_REASON = plain_text(MAX_REASON, fix="write why this warning may stand: none is silenced without a reason")

ACCEPTED = Format(
    owner="the list of accepted warnings",
    fix=f'write a kind of warning with your reason, such as {next(iter(WarningKind))}: "this one is meant to be easy"',
    rows=tuple(Field(kind.value, _REASON, "why this warning may stand") for kind in WarningKind),
)


def _accepted(record: Record) -> tuple[Accepted, ...]:
    """Those that read well; a kind that there is not, or one without a reason, is a fault."""
    return tuple(Accepted(kind=kind, reason=record[kind]) for kind in WarningKind if record[kind])


def _written(accepted: Iterable[Accepted]) -> Written:
    return {entry.kind.value: text_yaml(entry.reason) for entry in accepted}


ACCEPTED_FIELD = Field(
    "accepted",
    replace(ACCEPTED.value(_accepted), write=_written),
    "warnings that you have looked at, each with your reason",
    default=(),
)
