"""The conditions that are looked for, by their numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from outputs.pdf_opened import Opened

__all__ = ["CONDITIONS", "Find", "condition"]

Find = Callable[[Opened], Iterator[str]]
CONDITIONS: dict[str, Find] = {}


def condition(*numbers: str) -> Callable[[Find], Find]:
    """The function decides these conditions."""

    def note(find: Find) -> Find:
        CONDITIONS.update(dict.fromkeys(numbers, find))
        return find

    return note
