"""The deck in a real browser: by keys alone, by touch, with less movement, enlarged, on paper, without scripts."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

import pdfplumber
import pytest
from outputs.carried_face import FACES, in_face
from outputs.html_pages import PHONE, deck_file, deck_of, demo, open_data, opened, slide_at, slides_told
from outputs.test_html_deck import NASTY, nasty
from playwright.sync_api import Browser, Page, expect

from explainers.choice.words.choosing import choosing_words
from explainers.outputs.html.slides import is_stop
from explainers.sentences.deck_page import deck_words, needs_scripting
from explainers.storyboard.model import Step

WORDS = {**deck_words(), **choosing_words()}
LESSON = "first-blocks"


# Planned when a test asks for it, not when tests are collected.


def steps_of() -> tuple[Step, ...]:
    return demo(LESSON).storyboard.steps


@cache
def slides() -> list[list[Step]]:
    return slides_told(demo(LESSON))


def pause() -> int:
    return slide_at(demo(LESSON), "pause")


def last() -> int:
    return len(slides()) - 1


def heading(page: Page) -> str:
    return page.locator("#heading").text_content() or ""


def at(page: Page) -> int:
    """The slide that is shown, counted from 0."""
    return int(re.findall(r"\d+", page.locator("#place").text_content() or "")[0]) - 1


def comes_to(page: Page, number: int) -> None:
    """Wait for a slide, counted from 0."""
    expect(page.locator("#place")).to_have_text(re.compile(rf"\D{number + 1}\D"), timeout=20_000)


def until(page: Page, is_so: str) -> None:
    """Wait for something in the page, asked from outside, since the policy forbids the page to evaluate texts."""
    for _ in range(800):
        if page.evaluate(is_so):
            return
        page.wait_for_timeout(25)
    raise AssertionError(f"{is_so} has not come about")


def tab_to(page: Page, text: str) -> None:
    """By the Tab key alone, to the control that says so."""
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent.trim()") == text:
            return
    raise AssertionError(f"{text!r} cannot be reached")


def open_solution(page: Page) -> None:
    tab_to(page, WORDS["choose.solution"])
    page.keyboard.press("Enter")
    tab_to(page, WORDS["choose.yes"])
    page.keyboard.press("Enter")


def runs_of(slide: list[Step]) -> list[list[Step]]:
    """The steps that are told together, up to each place where the page waits."""
    runs: list[list[Step]] = [[]]
    for step in slide:
        if runs[-1] and is_stop(runs[-1][-1]):
            runs.append([])
        runs[-1].append(step)
    return runs


def test_from_start_to_end_by_keys_alone(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON)) as page:
        for number, slide in enumerate(slides()):
            for run in runs_of(slide):
                expect(page.locator("#heading")).to_have_text(run[-1].heading)
                assert page.title().startswith(run[-1].heading) and at(page) == number
                said = re.sub(
                    r"(?<!\S)\d (?=[A-Z])", "", " ".join((page.locator("#said").text_content() or "").split())
                )
                assert said.startswith(" ".join(sentence for step in run for sentence in step.narration))
                if number:
                    assert page.evaluate("document.activeElement.id") == "heading"
                if number == pause():
                    page.keyboard.press("ArrowRight")
                    assert at(page) == pause(), "the solution does not open by itself"
                    open_solution(page)
                else:
                    page.keyboard.press("ArrowRight" if number % 2 and not run[-1].handling else "PageDown")
        expect(page.locator("#live")).to_have_text(WORDS["last"])
        page.keyboard.press("PageUp")
        assert at(page) == last() - 1
        page.keyboard.press("Home")
        assert at(page) == 0
        page.keyboard.press("End")
        assert at(page) == last()


def test_what_is_sealed_cannot_be_reached_before_it_is_opened(browser: Browser) -> None:
    sealed = pause() + 2
    with opened(browser, deck_file(LESSON), start=f"#s{sealed + 1}") as page:
        assert at(page) == 0
        page.evaluate(f"location.hash = '#s{sealed + 1}'")
        expect(page).to_have_url(re.compile("#s1$"))  # the address tells what is shown
        assert at(page) == 0
        page.keyboard.press("End")
        assert at(page) == last(), "what comes after the question is open"
        page.keyboard.press("ArrowLeft")
        assert at(page) == pause(), "and back from there, to the question"
        links = page.locator("#list button")
        assert links.count() == sum("closed" not in slide for slide in open_data(page.content())["slides"])
        assert slides()[sealed][0].heading not in page.locator("#list").text_content()
        page.keyboard.press("ArrowRight")
        open_solution(page)  # unpacking takes its time
        comes_to(page, pause() + 1)
        expect(links).to_have_count(len(slides()))
        page.reload()  # what was opened stays open in this window
        comes_to(page, pause() + 1)
        expect(links).to_have_count(len(slides()))


def test_by_touch_on_a_phone(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON), viewport=PHONE, has_touch=True, is_mobile=True) as page:
        for number in range(1, pause() + 1):
            for _ in runs_of(slides()[number - 1]):
                page.locator("#next").tap()
            assert at(page) == number
            small = page.evaluate(SMALL_TARGETS)
            assert small == [], number
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), number
        page.locator("#back").tap()
        assert at(page) == pause() - 1
        narrow = page.locator("#picture").bounding_box()
        page.locator("#larger").tap()
        wide = page.locator("#picture").bounding_box()
        assert narrow is not None and wide is not None and wide["width"] > 1.7 * narrow["width"]
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        page.locator("#menu").tap()
        assert page.evaluate(SMALL_TARGETS) == []
        page.locator("#list button").first.tap()
        assert at(page) == 0


# Buttons, links and labels that are shown and lie open to a finger, but are less than 44 pixels (WCAG 2.2, 2.5.5).
SMALL_TARGETS = """() => {
  const open = document.querySelector("dialog[open]") || document.body;
  return [...open.querySelectorAll("button, a, summary, label")].filter(one => one.checkVisibility()).flatMap(one => {
    const box = one.getBoundingClientRect();
    return box.height < 44 || box.width < 44 ? [`${one.textContent} ${box.width} ${box.height}`] : [];
  });
}"""

PICTURE = "document.getElementById('picture').innerHTML"


def test_with_less_movement_nothing_moves_and_before_and_after_can_be_seen(browser: Browser) -> None:
    moves = slide_at(demo(LESSON), "keep")
    with opened(browser, deck_file(LESSON), start=f"#s{moves + 1}") as page:
        after = page.evaluate(PICTURE)
        page.wait_for_timeout(600)
        assert page.evaluate(PICTURE) == after
        assert not page.locator("#again").is_visible()
        shown = page.get_by_role("button", name=WORDS["after"])
        expect(shown).to_have_attribute("aria-pressed", "true")
        page.get_by_role("button", name=WORDS["before"]).click()
        expect(shown).to_have_attribute("aria-pressed", "false")
        assert page.evaluate(PICTURE) != after
        before_alt = slides()[moves][0].stills[0].alt
        expect(page.get_by_role("img")).to_have_attribute("aria-label", before_alt)
        expect(page.locator("#live")).to_have_text(WORDS["before_picture"].format(text=before_alt))
        shown.click()
        assert page.evaluate(PICTURE) == after


def at_rest(page: Page) -> str:
    """The picture once nothing in it has changed for a while: between two motions it rests less long."""
    before, now = "", page.evaluate(PICTURE)
    while now != before:
        page.wait_for_timeout(2000)
        before, now = now, page.evaluate(PICTURE)
    return str(now)


def test_movement_is_played_again_and_can_be_turned_off(browser: Browser) -> None:
    moves = slide_at(demo(LESSON), "rule-out")
    with opened(browser, deck_file(LESSON), start=f"#s{moves + 1}", still=False) as page:
        until(page, f"{PICTURE}.includes('rotate')")
        ends_in = json.dumps(slides()[moves][-1].picture.alt)
        until(page, f"document.getElementById('picture').getAttribute('aria-label') === {ends_in}")
        until(page, f"!{PICTURE}.includes('visibility')")  # of what only comes or goes on the way
        still = at_rest(page)  # the last pictures of a walk have the same words
        page.locator("#again").click()
        until(page, f"{PICTURE}.includes('rotate')")
        page.keyboard.press("ArrowRight")
        page.keyboard.press("ArrowLeft")
        assert page.evaluate(PICTURE) == still, "going back shows what the slide ends in"
        page.locator("#menu").click()
        page.get_by_label(WORDS["calm"]).check()
        page.locator("#close").click()
        expect(page.locator("#again")).to_be_hidden()
        page.keyboard.press("ArrowRight")
        page.keyboard.press("ArrowLeft")
        expect(page.get_by_role("button", name=WORDS["before"])).to_be_visible()


@pytest.mark.parametrize("face", FACES)
def test_enlarged_four_times_nothing_is_lost_and_the_page_scrolls_one_way(
    face: str, browser: Browser, tmp_path: Path
) -> None:
    """1280 by 720 at 400 %: 320 by 180 CSS pixels (WCAG 2.2, 1.4.10)."""
    with opened(browser, in_face(deck_file(LESSON), face, tmp_path), viewport={"width": 320, "height": 180}) as page:
        for number in [each for each in range(pause() + 1) for _ in runs_of(slides()[each])]:
            assert page.evaluate("document.documentElement.scrollWidth <= 320"), number
            for name in ("heading", "picture", "said", "next", "back", "menu"):
                box = page.locator(f"#{name}").bounding_box()
                assert box is not None and box["x"] >= 0 and box["x"] + box["width"] <= 320, (number, name)
            if number < pause():
                page.locator("#next").click()
        page.locator("#menu").click()
        assert page.evaluate("document.getElementById('choices').scrollWidth <= 320")


def test_paper_bears_the_slides_that_were_opened_each_in_one_piece(browser: Browser, tmp_path: Path) -> None:
    with opened(browser, deck_file(LESSON)) as page:
        for _ in range(4):
            page.keyboard.press("PageDown")
        page.pdf(path=tmp_path / "seen.pdf", format="A4")
        assert page.locator("#printed").text_content() == ""
    with pdfplumber.open(tmp_path / "seen.pdf") as pdf:
        pages = [" ".join((sheet.extract_text() or "").split()) for sheet in pdf.pages]
        pictures = sum(bool(sheet.curves or sheet.rects) for sheet in pdf.pages)
    for step in steps_of()[:8]:  # of the first four slides
        own = [text for text in pages if step.heading in text]
        assert any(all(sentence in text for sentence in step.narration) for text in own), step.id
    assert not [text for text in pages if steps_of()[9].heading in text]
    assert pictures == len(pages) and WORDS["menu"] not in " ".join(pages)


def test_without_scripts_the_first_slide_is_there_and_says_so(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON), java_script_enabled=False) as page:
        expect(page.locator("h1")).to_have_text(steps_of()[0].heading)
        expect(page.get_by_role("img")).to_have_attribute("aria-label", steps_of()[0].picture.alt)
        assert page.locator("#picture g").count() > 10
        expect(page.locator("noscript p")).to_have_text(needs_scripting())
        assert not page.locator("#bar").is_visible()


def test_words_that_try_to_be_markup_stay_words(browser: Browser) -> None:
    with opened(browser, deck_of(nasty(demo("corner-block")))) as page:
        for _ in range(4):
            page.keyboard.press("PageDown")
            assert heading(page) == NASTY
        expect(page.locator("#said p").first).to_contain_text(NASTY)
        assert page.title().startswith(NASTY)
        page.locator("#menu").click()
        assert page.locator("#list button").nth(2).text_content() == NASTY
        assert page.locator("img, iframe").count() == 0


@pytest.mark.parametrize("name", ["light", "dark", "contrast"])
def test_colours_are_chosen_and_kept(browser: Browser, name: str) -> None:
    paper = {"light": "rgb(250, 246, 236)", "dark": "rgb(18, 22, 28)", "contrast": "rgb(255, 255, 255)"}
    asked = {"dark": {"color_scheme": "dark"}, "contrast": {"contrast": "more"}}.get(name, {})
    background = "getComputedStyle(document.body).backgroundColor"
    with opened(browser, deck_file("corner-block"), **asked) as page:
        assert page.evaluate(background) == paper[name], "as the device asks"
    with opened(browser, deck_file("corner-block"), color_scheme="dark" if name == "light" else "light") as page:
        page.locator("#menu").click()
        page.get_by_label(WORDS[f"palette_{name}"]).check()
        assert page.evaluate(background) == paper[name], "as the reader chooses"
        page.reload()
        assert page.evaluate(background) == paper[name]
        page.emulate_media(media="print")
        assert page.evaluate(background) == paper["light"], "paper is light, whatever the screen"


def test_keys_are_left_to_whoever_has_them(browser: Browser) -> None:
    """A field, a menu, a picture that scrolls: none loses its keys to the slides."""
    with opened(browser, deck_file(LESSON), start=f"#s{pause() + 1}") as page:
        page.get_by_role("radio").first.focus()
        page.keyboard.press("ArrowRight")
        assert at(page) == pause()
        page.locator("#menu").click()
        page.keyboard.press("End")
        page.keyboard.press("ArrowLeft")
        page.keyboard.press("Escape")
        assert at(page) == pause()
        page.keyboard.press("Control+ArrowLeft")
        assert at(page) == pause()
        state = json.loads(page.evaluate("JSON.stringify(Object.values(sessionStorage))"))
        assert not page.evaluate("document.cookie") and not page.evaluate("localStorage.length")
        assert len(state) == 1


def test_a_browser_that_cannot_unpack_says_so(browser: Browser) -> None:
    with opened(browser, deck_file(LESSON), start=f"#s{pause() + 1}") as page:
        page.evaluate("delete window.DecompressionStream")
        page.get_by_role("radio").first.check()
        page.get_by_role("button", name=WORDS["choose.check"]).click()
        expect(page.get_by_role("alert")).to_have_text(WORDS["cannot_open"])
        page.locator("#back").click()
        assert at(page) == pause() - 1, "all that is open can still be read"
