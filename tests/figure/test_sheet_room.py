"""How the question sheet shares out its room: what is left untried would not have been better."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from strategies import random_item
from table.six_pieces import SIX

from explainers.errors import ExplainersError
from explainers.figure.legibility import LEAST_SIDE
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.sheet import Sheet
from explainers.kinds.join_and_cut.drawing.sheet_layout import bands
from explainers.kinds.join_and_cut.solving.solution import JoinAndCutSolution
from explainers.kinds.registry import solve


def best_of_all(sheet: Sheet) -> Any:
    """Every way to share the room, tried to its end."""
    tried = [found for band, row in bands() if (found := sheet._in_band(band, row, better_than=0.0)) is not None]
    usual = [found for found in tried if found.shortest_side >= LEAST_SIDE]
    return usual[0] if usual else max(tried, key=lambda found: found.shortest_side)


def held(solution: JoinAndCutSolution) -> bool:
    sheet = Sheet(solution=solution, theme=DEFAULT_THEME)
    best = best_of_all(sheet)
    assert sheet.assembly.scale == best.assembly.scale
    assert sheet._arranged.layout == best.layout
    return bool(best.shortest_side < LEAST_SIDE)


def test_six_pieces_have_the_best_room_there_is(tmp_path: Path) -> None:
    path = tmp_path / "six-pieces.yaml"
    path.write_text(SIX)
    solution = load_solution(path)
    assert isinstance(solution, JoinAndCutSolution)
    assert held(solution)  # no way shows every side well: all are weighed


@pytest.mark.full
def test_generated_items_have_the_best_room_there_is() -> None:
    weighed = 0
    for seed in range(150):
        try:
            solution = solve(random_item(seed))
            assert isinstance(solution, JoinAndCutSolution)
            weighed += held(solution)
        except ExplainersError:
            continue
    assert weighed > 5
