"""What is looked at: an item, the items of a lesson, or those of a folder; and the pages that show it."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from ..errors import Fault, ThemeError
from ..figure.theme import DEFAULT_THEME, Theme
from ..figure.theme_choice import chosen_theme
from ..intake.reader import item_files, kind_of_file, scan_lesson
from .drawn import Draw, drawn
from .markup import Markup, element
from .page import colour_rules, held_part, way_up
from .seen import Seen, looked_again, not_seen_yet

__all__ = ["PreviewPage", "PreviewSubject", "folders_of", "look_again", "pages", "subject_of", "watched_files"]

_UNFIT = re.compile(r"[^A-Za-z0-9_-]+")
_STOPPED = "The picture below was drawn at {at}, before this went wrong."
_SKETCH = "The picture below shows as much as can be read."
_WHOLE = "The last one without a fault was drawn at {at}."

SubjectKind = Literal["item", "lesson", "folder"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PreviewSubject:
    """What is looked at, as it was last seen."""

    path: Path
    kind: SubjectKind
    items: tuple[Seen, ...] = ()
    title: str = ""
    faults: tuple[Fault, ...] = ()  # of the lesson's file or the folder; an item has its own
    theme: Theme = DEFAULT_THEME  # the lesson's own, as long as it can be read
    files: frozenset[Path] = frozenset()  # beside its own and its items', those that decide how it looks


@dataclass(frozen=True, slots=True, kw_only=True)
class PreviewPage:
    """One page that is served."""

    title: str
    part: Markup
    tag: str  # changes with the part and the theme
    theme: Theme = DEFAULT_THEME


def subject_of(path: Path, draw: Draw = drawn) -> PreviewSubject:
    """What a path stands for, looked at once."""
    path = Path(path)
    kind: SubjectKind = "folder" if _is_folder(path) else "lesson" if kind_of_file(path) == "lesson" else "item"
    return look_again(
        PreviewSubject(path=path, kind=kind, title=path.resolve().name if kind == "folder" else path.stem), draw
    )


def look_again(before: PreviewSubject, draw: Draw = drawn) -> PreviewSubject:
    """A subject as it stands now; raises for nothing that files can hold."""
    if before.kind == "item":
        known = before.items or (not_seen_yet(before.path, ""),)
        return replace(before, items=tuple(looked_again(item, draw) for item in known))
    now, paths = _lesson(before) if before.kind == "lesson" else _folder(before)
    items: list[Seen] = []
    seen = {item.path: item for item in before.items}
    for path in paths:
        item = seen.get(path) or not_seen_yet(path, _slug(path, [*seen.values(), *items]))
        items.append(looked_again(item, draw, now.theme))
    return replace(now, items=tuple(items))


def _lesson(before: PreviewSubject) -> tuple[PreviewSubject, list[Path]]:
    """The lesson with its faults and its theme, and the items that it names; those it named last where it cannot."""
    reading = scan_lesson(before.path)
    lesson, faults = reading.lesson, reading.faults
    if lesson is None:
        return replace(before, faults=faults), [item.path for item in before.items]
    theme = before.theme
    try:
        theme = chosen_theme(lesson.theme)
    except ThemeError as error:
        faults = (*faults, *error.faults)
    now = replace(before, title=lesson.title, faults=faults, theme=theme, files=frozenset(lesson.files))
    return now, list(dict.fromkeys(part.show for part in lesson.parts))


def _folder(before: PreviewSubject) -> tuple[PreviewSubject, list[Path]]:
    known = [item.path for item in before.items]
    if not _is_folder(before.path):
        message, fix = "the folder is not there", "put it back"
    else:
        try:
            return replace(before, faults=()), item_files([before.path])
        except OSError as error:
            message, fix = error.strerror or str(error), "check who may read the folder"
    return replace(before, faults=(Fault(file=str(before.path), field="", message=message, fix=fix),)), known


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except (OSError, ValueError):
        return False


def watched_files(subject: PreviewSubject) -> tuple[Path, ...]:
    """Every file in which a change may matter; a folder's new ones are not yet among them."""
    return tuple(dict.fromkeys((subject.path, *(item.path for item in subject.items), *sorted(subject.files))))


def folders_of(subject: PreviewSubject) -> frozenset[Path]:
    """The folders in which a change may matter."""
    files = watched_files(subject)[1:]
    own = subject.path if subject.kind == "folder" else subject.path.parent
    return frozenset({own, *(file.parent for file in files)})


def pages(subject: PreviewSubject) -> dict[str, PreviewPage]:
    """Every page by its place, which begins and ends with a slash."""
    if subject.kind == "item":
        (item,) = subject.items
        return {"/": _page(item.title, _item_part(item), subject.theme)}
    made = {"/": _page(subject.title, _index_part(subject), subject.theme)}
    for item in subject.items:
        place = f"/item/{item.slug}/"
        back = element("nav", element("a", f"All of {subject.title}", href=way_up(place)), aria_label="Back")
        made[place] = _page(item.title, element("div", back, _item_part(item)), subject.theme)
    return made


def _page(title: str, part: Markup, theme: Theme) -> PreviewPage:
    colours = colour_rules(theme)
    titled = element("div", part, data_title=title, data_colours=colours)
    tag = hashlib.sha256(titled.encode("utf-8", "replace")).hexdigest()[:16]
    return PreviewPage(title=title, part=titled, tag=tag, theme=theme)


def _item_part(item: Seen) -> Markup:
    if not item.faults:
        return item.good or Markup()
    if item.draft is not None:
        since = f"{_SKETCH} {_WHOLE.format(at=item.good_at)}" if item.good is not None else _SKETCH
        return held_part(item.faults, item.draft, since, file=item.path)
    if item.good is not None:
        return held_part(item.faults, item.good, _STOPPED.format(at=item.good_at), file=item.path)
    heading = element("h1", item.title)
    return element("div", heading, held_part(item.faults, None, "", file=item.path))


def _index_part(subject: PreviewSubject) -> Markup:
    cards = element("ul", *(element("li", _card(item), class_="panel") for item in subject.items), class_="cards")
    none = element("p", "There is no item here yet.") if not subject.items else Markup()
    shown = element("div", cards, none)
    if subject.faults:
        shown = held_part(subject.faults, shown, "Below stands what was there before.", file=subject.path)
    return element("div", element("header", element("h1", subject.title)), shown)


def _card(item: Seen) -> Markup:
    count = len(item.faults)
    state, sign = (
        (f"{count} {'thing' if count == 1 else 'things'} to mend", "wrong") if count else (item.state, item.sign)
    )
    return element(
        "div",
        item.small or "",
        element("h2", element("a", item.title, href=f"item/{item.slug}/")),
        element("p", state, class_=f"state {sign}"),
        element("p", item.path.name, class_="quiet"),
    )


def _slug(path: Path, others: Iterable[Seen]) -> str:
    taken = {item.slug for item in others}
    plain = _UNFIT.sub("-", path.stem).strip("-") or "item"
    return next(slug for slug in (plain, *(f"{plain}-{n}" for n in range(2, 10_000))) if slug not in taken)


Pages = Mapping[str, PreviewPage]
