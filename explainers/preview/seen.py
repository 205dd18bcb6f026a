"""One item's file as it was last seen: the last good picture, and what is wrong with the file now.

``looked_again`` is the whole of refreshing, and raises for nothing that a file can hold or a file system can do. The
picture always is of the last state that solved; the faults always are those of the file as it stands, so that they are
gone with what caused them.
"""

from __future__ import annotations

import hashlib
import time
from dataclasses import dataclass, replace
from pathlib import Path

from ..errors import Fault, ItemError
from ..intake import solved
from ..item.file_text import MAX_BYTES
from ..item.reader import scan_item
from .item_view import item_view
from .markup import Markup
from .page import thumbnail, view_part
from .sketch import sketch_of
from .view import Sign

__all__ = ["Seen", "looked_again", "not_seen_yet"]

_PATIENCE_S = 0.15  # how long a file may be gone or empty while an editor saves it

Stamp = tuple[int, int, int, str]  # when changed, inode, size, what it holds


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One file."""

    path: Path
    slug: str  # its name in addresses
    name: str = ""  # the item's, or the file's stem
    title: str = ""
    state: str = ""
    sign: Sign = ""
    faults: tuple[Fault, ...] = ()
    good: Markup | None = None  # the last good picture
    small: Markup | None = None  # its finished outline alone
    good_at: str = ""  # when it was drawn, as a clock shows it
    draft: Markup | None = None  # of a faulty file without a good picture: what of it can be drawn
    stamp: Stamp | None = None  # of the file as it was read; None where it has to be read again in any case


def not_seen_yet(path: Path, slug: str) -> Seen:
    """A file before it is looked at."""
    return Seen(path=path, slug=slug, name=path.stem, title=path.stem)


def looked_again(before: Seen, *, patience_s: float = _PATIENCE_S) -> Seen:
    """The file as it stands now; the same value where nothing has changed.

    patience_s : how long to wait once for a file that is gone or empty, while there is a good picture of it
    """
    stamp = _stamp(before.path)
    if stamp is not None and stamp == before.stamp:
        return before
    if before.good is not None and patience_s and (stamp is None or stamp[2] == 0):
        time.sleep(patience_s)
        stamp = _stamp(before.path)
    now = _read(before)
    # Changed while it was read: nobody knows which half was seen, so it is read again when next asked for.
    return replace(now, stamp=stamp if _stamp(before.path) == stamp else None)


def _read(before: Seen) -> Seen:
    try:
        reading = scan_item(before.path)
        solution = solved(reading)
        view = item_view(solution, reading.source.line_of)
        drawn = view_part(view)
    except ItemError as error:
        faults = error.faults
    except Exception as error:  # a fault of ours must not end the watching: the next save may be past it
        faults = (_failed(error, before.path),)
    else:
        return Seen(
            path=before.path,
            slug=before.slug,
            name=view.name,
            title=view.title,
            state=view.state,
            sign=view.sign,
            good=drawn,
            small=thumbnail(view),
            good_at=time.strftime("%H:%M:%S"),
        )
    return replace(before, faults=faults, draft=_draft(before.path, faults) if before.good is None else None)


def _draft(path: Path, faults: tuple[Fault, ...]) -> Markup | None:
    try:
        view = sketch_of(path, faults)
        return None if view is None else view_part(view)
    except Exception:  # the faults are told all the same; a sketch of a faulty item may well be impossible
        return None


def _failed(error: Exception, path: Path) -> Fault:
    said = str(error).strip().splitlines()
    what = f"{type(error).__name__}: {said[0]}" if said else type(error).__name__
    return Fault(
        file=str(path),
        field="",
        message=f"the program itself failed here ({what})",
        fix="undo the last change, and report this with the file",
    )


def _stamp(path: Path) -> Stamp | None:
    try:
        state = path.stat()
        held = path.read_bytes() if path.is_file() and state.st_size <= MAX_BYTES else b""
    except (OSError, ValueError):
        return None
    return state.st_mtime_ns, state.st_ino, state.st_size, hashlib.sha256(held).hexdigest()
