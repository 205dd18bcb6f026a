"""The deck as it is presented: a second window that follows and leads, notes, time, takes that are heard."""

from __future__ import annotations

import base64
import json
import re
import zlib
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from outputs.chromium import CHROMIUM
from outputs.html_pages import slides_told
from outputs.test_html_sound import noise
from playwright.sync_api import Browser, Page, expect, sync_playwright

from explainers.batch import timeline_of
from explainers.outputs.html.deck import write_html_deck
from explainers.storyboard.timeline import Narration, Timeline
from explainers.voice.track import write_take

LESSON = """\
lesson: two-blocks
title: Two blocks
parts:
  - {show: corner-block.yaml, as: your-turn, pause: 10}
"""
ITEMS = Path(__file__).parents[2] / "items"

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")


@pytest.fixture(scope="module")
def lesson(tmp_path_factory: pytest.TempPathFactory) -> Timeline:
    """A question that learners try, with a scratch take of its first step and one of the step after the pause."""
    folder = tmp_path_factory.mktemp("lesson")
    (folder / "corner-block.yaml").write_bytes((ITEMS / "corner-block.yaml").read_bytes())
    (folder / "two-blocks.yaml").write_text(LESSON, encoding="utf-8")
    timeline = timeline_of(folder / "two-blocks.yaml")
    steps = timeline.storyboard.steps
    after = next(number for number, step in enumerate(steps) if step.pause_s) + 1
    takes = {steps[0].id: folder / "0.flac", steps[after].id: folder / "1.flac"}
    for number, take in enumerate(takes.values()):
        write_take(take, noise(1.0 + number))
    return replace(timeline, narration=Narration(takes=takes, loudness_lufs=-23.0, scratch=True))


@pytest.fixture(scope="module")
def path(lesson: Timeline, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_html_deck(lesson, tmp_path_factory.mktemp("deck"))


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as driver:
        started = driver.chromium.launch(
            executable_path=str(CHROMIUM), args=["--no-sandbox", "--disable-gpu", "--mute-audio"]
        )
        yield started
        started.close()


@pytest.fixture
def opened(browser: Browser, path: Path) -> Iterator[Callable[..., Page]]:
    """``opened(**context)``: the deck, without motion; nothing goes wrong and nothing is asked of anywhere."""
    wrong: list[str] = []
    contexts = []

    def watch(page: Page) -> None:
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("console", lambda said: wrong.append(said.text) if said.type in ("error", "warning") else None)
        page.on("request", lambda sent: wrong.append(sent.url) if not sent.url.startswith(("file:", "data:")) else None)

    def open_(before: str = "", **settings: object) -> Page:
        context = browser.new_context(reduced_motion="reduce", **settings)  # type: ignore[arg-type]
        contexts.append(context)
        context.on("page", watch)
        page = context.new_page()
        if before:
            page.add_init_script(before)
        page.goto(path.as_uri())
        return page

    yield open_
    for context in contexts:
        context.close()
    assert not wrong


def presented(page: Page) -> Page:
    with page.expect_popup() as waiting:
        page.keyboard.press("p")
    expect(waiting.value.locator(".p-notes, .p-text").first).to_be_visible()
    return waiting.value


def both_at(number: int, count: int, *pages: Page) -> None:
    for page in pages:
        expect(page.locator("#place, .p-place")).to_have_text(f"Slide {number} of {count}")


def test_each_window_follows_the_other(opened: Callable[..., Page], lesson: Timeline) -> None:
    deck = opened()
    slides = slides_told(lesson)
    view = presented(deck)
    assert view.title() == "Presenter view – Two blocks"
    both_at(1, len(slides), deck, view)
    view.keyboard.press("PageDown")
    both_at(2, len(slides), deck, view)
    deck.keyboard.press("ArrowLeft")
    both_at(1, len(slides), deck, view)
    view.get_by_role("button", name="Next").click()
    both_at(2, len(slides), deck, view)
    expect(deck.locator("#heading")).to_have_text(slides[1][-1].heading)
    now, coming = view.locator(".p-pictures section").nth(0), view.locator(".p-pictures section").nth(1)
    expect(now.locator(".p-heading")).to_have_text(slides[1][-1].heading)
    expect(coming.locator(".p-heading")).to_have_text(slides[2][1].heading)  # where learners lay the piece
    assert now.locator("svg path").count() > 10
    expect(view.locator(".p-text section").nth(1)).to_contain_text(slides[1][0].narration[0])


def test_every_step_of_a_slide_has_its_notes_and_words_under_its_id(
    opened: Callable[..., Page], lesson: Timeline
) -> None:
    deck = opened()
    view = presented(deck)
    view.keyboard.press("PageDown")
    view.keyboard.press("PageDown")
    view.get_by_role("button", name="Show me the solution").click()
    slide = slides_told(lesson)[2]
    assert len(slide) > 4
    notes, said = (view.locator(".p-text section").nth(number) for number in (0, 1))
    expect(said.locator(".p-step")).to_have_text([step.id for step in slide if step.narration])
    expect(notes.locator(".p-step")).to_have_text([step.id for step in slide if step.note])


def test_the_next_slide_is_seen_while_it_is_closed_to_learners(opened: Callable[..., Page], lesson: Timeline) -> None:
    deck = opened()
    slides = slides_told(lesson)
    pause = 1
    view = presented(deck)
    view.keyboard.press("ArrowRight")
    both_at(pause + 1, len(slides), deck, view)
    after = slides[pause + 1][0]
    expect(view.locator(".p-pictures .p-heading").nth(1)).to_have_text(slides[pause + 1][1].heading)
    expect(view.locator(".p-text section").nth(0)).to_contain_text(slides[pause][1].note)
    expect(view.locator(".p-text section").nth(0)).to_contain_text("Pause: 10 seconds.")
    assert after.narration[0] not in deck.content()
    view.get_by_role("button", name="Next").click()
    both_at(pause + 1, len(slides), deck, view)  # what is closed is asked for
    view.get_by_role("button", name="Show me the solution").click()
    both_at(pause + 2, len(slides), deck, view)
    expect(deck.locator("#heading")).to_have_text(slides[pause + 1][1].heading)
    expect(view.get_by_role("button", name="Show me the solution")).to_be_hidden()


def test_the_time_runs_and_starts_again(opened: Callable[..., Page]) -> None:
    view = presented(opened())
    clock = view.get_by_role("timer")
    expect(clock).to_have_text("0:00")
    expect(clock).to_have_text("0:01")
    view.get_by_role("button", name="Start the time again").click()
    expect(clock).to_have_text("0:00")


def test_no_window_opens_by_itself_and_a_second_key_opens_no_second_one(opened: Callable[..., Page]) -> None:
    deck = opened()
    assert len(deck.context.pages) == 1
    presented(deck)
    deck.keyboard.press("p")
    deck.wait_for_timeout(100)
    assert len(deck.context.pages) == 2


def test_from_the_menu_and_after_the_deck_was_loaded_again(opened: Callable[..., Page]) -> None:
    deck = opened()
    deck.locator("#menu").click()
    with deck.expect_popup() as waiting:
        deck.get_by_role("button", name="Presenter view (P)").click()
    before = waiting.value
    deck.reload()
    expect(before.get_by_role("status")).to_contain_text("press P for a new view")
    after = presented(deck)
    deck.keyboard.press("ArrowRight")
    expect(after.locator(".p-place")).to_contain_text("Slide 2")


def test_where_no_window_may_open_the_view_is_offered_here(opened: Callable[..., Page]) -> None:
    deck = opened("window.open = () => null;")
    deck.keyboard.press("p")
    expect(deck.get_by_role("alert")).to_contain_text("not let a second window open")
    deck.keyboard.press("Enter")  # the button that offers it has the focus
    here = deck.get_by_role("complementary", name="Presenter view")
    expect(here).to_be_visible()
    deck.keyboard.press("ArrowRight")
    expect(here.locator(".p-place")).to_contain_text("Slide 2")
    assert Axe().run(deck).response["violations"] == []
    here.get_by_role("button", name="Close the presenter view").click()
    expect(here).to_have_count(0)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_stands_in_the_presenters_way(scheme: str, opened: Callable[..., Page]) -> None:
    view = presented(opened(color_scheme=scheme))
    for width, height in ((1100, 760), (420, 800)):
        view.set_viewport_size({"width": width, "height": height})
        found = Axe().run(view).response["violations"]
        assert [(fault["id"], [node["html"] for node in fault["nodes"]]) for fault in found] == []
        assert view.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_notes_are_not_read_in_the_source(path: Path, lesson: Timeline) -> None:
    text = path.read_text(encoding="utf-8")
    notes = [step.note for step in lesson.storyboard.steps if step.note]
    assert notes and not [note for note in notes if note in text]
    packed = re.search(r'id="part-0">([^<]*)<', text)
    assert packed is not None
    kept = json.loads(zlib.decompress(base64.b64decode(packed[1]), -zlib.MAX_WBITS))["notes"]
    assert [step["note"][0] for slide in kept for step in slide if step["note"]] == notes


def sound_at(page: Page) -> float:
    return float(page.evaluate("heard.currentTime"))


CAUGHT = """
const make = document.createElement.bind(document);
document.createElement = (tag, ...more) => {
  const made = make(tag, ...more);
  if (tag === "audio") window.heard = made;
  return made;
};"""


def test_a_take_is_heard_when_it_is_asked_for(opened: Callable[..., Page], lesson: Timeline) -> None:
    deck = opened(CAUGHT)
    if not deck.evaluate("""document.createElement("audio").canPlayType('audio/mp4; codecs="mp4a.40.2"')"""):
        pytest.skip("this Chromium was built without AAC")
    deck.reload()
    button = deck.locator("#hear")
    expect(button).to_have_text("Hear it")
    expect(deck.locator("#voice")).to_contain_text("a machine's scratch voice")
    deck.wait_for_timeout(200)
    assert sound_at(deck) == 0.0  # never by itself
    button.focus()
    deck.keyboard.press("Enter")
    expect(button).to_have_text("Pause the voice")
    deck.evaluate("async () => { while (heard.currentTime < 0.2) await new Promise(done => setTimeout(done, 20)); }")
    assert deck.evaluate("heard.duration") == pytest.approx(1.0, abs=0.05)
    button.click()
    expect(button).to_have_text("Hear it")
    deck.keyboard.press("ArrowRight")
    expect(deck.locator("#voice")).to_be_hidden()  # no take, nothing to press


def test_each_slide_is_read_aloud_where_somebody_wishes_it(opened: Callable[..., Page]) -> None:
    deck = opened(CAUGHT)
    if not deck.evaluate("""document.createElement("audio").canPlayType('audio/mp4; codecs="mp4a.40.2"')"""):
        pytest.skip("this Chromium was built without AAC")
    deck.reload()
    deck.keyboard.press("ArrowRight")
    deck.locator("#menu").click()
    deck.get_by_label("Read each slide aloud").check()
    deck.locator("#close").click()
    deck.keyboard.press("ArrowLeft")
    expect(deck.locator("#hear")).to_have_text("Pause the voice")
    deck.keyboard.press("ArrowRight")
    assert deck.evaluate("heard.paused")


def test_takes_stand_once_each_and_those_of_closed_slides_are_closed_too(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert text.count("data:audio/mp4;base64,") == 1
    assert "media-src data:;" in text
    parts = re.findall(r'id="part-[1-9]">([^<]*)<', text)
    unpacked = [zlib.decompress(base64.b64decode(part), -zlib.MAX_WBITS).decode() for part in parts]
    assert sum(part.count("data:audio/mp4;base64,") for part in unpacked) == 1


def test_a_deck_without_takes_may_play_nothing(lesson: Timeline, tmp_path: Path) -> None:
    text = write_html_deck(replace(lesson, narration=None), tmp_path).read_text(encoding="utf-8")
    assert "media-src" not in text and '"hear":' not in text
