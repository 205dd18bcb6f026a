"""Every page brings the letters that it is read in: no word of one is ever drawn with a font of the machine."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from outputs.carried_face import OURS, bare, drawn_letters, families_named, strangers, widened
from outputs.html_pages import ITEMS, deck_file, deck_of, demo, moments_of, open_data, opened
from playwright.sync_api import Browser, Page, expect

from explainers.intake.workspace import load_solution
from explainers.item.model import Lesson, LessonPart, Manner
from explainers.lesson.planner import plan_lesson
from explainers.outputs.html.deck import deck_page
from explainers.outputs.html.index_page import index_html
from explainers.outputs.html.prompter import prompter_page
from explainers.outputs.html.script import script_html
from explainers.outputs.html.transcript import transcript_html
from explainers.storyboard.pacing import pace
from explainers.storyboard.timeline import Timeline
from explainers.typeface.embedded import face_css

LESSON = "first-blocks"
LESSONS = ("first-blocks", "cutting-out", "looking-closely")
PAGES: dict[str, Callable[[Timeline], str]] = {
    "prompter": prompter_page,
    "script": script_html,
    "transcript": transcript_html,
}


@cache
def lesson_of(name: str) -> Timeline:
    return demo(name)


def no_strangers(page: Page, least: int = 40) -> None:
    assert strangers(page) == []
    assert drawn_letters(page) >= least
    assert families_named(page) <= OURS | {"sans-serif"}


def written(folder: Path, text: str) -> Path:
    path = folder / "page.html"
    path.write_text(text, encoding="utf-8")
    return path


def slides_of(path: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = open_data(path.read_text(encoding="utf-8"))["slides"]
    return found


@pytest.mark.parametrize("name", LESSONS)
def test_every_kind_of_slide_of_a_demo_lesson(name: str, browser: Browser, request: pytest.FixtureRequest) -> None:
    if name != LESSONS[0] and not request.config.getoption("--full"):
        pytest.skip("the others with --full")
    path = deck_file(name)
    shown = [(number, slide) for number, slide in enumerate(slides_of(path), start=1) if "closed" not in slide]
    kinds = {frozenset(slide) - {"own"}: number for number, slide in shown}  # pictures, motions, handling, a choice
    with opened(browser, path) as page:
        for number in sorted(kinds.values()):
            page.goto(f"{path.as_uri()}#s{number}")
            expect(page.locator("#place")).to_contain_text(f"Slide {number} ")
            if (told := page.locator("#told summary")).is_visible():
                told.click()
            no_strangers(page)
        page.locator("#menu").click()
        no_strangers(page)


def test_answers_right_and_wrong_and_the_packed_solution(browser: Browser) -> None:
    part = LessonPart(show=ITEMS / "corner-block.yaml", manner=Manner.YOUR_TURN, pause_s=20)
    path = deck_of(pace(plan_lesson(Lesson(name="try-it", title="Try it", parts=(part,)), [load_solution(part.show)])))
    numbered = enumerate(slides_of(path), start=1)
    asked = next(number for number, slide in numbered if any("choice" in moment for moment in moments_of([slide])))
    with opened(browser, path, start=f"#s{asked}") as page:
        for label, sign in (("B", "✗"), ("C", "✓")):
            page.get_by_role("radio", name=f"Option {label}").check()
            page.get_by_role("button", name="Check my answer").click()
            expect(page.locator(".choose-result .choose-sign").last).to_have_text(sign)
            no_strangers(page)
            page.get_by_role("button", name="Try again" if label == "B" else "On to the solution").click()
        for number in range(12):  # moments of a slide come before the next slide
            if number % 3 == 0:
                no_strangers(page)
            page.keyboard.press("PageDown")
        expect(page.locator("#place")).not_to_contain_text(f"Slide {asked + 1} ")


def test_the_presenter_view_in_its_own_window_and_in_the_deck(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON)) as page:
        with page.expect_popup() as popup:
            page.keyboard.press("p")
        expect(popup.value.locator(".p-heading").first).to_be_visible()
        no_strangers(popup.value)


@pytest.mark.parametrize("kind", PAGES)
@pytest.mark.parametrize("name", LESSONS)
def test_pages_to_read_from(
    name: str, kind: str, browser: Browser, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    if name != LESSONS[0] and not request.config.getoption("--full"):
        pytest.skip("the others with --full")
    with opened(browser, written(tmp_path, PAGES[kind](lesson_of(name)))) as page:
        no_strangers(page)
        if kind == "prompter":
            page.keyboard.press("Space")
            expect(page.locator("section:visible")).to_have_count(1)
            no_strangers(page)


@pytest.mark.parametrize("clip", [False, True], ids=["without a clip", "with a clip"])
def test_the_page_of_a_folder(clip: bool, browser: Browser, tmp_path: Path) -> None:
    folder = tmp_path / LESSON
    folder.mkdir()
    for ending in (".html", ".pptx", ".transcript.txt", ".script.pdf", ".poster.png", *([".mp4"] if clip else [])):
        (folder / f"{LESSON}{ending}").write_bytes(b"x" * 2000)
    (folder / "index.html").write_text(index_html(lesson_of(LESSON), folder), encoding="utf-8")
    page = browser.new_page()
    page.goto((folder / "index.html").as_uri())
    no_strangers(page)
    page.close()


@pytest.mark.parametrize("make", [deck_page, *PAGES.values()], ids=["deck", *PAGES])
def test_on_paper_too(make: Callable[[Timeline], str], browser: Browser, tmp_path: Path) -> None:
    with opened(browser, written(tmp_path, make(lesson_of(LESSON)))) as page:
        page.pdf(path=tmp_path / "paper.pdf", format="A4")
    with pdfplumber.open(tmp_path / "paper.pdf") as pdf:
        fonts = {char["fontname"] for sheet in pdf.pages for char in sheet.chars if char["text"].strip()}
    assert fonts and all(re.search("AtkinsonHyperlegible|PageSigns|Page Signs", font) for font in fonts), fonts


def test_letters_beyond_those_that_are_always_carried(browser: Browser, tmp_path: Path) -> None:
    """A name with letters of Latin Extended, in the open part, in a packed part, and in a teacher's note."""
    timeline = demo("corner-block")
    steps = timeline.storyboard.steps
    named = tuple(
        replace(step, narration=(*step.narration, f"Ğ{'ąęłńőůž'[n % 7]}."), note="Śćž") for n, step in enumerate(steps)
    )
    board = replace(timeline.storyboard, steps=named, title="Żółty wąż")
    path = deck_of(replace(timeline, storyboard=board))
    with opened(browser, path) as page:
        with page.expect_popup() as popup:
            page.keyboard.press("p")
        expect(popup.value.get_by_text("Śćž").first).to_be_visible()
        no_strangers(page)
        no_strangers(popup.value)


def test_a_page_without_its_face_and_a_letter_that_none_carries_are_caught(browser: Browser, tmp_path: Path) -> None:
    text = transcript_html(lesson_of(LESSON))
    with opened(browser, written(tmp_path, bare(text))) as page:
        found = strangers(page)
        assert len(found) > 50 and not {family for _, family in found} & OURS
    with opened(browser, written(tmp_path, text.replace("</h1>", " ♞</h1>"))) as page:
        assert [sign for sign, _ in strangers(page) if "♞" in sign]
    with opened(browser, written(tmp_path, text.replace("<h1>", '<h1 class="x">'))) as page:
        no_strangers(page)


def test_the_stand_in_that_layouts_are_held_against_is_a_fifth_wider(browser: Browser, tmp_path: Path) -> None:
    wide = []
    measure = """() => { const range = document.createRange(); range.selectNodeContents(document.querySelector("h3"));
        return range.getBoundingClientRect().width; }"""
    for change in (str, widened):
        with opened(browser, written(tmp_path, change(transcript_html(lesson_of(LESSON))))) as page:
            page.evaluate("document.fonts.ready.then(() => null)")
            wide.append(page.evaluate(measure))
    assert wide[1] == pytest.approx(1.2 * wide[0], rel=0.06)  # some machines round each letter


def test_the_rules_are_the_same_to_the_byte_in_every_process() -> None:
    program = "import sys; from explainers.typeface.embedded import face_css; sys.stdout.write(face_css('Ż ✓'))"
    made = {subprocess.run([sys.executable, "-c", program], capture_output=True, check=True).stdout for _ in range(2)}
    assert made == {face_css("Ż ✓").encode()}


def test_signs_are_carried_only_where_they_are_shown_and_letters_cost_little() -> None:
    plain, with_sign, with_letter = face_css("a"), face_css("a ✓"), face_css("a Ż")
    assert plain.count("@font-face") == 2 and with_sign.count("@font-face") == 3
    assert len(plain) < 32_000 and len(with_sign) - len(plain) < 2_000 and 0 < len(with_letter) - len(plain) < 1_000


def test_an_item_by_itself(browser: Browser) -> None:
    with opened(browser, deck_file("border-block")) as page:
        no_strangers(page)
