"""Files as a slip of the hand, an editor or a bad disk leaves them: one change each, told by a random generator."""

from __future__ import annotations

import random
from collections.abc import Callable

__all__ = ["mutated"]

_WORDS = (
    b".nan", b".inf", b"-.inf", b"1e309", b"-1e-309", b"1_000", b"0x1F", b"~", b"{}", b"[]", b"yes", b"\"", b"'", b"&a",
    b"*a", b"<<: *a", b"!!python/object:os.system", b"<script>alert(1)</script>", b"\xff\xfe", b"\x00", b"\t", b"- - -",
    b"\xe2\x80\xae", b"99999999999999999999", b"{make: 4, seed: 7}", b"---\n", b"\xed\xa0\x80", b": : :", b"join",
    b"cut",
)  # fmt: skip


def mutated(whole: bytes, rng: random.Random) -> bytes:
    """The file after one to three changes."""
    changed = whole
    for _ in range(rng.choice((1, 1, 1, 2, 3))):
        changed = rng.choice(_CHANGES)(changed, rng)
    return changed


def _cut_short(text: bytes, rng: random.Random) -> bytes:
    return text[: rng.randint(0, len(text))]


def _without_a_line(text: bytes, rng: random.Random) -> bytes:
    lines = text.splitlines(keepends=True) or [b""]
    del lines[rng.randrange(len(lines))]
    return b"".join(lines)


def _line_twice(text: bytes, rng: random.Random) -> bytes:
    lines = text.splitlines(keepends=True) or [b""]
    at = rng.randrange(len(lines))
    return b"".join((*lines[:at], lines[at], *lines[at:]))


def _lines_swapped(text: bytes, rng: random.Random) -> bytes:
    lines = text.splitlines(keepends=True) or [b""]
    one, other = rng.randrange(len(lines)), rng.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]
    return b"".join(lines)


def _digit_changed(text: bytes, rng: random.Random) -> bytes:
    places = [index for index, byte in enumerate(text) if chr(byte).isdigit()]
    if not places:
        return text
    at = rng.choice(places)
    return text[:at] + rng.choice((b"0", b"3", b"7", b"-1", b"12", b"0.5", b"1e6", b"")) + text[at + 1 :]


def _byte_changed(text: bytes, rng: random.Random) -> bytes:
    at = rng.randint(0, len(text))
    return text[:at] + bytes([rng.randrange(256)]) + text[at + 1 :]


def _word_put_in(text: bytes, rng: random.Random) -> bytes:
    at = rng.randint(0, len(text))
    return text[:at] + rng.choice(_WORDS) + text[at:]


def _indented(text: bytes, rng: random.Random) -> bytes:
    lines = text.splitlines(keepends=True) or [b""]
    at = rng.randrange(len(lines))
    lines[at] = rng.choice((b" ", b"   ", b"\t")) + lines[at]
    return b"".join(lines)


def _saved_otherwise(text: bytes, rng: random.Random) -> bytes:
    coding = rng.choice(("utf-16", "utf-8-sig", "latin-1", "cp1252"))
    return text.decode("utf-8", "replace").replace("block", "blöck").encode(coding, "replace")


_CHANGES: tuple[Callable[[bytes, random.Random], bytes], ...] = (
    _cut_short,
    _without_a_line,
    _line_twice,
    _lines_swapped,
    _digit_changed,
    _digit_changed,
    _byte_changed,
    _word_put_in,
    _word_put_in,
    _indented,
    _saved_otherwise,
)
