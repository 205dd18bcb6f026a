"""`explainers cache`: what is kept of earlier runs, and how to clear it."""

from __future__ import annotations

import json
from typing import Annotated

import typer

from .door import SOUND, at_the_door

__all__ = ["app"]

EPILOG = """\b
Examples:
  explainers cache          where it is, how much it holds
  explainers cache --json   the same, for a program
  explainers cache --clear  drop all of it; the next run draws anew

Every picture and every motion is drawn once and kept, whatever lesson shows
it. EXPLAINERS_CACHE names another folder, EXPLAINERS_CACHE_MB another bound
in megabytes (0 keeps nothing)."""

app = typer.Typer(add_completion=False, rich_markup_mode=None)


@app.command(epilog=EPILOG)
@at_the_door
def cache(
    clear: Annotated[bool, typer.Option("--clear", help="Drop everything that is kept.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="One JSON object, for a program.")] = False,
) -> int:
    """Show or clear the drawings kept between runs."""
    from ..cache.place import compiled_store, shared_store
    from .streams import say

    store = shared_store()
    dropped = store.clear() if clear else None
    if clear:
        compiled_store().clear()  # no drawings, and too little to count
    held = store.contents()
    if as_json:
        told: dict[str, object] = {
            "folder": str(store.folder),
            "entries": held.entries,
            "bytes": held.bytes,
            "bound_bytes": store.bound,
        }
        if dropped is not None:
            told["dropped"] = {"entries": dropped.entries, "bytes": dropped.bytes}
        say(json.dumps(told, ensure_ascii=False))
        return SOUND
    say(f"folder:  {store.folder}")
    if dropped is not None:
        say(f"dropped: {dropped.entries}, {_megabytes(dropped.bytes)}")
    say(f"entries: {held.entries}")
    say(f"size:    {_megabytes(held.bytes)}")
    say(f"bound:   {_megabytes(store.bound)}" if store.bound > 0 else "bound:   0, so nothing is kept")
    return SOUND


def _megabytes(size: int) -> str:
    return f"{size / 1_000_000:.1f} MB"
