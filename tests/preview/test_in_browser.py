"""`explainers look --watch` as it is used: a real process, a real file, a real browser."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from demo_items import each_demo_item
from looked_at import BORDER, CORNER, DEMO, FIXTURES, WARNED
from outputs.carried_face import OURS, drawn_letters, families_named, strangers, widened
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, Page, expect

from explainers.intake.reader import scan_item
from explainers.intake.workspace import solved
from explainers.preview.item_view import item_view
from explainers.preview.one_svg import whole_svg
from explainers.preview.page import standalone_page, view_part

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page on which nothing may go wrong: no error, no dialog, nothing asked of another address."""
    opened = browser.new_page(viewport={"width": 1280, "height": 900})
    wrong: list[str] = []
    opened.on("pageerror", lambda error: wrong.append(f"error: {error}"))
    opened.on("dialog", lambda dialog: (wrong.append(f"dialog: {dialog.message}"), dialog.dismiss()))
    opened.on("console", lambda said: wrong.append(said.text) if "Content Security Policy" in said.text else None)
    opened.on(
        "request",
        lambda request: wrong.append(request.url) if not request.url.startswith(_OWN) else None,
    )
    yield opened
    opened.close()
    assert not wrong


_OWN = ("http://127.0.0.1:", "file://", "data:", "about:", "blob:")


class Looking:
    """The command, running; its address, and how it ended."""

    def __init__(self, path: Path) -> None:
        code = "from explainers.cli.main import main; main()"
        self.process = subprocess.Popen(
            [sys.executable, "-c", code, "look", str(path), "--watch"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )
        assert self.process.stdout is not None
        self.address = self.process.stdout.readline().strip()

    def stop(self) -> tuple[int, str]:
        self.process.send_signal(signal.SIGINT)
        _, said = self.process.communicate(timeout=20)
        return self.process.returncode, said


@pytest.fixture
def look() -> Iterator[Callable[[Path], Looking]]:
    started: list[Looking] = []

    def start(path: Path) -> Looking:
        started.append(Looking(path))
        return started[-1]

    yield start
    for looking in started:
        with contextlib.suppress(ProcessLookupError):
            looking.process.kill()
        looking.process.wait()


def test_a_save_appears_a_fault_appears_and_goes(item: Path, page: Page, look) -> None:
    looking = look(item)
    page.goto(looking.address)
    whole = item.read_text(encoding="utf-8")
    title = page.locator("h1")
    expect(title).to_have_text("The pocket block")
    expect(page.locator("#link")).to_have_text("Redrawn whenever the file is saved.")
    item.write_text(whole.replace("The pocket block", "The <b>new</b> block"), encoding="utf-8")
    expect(title).to_have_text("The <b>new</b> block")
    expect(page).to_have_title("The <b>new</b> block")

    item.write_text(whole.replace("does: cut", "does: fold"), encoding="utf-8")
    alert = page.get_by_role("alert")
    line = next(n for n, text in enumerate(whole.splitlines(), start=1) if "does: cut" in text)
    expect(alert).to_contain_text(f"line {line}")
    expect(alert).to_contain_text("pieces[0].does")
    expect(alert).to_contain_text("To mend it:")
    expect(title).to_have_text("The <b>new</b> block")  # the last good picture stays
    assert page.locator(".held figure svg").count() >= 8
    assert alert.bounding_box()["y"] < page.locator(".held").bounding_box()["y"]  # type: ignore[index]

    item.write_text(whole, encoding="utf-8")
    expect(alert).to_have_count(0)
    expect(title).to_have_text("The pocket block")
    code, said = looking.stop()
    assert code == 0 and "Traceback" not in said and said.count("\n") == 1
    expect(page.locator("#link")).to_contain_text("has stopped")


def test_a_lesson_is_seen_in_its_theme_and_in_another_when_it_changes(item: Path, page: Page, look) -> None:
    lesson = item.parent / "first.yaml"
    text = f"lesson: first\ntheme: dark\nparts:\n  - {{show: {item.name}, as: worked-example}}\n"
    lesson.write_text(text, encoding="utf-8")
    page.goto(look(lesson).address)
    page.get_by_role("link", name="The pocket block").click()
    paper = page.locator("html")
    ground = page.locator("article#base figure svg > rect").first
    expect(paper).to_have_css("background-color", "rgb(18, 22, 28)")
    expect(ground).to_have_attribute("fill", "#1B2129")
    lesson.write_text(text.replace("dark", "print"), encoding="utf-8")
    expect(ground).to_have_attribute("fill", "#FFFFFF")
    expect(paper).to_have_css("background-color", "rgb(255, 255, 255)")


def test_the_fault_stays_in_sight_wherever_the_page_is_scrolled_to(item: Path, page: Page, look) -> None:
    page.goto(look(item).address)
    page.evaluate("scrollTo(0, 700)")
    item.write_bytes(b"item: pocket-block\n")
    expect(page.get_by_role("alert")).to_be_in_viewport()


def test_a_page_that_comes_back_into_sight_or_is_opened_late_is_up_to_date(item: Path, page: Page, look) -> None:
    looking = look(item)
    whole = item.read_text(encoding="utf-8")
    item.write_text(whole.replace("The pocket block", "Changed before"), encoding="utf-8")
    page.goto(looking.address)
    expect(page.locator("h1")).to_have_text("Changed before")
    for hidden in ("true", "false"):
        page.evaluate(f"Object.defineProperty(document, 'hidden', {{ value: {hidden}, configurable: true }})")
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        item.write_text(whole.replace("The pocket block", f"Changed {hidden}"), encoding="utf-8")
    expect(page.locator("h1")).to_have_text("Changed false")


def test_a_folder_leads_to_each_item_and_follows_it(item: Path, page: Page, look) -> None:
    (item.parent / "warned-block.yaml").write_text(WARNED, encoding="utf-8")
    page.goto(look(item.parent).address)
    expect(page.locator(".cards li")).to_have_count(2)
    (item.parent / "torn-block.yaml").write_bytes(b"item: torn-block\n")
    expect(page.locator(".cards li")).to_have_count(3)
    page.get_by_role("link", name="<img src=x").click()
    expect(page.locator("h1")).to_contain_text("<img src=x onerror=alert(1)>")
    assert page.locator("img").count() == 0
    (item.parent / "warned-block.yaml").write_text(WARNED.replace("The <img", "Now <img"), encoding="utf-8")
    expect(page.locator("h1")).to_contain_text("Now <img src=x onerror=alert(1)>")
    page.get_by_role("link", name="All of").click()
    expect(page.locator(".cards li")).to_have_count(3)


def test_another_page_of_the_web_can_neither_read_nor_frame_it(item: Path, browser: Browser, look) -> None:
    address = look(item).address
    stranger = browser.new_page()
    stranger.route("http://stranger.example/", lambda route: route.fulfill(body="<h1>hello</h1>"))
    stranger.goto("http://stranger.example/")
    answer = f"fetch('{address}view').then(() => 'read', () => 'refused')"
    assert stranger.evaluate(answer) == "refused"
    opaque = f"fetch('{address}view', {{mode: 'no-cors'}}).then(a => a.type, () => 'refused')"
    assert stranger.evaluate(opaque) == "refused"
    stranger.close()


@pytest.mark.parametrize(
    "path", [*each_demo_item(), *(pytest.param(path, id=path.stem) for path in sorted(FIXTURES.glob("*.yaml")))]
)
def test_nothing_runs_out_of_the_page(path: Path, page: Page, tmp_path: Path) -> None:
    reading = scan_item(path)
    view = item_view(solved(reading), reading.source.line_of)
    alone = tmp_path / "look.html"
    alone.write_text(standalone_page(view.title, view_part(view)), encoding="utf-8")
    page.goto(alone.as_uri())
    assert strangers(page) == []
    for width in (1280, 340):
        page.set_viewport_size({"width": width, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), width


@pytest.mark.parametrize("kind", ["an item", "a folder", "a fault"])
def test_a_served_page_brings_the_letters_that_it_is_read_in(kind: str, item: Path, page: Page, look) -> None:
    (item.parent / "warned-block.yaml").write_text(WARNED, encoding="utf-8")
    page.goto(look(item.parent if kind == "a folder" else item).address)
    expect(page.locator("h1")).not_to_be_empty()
    if kind == "a fault":
        item.write_text(item.read_text(encoding="utf-8").replace("does: cut", "does: fold"), encoding="utf-8")
        expect(page.get_by_role("alert")).to_contain_text("To mend it:")
    assert strangers(page) == [] and drawn_letters(page) > 100
    assert families_named(page) <= OURS | {"sans-serif"}


def test_one_picture_as_a_file_leans_on_no_font(page: Page, tmp_path: Path) -> None:
    reading = scan_item(DEMO[0])
    alone = tmp_path / "look.svg"
    alone.write_text(whole_svg(item_view(solved(reading), reading.source.line_of)), encoding="utf-8")
    page.goto(alone.as_uri())
    assert page.evaluate("document.querySelectorAll('text, style, [font-family]').length") == 0
    assert page.evaluate("[...document.querySelectorAll('path')].filter(path => path.getBBox().width > 0).length") > 300


def test_a_wider_face_pushes_nothing_out_of_the_page(page: Page, tmp_path: Path) -> None:
    for path in (BORDER, CORNER):
        reading = scan_item(path)
        view = item_view(solved(reading), reading.source.line_of)
        alone = tmp_path / "look.html"
        alone.write_text(widened(standalone_page(view.title, view_part(view))), encoding="utf-8")
        page.goto(alone.as_uri())
        for width in (1280, 340):
            page.set_viewport_size({"width": width, "height": 900})
            assert page.evaluate("document.fonts.ready.then(() => document.documentElement.scrollWidth <= innerWidth)")
