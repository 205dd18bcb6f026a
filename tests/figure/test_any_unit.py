"""The unit that a teacher types in, millimetres or metres, changes nothing in the pictures of the work."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from explainers.figure.model import Area, Dots
from explainers.figure.theme import DEFAULT_THEME
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.work_table import TablePhase, WorkTable


def table_in_unit(folder: Path, unit: float) -> WorkTable:
    """The table of one and the same item, typed in a unit of this many of the usual one."""
    two, four = f"{2 * unit:.12g}", f"{4 * unit:.12g}"
    path = folder / "unit-block.yaml"
    path.write_text(
        f"""\
item: unit-block
base:
  walk: [right {four}, up {two}, left {two}, up {two}, close]
pieces:
  - {{piece: flag, does: join, corners: [[0, 0], [{two}, 0], [0, {two}]], turned: 135, side: 1, meets: 2}}
options: {{make: 4, seed: 7}}
""",
        encoding="utf-8",
    )
    return WorkTable(solution=load_solution(path), theme=DEFAULT_THEME)


@pytest.mark.parametrize("unit", [0.0005, 0.02, 10.0, 4000.0, 200_000.0])
def test_the_work_is_drawn_as_large_in_every_unit(tmp_path: Path, unit: float) -> None:
    usual, table = table_in_unit(tmp_path, 1.0), table_in_unit(tmp_path, unit)
    assert math.isclose(table.assembly.scale * unit, usual.assembly.scale, rel_tol=0.15)


@pytest.mark.parametrize("unit", [0.0005, 200_000.0])
def test_as_many_dots_are_laid_in_every_unit(tmp_path: Path, unit: float) -> None:
    def dots(table: WorkTable) -> int:
        return sum(
            len(entry.centres) for entry in table.figure(0, TablePhase.SHOWN, "").entries if isinstance(entry, Dots)
        )

    usual = dots(table_in_unit(tmp_path, 1.0))
    assert usual > 10
    assert dots(table_in_unit(tmp_path, unit)) == pytest.approx(usual, rel=0.3)


@pytest.mark.parametrize("unit", [0.0005, 200_000.0])
def test_nothing_is_patterned_that_is_only_measured(tmp_path: Path, unit: float) -> None:
    table = table_in_unit(tmp_path, unit)
    assert all(isinstance(entry, Area) for entry in table.assembly.piece(0, table.view, marked=False, plain=True))
