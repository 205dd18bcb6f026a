"""The demo items, all of them or those of one kind of question."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

__all__ = ["demo_items", "each_demo_item"]

_ITEMS = Path(__file__).parent.parent / "items"
# One, two and three pieces; joined and cut; a hole; odd angles; a piece that is alike under a turn; a turned outline.
_TELLING = {f"{name}-block" for name in ("border", "comet", "corner", "honeycomb", "kite", "twin", "window")}
_DEFAULT = "join-and-cut"  # what an item is that names no kind


def demo_items(kind: str = "") -> list[Path]:
    """Their files in order; of every kind where none is named."""
    paths = sorted(_ITEMS.glob("*-block.yaml"))
    return [path for path in paths if not kind or _kind_in(path) == kind]


def each_demo_item(kind: str = "") -> list[Any]:
    """The same as parameters of tests or fixtures: the most telling ones always, the others with --full only."""
    return [
        pytest.param(path, id=path.stem, marks=() if path.stem in _TELLING else pytest.mark.full)
        for path in demo_items(kind)
    ]


def _kind_in(path: Path) -> str:
    found = re.search(r"^kind: (\S+)", path.read_text(encoding="utf-8"), re.M)
    return found[1] if found else _DEFAULT
