"""What of a lesson is in its folder: the files that its page lists, each with the name that its writer gives it.

Nothing is listed that is not there, and nothing that bears another lesson's name.

A new writer needs a ``IndexItem``, a row of ``PARTS`` and its two messages in ``sentences.index_page``; a test runs the
writers and compares.
"""

from __future__ import annotations

import re
import stat
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from ...sentences.index_page import Group, IndexItem, files_label, holding, pictures_label
from ...sentences.variants import labelled, variant_words

__all__ = ["PARTS", "FolderPart", "FoundFile", "FoundPart", "found_parts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """A file by the end of its name; what stands before is the lesson's name."""

    text: str
    kind: str
    what: str = ""  # what it holds, where a thing has several files


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderPart:
    """One thing on the page and the files that belong to it."""

    thing: IndexItem
    group: Group
    endings: tuple[Ending, ...]
    on_paper: bool = False  # to be printed: its paper is told
    folder: str = ""  # of a thing that is a folder: how its name begins; a variant's words or a number may follow


def _sheet(thing: IndexItem, group: Group) -> FolderPart:
    return FolderPart(
        thing=thing, group=group, endings=(Ending(text=f".{thing.value}.pdf", kind="PDF"),), on_paper=True
    )


# In the order of the page. Held by a test to what the writers write.
PARTS: tuple[FolderPart, ...] = (
    FolderPart(thing=IndexItem.DECK_HTML, group=Group.LEARNERS, endings=(Ending(text=".html", kind="HTML"),)),
    _sheet(IndexItem.QUESTIONS, Group.LEARNERS),
    _sheet(IndexItem.CUT_OUT, Group.LEARNERS),
    FolderPart(
        thing=IndexItem.TRANSCRIPT,
        group=Group.LEARNERS,
        endings=(Ending(text=".transcript.html", kind="HTML"), Ending(text=".transcript.txt", kind="TXT")),
    ),
    FolderPart(thing=IndexItem.DECK, group=Group.TEACHER, endings=(Ending(text=".pptx", kind="PPTX"),)),
    FolderPart(thing=IndexItem.DECK_PDF, group=Group.TEACHER, endings=(Ending(text=".pdf", kind="PDF"),)),
    _sheet(IndexItem.HANDOUT, Group.TEACHER),
    _sheet(IndexItem.ANSWERS, Group.TEACHER),
    _sheet(IndexItem.MARKING, Group.TEACHER),
    FolderPart(
        thing=IndexItem.CERTIFICATE, group=Group.TEACHER, endings=(Ending(text=".certificate.txt", kind="TXT"),)
    ),
    FolderPart(
        thing=IndexItem.SCRIPT,
        group=Group.TEACHER,
        endings=(Ending(text=".script.html", kind="HTML"), Ending(text=".script.pdf", kind="PDF")),
    ),
    FolderPart(
        thing=IndexItem.CUES,
        group=Group.TEACHER,
        endings=(
            Ending(text=".cues.csv", kind="CSV", what="table"),
            Ending(text=".cues.vtt", kind="VTT", what="captions"),
            Ending(text=".cues.srt", kind="SRT", what="captions"),
            Ending(text=".cues.chapters.vtt", kind="VTT", what="chapters"),
            Ending(text=".cues.descriptions.vtt", kind="VTT", what="descriptions"),
        ),
    ),
    FolderPart(thing=IndexItem.PROMPTER, group=Group.TEACHER, endings=(Ending(text=".prompter.html", kind="HTML"),)),
    FolderPart(
        thing=IndexItem.CLIP,
        group=Group.PUBLISHING,
        endings=(
            Ending(text=".mp4", kind="MP4"),
            Ending(text=".vtt", kind="VTT", what="captions"),
            Ending(text=".srt", kind="SRT", what="captions"),
        ),
    ),
    FolderPart(
        thing=IndexItem.POSTER,
        group=Group.PUBLISHING,
        endings=(Ending(text=".poster.png", kind="PNG"), Ending(text=".poster.svg", kind="SVG")),
    ),
    FolderPart(thing=IndexItem.STILLS, group=Group.PUBLISHING, endings=(), folder="stills"),
    FolderPart(thing=IndexItem.DESCRIPTION, group=Group.PUBLISHING, endings=(Ending(text=".txt", kind="TXT"),)),
    FolderPart(thing=IndexItem.KEPT, group=Group.KEPT, endings=(), folder="kept"),
)

_STILL = re.compile(r"[0-9]{3,}-[^/]*\.(?:png|svg)")


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundFile:
    """A file that is there, or a folder of pictures."""

    place: str  # relative to the folder, as its name is written
    label: str
    size: int  # bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPart:
    """A thing of which something is there."""

    thing: IndexItem
    group: Group
    files: tuple[FoundFile, ...]


def found_parts(folder: Path, names: Sequence[str]) -> Iterator[FoundPart]:
    """The things that are in the folder, in the order of the page, in the language that is being spoken.

    names : what files of the lesson may be called; of one thing the first name that is found counts
    """
    there = _plain(folder)
    for part in PARTS:
        find = _put_aside if part.thing is IndexItem.KEPT else _pictures
        files = tuple(find(part, there)) if part.folder else ()
        for name in names:
            files = files or tuple(_files(part, name, there))
        if files:
            yield FoundPart(thing=part.thing, group=part.group, files=files)


def _files(part: FolderPart, name: str, there: dict[str, Path]) -> Iterator[FoundFile]:
    for ending in part.endings:
        words_of = {
            file: words
            for file in there
            if file.endswith(ending.text) and (words := variant_words(name, file.removesuffix(ending.text))) is not None
        }
        for file, words in sorted(words_of.items(), key=lambda found: len(found[1])):  # the ordinary one first
            if (size := _size(there[file])) is not None:
                what = holding(ending.what) if ending.what else ""
                label = labelled(ending.kind, what, words, on_paper=part.on_paper)
                yield FoundFile(place=file, label=label, size=size)


def _pictures(part: FolderPart, there: dict[str, Path]) -> Iterator[FoundFile]:
    for name, path in there.items():
        words = variant_words(part.folder, name)
        if words is None:
            continue
        sizes = _sizes(file for file in _plain(path).values() if _STILL.fullmatch(file.name))
        if sizes:
            yield FoundFile(place=f"{name}/", label=pictures_label(len(sizes), words), size=sum(sizes))


def _put_aside(part: FolderPart, there: dict[str, Path]) -> Iterator[FoundFile]:
    for name, path in there.items():
        if name.startswith(f"{part.folder}-") and name[len(part.folder) + 1 :].isdigit():
            inner = _plain(path)
            files = [file for place in (inner, *map(_plain, inner.values())) for file in place.values()]
            if sizes := _sizes(files):
                yield FoundFile(place=f"{name}/", label=f"{name}: {files_label(len(sizes))}", size=sum(sizes))


def _plain(folder: Path) -> dict[str, Path]:
    """What is in a folder by its name, in order; nothing hidden, which may be another run's and go at any moment."""
    try:
        return {path.name: path for path in sorted(folder.iterdir()) if not path.name.startswith(".")}
    except OSError:  # no folder, or no more
        return {}


def _sizes(files: Iterable[Path]) -> list[int]:
    return [size for size in map(_size, files) if size is not None]


def _size(path: Path) -> int | None:
    """The size of a plain file in bytes; None for what is none, or has gone meanwhile."""
    try:
        state = path.stat()
    except OSError:
        return None
    return state.st_size if stat.S_ISREG(state.st_mode) else None
