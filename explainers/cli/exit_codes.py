"""The exit codes of every command.

A run over several files ends with the worst of them: refused before unsound before sound.
"""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["INTERRUPTED", "PIPE_CLOSED", "REFUSED", "SOUND", "UNSOUND", "worst"]

SOUND = 0
UNSOUND = 1  # the item solves, but has not exactly one right option
REFUSED = 2  # cannot be read, solved or written; also wrong usage
INTERRUPTED = 130  # 128 + SIGINT, as shells report it
PIPE_CLOSED = 141  # 128 + SIGPIPE: whoever read our output went away


def worst(codes: Iterable[int]) -> int:
    """The code of a run over several files."""
    return max(codes, default=SOUND)
