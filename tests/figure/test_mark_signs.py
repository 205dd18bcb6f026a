"""The signs that mark sides are told apart at any turn, small and grey too; every renderer draws the same ink."""

from __future__ import annotations

import io
import math
from itertools import combinations

import cairosvg
import numpy as np
import pytest
import shapely
from PIL import Image
from shapely.affinity import rotate

from explainers.choice.panels.plot import _MARK_SIZE as SMALLEST_EM
from explainers.drawing.svg import svg_of
from explainers.figure.mark_signs import SIGNS, is_sign, sign_rings
from explainers.figure.model import PX_PER_UNIT, Figure, Label, Role, moved_entry
from explainers.figure.side_marks import mark_radius
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.rigid_motion import Similarity
from explainers.kinds.join_and_cut.fields.marks import MAX_LETTERS
from explainers.kinds.join_and_cut.fields.piece_reader import MAX_PIECES
from explainers.typeface.faces import SIGN_ACROSS, label_box
from explainers.words.mark_names import SIGN_NAMES, mark_name, the_mark, the_marks, the_other_mark
from explainers.words.messages import speaking

PX = round(SMALLEST_EM * SIGN_ACROSS * PX_PER_UNIT * 0.4)  # across: a small picture of a page, on a small screen
FINE = 6  # samples of a pixel each way: a pixel is as grey as it is covered
SILHOUETTE, INK = 0.85, 0.65  # how much of what two cover both may cover: less than that is another sign


def _shape(name: str) -> shapely.Geometry:
    shape = shapely.Polygon()
    for ring in sign_rings(name, (0.0, 0.0), 2.0 / SIGN_ACROSS):
        shape = shape.symmetric_difference(shapely.Polygon(ring))
    return shape


def _grey(shape: shapely.Geometry) -> np.ndarray:
    """How much of each of PX x PX pixels is inked, from 0 to 1."""
    steps = (np.arange(PX * FINE) + 0.5) / (PX * FINE) * 2.0 - 1.0
    inked = shapely.contains_xy(shape, *np.meshgrid(steps, steps)).astype(float)
    return inked.reshape(PX, FINE, PX, FINE).mean(axis=(1, 3))


def _alike(one: np.ndarray, other: np.ndarray) -> float:
    """Of all that either covers, the part that both do."""
    return float(np.minimum(one, other).sum() / np.maximum(one, other).sum())


def test_the_names_of_signs_are_those_that_are_drawn_and_longer_than_letters_may_be() -> None:
    assert SIGNS == SIGN_NAMES
    assert MAX_PIECES + 2 <= len(SIGNS) == len(set(SIGNS))
    assert min(map(len, SIGNS)) > MAX_LETTERS
    assert not is_sign("K") and not is_sign("")


@pytest.mark.parametrize("name", SIGNS)
def test_a_sign_fills_its_disc_and_stays_in_it(name: str) -> None:
    points = [point for ring in sign_rings(name, (3.0, 4.0), 0.5) for point in ring]
    reach = max(math.dist((3.0, 4.0), point) for point in points)
    assert 0.85 < reach / (SIGN_ACROSS * 0.5 / 2) <= 1.0
    assert mark_radius(name, DEFAULT_THEME) == pytest.approx(SIGN_ACROSS * DEFAULT_THEME.mark_size / 2)
    for one, other in combinations([shapely.LinearRing(ring) for ring in sign_rings(name, (0.0, 0.0), 1.0)], 2):
        assert not one.intersects(other)  # or filling by winding and by the even-odd rule would differ


@pytest.mark.parametrize(("one", "other"), list(combinations(SIGNS, 2)))
def test_two_signs_differ_at_every_turn_small_and_grey(one: str, other: str) -> None:
    shapes = _shape(one), _shape(other)
    filled = [shapely.union_all([shapely.Polygon(part.exterior) for part in shapely.get_parts(s)]) for s in shapes]
    for (still, turned), most in ((shapes, INK), (filled, SILHOUETTE)):
        seen = _grey(still)
        likest = max(_alike(seen, _grey(rotate(turned, turn, origin=(0, 0)))) for turn in range(0, 360, 15))
        assert likest < most, f"{one} and {other}"


def test_the_same_sign_would_be_found_alike() -> None:
    """The measure is no sieve that lets everything through: a sign is like itself, and like itself a pixel off."""
    leaf = _grey(_shape("leaf"))
    assert _alike(leaf, leaf) == 1.0
    turned = max(_alike(leaf, _grey(rotate(_shape("leaf"), turn, origin=(0, 0)))) for turn in (0, 5))
    assert turned > SILHOUETTE


def label(name: str, at: tuple[float, float] = (8.0, 4.5)) -> Label:
    return Label(id="a", group="a", role=Role.MARK, text=name, at=at, size=3.0, colour="#000000", sign=name)


@pytest.mark.parametrize("name", SIGNS)
def test_a_sign_stays_upright_where_its_piece_turns(name: str) -> None:
    turned = moved_entry(label(name), Similarity(turn_deg=73.0))
    assert isinstance(turned, Label)
    (x, y), rings = turned.at, sign_rings(turned.sign, turned.at, turned.size)
    expected = sign_rings(name, (0.0, 0.0), 3.0)
    assert [p for ring in rings for p in ring] == [pytest.approx((x + a, y + b)) for r in expected for a, b in r]


@pytest.mark.parametrize("name", SIGNS)
def test_a_drawing_shows_the_sign_and_names_it(name: str) -> None:
    text = svg_of(Figure(background="#FFFFFF", entries=(label(name),)), width_px=400)
    assert f'aria-label="{name}"' in text
    drawn = Image.open(io.BytesIO(cairosvg.svg2png(text.encode(), output_width=400))).convert("L")
    seen = 1.0 - np.asarray(drawn, dtype=float) / 255.0
    left, bottom, right, top = (edge * 25.0 for edge in label_box(label(name)))
    assert seen.sum() == pytest.approx(_area(name) * 25.0**2, rel=0.02)
    assert seen[round(225 - top) : round(225 - bottom), round(left) : round(right)].sum() == pytest.approx(seen.sum())


def _area(name: str) -> float:
    return _shape(name).area * (SIGN_ACROSS * 3.0 / 2.0) ** 2


def test_a_sign_has_words_in_every_language() -> None:
    assert (the_mark("leaf"), the_other_mark("leaf"), the_marks("leaf")) == ("the leaf", "the other leaf", "the leaves")
    assert (the_mark("K"), the_other_mark("K"), the_marks("K")) == ("mark K", "the other mark K", "the marks K")
    with speaking("de"):
        assert (the_mark("button"), the_marks("button"), mark_name("button")) == (
            "das Knöpfchen",
            "die Knöpfchen",
            "Knöpfchen",
        )
        assert len({the_marks(sign) for sign in SIGNS}) == len(SIGNS)
        assert the_other_mark("K") == "die andere Marke K"
