"""The prompter page as it is used: a real browser, keys, a retake, the log, and the fit that reads it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from outputs.html_pages import Tags
from playwright.sync_api import Browser, Page, expect
from storyboard.short_clip import short_timeline

from explainers.fitting.prompter_log import read_log
from explainers.outputs.html.prompter import prompter_page, write_prompter
from explainers.storyboard.timeline import Timeline


def nasty_timeline() -> Timeline:
    """A lesson of four steps, one silent, whose words try to be markup."""
    timeline = short_timeline()
    board = timeline.storyboard
    said = (("<b>One</b> & </script><script>alert(1)</script>",), ("Two.", "More of two."), (), ('"Four" <img src=x>',))
    steps = tuple(replace(step, narration=words) for step, words in zip(board.steps, said, strict=True))
    return replace(timeline, storyboard=replace(board, title="Blocks <& holes>", steps=steps))


@pytest.fixture
def page(browser: Browser, tmp_path: Path) -> Iterator[Page]:
    opened = browser.new_page(accept_downloads=True)
    wrong: list[str] = []
    opened.on("pageerror", lambda error: wrong.append(str(error)))
    opened.on("console", lambda said: wrong.append(said.text) if said.type in ("error", "warning") else None)
    own = ("file:", "data:", "blob:")
    opened.on("request", lambda sent: wrong.append(sent.url) if not sent.url.startswith(own) else None)
    path = write_prompter(nasty_timeline(), tmp_path / "read.html")
    opened.goto(path.as_uri())
    yield opened
    opened.close()
    assert not wrong


def test_a_lesson_is_read_with_keys_one_step_again_and_the_log_says_when(page: Page, tmp_path: Path) -> None:
    expect(page.locator("#before")).to_be_visible()
    expect(page.locator("section:visible")).to_have_count(0)
    page.keyboard.press("Space")
    shown = page.locator("section:visible")
    expect(shown).to_have_attribute("data-step", "sample.task")
    expect(shown.locator(".words")).to_have_text("<b>One</b> & </script><script>alert(1)</script>")
    expect(shown.locator("svg")).to_be_visible()
    expect(page.locator("#count")).to_have_text("1 of 3")
    expect(page.locator("#left")).to_have_text(re.compile(r"-?\d+ s left"))
    page.wait_for_timeout(120)
    page.keyboard.press("ArrowRight")
    expect(shown).to_have_attribute("data-step", "sample.flag.turn")
    page.wait_for_timeout(120)
    page.keyboard.press("a")
    expect(shown).to_have_attribute("data-step", "sample.flag.turn")
    page.wait_for_timeout(120)
    page.locator("#next").click()
    expect(shown).to_have_attribute("data-step", "sample.end")  # the silent one is not read
    with page.expect_download() as saved:
        page.keyboard.press("PageDown")
    expect(page.locator("#after")).to_be_visible()
    path = tmp_path / saved.value.suggested_filename
    assert path.name == "sample-lesson.log.json"
    saved.value.save_as(path)
    log = read_log(path)
    assert [entry.step_id for entry in log] == ["sample.task", "sample.flag.turn", "sample.flag.turn", "sample.end"]
    assert log[1].words == "Two. More of two."
    assert all(a.end_s == b.start_s for a, b in pairwise(log))
    assert all(entry.end_s - entry.start_s >= 0.1 for entry in log[:3])


def test_one_goes_back_a_step(page: Page) -> None:
    for key in ("Space", "Space", "ArrowLeft"):
        page.keyboard.press(key)
    expect(page.locator("section:visible")).to_have_attribute("data-step", "sample.task")


def test_the_page_speaks_the_language_of_its_lesson(browser: Browser, tmp_path: Path) -> None:
    timeline = nasty_timeline()
    german = replace(timeline, storyboard=replace(timeline.storyboard, language="de"))
    page = browser.new_page()
    page.goto(write_prompter(german, tmp_path / "lesen.html").as_uri())
    expect(page.locator("#before")).to_contain_text("Lesen Sie jeden Schritt laut vor")
    expect(page.locator("#next")).to_have_text("Beginnen")
    page.keyboard.press("Space")
    expect(page.locator("#next")).to_have_text("Weiter")
    expect(page.locator("#again")).to_have_text("Noch einmal")
    expect(page.locator("#count")).to_have_text("1 von 3")
    expect(page.locator("#left")).to_have_text(re.compile(r"noch -?\d+ s"))
    page.screenshot(path=tmp_path / "lesen.png")
    page.close()


def test_the_page_asks_for_nothing_and_runs_only_its_own_script() -> None:
    text = prompter_page(nasty_timeline())
    tags = Tags(text).seen
    assert [tag for tag, _ in tags].count("script") == 1
    assert not {"img", "link", "iframe"} & {tag for tag, _ in tags}
    assert not [attrs for _, attrs in tags if {"src", "style", "onclick", "onload"} & set(attrs)]
    policy = next(attrs["content"] for _, attrs in tags if attrs.get("http-equiv") == "Content-Security-Policy")
    assert policy is not None and policy.startswith("default-src 'none'") and "unsafe" not in policy
    assert text.replace("http://www.w3.org/2000/svg", "").count("http") == 1  # http-equiv
