"""The recording script, read back: each cue with words, seconds, picture, whole on one page, in large type."""

from __future__ import annotations

import base64
import hashlib
import html
import re
from dataclasses import dataclass, replace
from pathlib import Path

import pdfua
import pikepdf
import pytest
from outputs.chromium import CHROMIUM, opened_page
from outputs.matterhorn.failed import failed
from outputs.pdf_read import Element, content_faults, elements, pages_read
from storyboard.sample_board import board, one_step, words_board

from explainers.batch import timeline_of
from explainers.intake.workspace import load_lesson
from explainers.lesson.planner import plan_lesson
from explainers.outputs.html.script import script_html
from explainers.outputs.pdf.script import script_pdf
from explainers.outputs.script import write_script
from explainers.outputs.shared.script_body import cues_read
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline

ITEMS = Path(__file__).parents[2] / "items"
LEAST_PT = 18.0  # large type: WCAG 2.2, 1.4.3 (references.md, 3)


@pytest.fixture(scope="module")
def timeline() -> Timeline:
    return timeline_of(ITEMS / "flag-block.yaml")


@pytest.fixture(scope="module")
def pdf(timeline: Timeline, tmp_path_factory: pytest.TempPathFactory) -> Path:
    paths = write_script(timeline, tmp_path_factory.mktemp("script"))
    assert [path.name for path in paths] == ["flag-block.script.html", "flag-block.script.pdf"]
    return paths[1]


@dataclass(frozen=True)
class Cue:
    """One cue of the page, as it stands there."""

    heading: str
    about: list[str]
    lines: list[tuple[str, str]]  # class, text
    alts: list[str]


def cues_of(page: str) -> list[Cue]:
    found = []
    for block in re.findall(r'<section class="cue[^>]*>(.*?)</section>', page, re.DOTALL):
        about = re.search(r'<div class="about">(.*?)</div>', block)
        (heading,) = re.findall(r"<h3>(.*?)</h3>", block)
        assert about is not None
        found.append(
            Cue(
                heading=html.unescape(heading),
                about=[html.unescape(text) for text in re.findall(r"<p>(.*?)</p>", about[1])],
                lines=[(kind, html.unescape(text)) for kind, text in re.findall(r'<p class="(\w+)">(.*?)</p>', block)],
                alts=[html.unescape(alt) for alt in re.findall(r'<svg[^>]* aria-label="([^"]*)"', block)],
            )
        )
    return found


def seconds_in(line: str) -> float:
    (number,) = re.findall(r"([\d.]+) seconds", line)
    return float(number)


@pytest.mark.parametrize("of_sample", [False, True])
def test_each_cue_has_its_words_its_seconds_and_its_picture(timeline: Timeline, of_sample: bool) -> None:
    made = pace(board()) if of_sample else timeline
    cues = cues_of(script_html(made))
    for number, (cue, step) in enumerate(zip(cues, made.storyboard.steps, strict=True), start=1):
        assert cue.heading == f"Cue {number}: {step.heading}"
        assert cue.about[0] == step.id
        assert [text for kind, text in cue.lines if kind == "line"] == list(step.narration)
        assert cue.alts == [step.stills[0].alt if step.pause_s else step.picture.alt]
        first, after = made.step_span(step.id)
        fill = [seconds_in(line) for line in cue.about if line.endswith("to fill.")]
        silent = [seconds_in(text) for kind, text in cue.lines if kind == "wait" and "silence" in text]
        assert len(fill) == bool(step.narration)
        assert sum(fill) + sum(silent) == pytest.approx((after - first) / made.fps, abs=0.05 * (1 + len(silent)) + 0.01)
        assert (("wait", "Say nothing.") in cue.lines) == (not step.narration)
        assert ("The teacher's own words." in cue.about) == (step.teachers_own and bool(step.narration))


def test_a_pause_is_a_silence_after_its_words() -> None:
    pause = next(cue for cue in cues_of(script_html(pace(board()))) if cue.about[0] == "sample-block.pause")
    assert [kind for kind, _ in pause.lines] == ["line", "line", "wait"]
    assert seconds_in(pause.lines[-1][1]) == pytest.approx(30.0, abs=1.0)


def test_the_page_runs_nothing_fetches_nothing_and_has_no_ids(timeline: Timeline) -> None:
    page = script_html(timeline)
    (style,) = re.findall(r"<style>(.*?)</style>", page, re.DOTALL)
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode()
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; font-src data:; base-uri 'none'; form-action 'none'"
    assert html.escape(policy) in page
    assert not re.search(r"<(?:script|img|link|iframe|object|use)\b|\s(?:src|href|style|id|on\w+)=", page)
    assert '<html lang="en-GB">' in page and "<title>The flag block: recording script</title>" in page


def test_a_browser_shows_it_in_large_type(timeline: Timeline, tmp_path: Path) -> None:
    if not CHROMIUM.exists():
        pytest.skip(f"no {CHROMIUM} on this machine")
    path = write_script(timeline, tmp_path)[0]
    sizes = "[...document.querySelectorAll('h1, h2, h3, p')].map(e => parseFloat(getComputedStyle(e).fontSize))"
    with opened_page(path.as_uri(), tmp_path / "profile") as page:
        assert min(page.answer(sizes)) >= LEAST_PT * 96 / 72
        pictures = page.answer("[...document.querySelectorAll('svg')].map(e => e.getBoundingClientRect().width)")
        assert len(pictures) == len(timeline.storyboard.steps)
        assert all(width == pytest.approx(72 / 25.4 * 96, abs=1.0) for width in pictures), "the style is let in"
        assert page.answer("document.documentElement.scrollWidth <= innerWidth")


def by_cue(path: Path) -> list[list[Element]]:
    groups: list[list[Element]] = []
    for element in elements(path):
        if element.tag == "H3":
            groups.append([])
        if groups and element.tag != "H2":
            groups[-1].append(element)
    return groups


def assert_no_cue_is_broken(path: Path, chapters: set[str]) -> None:
    """Every page after the first begins with a cue or its chapter, and what belongs to a cue stands on its page."""
    for number, page in enumerate(pages_read(path)):
        first = page.text.split("\n")[0]
        assert number == 0 or first.startswith("Cue ") or first in chapters, first
    assert all(len({element.page for element in group}) == 1 for group in by_cue(path))


def test_the_pages_keep_the_rules_of_pdf_ua(pdf: Path) -> None:
    assert content_faults(pdf) == []
    assert failed(pdf) == []
    assert [finding.message for finding in pdfua.validate(str(pdf)).findings] == []
    with pikepdf.open(pdf) as read, read.open_metadata() as metadata, read.open_outline() as outline:
        assert metadata["dc:title"] == "The flag block: recording script"
        assert len(outline.root) >= 4


def test_the_pages_have_each_cue_whole_in_large_type(pdf: Path, timeline: Timeline) -> None:
    chapters = {step.chapter for step in timeline.storyboard.steps}
    assert_no_cue_is_broken(pdf, chapters)
    assert min(size for page in pages_read(pdf) for _, size, _ in page.chars) >= LEAST_PT - 0.01
    for group, cue in zip(by_cue(pdf), cues_read(timeline), strict=True):
        told = [element.text for element in group if element.tag == "P"]
        assert told[0] == cue.step.id
        assert [text for text in told if text in cue.step.narration] == list(cue.step.narration)
        assert [element.alt for element in group if element.tag == "Figure"] == [cue.step.picture.alt]


def test_the_longest_words_that_a_teacher_may_write_stand_on_one_page(tmp_path: Path) -> None:
    longest = ("Now give the flag half a turn, and say which of its sides is the marked one. " * 13)[:1000]
    steps = [("Chapter", ["Begin.", "Go on."]), ("Another", [longest]), ("Another", ["End."])]
    path = tmp_path / "long.pdf"
    path.write_bytes(script_pdf(pace(words_board(steps))))
    assert_no_cue_is_broken(path, {"Chapter", "Another"})
    assert min(size for page in pages_read(path) for _, size, _ in page.chars) >= LEAST_PT - 0.01
    assert any(" ".join(longest.split()) == element.text for element in elements(path))


def test_a_script_speaks_the_language_of_its_lesson(tmp_path: Path) -> None:
    lesson, solutions = load_lesson(ITEMS / "looking-closely.yaml")
    timeline = pace(plan_lesson(replace(lesson, language="de", parts=lesson.parts[:1]), solutions[:1]))
    html_path, pdf_path = write_script(timeline, tmp_path)
    page = html_path.read_text(encoding="utf-8")
    assert '<html lang="de">' in page and "Sprechvorlage" in page and "Sekunden zu füllen" in page
    assert not re.search(r"\b(?:Cue|seconds|silence|clip)\b", re.sub(r"<[^>]*>", " ", page.partition("</style>")[2]))
    assert "draft, not yet read by a speaker" in page
    with pikepdf.open(pdf_path) as read:
        assert str(read.Root.Lang) == "de"


def test_words_are_escaped() -> None:
    page = script_html(pace(one_step("Cut <b>here</b> & there.")))
    assert '<p class="line">Cut &lt;b&gt;here&lt;/b&gt; &amp; there.</p>' in page
