"""Decks as pages in a real browser, for the tests of several modules; a page on which nothing may go wrong."""

from __future__ import annotations

import json
import re
import zlib
from base64 import b64decode
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from html.parser import HTMLParser
from pathlib import Path
from tempfile import mkdtemp
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from explainers.batch import timeline_of
from explainers.outputs.html.deck import deck_page
from explainers.outputs.html.slides import parts_of, slides_of
from explainers.storyboard.model import Step
from explainers.storyboard.timeline import Timeline

__all__ = [
    "CHROMIUM",
    "DESKTOP",
    "ITEMS",
    "PHONE",
    "Tags",
    "browser",
    "deck_file",
    "deck_of",
    "moments_of",
    "open_data",
    "opened",
    "parts",
    "slide_at",
    "slides_told",
]

CHROMIUM = Path("/usr/bin/chromium")  # Debian's
ITEMS = Path(__file__).resolve().parents[2] / "items"
expect.set_options(timeout=20_000)  # what is waited for comes late where a machine has other work

DESKTOP = {"width": 1280, "height": 720}
PHONE = {"width": 390, "height": 844}


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """Debian's Chromium without a window; a fixture of every test in this folder."""
    if not CHROMIUM.exists():
        pytest.skip("Chromium is not installed")
    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox", "--disable-gpu"])
        yield started
        started.close()


class Tags(HTMLParser):
    """Every element of a page with its attributes."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.seen: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))


@cache
def demo(name: str) -> Timeline:
    """A lesson or an item of the demo, told and timed."""
    return timeline_of(ITEMS / f"{name}.yaml")


@cache
def deck_file(name: str) -> Path:
    """The page of a lesson or an item of the demo, made once in a run of the tests."""
    return deck_of(demo(name))


def deck_of(timeline: Timeline) -> Path:
    """The page of any timeline, in a folder of its own."""
    path = Path(mkdtemp(prefix="deck-")) / f"{timeline.storyboard.name}.html"
    path.write_text(deck_page(timeline), encoding="utf-8")
    return path


@contextmanager
def opened(browser: Browser, path: Path, *, start: str = "", still: bool = True, **options: Any) -> Iterator[Page]:
    """The page in a window of its own; that nothing goes wrong on it is asserted when it is closed.

    start   : what stands after the name of the file, such as "#s3"
    still   : whether the reader wishes for less movement
    options : of the window, as Playwright names them, such as viewport=PHONE, has_touch=True
    """
    wished = {"viewport": DESKTOP, "reduced_motion": "reduce" if still else "no-preference", **options}
    context = browser.new_context(**wished)
    page = context.new_page()
    page.set_default_timeout(20_000)
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(f"error: {error}"))
    page.on("dialog", lambda dialog: (wrong.append(f"dialog: {dialog.message}"), dialog.dismiss()))
    page.on("console", lambda said: wrong.append(said.text) if said.type in ("error", "warning") else None)
    page.on("request", lambda sent: wrong.append(sent.url) if not sent.url.startswith(("file:", "data:")) else None)
    try:
        page.goto(path.as_uri() + start)
        yield page
    finally:
        context.close()
    assert not wrong


def slides_told(timeline: Timeline) -> list[list[Step]]:
    """The steps of each slide of the page, in order."""
    steps = timeline.storyboard.steps
    return [[steps[number] for number in slide] for slide in slides_of(steps, parts_of(steps))]


def slide_at(timeline: Timeline, stage: str, item: str = "") -> int:
    """The number, from 0, of the first slide with a step of that stage."""
    return next(
        number
        for number, slide in enumerate(slides_told(timeline))
        if any(step.stage == stage and item in ("", step.item) for step in slide)
    )


def moments_of(slides: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The moments of slides that lie open, one after another."""
    return [moment for slide in slides for moment in slide.get("moments", ())]


def open_data(text: str) -> dict[str, Any]:
    """What stands in a page for anyone to read."""
    (found,) = re.findall(r'<script type="application/json" id="open">(.*?)</script>', text, re.DOTALL)
    data: dict[str, Any] = json.loads(found)
    return data


def parts(text: str) -> dict[str, dict[str, Any]]:
    """What is packed in a page, by the number of its part, which is written in figures."""
    found = re.findall(r'<script type="text/plain" id="part-(\w+)">([^<]*)</script>', text)
    return {name: json.loads(zlib.decompress(b64decode(packed), -15)) for name, packed in found}
