"""Files in the house's form: an item or its options as new text, a file put into that form.

What is written is what the reader reads back as the same values; a file is read once more before it counts.

Coordinates are rounded to a millionth of what is drawn, far below what a teacher could mean to tell apart.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from ..choice.question import Question
from ..document.composing import compose_file, compose_text
from ..document.fields import Faults
from ..document.file_text import OpenedFiles, TextOf
from ..document.house_form import house_form
from ..document.yaml_text import lines_of
from ..errors import Fault, ItemError
from ..item.closing_steps import with_closing_steps
from ..item.model import Lesson, Series
from ..item.series_reader import SERIES, SeriesReading, scan_series, series_of
from ..item.theme_format import THEME, ThemeFile, theme_said
from ..item.theme_reader import ThemeReading, scan_theme
from .house_files import HouseKind, house_kind
from .item_reader import format_of_kind, item_of
from .lesson_reader import LESSON, lesson_of
from .reader import LessonReading, Reading, scan_item, scan_lesson

__all__ = ["Rewritten", "item_yaml", "options_yaml", "rewritten"]

_BOM = b"\xef\xbb\xbf"  # some editors begin a file with it


def item_yaml(item: Question, *, comment: Sequence[str] = ()) -> str:
    """The whole file of an item; options are listed where there are any, else asked for.

    comment : lines for the head of the file, without their #
    """
    written = format_of_kind(item.kind).written(item)
    return "\n".join([*(f"# {line}".rstrip() for line in comment), *lines_of(written)]) + "\n"


def options_yaml(item: Question) -> list[str]:
    """The lines of an item's options, as they stand below ``options:``."""
    return list(lines_of({"options": format_of_kind(item.kind).written(item)["options"]}))[1:]


@dataclass(frozen=True, slots=True)
class Rewritten:
    """The bytes of a file as they are, and in the house's form."""

    old: bytes
    new: bytes

    @property
    def changes(self) -> bool:
        return self.old != self.new


def rewritten(path: Path) -> Rewritten:
    """The file in the house's form, meaning the same, every remark kept; line ends and a mark at the start stay.

    Raises: ItemError with every fault of the file, or with why it cannot be rewritten
    """
    opened = OpenedFiles()
    kind = house_kind(path, opened)
    if kind is None:
        composed = compose_file(path, opened)
        if composed.root is None:  # no keys to know it by, since it does not read as a file of keys at all
            raise ItemError(composed.faults)
        raise _refused(path, "this is no item, no lesson, no series and no theme", "name one of those files")
    reading = _SCANS[kind](path, opened)
    if reading.faults:
        raise ItemError(reading.faults)
    if isinstance(reading, Reading):
        assert reading.item is not None, "an item without a fault is there"
        table = format_of_kind(reading.item.kind)
    else:
        table = {"lesson": LESSON, "series": SERIES, "theme": THEME}[kind]
    typed = opened(path)
    text = typed.replace("\r\n", "\n").replace("\r", "\n")
    told = with_closing_steps(text, _walks_to_close(reading.item)) if isinstance(reading, Reading) else text
    new = house_form(told, table.order)
    if new is None:
        raise _refused(
            path,
            "the file cannot be rewritten with every remark in its place, or it repeats a value by * or names one by !",
            "write the value out in each place, and put remarks on lines of their own",
        )
    if _meaning(new, kind, path, opened) != _meaning(text, kind, path, opened):
        raise _refused(path, "rewritten, the file would not mean the same", "leave it as it is, and report it")
    old = path.read_bytes()
    encoded = (new.replace("\n", "\r\n") if "\r\n" in typed else new).encode("utf-8")
    return Rewritten(old=old, new=(_BOM if old.startswith(_BOM) else b"") + encoded)


def _walks_to_close(item: Question | None) -> list[str]:
    """The walks whose last side was left out; one that may have missed its start by a slip stays, so that it warns."""
    return [each.path for each in item.closing if not each.asked and not each.is_doubtful] if item else []


_SCANS: dict[HouseKind, Callable[[Path, TextOf], Reading | LessonReading | SeriesReading | ThemeReading]] = {
    "item": scan_item,
    "lesson": scan_lesson,
    "series": scan_series,
    "theme": scan_theme,
}


def _meaning(text: str, kind: HouseKind, path: Path, opened: TextOf) -> Question | Lesson | Series | ThemeFile | None:
    """What a text says that stands in place of the file; None where it has a fault."""
    composed = compose_text(text, str(path))
    faults = Faults(path, opened)
    if composed.root is None or composed.faults:
        return None
    found: Question | Lesson | Series | ThemeFile | None
    if kind == "item":
        found = item_of(composed.root, faults).item
    elif kind == "lesson":
        found = lesson_of(composed.root, faults)
    elif kind == "series":
        found = series_of(composed.root, faults)
    else:
        record = THEME.read(composed.root, "", faults)
        found = None if record is None else theme_said(record, path.stem)
    return None if faults.found else found


def _refused(path: Path, message: str, fix: str) -> ItemError:
    return ItemError([Fault(field="", file=str(path), message=message, fix=fix)])
