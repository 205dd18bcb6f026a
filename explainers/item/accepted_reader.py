"""The warnings that an item accepts, each with the teacher's reason.

As typed: ``accepted: {no-turn: "the first item of the series is meant to be easy"}``.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from ..choice.question import Accepted
from ..document.format import Field, Format, Record
from ..document.values import plain_text
from ..document.yaml_text import Written, text_yaml

__all__ = ["accepted_field", "accepted_format"]

MAX_REASON = 300

_REASON = plain_text(MAX_REASON, fix="write why this warning may stand: none is silenced without a reason")


def accepted_format(names: Sequence[str]) -> Format:
    """The table of accepted warnings.

    names : of all warnings that there are
    """
    return Format(
        owner="the list of accepted warnings",
        fix=f'write a kind of warning with your reason, such as {names[0]}: "this one is meant to be easy"',
        rows=tuple(Field(str(name), _REASON, "why this warning may stand") for name in names),
    )


def accepted_field(names: Sequence[str]) -> Field:
    """The field of an item that has them."""

    def accepted(record: Record) -> tuple[Accepted, ...]:
        """Those that read well; a kind that there is not, or one without a reason, is a fault."""
        return tuple(Accepted(kind=name, reason=record[name]) for name in names if record[name])

    return Field(
        "accepted",
        replace(accepted_format(names).value(accepted), write=_written),
        "warnings that you have looked at, each with your reason",
        default=(),
    )


def _written(accepted: Iterable[Accepted]) -> Written:
    return {entry.kind: text_yaml(entry.reason) for entry in accepted}
