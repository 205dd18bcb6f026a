"""Looking again whenever a file is saved, in whatever way an editor saves it.

Folders are watched, not files: a file that is saved by renaming another one over it is a new file of the same name.
Twice a second the files are asked for their dates too, for file systems that tell nothing by themselves.
"""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterable
from pathlib import Path

from watchfiles import watch

from .drawn import Draw, drawn
from .subject import PreviewSubject, folders_of, look_again, watched_files

__all__ = ["keep_looking", "keep_watching"]

_SETTLED_MS = 20  # a save is over when nothing has happened for that long
_LONGEST_MS = 200  # but is not waited for any longer
_ASK_MS = 500

FileState = tuple[tuple[str, int, int, int], ...]


def keep_looking(
    subject: PreviewSubject, changed: Callable[[PreviewSubject], None], stop: threading.Event, draw: Draw = drawn
) -> None:
    """Look again after every change until told to stop; KeyboardInterrupt ends it too.

    changed : given the subject whenever it is not as it was
    draw    : what draws a file
    """

    def look() -> None:
        nonlocal subject
        subject = _looked(subject, changed, draw)

    keep_watching(lambda: watched_files(subject), lambda: folders_of(subject), look, stop)


def keep_watching(
    files: Callable[[], Iterable[Path]],
    folders_meant: Callable[[], Iterable[Path]],
    look: Callable[[], None],
    stop: threading.Event,
) -> None:
    """Call ``look`` at once and after every change of some files until told to stop.

    files, folders_meant : which they are, and where they stand, as long as that may change
    """
    while not stop.is_set():
        folders = [folder for folder in folders_meant() if _inode(folder)]
        watched = {folder: _inode(folder) for folder in folders}
        state = _state(files())
        look()  # what was changed before the watching began
        if not folders:
            stop.wait(_ASK_MS / 1000)
            continue
        try:
            for changes in watch(
                *folders,
                watch_filter=None,
                debounce=_LONGEST_MS,
                step=_SETTLED_MS,
                rust_timeout=_ASK_MS,
                yield_on_timeout=True,
                recursive=False,
                stop_event=stop,
                ignore_permission_denied=True,
            ):
                now = _state(files())
                if changes or now != state:
                    state = now
                    look()
                if watched != {folder: _inode(folder) for folder in folders_meant() if _inode(folder)}:
                    break  # another folder has come into play, or one has been put in another's place
        except (OSError, RuntimeError):  # a folder went away just now, or the system has no watches left
            stop.wait(_ASK_MS / 1000)


def _looked(before: PreviewSubject, changed: Callable[[PreviewSubject], None], draw: Draw) -> PreviewSubject:
    now = look_again(before, draw)
    if now != before:
        changed(now)
    return now


def _state(files: Iterable[Path]) -> FileState:
    """When the files were changed, as far as can be told without opening them."""
    found = []
    for path in files:
        try:
            state = path.stat()
        except (OSError, ValueError):
            continue
        found.append((str(path), state.st_mtime_ns, state.st_ino, state.st_size))
    return tuple(found)


def _inode(folder: Path) -> int:
    """Which folder stands under a name; 0 for none."""
    try:
        return folder.stat().st_ino if folder.is_dir() else 0
    except (OSError, ValueError):
        return 0
