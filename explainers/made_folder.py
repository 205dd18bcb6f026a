"""A folder of outputs: what of it may be written over, what is put aside first, what is out of date and removed.

Each output has a key, such as ``first-blocks.theme-dark:clip``. It writes over its own files only, and only while they
are as they were written: what somebody has changed since, what belongs to another output, and what was never ours is
put aside first, under its own name, into a folder ``kept-1`` (or ``kept-2`` ...). Removed is nothing but a plain file
that the note names for that output, in the folder itself, with the content that was written.

Whatever writes into a lesson's folder does so inside ``MadeFolder.writing(key)``, which listens to files that are
about to appear (``safe_write.told_of_files``): what stands under their names is put aside, then the new hashes are
noted, and only then is a file renamed, so that a kill in between leaves nothing unknown. ``finish`` notes the output
as whole and removes what it has no more: only what is reached through no link, and has a hash that was noted.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import stat
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager, suppress
from functools import partial
from pathlib import Path

from .errors import OutputError
from .made_record import FileNote, MadeRecord, OutputNote, is_plain_name, read_record, write_record
from .safe_write import locked_folder, reported, sweep, told_of_files

__all__ = ["KEPT", "MadeFolder", "folders_made_from", "key_of"]

KEPT = "kept"

_NO_LINK = getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_CLOEXEC", 0)
_CHUNK = 1 << 20  # bytes
_MOST_PRINTS = 8  # of one file: what runs at the same time may have written


def key_of(name: str, output: str) -> str:
    """The key of an output.

    name : the lesson's, with the words of the variant
    """
    return f"{name}:{output}"


class MadeFolder:
    """What one run makes in a folder, from one lesson, item or set of them.

    aside : what was put aside, as (the name that it had, where it is now)
    """

    def __init__(self, folder: Path, sources: Sequence[Path]) -> None:
        self.folder = folder
        self.aside: list[tuple[Path, Path]] = []
        self._sources = tuple(_relative(source, folder) for source in sources)
        self._besides: dict[str, tuple[str, ...]] = {}  # by key, see `writing`
        self._kept: Path | None = None

    def sweep(self) -> None:
        """Remove what killed runs have left unfinished here, and in the folders of pictures."""
        sweep(self.folder)
        for inner in _folders(self.folder):
            sweep(inner)

    def holds(self, key: str, made_from: str) -> bool:
        """Whether an output is there to its end, from the same input: every file, as large as it was when made."""
        record = read_record(self.folder)
        note, names = record.outputs.get(key), record.files_of(key)
        if note is None or note.made_from != made_from or not names:
            return False
        return all(_size(self.folder / name) == record.files[name].size for name in names)

    def holds_list(self, key: str, made_from: str) -> bool:
        """``holds`` for an output that lists the folder: what is beside it must not have changed either."""
        note = read_record(self.folder).outputs.get(key)
        return note is not None and self.holds(key, made_from) and note.beside == self._beside(self.files(key))

    def files(self, key: str) -> tuple[Path, ...]:
        """The files that an output was made of, as the note tells."""
        return tuple(self.folder / name for name in read_record(self.folder).files_of(key))

    def has_any(self, output: str) -> bool:
        """Whether an output of that kind is there, of whatever lesson."""
        return any(key.endswith(key_of("", output)) for key in read_record(self.folder).outputs)

    def made_from(self, key: str) -> str | None:
        """The fingerprint of an output of which something is there; None where nothing is."""
        record = read_record(self.folder)
        note, names = record.outputs.get(key), record.files_of(key)
        return note.made_from if note is not None and any((self.folder / name).is_file() for name in names) else None

    @contextmanager
    def writing(self, key: str, besides: Sequence[Path] = ()) -> Iterator[None]:
        """While the block lasts, files that appear in the folder are this output's.

        besides : files given by hand of which the key has no more than a name, such as a theme's: what was made with
                  another one of that name is another's
        Raises : OutputError where something that must be put aside cannot be
        """
        record = read_record(self.folder)
        self._besides[key] = tuple(_relative(path, self.folder) for path in besides)
        if self._is_anothers(record, key):
            with locked_folder(self.folder):
                for name in record.files_of(key):
                    self._put_aside(name)
        with told_of_files(partial(self._before_files, key)):
            yield

    def finish(self, key: str, made_from: str, paths: Sequence[Path], *, lists: bool = False) -> None:
        """Note that an output has been made to its end, and remove what an earlier run made of it beside.

        lists  : whether it lists the folder
        Raises : OutputError where the note cannot be written, or a file not removed
        """
        named = {path.relative_to(self.folder).as_posix(): path for path in paths}
        names = {name: path for name, path in named.items() if is_plain_name(name)}
        beside = self._beside(paths) if lists else ""
        with locked_folder(self.folder):
            record = read_record(self.folder)
            stale = [name for name in record.files_of(key) if name not in names]
            for name in stale:
                self._remove(name, record.files[name].prints)
            notes = {}
            for name, path in names.items():
                with suppress(FileNotFoundError):  # taken away by another run, which makes it too
                    size, print_ = path.stat().st_size, _print(path)
                    notes[name] = FileNote(key=key, size=size, prints=_prints(record, name, key, print_))
            note = OutputNote(made_from=made_from, beside=beside)
            self._write(record.without_files(stale).with_files(notes).with_output(key, note), key)

    def _before_files(self, key: str, files: Mapping[Path, Path]) -> None:
        """Make room for files that are about to appear, and note them: a kill after this leaves nothing unknown."""
        with locked_folder(self.folder):
            record = read_record(self.folder)
            notes = {}
            for path, whole in files.items():
                name = path.relative_to(self.folder).as_posix() if path.is_relative_to(self.folder) else ""
                if not is_plain_name(name):
                    continue
                with reported(path):
                    new, known = _print(whole), record.files.get(name)
                    if not self._may_be_replaced(path, key, known, new):
                        self._put_aside(name)
                    size, prints = whole.stat().st_size, _prints(record, name, key, new)
                    notes[name] = FileNote(key=key, size=size, prints=prints)
            self._write(record.with_files(notes).with_output(key, None), key)

    def _may_be_replaced(self, path: Path, key: str, known: FileNote | None, new: str) -> bool:
        try:
            state = path.lstat()
        except FileNotFoundError:
            return True
        if stat.S_ISDIR(state.st_mode):
            return True  # cannot be, and is told when it is tried
        if not stat.S_ISREG(state.st_mode):
            return False
        if known is not None and not known.prints and known.size == state.st_size:
            return True  # from a time when the note knew no more
        there = _print(path)
        return there == new or (known is not None and known.key == key and there in known.prints)

    def _is_anothers(self, record: MadeRecord, key: str) -> bool:
        """Whether files that are still there, and are not ours, were made into outputs under this key."""
        others = record.sources.get(key, ())
        return (
            bool(others) and others != self._sources_of(key) and all((self.folder / other).exists() for other in others)
        )

    def _sources_of(self, key: str) -> tuple[str, ...]:
        return (*self._sources, *self._besides.get(key, ()))

    def _put_aside(self, name: str) -> None:
        path = self.folder / name
        with reported(path):
            if not os.path.lexists(path):
                return
            if self._kept is None:
                number = 1
                while os.path.lexists(self.folder / f"{KEPT}-{number}"):
                    number += 1
                self._kept = self.folder / f"{KEPT}-{number}"
            kept = self._kept / name
            kept.parent.mkdir(parents=True, exist_ok=True)
            # A second name first, so that at no time is there no file: the new one then takes the first name.
            if path.is_symlink():
                os.replace(path, kept)
            else:
                try:
                    os.link(path, kept)
                except OSError:  # a file system without such names
                    shutil.copy2(path, kept)
        self.aside.append((path, kept))

    def _remove(self, name: str, prints: Sequence[str]) -> None:
        """Remove a file if it is a plain one, in the folder itself, with content that was written."""
        if os.open not in os.supports_dir_fd:
            return
        *inner, last = name.split("/")
        try:
            with ExitStack() as stack:
                at = os.open(self.folder, os.O_RDONLY | os.O_DIRECTORY | os.O_CLOEXEC)
                stack.callback(os.close, at)
                for part in inner:
                    at = os.open(part, os.O_RDONLY | os.O_DIRECTORY | _NO_LINK, dir_fd=at)
                    stack.callback(os.close, at)
                handle = os.open(last, os.O_RDONLY | _NO_LINK, dir_fd=at)
                stack.callback(os.close, handle)
                if not stat.S_ISREG(os.fstat(handle).st_mode) or _print_of(handle) not in prints:
                    return
                try:
                    os.unlink(last, dir_fd=at)
                except FileNotFoundError:
                    pass
                except OSError as error:
                    path = self.folder / name
                    raise OutputError(f"{path}: is out of date and cannot be removed ({error.strerror})") from error
        except OSError:  # gone, a link, or not to be read: left as it is
            return

    def _write(self, record: MadeRecord, key: str) -> None:
        write_record(self.folder, record.with_sources(key, self._sources_of(key)))

    def _beside(self, own: Sequence[Path]) -> str:
        """Changes with every file that is put beside an output, or taken away, or is of another size."""
        digest = hashlib.sha256()
        found = []
        for at, folders, names in os.walk(self.folder):
            folders[:] = [name for name in folders if not name.startswith(".")]
            found += [Path(at, name) for name in names if not name.startswith(".")]
        for path in sorted(set(found).difference(own)):
            name = path.relative_to(self.folder).as_posix()
            digest.update(os.fsencode(name) + f"\0{_size(path)}\0".encode())
        return digest.hexdigest()


def folders_made_from(source: Path, *, beside: Path) -> tuple[Path, ...]:
    """Other folders beside one whose outputs were all made from the same file, as their notes tell, by name.

    Such a folder is left over where a lesson has got another name or number since.
    """
    found = []
    for folder in sorted(_folders(beside.parent)):
        if folder.name != beside.name and (sources := set(read_record(folder).sources.values())):
            own = (_relative(source, folder),)
            if sources == {own}:
                found.append(folder)
    return tuple(found)


def _prints(record: MadeRecord, name: str, key: str, newest: str) -> tuple[str, ...]:
    """What was written under a name for an output, the newest last: others may be about to write, or may have."""
    known = record.files.get(name)
    before = known.prints if known is not None and known.key == key else ()
    return (*(print_ for print_ in before if print_ != newest), newest)[-_MOST_PRINTS:]


def _relative(source: Path, folder: Path) -> str:
    """Where a source is, as seen from the folder, so that both may be moved together."""
    place = os.path.realpath(source)
    try:
        return Path(os.path.relpath(place, os.path.realpath(folder))).as_posix()
    except ValueError:  # on another drive
        return Path(place).as_posix()


def _folders(folder: Path) -> list[Path]:
    try:
        with os.scandir(folder) as entries:
            return [Path(entry.path) for entry in entries if entry.is_dir(follow_symlinks=False)]
    except OSError:
        return []


def _size(path: Path) -> int | None:
    try:
        state = path.stat()
    except (OSError, ValueError):
        return None
    return state.st_size if stat.S_ISREG(state.st_mode) else None


def _print(path: Path) -> str:
    """The SHA-256 of a file's content, as hex digits."""
    handle = os.open(path, os.O_RDONLY | getattr(os, "O_BINARY", 0))
    try:
        return _print_of(handle)
    finally:
        os.close(handle)


def _print_of(handle: int) -> str:
    digest = hashlib.sha256()
    while part := os.read(handle, _CHUNK):
        digest.update(part)
    return digest.hexdigest()
