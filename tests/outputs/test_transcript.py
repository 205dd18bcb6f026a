"""The transcript in place of a clip: complete, in order, in the lesson's language, and a page that needs nothing."""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import pytest
from outputs.chromium import CHROMIUM, opened_page
from storyboard.sample_board import board

from explainers.intake.workspace import load_lesson
from explainers.lesson.planner import plan_lesson
from explainers.outputs.html.transcript import transcript_html, transcript_text, write_transcript
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline

ITEMS = Path(__file__).parents[2] / "items"


def lesson(language: str = "en-GB") -> Timeline:
    found, solutions = load_lesson(ITEMS / "first-blocks.yaml")
    return pace(plan_lesson(replace(found, language=language), solutions))


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    return lesson()


class Elements(HTMLParser):
    """(tag, text) of every element that holds words, and every attribute."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: list[tuple[str, str]] = []
        self.attributes: list[tuple[str, str, str]] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, ""))
        self.attributes += [(tag, name, value or "") for name, value in attrs]

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.found[-1] = (self.found[-1][0], self.found[-1][1] + data)

    def of(self, *tags: str) -> list[tuple[str, str]]:
        return [(tag, text) for tag, text in self.found if tag in tags]


def test_two_files_that_clash_with_no_other(timeline: Timeline, tmp_path: Path) -> None:
    paths = write_transcript(timeline, tmp_path)
    assert [path.name for path in paths] == ["01-first-blocks.transcript.txt", "01-first-blocks.transcript.html"]


def test_every_sentence_and_every_picture_is_told_in_its_step(timeline: Timeline) -> None:
    text = transcript_text(timeline)
    at = 0
    for step in timeline.storyboard.steps:
        at = text.index(f"\n\n{step.heading}\n", at) + 2
        block = text[at : text.index("\n\n", at)]
        said = " ".join(line.removeprefix("Said: ") for line in block.split("\n") if line.startswith("Said: "))
        assert said == " ".join(step.narration)
        if step.pause_s:
            assert f"The clip waits for {step.pause_s:g} seconds." in block
    for step in timeline.storyboard.steps:
        for figure in step.stills:
            assert all(sentence in text for sentence in re.split(r"(?<=[.!?])\s+", figure.alt))


def test_what_is_seen_stands_between_the_words_that_are_said_meanwhile(timeline: Timeline) -> None:
    text = transcript_text(timeline)
    turn = text[text.index("\n\nTurn the flag\n") + 2 :].split("\n\n")[0].split("\n")
    assert turn == [
        "Turn the flag",
        "Said: The marked side slants, but its partner is upright. The flag belongs outside, on the right. "
        "Turn it anticlockwise until the marked side is upright.",
        "On screen: An arrow that shows a turn of 135 degrees anticlockwise.",
        "On screen: On the tray lies the flag, turned. The leaves stand out. "
        "An arrow that shows a turn of 135 degrees anticlockwise. A broken outline shows how the flag lay before.",
        "Said: Not clockwise: that would put it on the left. That is 135 degrees: a quarter turn and half of another.",
    ]


def test_chapters_are_headings_with_their_times_and_steps_stand_under_them(timeline: Timeline) -> None:
    page = Elements(transcript_html(timeline))
    headings = page.of("h1", "h2", "h3")
    assert headings[0] == ("h1", "Joining and cutting blocks: transcript")
    assert [tag for tag, _ in headings].count("h1") == 1
    assert all(int(b[1]) <= int(a[1]) + 1 for (a, _), (b, _) in pairwise(headings)), "no level is left out"
    chapters = [text for tag, text in headings if tag == "h2"]
    assert [text.split(" ", 1)[1] for text in chapters] == [chapter.title for chapter in timeline.chapters]
    assert chapters[1].startswith("0:03 ")
    assert [text for tag, text in headings if tag == "h3"] == [step.heading for step in timeline.storyboard.steps]


def test_the_page_runs_nothing_and_fetches_nothing(timeline: Timeline) -> None:
    page = transcript_html(timeline)
    read = Elements(page)
    assert not read.of("script", "img", "link", "iframe", "object")
    assert not [one for one in read.attributes if one[1] in ("src", "href", "style") or one[1].startswith("on")]
    (style,) = (text for _, text in read.of("style"))
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    (policy,) = (value for tag, name, value in read.attributes if tag == "meta" and "default-src" in value)
    ours = f"default-src 'none'; style-src 'sha256-{digest}'; font-src data:; base-uri 'none'; form-action 'none'"
    assert policy == ours
    assert ("html", "lang", "en-GB") in read.attributes


def test_words_of_a_teacher_are_escaped_and_marked() -> None:
    page = transcript_html(pace(board()))
    assert "<h1>Joining &amp; cutting &lt;blocks&gt;: transcript</h1>" in page
    assert page.count("The teacher&#x27;s own words.") == 1
    assert "Joining & cutting <blocks>: transcript\n" in transcript_text(pace(board()))


def test_a_transcript_speaks_the_language_of_its_lesson() -> None:
    german = lesson("de")
    text, page = transcript_text(german), transcript_html(german)
    assert '<html lang="de">' in page
    assert "Im Bild: " in text and "Gesprochen: " in text and "Der Film wartet 30 Sekunden." in text
    assert not re.search(r"\b(?:On screen|Said|The clip)\b", text)
    assert text.rstrip().endswith("Language de: draft, not yet read by a speaker"), "a draft says that it is one"


def test_a_browser_shows_it_with_its_style(timeline: Timeline, tmp_path: Path) -> None:
    if not CHROMIUM.exists():
        pytest.skip(f"no {CHROMIUM} on this machine")
    _, path = write_transcript(timeline, tmp_path)
    with opened_page(path.as_uri(), tmp_path / "profile") as page:
        assert page.answer("getComputedStyle(document.querySelector('h2')).borderBottomWidth") == "2px"
        shown = page.answer("[...document.querySelectorAll('h3, section p')].map(e => e.innerText)")
        narrow = page.answer(
            "(document.body.style.width = '280px', document.documentElement.scrollWidth <= innerWidth)"
        )
    lines = [line for block in transcript_text(timeline).split("\n\n")[2:] for line in block.split("\n")]
    assert [line for line in lines if line in shown] == shown
    assert narrow
