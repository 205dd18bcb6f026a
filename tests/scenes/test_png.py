"""PNG files are read back to the same picture by another program's reader."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from scenes.png import png_bytes


@pytest.mark.parametrize("shape", [(1, 1, 4), (7, 5, 3), (90, 160, 4)])
def test_a_picture_is_read_back(shape: tuple[int, int, int]) -> None:
    pixels = np.random.default_rng(3).integers(0, 256, shape).astype(np.uint8)
    image = Image.open(io.BytesIO(png_bytes(pixels)))
    assert image.mode == "RGB"
    assert (np.asarray(image) == pixels[:, :, :3]).all()
