"""A file changed by others while it is drawn: what is asked is in sight, answered by keys, nothing overwritten."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from asking import drawn_on
from hands import Keys
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, expect
from test_sitting import CORNER

from explainers.table.server import TableServer

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")

OURS = CORNER.replace("turned: 135", "turned: 30 degrees")  # a fault of its reader: it stays in the journal
THEIRS = CORNER.replace("turned: 135", "turned: 45")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "corner-block.yaml"
    made.write_text(CORNER, encoding="utf-8")
    return made


@contextmanager
def window(browser: Browser, server: TableServer) -> Iterator[Keys]:
    page = browser.new_page(viewport={"width": 390, "height": 844})
    page.goto(server.address)
    page.wait_for_selector("#paper[data-revision]")
    yield Keys(page)
    page.close()


def asked(keys: Keys, words: str) -> None:
    """What is asked is in sight, though the page was read further down, and so are its answers."""
    page = keys.page
    expect(page.locator(".banner")).to_contain_text(words)
    for answer in page.locator(".banner button").all():
        expect(answer).to_be_in_viewport(ratio=1)
    keys.says("There is a question about the file")


@pytest.mark.parametrize("keep", ["ours", pytest.param("theirs", marks=pytest.mark.full)])
def test_a_clash_is_answered_by_keys(keep: str, browser: Browser, path: Path) -> None:
    with drawn_on(path) as server, window(browser, server) as keys:
        server.desk.edit({"revision": 1, "text": OURS})
        path.write_text(THEIRS, encoding="utf-8")
        keys.page.evaluate("scrollTo(0, 500)")
        server.desk.look_at_file()
        asked(keys, "was changed elsewhere in the same place")
        expect(keys.page.locator(".banner li")).to_contain_text("30 degrees")
        expect(keys.page.locator(".banner li")).to_contain_text("45")
        keys.press(f"keep-{keep}")
        expect(keys.page.locator(".banner")).to_have_count(0)
        assert server.desk.sitting.text == (OURS if keep == "ours" else THEIRS) and path.read_text() == THEIRS
        expect(keys.page.locator(":focus")).to_have_attribute("data-key", "tool-select")
        keys.press("undo")  # and nothing of either is lost
        keys.says("Undone")
        assert server.desk.sitting.text == (CORNER if keep == "ours" else OURS)


@pytest.mark.full
def test_a_file_that_is_gone_is_written_again(browser: Browser, path: Path) -> None:
    with drawn_on(path) as server, window(browser, server) as keys:
        path.unlink()
        server.desk.look_at_file()
        asked(keys, "is no longer there")
        expect(keys.page.locator(".banner button")).to_have_text(["Write the file again"])
        keys.press("keep-ours")
        expect(keys.page.locator(".banner")).to_have_count(0)
        assert path.read_text() == CORNER


def test_a_file_that_cannot_be_read_is_kept_until_somebody_answers(browser: Browser, path: Path) -> None:
    with drawn_on(path) as server, window(browser, server) as keys:
        path.write_bytes(b"\xff\xfe\x00junk")
        server.desk.look_at_file()
        asked(keys, "cannot be read just now")
        expect(keys.page.locator(".banner button")).to_have_text(["Keep what is on this page"])
        assert path.read_bytes() == b"\xff\xfe\x00junk"
        path.write_text("item: [broken", encoding="utf-8")
        server.desk.look_at_file()
        expect(keys.page.locator(".banner button")).to_have_count(2)
        keys.press("keep-theirs")
        expect(keys.page.locator(".banner")).to_have_count(0)
        expect(keys.page.locator('[data-key="text"]')).to_have_value("item: [broken")
        keys.press("undo")
        keys.says("Undone")
        expect(keys.page.locator("#verdict")).to_contain_text("Sound")
        assert path.read_text() == CORNER


@pytest.mark.full
def test_another_window_is_told_and_what_it_is_told_stays(browser: Browser, path: Path) -> None:
    with drawn_on(path) as server, window(browser, server) as keys:
        path.write_text(CORNER.replace("The corner block", "Theirs"), encoding="utf-8")
        server.desk.look_at_file()
        expect(keys.page.locator("#title")).to_have_text("Theirs")
        expect(keys.page.locator("#hand .notes")).to_contain_text("was changed elsewhere")
        keys.press("notes-seen")
        expect(keys.page.locator("#hand .notes")).to_have_count(0)
