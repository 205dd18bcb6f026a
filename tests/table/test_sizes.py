"""Sizes of walks and ready outlines as a page offers them: each moves the corners as the outline itself does."""

from __future__ import annotations

from pathlib import Path

import pytest
from demo_items import demo_items

from explainers.editing.drawn import drawn_outline
from explainers.editing.outline_commands import SetSize, SetWalk
from explainers.editing.sheet import CannotEdit, Sheet
from explainers.intake.item_reader import format_of_kind
from explainers.intake.workspace import load_solution
from explainers.item.ready_outlines import READY
from explainers.table.pictures import drawn_sheet

OUTLINES = {name: f"ready: {{{name}: {kind.example}}}" for name, kind in READY.items()} | {
    "walk": "walk: right 4, up-left 2, 150deg 1.5, right 0.5 up 2, close",
    "listed walk": "walk: [right 4, up 2, close]",
    "corners": "corners: [[0, 0], [2, 0], [0, 2]]",
}


def sheet_of(outline: str) -> Sheet:
    return Sheet(text=f"item: one\nbase:\n  {outline}   # as it was\n", order=format_of_kind("join-and-cut").order)


def drawn(sheet: Sheet):  # type: ignore[no-untyped-def]
    return drawn_outline(sheet.node("base"), "base", id_="base", role="base")


@pytest.mark.parametrize("name", OUTLINES)
def test_corners_move_as_a_size_says(name: str) -> None:
    sheet = sheet_of(OUTLINES[name])
    before = drawn(sheet)
    assert bool(before.sizes) == (name not in ("corners", "listed walk"))
    for size in before.sizes:
        if size.counts:
            continue
        changed = SetSize(at="base", size=size.name, value=size.value + 0.25).apply(sheet)
        after = drawn(changed)
        assert after.given == before.given and not changed.notes and "# as it was" in changed.text
        for p, q, move in zip(before.corners, after.corners, size.moves, strict=True):
            assert q == pytest.approx((p[0] + 0.25 * move[0], p[1] + 0.25 * move[1]), abs=1e-6)


def test_a_size_that_is_none_is_refused() -> None:
    for size, value in (("deep", 2.0), ("wide", 0.0), ("wide", -1.0)):
        with pytest.raises(CannotEdit):
            SetSize(at="base", size=size, value=value).apply(sheet_of(OUTLINES["rectangle"]))
    for size in ("0", "9", "first"):
        with pytest.raises(CannotEdit):
            SetSize(at="base", size=size, value=2.0).apply(sheet_of(OUTLINES["walk"]))


def test_a_walk_in_brackets_stays_one_value() -> None:
    text = 'item: one\noptions:\n  - {walk: "right 4, up 2, close", turned: 30}\n'
    sheet = Sheet(text=text, order=format_of_kind("join-and-cut").order)
    changed = SetSize(at="options[0]", size="2", value=3.0).apply(sheet)
    assert changed.text == text.replace("up 2", "up 3")
    assert SetWalk(at="options[0]", walk="right 5, up 2, close").apply(sheet).text == text.replace("right 4", "right 5")


@pytest.mark.parametrize("item", demo_items()[:3] + demo_items("turned-outline")[:1], ids=lambda path: path.stem)
def test_what_is_turned_on_the_sheet_lies_on_it(item: Path) -> None:
    solution = load_solution(item)
    sheet = drawn_sheet(solution)
    x, y, wide, high = map(float, sheet.svg.partition('viewBox="')[2].partition('"')[0].split())
    ids = [f"piece-{number}" for number in range(9)]
    told = sheet.told(ids)
    assert [part["option"] for part in told if part["option"]] == [each.label for each in solution.verdicts]
    assert [part["id"] for part in told if part["id"]] == ids[: len(told) - len(solution.verdicts)]
    for part in told:
        left, top, right, low = part["room"]
        assert x < left < part["middle"][0] < right < x + wide and y < top < part["middle"][1] < low < y + high
    rooms = [part["room"] for part in told]
    for n, one in enumerate(rooms):  # nothing is turned in the room of another
        assert all(a[2] <= one[0] or one[2] <= a[0] or a[3] <= one[1] or one[3] <= a[1] for a in rooms[n + 1 :])
