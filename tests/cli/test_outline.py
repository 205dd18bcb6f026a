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


UNUSABLE = {
    '<polygon points=""/>': "it has no points",
    "<polygon/>": "it has no points",
    '<polyline points=" , "/>': "it has no points",
    '<polygon points="0,0 2,0"/>': "fewer than 3 points that differ",
    '<polyline points="0,0 2,0 0,0"/>': "fewer than 3 points that differ",
    '<polygon points="0,0 2,0 0,NaN"/>': "its points are not plain numbers",
    '<polygon transform="scale(0)" points="0,0 2,0 0,-2"/>': "fewer than 3 points that differ",
    '<g transform="scale(0)"><g transform="scale(1 0)"><rect width="2" height="1"/></g></g>': "fewer than 3 points",
    "<path/>": "its path encloses nothing",
    '<path d="M0 0 L2 0 Z"/>': "fewer than 3 points that differ",
    '<path d="M0 0 H"/>': "its path data cannot be read",
    '<path d="M0 0 H NaN V 2 Z"/>': "its path data cannot be read",
    '<rect width="0" height="2"/>': "a rectangle without width or height",
    '<rect width="-2" height="2"/>': "a rectangle without width or height",
    '<rect width="50%" height="2"/>': "its width is '50%', not a plain number",
    '<circle r="0"/>': "it is a circle",
    "<ellipse/>": "it is an ellipse",
    "<line/>": "it is a single line",
    '<use href="#flag"/>': "it is a copy that points to another element",
}


def test_what_is_empty_or_odd_is_told_with_its_line_and_the_rest_is_printed(run, tmp_path: Path) -> None:
    path = tmp_path / "blocks.svg"
    good = '<polygon id="flag" points="0,0 2,0 0,-2"/>'
    lines = ['<svg xmlns="http://www.w3.org/2000/svg">', good, *UNUSABLE, good.replace("flag", "strip"), "</svg>"]
    path.write_text("\n".join(lines), encoding="utf-8")
    ran = run("outline", path)
    assert ran.code == 2
    assert [line.split()[1] for line in ran.out.splitlines() if line.startswith("#")] == ["flag", "strip"]
    told = ran.err.splitlines()
    assert len(told) == len(UNUSABLE)
    for number, (line, (shape, message)) in enumerate(zip(told, UNUSABLE.items(), strict=True), start=3):
        assert line.startswith(f"{path}:{number}: "), shape
        assert message in line and ". To mend it: " in line, (shape, line)


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


def test_shapes_stay_where_they_lie_to_one_another(run, drawing: Path) -> None:
    ran = run("outline", drawing, "--unit", 10, "--keep-positions")
    assert [line for line in ran.out.splitlines() if line and line[0] != "#"] == [
        "corners: [[0, 1], [2, 1], [0, 3]]",
        "corners: [[0, 0], [6, 0], [6, 1], [0, 1]]",
    ]


def test_one_shape_keeps_its_place_among_all(run, drawing: Path) -> None:
    ran = run("outline", drawing, "--unit", 10, "--keep-positions", "--id", "flag")
    assert ran.out.splitlines()[1] == "corners: [[0, 1], [2, 1], [0, 3]]"
