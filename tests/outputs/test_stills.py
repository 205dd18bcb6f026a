"""One SVG and one PNG for everything that is held, under names that sort."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from PIL import Image
from storyboard.short_clip import short_timeline

from explainers.drawing.svg import svg_of
from explainers.outputs.clip.stills import named_stills, write_stills

NAMES = [
    "001-sample.task",
    "002-sample.flag.turn",
    "003-sample.flag.turn",
    "004-sample.flag.meet",
    "005-sample.flag.meet",
    "006-sample.end",
    "007-sample.end",
]


@pytest.fixture(scope="module")
def paths(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, ...]:
    return write_stills(short_timeline(), tmp_path_factory.mktemp("stills"))


def test_every_still_of_every_step_is_written_twice(paths: tuple[Path, ...]) -> None:
    names = [path.name for path in paths]
    assert names == sorted(names, key=lambda name: (name[:3], not name.endswith("svg")))
    assert sorted(names) == sorted([f"{name}.{suffix}" for name in NAMES for suffix in ("svg", "png")])
    assert sorted(path.name for path in paths[0].parent.iterdir()) == sorted(names)


def test_the_svg_is_that_of_the_figure(paths: tuple[Path, ...]) -> None:
    for name, figure in named_stills(short_timeline().storyboard):
        assert (paths[0].parent / f"{name}.svg").read_text(encoding="utf-8") == svg_of(figure)


def test_the_png_is_a_full_opaque_picture(paths: tuple[Path, ...]) -> None:
    for path in paths:
        if path.suffix == ".png":
            with Image.open(path) as image:
                assert (image.size, image.mode) == ((1920, 1080), "RGB")
                assert image.getpixel((5, 1075)) == (0xFA, 0xF6, 0xEC)


def test_equal_figures_give_equal_files_and_others_do_not(paths: tuple[Path, ...]) -> None:
    data = {path.stem: path.read_bytes() for path in paths if path.suffix == ".png"}
    figures = dict(named_stills(short_timeline().storyboard))
    for one, other in combinations(figures, 2):
        same = replace(figures[one], alt="") == replace(figures[other], alt="")
        assert (data[one] == data[other]) is same
