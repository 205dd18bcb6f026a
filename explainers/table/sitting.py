"""One file being drawn: its text as it stands, changed by commands, undone, merged with what others write, saved.

Every change is in the journal before it is answered; the file is written as soon as the text is sound to read, that is
without a fault of its reader, and never over anything that was not seen: what was changed in an editor meanwhile is
merged field by field, or asked about. Until that is answered the file is left alone. Safe for several threads.
"""

from __future__ import annotations

import re
import threading
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from ..document.file_text import MAX_BYTES, text_of_file
from ..document.key_order import KeyOrder
from ..document.merging import Clash, merged
from ..document.nodes import text_at
from ..document.text_edits import newline_of
from ..document.text_places import composed_once
from ..document.yaml_text import text_yaml
from ..editing.command import Command
from ..editing.sheet import CannotEdit, Note, Sheet
from ..errors import ItemError, OutputError
from ..intake.item_reader import format_of_kind
from ..intake.reader import Reading, scan_item
from ..item.folder import kind_of_file
from ..kinds.registry import DEFAULT_KIND, kind_names
from .history import CHANGE, REDO, UNDO, History
from .item_file import FileState, read_file, written_file
from .journal import Journal
from .kept_steps import KeptSteps

__all__ = ["Changed", "Clashed", "OtherFile", "Outcome", "Sitting", "Stale", "done_to", "kind_of_text", "reading_of"]

_NO_NAME = re.compile(r"[^a-z0-9]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherFile:
    """The file is another than the one that was seen, and nobody can say which text is meant: ask."""

    why: str  # clash: both changed one field; unreadable: it is no YAML now; gone: it is no longer there
    clashes: tuple[Clash, ...] = ()
    digest: str = ""
    text: str | None = None
    fault: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A change was done."""

    notes: tuple[Note, ...] = ()
    merged: bool = False  # with changes that its window had not seen


@dataclass(frozen=True, slots=True, kw_only=True)
class Clashed:
    """A change was not done: another window has changed the same field since."""

    clashes: tuple[Clash, ...]


@dataclass(frozen=True, slots=True)
class Stale:
    """A change was not done: what its window saw is too long ago, or others have changed something since."""


Outcome = Changed | Clashed | Stale


def kind_of_text(text: str) -> str:
    """The kind of question that a text says it is, where there is such a one; else the default."""
    root = composed_once(text).root
    named = text_at(root, "kind") if root is not None else ""
    return named if named in kind_names() else DEFAULT_KIND


class Sitting:
    """A file while it is drawn."""

    def __init__(self, path: Path, *, kind: str | None = None, kept: KeptSteps | None = None) -> None:
        """Opens a file, takes up what a sitting before left unfinished, or begins a new item.

        kind   : of a new item
        kept   : where steps to undo and redo are kept from sitting to sitting; left out: nowhere
        Raises : OutputError where no journal can be kept, ItemError where the file is no text or no item
        """
        self.path = path.resolve()  # a link stays a link
        self._lock = threading.RLock()
        if self.path.exists() and (found := kind_of_file(self.path)) in ("lesson", "series"):
            raise OutputError(f"{path}: this is a {found}, not an item. To mend it: name the file of one item.")
        seen = read_file(self.path, MAX_BYTES)
        if seen.is_there and seen.text is None:
            raise ItemError(scan_item(path).faults)
        begun = seen.text if seen.text is not None else _begun(self.path, kind)
        self._journal = Journal(self.path)
        self._seen = seen
        self._base = begun  # the text that the file has, as far as is known: what both sides began from
        self._kept = kept
        self._history = self._before(begun)
        self.taken_up = False  # whether something was left unfinished
        self.other: OtherFile | None = None
        self._untouched = True  # a new item is no file before something is done to it
        self.failed = ""  # why the file could not be written last time
        left = self._journal.left
        if left is not None and left.text != begun and (left.text != left.base or not seen.is_there):
            self._take_up(left.base, left.digest, left.text)
        else:
            if begun != self._history.text:  # changed in an editor meanwhile: one step of the history
                self._history.change(begun)
            self._keep()
            self._journal.begin(begun, seen.digest)

    @property
    def text(self) -> str:
        """As it stands."""
        return self._history.text

    @property
    def revision(self) -> int:
        """Counts every change."""
        return self._history.revision

    @property
    def undo_steps(self) -> tuple[int, int]:
        """How many changes can be undone, and done again."""
        return self._history.can_undo, self._history.can_redo

    @property
    def order(self) -> KeyOrder:
        """Of the keys of the file."""
        return format_of_kind(kind_of_text(self.text)).order

    @property
    def is_saved(self) -> bool:
        """Whether the file has the text as it stands."""
        return self._seen.text == self.text

    @property
    def is_new(self) -> bool:
        """Whether there is no file yet."""
        return not self._seen.is_there

    def snapshot(self) -> tuple[int, str]:
        """The revision and its text, of one moment."""
        with self._lock:
            return self.revision, self.text

    def reading(self) -> Reading:
        """What the readers make of the text, as if it stood in the file."""
        return reading_of(self.text, self.path)

    def edit(self, commands: Sequence[Command], against: int) -> Outcome:
        """Do commands, one after the other, all or none.

        against : the revision that whoever asks has seen
        Raises  : CannotEdit where one of them cannot be done, OutputError where the journal cannot be kept
        """
        with self._lock:
            base = self._history.at(against)
            if base is None:
                return Stale()
            sheet = done_to(base, commands)
            return self._changed(base, sheet.text, sheet.notes)

    def tried(self, commands: Sequence[Command], against: int) -> Sheet | None:
        """What commands would come to, without doing them; None where what was seen is too long ago.

        Raises : CannotEdit
        """
        base = self._history.at(against)
        return None if base is None else done_to(base, commands)

    def write(self, text: str, against: int) -> Outcome:
        """Put a whole text in the place of the one that was seen, whether it can be read or not."""
        with self._lock:
            base = self._history.at(against)
            if base is None:
                return Stale()
            newline = newline_of(base)
            plain = text.replace("\r\n", "\n").replace("\r", "\n")
            return self._changed(base, plain.replace("\n", newline) if newline != "\n" else plain, ())

    def undo(self, against: int) -> Outcome:
        """Take the last change back."""
        return self._step(against, UNDO, self._history.undone, self._history.undo)

    def redo(self, against: int) -> Outcome:
        """Do again what was taken back last."""
        return self._step(against, REDO, self._history.redone, self._history.redo)

    def look_at_file(self) -> bool:
        """See whether the file has been changed by others, and take that in; whether anything is other than before."""
        with self._lock:
            before = (self.revision, self.other)
            self._take_in()
            self._save()
            return before != (self.revision, self.other)

    def answer(self, keep: str, against: int) -> Outcome:
        """Settle which text is meant where the file has become another one.

        keep : ours, to write this text over the file as it was asked about; theirs, to take the file's
        """
        with self._lock:
            other = self.other
            if other is None or against != self.revision:
                return Stale()
            now = read_file(self.path, MAX_BYTES)
            if now.digest != other.digest:  # it has been changed once more since it was asked about
                self._take_in()
                return Stale()
            if keep == "theirs":
                if other.text is None:
                    raise CannotEdit("the file has no text that could be taken", "keep the text of this page")
                self._become(other.text)
            self.other, self._untouched = None, False
            self._seen = now
            self._base = now.text if now.text is not None else self._base
            self._journal.known(self._base, now.digest, self.text)
            self._save()
            return Changed()

    def close(self) -> None:
        """Save what can be saved; the journal stays where the file has not everything."""
        with self._lock:
            with suppress(OutputError):  # what is not in the file stays in the journal
                self.look_at_file()
            keep = self.other is not None or (not self.is_saved and not self._untouched)
            if not keep:  # else the journal has them
                self._keep()
            self._journal.close(keep=keep)

    def _step(self, against: int, move: str, goal: Callable[[], str | None], step: Callable[[], None]) -> Outcome:
        with self._lock:
            if against != self.revision:
                return Stale()
            text = goal()
            if text is None:
                return Changed()
            self._journal.add(text, move)
            step()
            self._take_in()
            self._save()
            return Changed()

    def _changed(self, base: str, new: str, notes: tuple[Note, ...]) -> Outcome:
        """A text made of one that was seen, brought together with the text as it stands."""
        if len(new.encode("utf-8")) > MAX_BYTES:
            raise CannotEdit(f"the file would have more than {MAX_BYTES:,} bytes", "make it shorter")
        together = base != self.text
        if together:
            found = merged(base, new, self.text, self.order)
            if found.text is None:
                return Clashed(clashes=found.clashes)
            new = found.text
        self._become(new)
        self._take_in()
        self._save()
        return Changed(notes=notes, merged=together)

    def _become(self, text: str) -> None:
        if text != self.text:
            self._journal.add(text)
            self._history.change(text)
            self._untouched = False

    def _before(self, begun: str) -> History:
        """The history as a sitting before left it, however it ended."""
        steps = self._kept.of(self.path) if self._kept is not None else None
        left = self._journal.left
        history = History.after(steps) if steps is not None else History(left.began if left is not None else begun)
        if left is not None:
            history.replay(CHANGE, left.began)
            for move, text in left.moves:
                history.replay(move, text)
        return history

    def _keep(self) -> None:
        if self._kept is not None:
            self._kept.keep(self.path, self._history.steps())

    def _take_up(self, base: str, digest: str, text: str) -> None:
        """Go on from what the journal has that the file has not."""
        self.taken_up, self._untouched = True, False
        now, self._base = self._base, base
        if self._history.text != text:
            self._history.change(text)
        seen = self._seen
        self._seen = FileState(digest=digest, text=base if digest else None, marked=seen.marked)
        if now != base or seen.digest != digest:
            self._take_in()
        self._save()

    def _take_in(self) -> None:
        """Merge the file with the text where others have changed it."""
        now = read_file(self.path, MAX_BYTES)
        if now.digest == self._seen.digest:
            self.other = None  # it may be back as it was
            return
        if not now.is_there:
            self.other = OtherFile(why="gone")
            return
        if now.text is None or composed_once(now.text).root is None:
            self.other = OtherFile(why="unreadable", digest=now.digest, text=now.text, fault=_why(now))
            return
        found = merged(self._base, self.text, now.text, self.order)
        if found.text is None:
            self.other = OtherFile(why="clash", clashes=found.clashes, digest=now.digest, text=now.text)
            return
        self.other, self._seen, self._base = None, now, now.text
        self._journal.known(now.text, now.digest, found.text)
        if found.text != self.text:
            self._history.change(found.text)

    def _save(self) -> None:
        """Write the file, where it is sound to read and nobody has to be asked first."""
        if self.other is not None or self.is_saved:
            return
        if self.is_new and self._untouched:
            return
        reading = self.reading()
        if reading.faults or reading.item is None:
            return
        try:
            if read_file(self.path, MAX_BYTES).digest != self._seen.digest:
                return  # changed this very moment: taken in when it is looked at next
            self._seen = written_file(self.path, self.text, marked=self._seen.marked)
        except OutputError as error:
            self.failed = str(error)
            return
        self.failed = ""
        self._base = self.text
        if self._journal.known(self.text, self._seen.digest, self.text):
            self._keep()


def done_to(base: str, commands: Sequence[Command]) -> Sheet:
    """A text with commands done to it, one after the other.

    Raises : CannotEdit
    """
    sheet = Sheet(text=base, order=format_of_kind(kind_of_text(base)).order)
    for command in commands:
        sheet = command.apply(sheet)
    return sheet


@lru_cache(maxsize=4)
def reading_of(text: str, path: Path) -> Reading:
    """What the readers make of a text that stands in the place of a file; the same text is read once."""
    return scan_item(path, lambda asked: text if asked == path else text_of_file(asked))


def _begun(path: Path, kind: str | None) -> str:
    name = _NO_NAME.sub("-", path.stem.lower()).strip("-") or "new-item"
    asked = f"kind: {text_yaml(kind)}\n" if kind not in (None, DEFAULT_KIND) else ""
    return f"item: {text_yaml(name)}\n{asked}"


def _why(now: FileState) -> str:
    if now.text is None:
        return now.fault
    faults = composed_once(now.text).faults
    return f"line {faults[0].line}: {faults[0].message}" if faults else ""
