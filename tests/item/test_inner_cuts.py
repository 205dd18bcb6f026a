"""A cut that must meet two points in the middle of the base: what is advised can be typed, and solves."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from explainers.errors import ItemError
from explainers.intake.reader import read_item
from explainers.kinds.join_and_cut.solving.solver import answer

BASE = "corners: [[0, 0], [8, 0], [8, 6], [0, 6]]"


def written(folder: Path, *, meets: str, base: str = BASE, does: str = "cut", extra: str = "") -> Path:
    path = folder / "window.yaml"
    path.write_text(
        f"""item: window
base:
  {base}
pieces:
{extra}  - piece: pane
    does: {does}
    corners: [[0, 0], [2, 0], [2, 1], [0, 1]]
    side: [[0, 0], [2, 0]]
    meets: {meets}
options: {{make: 2}}
""",
        encoding="utf-8",
    )
    return path


def fix_of(path: Path) -> str:
    with pytest.raises(ItemError) as refused:
        read_item(path)
    (fault,) = refused.value.faults
    assert fault.field == "pieces[0].meets"
    assert fault.line == 9
    return fault.fix


@pytest.mark.parametrize(
    ("meets", "hole"),
    [
        ("[[3, 2], [5, 2]]", [(3, 2), (5, 2), (5, 3), (3, 3)]),
        ("[[3, 5.5], [5, 5.5]]", [(5, 5.5), (3, 5.5), (3, 4.5), (5, 4.5)]),
    ],
)
def test_what_is_advised_for_a_hole_in_the_middle_can_be_typed(
    tmp_path: Path, meets: str, hole: list[tuple[float, float]]
) -> None:
    fix = fix_of(written(tmp_path, meets=meets))
    holes = re.search(r"holes: (\[\[\[.*?\]\]\])", fix)
    side = re.search(r"meets: (\[\[[^;]*?\]\])", fix)
    assert holes and side
    triangle = "corners: [[0, 0], [1, 0], [0, 1]], side: [[0, 0], [1, 0]], meets: [[0, 0], [1, 0]]"
    notch = f"  - {{piece: notch, does: cut, {triangle}}}\n"
    ring = read_item(written(tmp_path, base=f"{BASE}\n  {holes[0]}", meets="[[1, 6], [3, 6]]", extra=notch)).base.holes
    assert {tuple(corner) for corner in ring[0]} == set(hole)
    # The other advice solves too: the piece lies along the side instead.
    item = read_item(written(tmp_path, meets=side[1]))
    assert answer_area(item) == pytest.approx(8 * 6 - 2)


def answer_area(item: object) -> float:
    return answer(item).outline.area  # type: ignore[arg-type]


def test_no_hole_is_drawn_that_would_reach_outside(tmp_path: Path) -> None:
    fix = fix_of(
        written(tmp_path, meets="[[3, 0.5], [3, 2.5]]", base="corners: [[2.5, 0], [3.5, 0], [3.5, 6], [2.5, 6]]")
    )
    assert "holes" in fix
    assert "holes: [" not in fix


@pytest.mark.parametrize(("meets", "does"), [("[[3, 7], [5, 7]]", "cut"), ("[[3, 2], [5, 2]]", "join")])
def test_other_cuts_and_joins_are_led_to_a_side(tmp_path: Path, meets: str, does: str) -> None:
    assert "holes" not in fix_of(written(tmp_path, meets=meets, does=does))
