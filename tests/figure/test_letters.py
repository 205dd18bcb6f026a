"""Letters stand near the side that they speak of, in the cloth where there is room for them."""

from __future__ import annotations

from pathlib import Path

import pytest
import shapely
from demo_items import demo_items

from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.outline import Outline
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.assembly_drawing import AssemblyDrawing
from explainers.kinds.join_and_cut.drawing.letters import letters
from explainers.kinds.join_and_cut.drawing.sheet import Sheet
from explainers.kinds.join_and_cut.drawing.work_table import WorkTable
from explainers.kinds.join_and_cut.model import Does

DEMO = demo_items("join-and-cut")
FARTHEST = 0.4  # stage units from its side to the disc of a letter: about one letter


def gaps(assembly: AssemblyDrawing) -> dict[str, float]:
    """From each marked side to the disc of its letter, stage units."""
    found = {}
    for index, placement in enumerate(assembly.solution.placements):
        for whose, side, at in (
            ("own", placement.side, assembly.letters.on_piece[index]),
            ("partner", placement.partner, assembly.letters.on_partner[index]),
        ):
            apart = shapely.Point(at).distance(shapely.LineString(side)) * assembly.scale - assembly.radii[index]
            found[f"{placement.piece.name} {whose}"] = apart
    return found


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.stem)
def test_no_letter_of_the_demo_is_far_from_its_side(path: Path) -> None:
    """On sheets pieces are small, and a letter may lack room in a narrow one between two others."""
    solution = load_solution(path)
    for assembly in (
        Sheet(solution=solution, theme=DEFAULT_THEME).assembly,
        WorkTable(solution=solution, theme=DEFAULT_THEME).assembly,
    ):
        far = {name: gap for name, gap in gaps(assembly).items() if gap > FARTHEST}
        assert far == {}


def test_a_letter_stands_in_the_cloth_where_there_is_room() -> None:
    (placement,) = load_solution(DEMO[3]).placements
    base = load_solution(DEMO[3]).item.base
    found = letters(base, (placement,), radii=(0.3,), ticks=(0.2,), spans=(0.1,), end=0.1, gap=0.05)
    assert placement.piece.does is Does.JOIN
    assert shapely.Polygon(placement.ring).contains(shapely.Point(found.on_piece[0]).buffer(0.3))
    assert shapely.Polygon(base.exterior).contains(shapely.Point(found.on_partner[0]).buffer(0.3))


def test_in_a_narrow_frame_a_letter_stands_outside_beside_its_side() -> None:
    """The lattice block's frame has room in its corners alone."""
    lattice = next(path for path in DEMO if path.stem == "lattice-block")
    solution = load_solution(lattice)
    base: Outline = solution.item.base
    assembly = Sheet(solution=solution, theme=DEFAULT_THEME).assembly
    (at,) = assembly.letters.on_partner
    assert not shapely.Polygon(base.exterior, base.holes).contains(shapely.Point(at))
    assert gaps(assembly)["bar partner"] < 0.2
