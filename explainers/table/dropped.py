"""A drawing that is dropped on the page, read to a proposal that a person looks at; nothing is changed by it.

POST trace?unit=&grid=&slide=&base=&without=&holes=&pieces=&source=    all but the bytes may be left out
    The body is the file itself, as ``application/octet-stream``, at most 30,000,000 bytes; it is never written to disk.
    unit, grid, slide are as for ``explainers trace``; base is the number of a shape, without, holes and pieces are
    numbers with commas: shapes to leave out, to take as holes, not to take as holes; source is what the file is called.
200 {kind: "picture" | "slide" | "drawing", size, plane, outlines: [{number, name, role: "base" | "piece", does, sure,
    doubts, corners, holes, rings, hole_numbers, place, mark, side, meets}], left_out: [{number, rings}], open:
    [{about, message, fix, at}], passed: [{name, message, fix, at}], remarks, text}
    rings, place, side, meets and at are on the source, y down; plane takes the item's (x, y, 1) there.
    text is that of the whole item, its name and title kept.
422 {why: "refused", message, fix, line}: nothing can be read from it; 400 what is asked for is none of that, 413, 415

One file is read at a time, in a process apart with bounded time and memory, so that none can bring down the page.
"""

from __future__ import annotations

import asyncio
import math
import re
from collections.abc import Mapping
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from ..document.nodes import text_at
from ..document.text_places import composed_once
from ..process_apart import Lost, ProcessApart, TookTooLong
from .read_apart import Asked, proposed
from .sitting import Sitting

__all__ = ["MOST_DROPPED", "TRACE", "Dropped"]

TRACE = "/trace"
MOST_DROPPED = 30_000_000  # bytes
_LONGEST_S = 40.0
_MOST_NUMBERS = 100
_MOST_SAID = 200  # characters of a file's name
_NUMBER = re.compile(r"\d{1,6}(\.\d{1,6})?|\.\d{1,6}")
_WHOLE = re.compile(r"\d{1,6}")
_NO_NAME = re.compile(r"[^a-z0-9]+")
_SMALLER = "save it smaller, or with less on it"


class Dropped:
    """Reads one file after another."""

    def __init__(self, sitting: Sitting) -> None:
        self._sitting = sitting
        self._apart: ProcessApart | None = None  # not before somebody drops something
        self._one = asyncio.Lock()

    async def answer(self, request: Request) -> Response:
        """A proposal, or why there is none."""
        if request.headers.get("content-type", "").strip() != "application/octet-stream":
            return PlainTextResponse("Only application/octet-stream.\n", 415)
        try:
            asked = _asked(request.query_params, self._sitting)
        except ValueError as error:
            return PlainTextResponse(f"This cannot be taken: {error}.\n", 400)
        async with self._one:  # so that no more than one file is ever held
            status, told = await run_in_threadpool(self._read, await request.body(), asked)
        return JSONResponse(told, status)

    def close(self) -> None:
        """End the process, where there is one."""
        if self._apart is not None:
            self._apart.close()
            self._apart = None

    def _read(self, data: bytes, asked: Asked) -> tuple[int, dict[str, Any]]:
        if self._apart is None:
            self._apart = ProcessApart(proposed, longest_s=_LONGEST_S)
        try:
            told: dict[str, Any] = self._apart.done(data, asked)
        except TookTooLong:
            told = _refused(f"it takes longer than {_LONGEST_S:g} s to read")
        except Lost:
            told = _refused("the program itself failed over it")
        return (422 if told.get("why") else 200), told


def _refused(message: str) -> dict[str, Any]:
    return {"why": "refused", "message": message, "fix": _SMALLER, "line": 0}


def _asked(given: Mapping[str, str], sitting: Sitting) -> Asked:
    """What a page asks for.

    Raises : ValueError
    """
    name, title = _called(sitting)
    return Asked(
        unit=_number(given, "unit", 1.0, 1e-6, 1e6),
        grid=_number(given, "grid", 0.5, 0.001, 1e3),
        slide=_whole(given.get("slide") or "1", "slide"),
        base=_whole(given["base"], "base") if given.get("base") else None,
        without=_numbers(given, "without"),
        holes=_numbers(given, "holes"),
        pieces=_numbers(given, "pieces"),
        source=given.get("source", "")[:_MOST_SAID] or "a drawing",
        name=name,
        title=title,
    )


def _number(given: Mapping[str, str], key: str, usual: float, least: float, most: float) -> float:
    text = given.get(key)
    if not text:
        return usual
    value = float(text) if _NUMBER.fullmatch(text) else math.nan
    if not least <= value <= most:
        raise ValueError(f"{key} is no number from {least:g} to {most:g}")
    return value


def _whole(text: str, key: str) -> int:
    if not _WHOLE.fullmatch(text):
        raise ValueError(f"{key} is no whole number")
    return int(text)


def _numbers(given: Mapping[str, str], key: str) -> frozenset[int]:
    each = [part for part in given.get(key, "").split(",", _MOST_NUMBERS) if part]
    return frozenset(_whole(part, key) for part in each)


def _called(sitting: Sitting) -> tuple[str, str | None]:
    """The item's name and title as they stand, or a name made of the file's."""
    root = composed_once(sitting.text).root
    own = text_at(root, "item") if root is not None else ""
    made = _NO_NAME.sub("-", (own or sitting.path.stem).lower()).strip("-")
    return (own if own and made == own else made) or "new-item", (
        text_at(root, "title") if root is not None else ""
    ) or None
