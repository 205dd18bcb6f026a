"""Words of pieces find room whatever a theme calls join and cut, and whatever a teacher calls the pieces."""

from __future__ import annotations

from pathlib import Path

import pytest

from explainers.figure.legibility import overlaps
from explainers.figure.theme import DEFAULT_THEME
from explainers.figure.theme_checks import LEAST_TYPE, faults_of_theme
from explainers.figure.themes import THEMES
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.fitting_words import piece_words
from explainers.kinds.join_and_cut.drawing.sheet import Sheet
from explainers.kinds.join_and_cut.drawing.work_table import TablePhase, WorkTable
from explainers.style import THEME_NAMES
from explainers.typeface.faces import face

ITEM = Path(__file__).parents[2] / "items" / "kite-block.yaml"
LARGEST = {"word_size": 0.45, "mark_size": 0.5, "option_size": 0.5, "degrees_size": 0.42, "small_size": 0.36}


def fitted(name: str, width: float) -> tuple[str, float]:
    return piece_words(name, "join", theme=DEFAULT_THEME, size=0.36, width=width)


def test_words_shrink_before_they_are_left_out() -> None:
    assert fitted("flag", 5.0) == ("join: flag", 0.36)
    whole = face(True).width("join: flag", 0.36)
    text, size = fitted("flag", 0.9 * whole)
    assert text == "join: flag" and LEAST_TYPE <= size < 0.36
    assert face(True).width(text, size) == pytest.approx(0.9 * whole)
    assert fitted("flag", 0.6 * whole) == ("join", 0.36)
    assert fitted("flag", 0.1) == ("join", LEAST_TYPE)


@pytest.mark.parametrize("name", THEME_NAMES)
@pytest.mark.parametrize(
    "words", [{"join.word": "sew on", "cut.word": "snip"}, {"join.word": "embroider", "cut.word": "take away"}]
)
def test_nothing_overlaps_in_sheet_and_list(name: str, words: dict[str, str]) -> None:
    theme = THEMES[name].having({**words, **LARGEST})
    assert not faults_of_theme(theme)
    solution = load_solution(ITEM)
    table = WorkTable(solution=solution, theme=theme)
    shown = [Sheet(solution=solution, theme=theme).figure("")]
    shown += [
        table.figure(done, phase, "")
        for done in range(3)
        for phase in (TablePhase.TURNED, TablePhase.MET, TablePhase.DONE)
    ]
    assert [fault for figure in shown for fault in overlaps(figure)] == []
