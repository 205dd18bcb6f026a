"""The demo items that a new item may begin from, found beside the package or inside it."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from ..document.notation import listed, nearest
from ..errors import OutputError
from ..item.folder import item_files
from ..kinds.registry import DEFAULT_KIND, kind_named, kind_names

__all__ = ["demo_names", "demo_text", "first_demo", "sections_of"]

_PACKAGE = Path(__file__).parent.parent
# In an installed package the demo items are packed with it; in a checkout they are the folder `items` itself.
_FOLDERS = (_PACKAGE / "demo", _PACKAGE.parent / "items")
_KEY = re.compile(r"([a-z]+):")


@cache
def demo_names() -> tuple[str, ...]:
    """The names of the demo items, sorted."""
    return tuple(path.stem for path in item_files([_folder()]))


def first_demo(kind: str | None = None) -> str:
    """What a new item begins from where no demo item is named.

    kind   : the kind of question; None for the one of items that name none
    Raises : OutputError for a kind that is not installed
    """
    kinds = kind_names()
    if kind is None:
        kind = DEFAULT_KIND if DEFAULT_KIND in kinds else kinds[0]
    elif kind not in kinds:
        near = nearest(kind, kinds)
        fix = f"write --kind {near}" if near else f"write --kind with one of {listed(kinds)}"
        raise OutputError(
            f"there is no kind of question called {kind}; the kinds are {listed(kinds, 'and')}. To mend it: {fix}."
        )
    return kind_named(kind).demo_item


def demo_text(name: str) -> str:
    """The file of a demo item.

    Raises: OutputError for a name that no demo item has
    """
    names = demo_names()
    if name not in names:
        near = f"{name}-block" if f"{name}-block" in names else nearest(name, names)
        fix = f"write --like {near}" if near else f"write --like with one of {listed(names)}"
        raise OutputError(f"there is no demo item called {name}. To mend it: {fix}.")
    return (_folder() / f"{name}.yaml").read_text(encoding="utf-8")


def sections_of(text: str) -> tuple[str, dict[str, str]]:
    """What a file in the house form says of itself at its head, and the text of each top-level key with its value."""
    head: list[str] = []
    sections: dict[str, list[str]] = {}
    lines = head
    for line in text.splitlines():
        if key := _KEY.match(line):
            lines = sections.setdefault(key[1], [])
        lines.append(line)
    told = " ".join(line.lstrip("# ") for line in head)
    return told, {key: "\n".join(lines) for key, lines in sections.items()}


def _folder() -> Path:
    first = f"{first_demo()}.yaml"
    return next((folder for folder in _FOLDERS if (folder / first).is_file()), _FOLDERS[0])
