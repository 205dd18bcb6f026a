"""Faults and warnings on the page: where they speak of, mended by buttons; what is missing; what stays until seen."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hands import Keys, Mouse, opened_table
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser, expect
from test_mends import WITHOUT_OPTIONS, planted
from test_sitting import CORNER

pytestmark = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")

UNLIKE = planted(WITHOUT_OPTIONS, "meets: [[4, 0], [4, 2]]", "meets: [[0, 0], [4, 0]]")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "corner-block.yaml"


def test_a_fault_is_told_at_its_place_and_mended_there(browser: Browser, path: Path) -> None:
    path.write_text(UNLIKE, encoding="utf-8")
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        mark = page.locator("#marks .mark-button")
        expect(mark).to_have_count(1)
        expect(mark).to_have_accessible_name(re.compile("^1: The marked side of flag is 2 long, .* 4 long"))
        mark.click()
        said = page.locator("#marks .said")
        expect(said).to_contain_text("2 long")
        expect(said.locator(".mend")).to_have_count(3)
        with mouse.change():
            said.get_by_text("Make the whole flag 2 times as large").click()
        mouse.says("Done: Make the whole flag 2 times as large")
        expect(page.locator("#marks button")).to_have_count(0)
        assert "[[0, 0], [4, 0], [0, 4]]" in path.read_text() or "[[0, 0], [4, 0], [0, 4]]" in text_of(mouse)


def text_of(mouse: Mouse) -> str:
    return mouse.page.locator('[data-key="text"]').input_value()


def test_a_fault_is_mended_by_keys_and_leads_to_its_place(browser: Browser, path: Path) -> None:
    path.write_text(planted(CORNER, "sign: leaf", "mark: A"), encoding="utf-8")
    with opened_table(browser, path) as page:
        keys = Keys(page)
        keys.until_later()
        expect(page.locator("#verdict .mend")).to_have_count(1)
        keys.press("go-0")
        expect(page.locator(":focus")).to_have_attribute("data-key", "outline|piece-flag||")
        keys.press("mark-0")  # its words are open: closed by the first
        keys.keys("Enter")
        keys.go_to(lambda here: here.startswith("mend-paper"))
        keys.keys("Escape")
        expect(page.locator("#marks .said")).to_have_count(0)
        expect(page.locator(":focus")).to_have_attribute("data-key", "mark-0")
        keys.press("accept-open-list-0")
        with keys.change():
            keys.fill("reason-list-0", "our class knows it")
        expect(page.locator("#verdict .remarks")).to_have_count(0)
        expect(page.locator('[data-key="accepted-open"]')).to_contain_text("1 warning let stand")
        assert "mark-like-option: our class knows it" in path.read_text()


def test_an_empty_page_says_what_to_do_and_no_key(browser: Browser, path: Path) -> None:
    with opened_table(browser, path) as page:
        verdict = page.locator("#verdict")
        expect(verdict.locator(".todo li")).to_have_text(["Draw the base", "Draw a piece", "Make five options"])
        expect(verdict).not_to_contain_text("key")
        page.locator('[data-key="text-open"]').click()
        expect(page.locator("#text")).to_contain_text("The key base is missing from the file")
        mouse = Mouse(page)
        with mouse.change():
            for corner in [(0, 0), (6, 0), (6, 3), (0, 3), (0, 0)]:
                mouse.click(corner)
        expect(page.locator("#hand .next")).to_contain_text("draw a piece beside the base")
        mouse.press("todo-0")
        with mouse.change():
            for corner in [(8, 0), (10, 0), (8, 3), (8, 0)]:
                mouse.click(corner)
        expect(verdict.locator(".todo li")).to_have_text(["Marry a side of the flag", "Make five options"])
        mouse.press("todo-0")
        mouse.click((1, 0), "piece-flag")
        with mouse.change():
            mouse.click((3, 0), "base")
        with mouse.change():
            mouse.press("todo-0")
        expect(verdict).to_contain_text("✓ Sound")
        expect(verdict.locator(".todo")).to_have_count(0)


@pytest.mark.full
def test_what_happened_besides_stays_until_it_is_seen(browser: Browser, path: Path) -> None:
    path.write_text(
        planted(CORNER, "corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]",
                "walk: right 4, up 2, left 2, up 2, left 2, down 4"), encoding="utf-8"
    )  # fmt: skip
    with opened_table(browser, path) as page:
        mouse = Mouse(page)
        with mouse.change():
            mouse.drag((0, 4), (0, 5), "base")
        note = page.locator("#hand .notes")
        expect(note).to_contain_text("The walk of the base has become corners")
        with mouse.change():
            mouse.press("undo")
        expect(note).to_be_visible()
        mouse.press("notes-seen")
        expect(note).to_have_count(0)
