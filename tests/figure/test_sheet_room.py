"""A sheet finds room, or says that there is none: it never seeks for ever."""

from __future__ import annotations

from dataclasses import replace

import pytest

from explainers.choice.model import Solution
from explainers.errors import ItemError
from explainers.figure.legibility import overlaps
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing import sheet

PIECES = (  # on a square of 6: some of them small, on every side of it
    ("flag", "join", "[[0, 0], [2, 0], [0, 1]]", 30, 2, "[[1, 0], [3, 0]]", "A"),
    ("tip", "join", "[[0, 0], [1, 0], [0.5, 2]]", 50, 1, "[[6, 1], [6, 2]]", "K"),
    ("strip", "cut", "[[0, 0], [2, 0], [1, 1]]", 110, 2, "[[6, 3], [6, 5]]", "T"),
    ("dart", "cut", "[[0, 0], [1.5, 0], [0, 1]]", -80, 1.5, "[[4, 6], [2.5, 6]]", "V"),
    ("wedge", "join", "[[0, 0], [2, 0], [2, 1]]", -30, 2, "[[0, 5], [0, 3]]", "X"),
    ("patch", "cut", "[[0, 0], [1, 0], [1, 1], [0, 1]]", 15, 1, "[[0, 2], [0, 1]]", "R"),
)


@pytest.fixture(scope="module")
def six(tmp_path_factory: pytest.TempPathFactory) -> Solution:
    lines = ["item: six", "title: Six", "base: {corners: [[0, 0], [6, 0], [6, 6], [0, 6]]}", "pieces:"]
    for name, does, corners, turned, wide, meets, mark in PIECES:
        lines.append(
            f"  - {{piece: {name}, does: {does}, corners: {corners}, turned: {turned}, "
            f"side: [[0, 0], [{wide}, 0]], meets: {meets}, mark: {mark}}}"
        )
    lines += ["options:", "  - {outline: result, turned: 40}", "  - {outline: result, slip: flipped, turned: 100}"]
    lines += [f"  - {{outline: result, slip: left-out, piece: {name}}}" for name in ("tip", "flag", "strip", "dart")]
    path = tmp_path_factory.mktemp("six") / "six.yaml"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return load_solution(path)


def test_six_pieces_and_six_options_have_room(six: Solution) -> None:
    shown = sheet.Sheet(solution=six, theme=DEFAULT_THEME).figure("A sheet.")
    words = [entry for entry in shown.entries if entry.id.endswith("-word")]
    assert len(words) == 6
    assert not overlaps(shown)


def test_where_letters_are_too_large_for_any_sheet_it_says_so(six: Solution, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheet, "_STEP", 0.6)  # fewer scales to try
    theme = replace(DEFAULT_THEME, mark_size=4.0 * DEFAULT_THEME.mark_size)
    with pytest.raises(ItemError, match="the pieces of six have no room beside the base"):
        sheet.Sheet(solution=six, theme=theme).figure("A sheet.")
