"""What `explainers check --certificate` prints for a reader: a certificate an item."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from .streams import say

if TYPE_CHECKING:
    from ..checking.items import Outcome, Repeated

__all__ = ["show_certificate", "show_footnotes", "show_repeats"]


def show_certificate(outcome: Outcome) -> None:
    """One item's certificate, for a reader."""
    if outcome.solution is None:
        count = len(outcome.faults)
        say(f"{outcome.path.stem}: refused, {count} {'fault' if count == 1 else 'faults'}")
        return
    from ..choice.certificate import certificate
    from ..choice.words.certificate import certificate_lines

    for line in certificate_lines(certificate(outcome.solution)):
        say(line)


def show_repeats(found: Iterable[tuple[Path, Repeated]]) -> None:
    """The items that ask what an earlier one asks."""
    from ..choice.words.certificate import repeat_line

    for path, repeated in found:
        say(repeat_line(str(path), str(repeated.path), flipped=repeated.flipped))


def show_footnotes() -> None:
    """What millimetres and pauses mean; once, below all certificates."""
    from ..choice.words.certificate import PAUSE_SOURCE, PRINT_SCALE

    say(PRINT_SCALE)
    say(PAUSE_SOURCE)
