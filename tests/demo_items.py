"""The demo items, all of them or those of one kind of question."""

from __future__ import annotations

import re
from pathlib import Path

__all__ = ["demo_items"]

_ITEMS = Path(__file__).parent.parent / "items"
_DEFAULT = "join-and-cut"  # what an item is that names no kind


def demo_items(kind: str = "") -> list[Path]:
    """Their files in order; of every kind where none is named."""
    paths = sorted(_ITEMS.glob("*-block.yaml"))
    return [path for path in paths if not kind or _kind_in(path) == kind]


def _kind_in(path: Path) -> str:
    found = re.search(r"^kind: (\S+)", path.read_text(encoding="utf-8"), re.M)
    return found[1] if found else _DEFAULT
