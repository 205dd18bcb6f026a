"""Each demo item drawn from an empty page: by mouse alone, by touch alone, by keys alone; and what it comes to."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from demo_drawing import ShownTwice, draw_question, told_of
from demo_items import demo_items
from drawn_by_keys import ByKeys
from drawn_by_pointer import ByPointer
from hands import Fingers, Keys, Mouse, opened_table
from outputs.html_pages import CHROMIUM
from playwright.sync_api import Browser

from explainers.intake.workspace import load_solution

pytestmark = [pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed"), pytest.mark.full]

WAYS = ("mouse", "touch", "keys")


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("item", demo_items(), ids=lambda path: path.stem)
def test_a_demo_item_drawn(item: Path, way: str, browser: Browser, tmp_path: Path) -> None:
    demo = told_of(item, tmp_path)
    path = tmp_path / "drawn" / item.name
    path.parent.mkdir()
    options: dict[str, Any] = {"viewport": {"width": 1366, "height": 900}}
    if way == "touch":
        options["has_touch"] = True
    with opened_table(browser, path, **options) as page:
        if way == "keys":
            keys = Keys(page)
            draw_question(ByKeys(keys), demo)
            assert keys.count == 0
        else:
            hands = Mouse(page) if way == "mouse" else Fingers(page)
            draw_question(ByPointer(hands), demo)
            assert hands.typed == 0
    ShownTwice(load_solution(path), load_solution(item)).check()
