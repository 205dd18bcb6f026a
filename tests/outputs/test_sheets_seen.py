"""Every sheet of the demo as grey paper and all eyes show it: base, join and cut told apart on the page itself.

Pages are rasterised by a program that knows nothing of ours. A piece to join or to cut away must have texture where it
is drawn, and plain cloth none; in black and white nothing else tells them apart. A cut piece has a dashed outline too.
"""

from __future__ import annotations

import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from demo_items import demo_items
from outputs.cloth_seen import Seen, light_of, told_apart
from outputs.pdf_read import elements
from PIL import Image

from explainers.figure.paper import Picture, Printing
from explainers.figure.themes import THEMES
from explainers.intake.workspace import load_solution
from explainers.lesson.sheet_plan import plan_sheets
from explainers.outputs.pdf.sheets import write_sheets
from explainers.sentences.sheets import SheetKind

ITEMS = Path(__file__).parents[2] / "items"
DPI = 110


@dataclass(frozen=True)
class Printed:
    """A picture on a page: the light of the page, where the picture lies on it in points."""

    picture: Picture
    light: np.ndarray
    box: tuple[float, ...]
    height_pt: float


@cache
def printed(folder: Path, theme: str, names: tuple[str, ...]) -> list[Printed]:
    """The pictures of questions, answers and cut-outs of some items."""
    solutions = [load_solution(ITEMS / f"{name}.yaml") for name in names]
    kinds = (SheetKind.QUESTION, SheetKind.ANSWER, SheetKind.CUTOUT)
    planned = plan_sheets(
        solutions, name=f"{theme}-{len(names)}", title="Seen", theme=THEMES[theme], printing=Printing(), only=kinds
    )
    pictures = [
        [asked.picture for asked in planned.questions],
        [still.picture for answered in planned.answers for still in answered.stills],
        [picture for item in planned.cut_outs for page in item.pages for picture in (item.line, page)],
    ]
    found = []
    for path, on_it in zip(write_sheets([planned], folder), pictures, strict=True):
        figures = [element for element in elements(path, frozenset()) if element.tag == "Figure"]
        for picture, figure in zip(on_it, figures, strict=True):
            light = page_light(path, figure.page)
            found.append(Printed(picture, light, figure.box, light.shape[0] * 72.0 / DPI))
    return found


@cache
def page_light(path: Path, page: int) -> np.ndarray:
    """Amounts of red, green and blue light of a page, shape (rows, columns, 3)."""
    stem = path.with_name(f"{path.stem}-{page}")
    number = str(page + 1)
    command = ["pdftoppm", "-r", str(DPI), "-png", "-singlefile", "-f", number, "-l", number, str(path), str(stem)]
    subprocess.run(command, check=True)
    return light_of(np.asarray(Image.open(stem.with_name(f"{stem.name}.png")).convert("RGB")))


def seen(shown: Printed) -> Seen:
    """The picture on its page."""
    px = (shown.box[2] - shown.box[0]) / shown.picture.box.width * DPI / 72.0  # of a stage unit
    left_px, top_px = shown.box[0] * DPI / 72.0, (shown.height_pt - shown.box[3]) * DPI / 72.0
    corner = (shown.picture.box.left - left_px / px, shown.picture.box.top + top_px / px)
    return Seen(shown.picture.figure, shown.light, px, corner)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("seen")


DEMO = tuple(path.stem for path in demo_items())
ONE = ("border-block",)  # a piece to join and one to cut away


@pytest.mark.parametrize(("theme", "names"), [("print", DEMO), ("light", ONE), ("dark", ONE)])
def test_base_join_and_cut_are_told_apart_on_every_page(
    folder: Path, theme: str, names: tuple[str, ...], cases: Callable[[int, int], int]
) -> None:
    chosen = names if len(names) == 1 else names[1 :: cases(7, 1)]
    looked_at = told_apart(seen(shown) for shown in printed(folder, theme, chosen))
    assert min(looked_at.values()) >= 1, looked_at


def test_a_box_in_the_tags_holds_the_picture_on_the_page(folder: Path) -> None:
    """Just outside it nothing is inked."""
    for shown in printed(folder, "print", ONE):
        left, bottom, right, top = (value * DPI / 72.0 for value in shown.box)
        high = shown.light.shape[0]
        inside = shown.light[int(high - top) : int(high - bottom) + 1, int(left) : int(right) + 1]
        assert (inside.mean(axis=2) < 0.5).any()
        below = shown.light[int(high - bottom) + 1 : int(high - bottom) + 3, int(left) : int(right)]
        assert (below.mean(axis=2) > 0.9).all()


def test_cloth_without_its_pattern_would_be_found(folder: Path) -> None:
    shown = printed(folder, "print", ONE)[0]
    plain = np.ones_like(shown.light)
    bare = seen(Printed(shown.picture, plain, shown.box, shown.height_pt))
    with pytest.raises(AssertionError, match="piece-1"):
        told_apart([bare])
