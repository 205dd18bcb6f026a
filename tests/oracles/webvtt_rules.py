"""The strict rules of a WebVTT file, checked line by line: an oracle that shares nothing with the writer.

Source: W3C WebVTT (github w3c/webvtt, index.bs), as listed in the reference sheet, section 2.1. Rules for *conforming
files*, which are stricter than what a parser must put up with.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise

__all__ = ["StrictCue", "chapter_faults", "faults", "read_strictly", "seconds"]

_STAMP = re.compile(r"^(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})$")
_ENTITY = re.compile(r"&(?:amp|lt|gt|lrm|rlm|nbsp|#\d+|#x[0-9a-fA-F]+);")


@dataclass(frozen=True)
class StrictCue:
    """One cue as it stands in the file, its text unescaped."""

    identifier: str
    start: float
    end: float
    lines: tuple[str, ...]


def seconds(stamp: str) -> float | None:
    """A timestamp in seconds; None where it does not conform."""
    found = _STAMP.match(stamp)
    if found is None:
        return None
    hours, minutes, whole, decimals = found.groups()
    return int(hours or 0) * 3600 + int(minutes) * 60 + int(whole) + int(decimals) / 1000


def read_strictly(text: str) -> tuple[list[StrictCue], list[str]]:
    """The cues of a file, and what is wrong with it."""
    wrong: list[str] = []
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    if not re.match(r"^WEBVTT(?:[ \t].*)?$", lines[0]):
        wrong.append("the first line is not WEBVTT")
    if len(lines) < 3 or lines[1] != "":
        wrong.append("no blank line after WEBVTT")
    if "\0" in text:
        wrong.append("a NUL character")
    cues: list[StrictCue] = []
    block: list[str] = []
    for line in [*lines[2:], ""]:
        if line:
            block.append(line)
            continue
        if block:
            cue = _cue(block, wrong)
            if cue is not None:
                cues.append(cue)
        block = []
    identifiers = [cue.identifier for cue in cues if cue.identifier]
    if len(set(identifiers)) != len(identifiers):
        wrong.append("two cues have one identifier")
    for before, after in pairwise(cues):
        if after.start < before.start:
            wrong.append(f"cue {after.identifier} starts before the cue above it")
    return cues, wrong


def faults(text: str) -> list[str]:
    """What is wrong with a file of captions; [] where it conforms."""
    return read_strictly(text)[1]


def chapter_faults(text: str) -> list[str]:
    """What is wrong with a file of chapters: the above, and chapters that overlap in part."""
    cues, wrong = read_strictly(text)
    for one in cues:
        for other in cues:
            if one.start < other.start < one.end < other.end:
                wrong.append(f"chapters {one.identifier} and {other.identifier} overlap in part")
    return wrong


def _cue(block: list[str], wrong: list[str]) -> StrictCue | None:
    if block[0] == "NOTE" or block[0].startswith(("NOTE ", "NOTE\t")):
        if any("-->" in line for line in block):
            wrong.append("a note holds -->")
        return None
    identifier = ""
    if "-->" not in block[0]:
        identifier, block = block[0], block[1:]
    if not block:
        wrong.append(f"block {identifier!r} has no timing line")
        return None
    timing = re.match(r"^(\S+)[ \t]+-->[ \t]+(\S+)(?:[ \t]+.*)?$", block[0])
    stamps = [seconds(stamp) for stamp in timing.groups()] if timing else [None, None]
    start, end = stamps
    if start is None or end is None:
        wrong.append(f"timing line {block[0]!r} does not conform")
        return None
    if end <= start:
        wrong.append(f"cue {identifier!r} does not end after it starts")
    for line in block[1:]:
        if "-->" in line:
            wrong.append(f"cue {identifier!r} holds -->")
        bare = _ENTITY.sub("", line)
        if "&" in bare:
            wrong.append(f"cue {identifier!r} holds a bare &")
        if "<" in bare:
            wrong.append(f"cue {identifier!r} holds a <")
    return StrictCue(identifier, start, end, tuple(_unescaped(line) for line in block[1:]))


def _unescaped(line: str) -> str:
    return line.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&")
