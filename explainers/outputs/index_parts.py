"""What of a lesson is in its folder: the files that its page lists, each with the name that its writer gives it.

Nothing is listed that is not there, and nothing that bears another lesson's name.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from ..wording.index_page import Group, Thing, file_label, pictures_label, version_label

__all__ = ["PARTS", "FoundFile", "FoundPart", "Part", "found_parts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """A file by the end of its name; what stands before is the lesson's name."""

    text: str
    kind: str
    what: str = ""  # what it holds, where a thing has several files


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One thing on the page and the files that belong to it."""

    thing: Thing
    group: Group
    endings: tuple[Ending, ...]
    folder: str = ""  # of a thing that is a folder of pictures: its name


def _sheet(thing: Thing, group: Group) -> Part:
    return Part(thing=thing, group=group, endings=(Ending(text=f".{thing.value}.pdf", kind="PDF"),))


# In the order of the page. Held by a test to what the writers write.
PARTS: tuple[Part, ...] = (
    Part(thing=Thing.DECK_HTML, group=Group.LEARNERS, endings=(Ending(text=".html", kind="HTML"),)),
    _sheet(Thing.QUESTIONS, Group.LEARNERS),
    _sheet(Thing.CUT_OUT, Group.LEARNERS),
    Part(
        thing=Thing.TRANSCRIPT,
        group=Group.LEARNERS,
        endings=(Ending(text=".transcript.html", kind="HTML"), Ending(text=".transcript.txt", kind="TXT")),
    ),
    Part(thing=Thing.DECK, group=Group.TEACHER, endings=(Ending(text=".pptx", kind="PPTX"),)),
    Part(thing=Thing.DECK_PDF, group=Group.TEACHER, endings=(Ending(text=".pdf", kind="PDF"),)),
    Part(thing=Thing.HANDOUT, group=Group.TEACHER, endings=(Ending(text=".handout.pdf", kind="PDF"),)),
    _sheet(Thing.ANSWERS, Group.TEACHER),
    _sheet(Thing.MARKING, Group.TEACHER),
    Part(thing=Thing.CERTIFICATE, group=Group.TEACHER, endings=(Ending(text=".certificate.txt", kind="TXT"),)),
    Part(
        thing=Thing.SCRIPT,
        group=Group.TEACHER,
        endings=(Ending(text=".script.html", kind="HTML"), Ending(text=".script.pdf", kind="PDF")),
    ),
    Part(
        thing=Thing.CUES,
        group=Group.TEACHER,
        endings=(
            Ending(text=".cues.csv", kind="CSV", what="table"),
            Ending(text=".cues.vtt", kind="VTT", what="captions"),
            Ending(text=".cues.srt", kind="SRT", what="captions"),
            Ending(text=".cues.chapters.vtt", kind="VTT", what="chapters"),
            Ending(text=".cues.descriptions.vtt", kind="VTT", what="descriptions"),
        ),
    ),
    Part(thing=Thing.PROMPTER, group=Group.TEACHER, endings=(Ending(text=".prompter.html", kind="HTML"),)),
    Part(
        thing=Thing.CLIP,
        group=Group.PUBLISHING,
        endings=(
            Ending(text=".mp4", kind="MP4"),
            Ending(text=".vtt", kind="VTT", what="captions"),
            Ending(text=".srt", kind="SRT", what="captions"),
        ),
    ),
    Part(
        thing=Thing.POSTER,
        group=Group.PUBLISHING,
        endings=(Ending(text=".poster.png", kind="PNG"), Ending(text=".poster.svg", kind="SVG")),
    ),
    Part(thing=Thing.STILLS, group=Group.PUBLISHING, endings=(), folder="stills"),
    Part(thing=Thing.DESCRIPTION, group=Group.PUBLISHING, endings=(Ending(text=".txt", kind="TXT"),)),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundFile:
    """A file that is there, or a folder of pictures."""

    place: str  # relative to the folder, as its name is written
    label: str
    size: int  # bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPart:
    """A thing of which something is there."""

    thing: Thing
    group: Group
    files: tuple[FoundFile, ...]


def found_parts(folder: Path, names: Sequence[str]) -> Iterator[FoundPart]:
    """The things that are in the folder, in the order of the page, in the language that is being spoken.

    names : what files of the lesson may be called; of one thing the first name that is found counts
    """
    there = {path.name: path for path in sorted(folder.iterdir())} if folder.is_dir() else {}
    for part in PARTS:
        files = _pictures(there.get(part.folder)) if part.folder else ()
        for name in names:
            files = files or tuple(_files(part, name, there))
        if files:
            yield FoundPart(thing=part.thing, group=part.group, files=files)


def _files(part: Part, name: str, there: dict[str, Path]) -> Iterator[FoundFile]:
    for ending in part.endings:
        # A sheet may be there in several versions, whose number stands before its kind.
        wanted = re.compile(rf"{re.escape(name)}(?:\.version-(\d+))?{re.escape(ending.text)}")
        for file, path in there.items():
            if (named := wanted.fullmatch(file)) and path.is_file():
                number = named[1]
                label = version_label(int(number), ending.kind) if number else file_label(ending.kind, ending.what)
                yield FoundFile(place=file, label=label, size=path.stat().st_size)


def _pictures(folder: Path | None) -> tuple[FoundFile, ...]:
    if folder is None or not folder.is_dir():
        return ()
    sizes = [path.stat().st_size for path in folder.iterdir() if path.suffix in (".png", ".svg")]
    if not sizes:
        return ()
    return (FoundFile(place=f"{folder.name}/", label=pictures_label(len(sizes)), size=sum(sizes)),)
