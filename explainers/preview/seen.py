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

from ..choice.panels.view import Sign
from ..document.file_text import MAX_BYTES
from ..errors import Fault
from ..figure.theme import DEFAULT_THEME, Theme
from .drawn import Draw, drawn
from .markup import Markup

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
    given: str = ""  # stands for the outlines of the last good picture
    draft: Markup | None = (
        None  # of a faulty file that gives other outlines, or never was right: what can be drawn of it
    )
    theme: Theme = DEFAULT_THEME  # in which it was looked at
    stamp: Stamp | None = None  # of the file as it was read; None where it has to be read again in any case


def not_seen_yet(path: Path, slug: str) -> Seen:
    """A file before it is looked at."""
    return Seen(path=path, slug=slug, name=path.stem, title=path.stem)


def looked_again(
    before: Seen, draw: Draw = drawn, theme: Theme = DEFAULT_THEME, *, patience_s: float = _PATIENCE_S
) -> Seen:
    """The file as it stands now; the same value where nothing has changed.

    theme      : the look that it is to have
    draw       : what draws a file; it may give one up that changes meanwhile, which is looked at again when asked next
    patience_s : how long to wait once for a file that is gone or empty, while there is a good picture of it
    """
    stamp = _stamp(before.path)
    if stamp is not None and stamp == before.stamp and theme == before.theme:
        return before
    if before.good is not None and patience_s and (stamp is None or stamp[2] == 0):
        time.sleep(patience_s)
        stamp = _stamp(before.path)
    found = draw(before.path, theme)
    if found is None:
        return replace(before, stamp=None)
    # Changed while it was read: nobody knows which half was seen, so it is read again when next asked for.
    now = stamp if _stamp(before.path) == stamp else None
    if found.picture is None:
        # The last good picture would show something else than the file does, once other outlines stand there.
        another = before.good is None or (found.given and found.given != before.given)
        sketch = found.sketch if another else None
        return replace(before, faults=found.faults, draft=sketch, stamp=now, theme=theme)
    return Seen(
        path=before.path,
        slug=before.slug,
        name=found.name,
        title=found.title,
        state=found.state,
        sign=found.sign,
        good=found.picture,
        small=found.small,
        good_at=time.strftime("%H:%M:%S"),
        given=found.given,
        stamp=now,
        theme=theme,
    )


def _stamp(path: Path) -> Stamp | None:
    try:
        state = path.stat()
        held = path.read_bytes() if path.is_file() and state.st_size <= MAX_BYTES else b""
    except (OSError, ValueError):
        return None
    return state.st_mtime_ns, state.st_ino, state.st_size, hashlib.sha256(held).hexdigest()
