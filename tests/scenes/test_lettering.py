"""Letters are those that manim's own Text draws, for every face that is shipped."""

from __future__ import annotations

from pathlib import Path

import manimpango
import numpy as np
import pytest
from manim import BOLD, NORMAL, Camera, Text, VMobject, tempconfig

from explainers.typeface.faces import FAMILY, face
from scenes.lettering import letters

WORDS = ["K", "Turn the flag 135° anticlockwise.", "AVATAR To fi Wave", "gypsy ½ joins “that”", "0123456789 – ABCDE"]
EM = 60.0  # pixels: a heading is 72, other words are smaller
SIZE = (1920, 135)
# Pango sets each letter at a whole pixel of its page, at EM up to 1/4 of a pixel from where the font wants it, which
# can make a difference of a quarter on an upright side: 64 of 255 levels.
MOST_LEVELS = 64
MEAN_LEVELS = 4.0  # over the pixels that either of them inks


@pytest.fixture(scope="module", autouse=True)
def _registered() -> None:
    for bold in (False, True):
        assert manimpango.register_font(str(face(bold).path))
    Text.font_list.cache_clear()
    assert FAMILY in Text.font_list()


def inked(points: np.ndarray) -> np.ndarray:
    """Black letters on white, their box's lower left corner at a fixed place."""
    word = VMobject(fill_color="#000000", fill_opacity=1.0, stroke_width=0.0)
    word.points = points + (np.array([-7.0, -0.25, 0.0]) - points.min(axis=0))
    camera = Camera(pixel_width=SIZE[0], pixel_height=SIZE[1], frame_width=SIZE[0] / 135, background_color="#FFFFFF")
    camera.capture_mobject(word)
    return np.asarray(camera.pixel_array)[:, :, 0].astype(int)


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("words", WORDS)
def test_the_letters_are_those_of_manims_text(words: str, bold: bool, tmp_path: Path) -> None:
    # On a page wide enough, at a size at which Pango's whole pixels are small.
    with tempconfig({"pixel_width": 40_000, "text_dir": str(tmp_path)}):
        text = Text(words, font=FAMILY, weight=BOLD if bold else NORMAL, font_size=480.0)
    theirs = np.concatenate([part.points for part in text.family_members_with_points()])
    ours = np.array(letters(words, bold=bold))
    height = np.ptp(ours[:, 1])
    theirs = theirs * (height / np.ptp(theirs[:, 1]))
    ems = EM / 135
    mine, oracle = inked(ours * ems), inked(theirs * ems)
    apart = np.abs(mine - oracle)
    assert apart.max() <= MOST_LEVELS
    assert apart[(mine < 255) | (oracle < 255)].mean() <= MEAN_LEVELS
    assert (mine < 128).sum() > 100


def test_every_contour_is_closed_to_the_last_bit() -> None:
    curves = letters("B8%", bold=True).reshape(-1, 4, 3)
    starts = [0, *(k for k in range(1, len(curves)) if (curves[k, 0] != curves[k - 1, 3]).any())]
    for begin, end in zip(starts, [*starts[1:], len(curves)], strict=True):
        assert (curves[begin, 0] == curves[end - 1, 3]).all()
    assert len(starts) == 3 + 3 + 5  # outlines and counters of B, 8 and %


def test_spaces_have_no_outline() -> None:
    assert letters("  ").shape == (0, 3)
