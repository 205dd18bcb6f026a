"""The twelve pentominoes: rotational order and chirality.

Orders recomputed for our references (section 1.2); which six are chiral: liquisearch.com/pentomino. Z is the classic
trap: half a turn lays it on itself, and still it is not its own mirror image. Eleven of the twelve share area and
perimeter, so neither is evidence of a match.
"""

from __future__ import annotations

import pytest
from oracles import exact, lattice

from explainers.geometry.congruence import Match, congruence, is_chiral, rotational_symmetry_order
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import RigidMotion
from explainers.geometry.rings import perimeter
from explainers.geometry.tolerance import authoring_tolerance

CELLS = {
    "F": [(1, 0), (1, 1), (1, 2), (2, 2), (0, 1)],
    "I": [(0, 0), (1, 0), (2, 0), (3, 0), (4, 0)],
    "L": [(0, 0), (0, 1), (0, 2), (0, 3), (1, 0)],
    "N": [(0, 0), (0, 1), (1, 1), (1, 2), (1, 3)],
    "P": [(0, 0), (0, 1), (0, 2), (1, 1), (1, 2)],
    "T": [(0, 2), (1, 2), (2, 2), (1, 1), (1, 0)],
    "U": [(0, 0), (0, 1), (1, 0), (2, 0), (2, 1)],
    "V": [(0, 0), (0, 1), (0, 2), (1, 0), (2, 0)],
    "W": [(0, 2), (0, 1), (1, 1), (1, 0), (2, 0)],
    "X": [(1, 0), (0, 1), (1, 1), (2, 1), (1, 2)],
    "Y": [(0, 0), (0, 1), (0, 2), (0, 3), (1, 2)],
    "Z": [(0, 2), (1, 2), (1, 1), (1, 0), (2, 0)],
}
ROTATIONAL_ORDER = {name: {"I": 2, "X": 4, "Z": 2}.get(name, 1) for name in CELLS}
CHIRAL = set("FLNPYZ")


def outline_of(name: str) -> Outline:
    """In squares of side 1, material on the left."""
    found = lattice.rings_of(lattice.squares(CELLS[name]))
    assert found is not None
    return Outline.of([(x / 2, y / 2) for x, y in found[0]])


@pytest.mark.parametrize("name", CELLS)
def test_order_and_chirality(name: str) -> None:
    outline = outline_of(name).moved(RigidMotion(turn_deg=31.0, shift=(2.0, -1.0)))
    tolerance = authoring_tolerance(outline.larger_extent)
    assert rotational_symmetry_order(outline, tolerance) == ROTATIONAL_ORDER[name]
    assert is_chiral(outline, tolerance) == (name in CHIRAL)
    assert outline.area == pytest.approx(5.0)
    assert perimeter(outline.exterior) == pytest.approx(10.0 if name == "P" else 12.0)


@pytest.mark.parametrize("name", CELLS)
def test_the_exact_oracle_agrees(name: str) -> None:
    ring = [(int(2 * x), int(2 * y)) for x, y in outline_of(name).exterior]
    assert exact.symmetry_order([ring]) == ROTATIONAL_ORDER[name]
    assert exact.is_mirror_only(exact.turned_over([ring]), [ring]) == (name in CHIRAL)


def test_z_and_its_mirror_image_differ_at_every_angle() -> None:
    z = outline_of("Z")
    tolerance = authoring_tolerance(z.larger_extent)
    for turn_deg in range(-179, 181):
        turned = z.mirrored().moved(RigidMotion(turn_deg=float(turn_deg)))
        assert congruence(turned, z, tolerance).kind is Match.MIRROR_ONLY


def test_no_two_of_them_match() -> None:
    names = sorted(CELLS)
    for i, name in enumerate(names):
        for other in names[:i]:
            assert congruence(outline_of(name), outline_of(other), 0.003).kind is Match.DIFFERENT
