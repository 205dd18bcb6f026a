"""The warnings that an item accepts, each with the teacher's reason.

As typed: ``accepted: {no-turn: "the first item of the series is meant to be easy"}``.
"""

from __future__ import annotations

from ..document.fields import Table, table_of, text_of
from .model import Accepted, WarningKind

__all__ = ["ACCEPTED_KEYS", "accepted_of"]

ACCEPTED_KEYS = tuple(kind.value for kind in WarningKind)
MAX_REASON = 300


def accepted_of(table: Table) -> tuple[Accepted, ...]:
    """Those that read well; a kind that there is not, or one without a reason, is a fault."""
    node = table.get("accepted")
    if node is None:
        return ()
    faults = table.faults
    fix = f'write a kind of warning with your reason, such as {ACCEPTED_KEYS[0]}: "this one is meant to be easy"'
    kinds = table_of(node, "accepted", faults, keys=ACCEPTED_KEYS, owner="the list of accepted warnings", fix=fix)
    accepted = []
    for kind in WarningKind:
        reason_node = kinds.get(kind) if kinds else None
        if kinds is None or reason_node is None:
            continue
        fix = "write why this warning may stand: none is silenced without a reason"
        reason = text_of(reason_node, kinds.at(kind), faults, most=MAX_REASON, fix=fix)
        if reason:
            accepted.append(Accepted(kind=kind, reason=reason))
    return tuple(accepted)
