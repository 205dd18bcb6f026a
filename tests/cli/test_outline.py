"""`explainers outline`: lines to paste, warnings and faults beside them."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

DRAWING = """\
<svg xmlns="http://www.w3.org/2000/svg">
<polygon id="flag" points="0,0 20,0 0,-20"/><rect id="strip" width="62" height="10"/><circle id="dot" r="4"/>
</svg>
"""


@pytest.fixture
def drawing(tmp_path: Path) -> Path:
    path = tmp_path / "blocks.svg"
    path.write_text(DRAWING, encoding="utf-8")
    return path


def test_every_straight_shape_is_printed_and_the_rest_refused(run, drawing: Path) -> None:
    ran = run("outline", drawing, "--unit", 10)
    assert ran.code == 2
    assert ran.out.splitlines() == [
        "# flag (polygon): 3 corners, none moved",
        "corners: [[0, 0], [2, 0], [0, 2]]",
        "",
        "# strip (rect): 4 corners, moved by 0.2 at most",
        "corners: [[0, 0], [6, 0], [6, 1], [0, 1]]",
    ]
    warning, fault = ran.err.splitlines()
    assert "strip: a corner was moved by 0.2 onto the grid of 0.5" in warning
    assert fault.startswith(f"{drawing}:2: dot: it is a circle. To mend it: ")


def test_one_shape_is_ready_to_paste(run, drawing: Path) -> None:
    ran = run("outline", drawing, "--id", "flag", "--unit", 20, "--grid", 1)
    assert (ran.code, ran.err) == (0, "")
    assert yaml.safe_load(ran.out) == {"corners": [[0, 0], [1, 0], [0, 1]]}


@pytest.mark.parametrize("arguments", [["--id", "sash"], ["--grid", "0"], ["--unit", "-1"]])
def test_what_is_not_there_is_refused(run, drawing: Path, arguments: list[str]) -> None:
    ran = run("outline", drawing, *arguments)
    assert ran.code == 2 and ran.out == "" and ran.err


def test_a_grid_that_is_no_number_is_told_as_one(run, drawing: Path) -> None:
    ran = run("outline", drawing, "--grid", "nan")
    assert ran.code == 2
    assert ran.err == "explainers: --grid nan is no number from 0.001 to 1000. To mend it: write one, such as 0.5\n"
