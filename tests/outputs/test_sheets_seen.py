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
import shapely
from outputs.pdf_read import elements
from PIL import Image

from explainers.figure.colour_vision import DEFICIENCIES
from explainers.figure.contrast import GRAPHICS
from explainers.figure.model import Area, Circle, Label, Lines, Role
from explainers.figure.paper import Picture, Printing
from explainers.figure.themes import THEMES
from explainers.intake import take_in
from explainers.outputs.sheets import write_sheets
from explainers.storyboard.sheet_plan import plan_sheets
from explainers.wording.sheets import Sheet

ITEMS = Path(__file__).parents[2] / "items"
DPI = 110
LUMINANCE = np.array([0.2126, 0.7152, 0.0722])  # WCAG 2.2, relative luminance
KEPT_OFF = 0.12  # of a stage unit: from sides, marks and letters


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
    solutions = [take_in(ITEMS / f"{name}.yaml") for name in names]
    kinds = (Sheet.QUESTION, Sheet.ANSWER, Sheet.CUTOUT)
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
    values = np.asarray(Image.open(stem.with_name(f"{stem.name}.png")).convert("RGB")) / 255
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def texture(shown: Printed, entry_id: str, eyes: str) -> float | None:
    """The part of a cloth's pixels that stand out by the contrast that graphics need; None where too few are bare."""
    figure, box = shown.picture.figure, shown.picture.box
    cloth = figure.entry(entry_id)
    assert isinstance(cloth, Area)
    in_the_way = [
        shapely.Point(entry.at).buffer(0.8 * entry.size)
        if isinstance(entry, Label)
        else shapely.MultiLineString(entry.segments).buffer(KEPT_OFF)
        for entry in figure.entries
        if isinstance(entry, Label | Lines) and entry.role in (Role.MARK, Role.SEAM, Role.WORD)
    ]
    in_the_way += [shapely.Point(e.centre).buffer(e.radius) for e in figure.entries if isinstance(e, Circle)]
    in_the_way += [
        shapely.Polygon(entry.rings[0]).buffer(KEPT_OFF)
        for entry in figure.entries
        if isinstance(entry, Area) and entry.role in (Role.JOIN, Role.CUT) and entry.group != cloth.group
    ]
    shape = shapely.Polygon(cloth.rings[0], cloth.rings[1:])
    room = shape.buffer(-KEPT_OFF).difference(shapely.union_all(in_the_way))
    if room.is_empty:
        return None
    px = (shown.box[2] - shown.box[0]) / box.width * DPI / 72.0  # of a stage unit
    left_px, top_px = shown.box[0] * DPI / 72.0, (shown.height_pt - shown.box[3]) * DPI / 72.0
    left, bottom, right, top = room.bounds
    columns, rows = np.meshgrid(
        np.arange(int((left - box.left) * px + left_px) + 1, int((right - box.left) * px + left_px)),
        np.arange(int((box.top - top) * px + top_px) + 1, int((box.top - bottom) * px + top_px)),
    )
    xs, ys = (columns + 0.5 - left_px) / px + box.left, box.top - (rows + 0.5 - top_px) / px
    inside = shapely.contains_xy(room, xs, ys)
    if inside.sum() < 150:
        return None
    light = shown.light[rows[inside], columns[inside]]
    if eyes != "grey":
        light = np.clip(light @ np.array(DEFICIENCIES[eyes]).T, 0.0, 1.0)
    values = light @ LUMINANCE
    ground = np.median(values)
    ratio = (np.maximum(values, ground) + 0.05) / (np.minimum(values, ground) + 0.05)
    return float((ratio >= GRAPHICS).mean())


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("seen")


DEMO = tuple(sorted(path.stem for path in ITEMS.glob("*-block.yaml")))
ONE = ("border-block",)  # a piece to join and one to cut away


@pytest.mark.parametrize(("theme", "names"), [("print", DEMO), ("light", ONE), ("dark", ONE)])
def test_base_join_and_cut_are_told_apart_on_every_page(
    folder: Path, theme: str, names: tuple[str, ...], cases: Callable[[int, int], int]
) -> None:
    chosen = names if len(names) == 1 else names[1 :: cases(7, 1)]
    looked_at = {Role.BASE: 0, Role.JOIN: 0, Role.CUT: 0}
    for shown in printed(folder, theme, chosen):
        for entry in shown.picture.figure.entries:
            if not isinstance(entry, Area) or entry.role not in looked_at:
                continue
            for eyes in ("grey", *DEFICIENCIES):
                worn = texture(shown, entry.id, eyes)
                if worn is None:
                    continue
                looked_at[entry.role] += 1
                if entry.role is Role.BASE:
                    assert worn < 0.005, (entry.id, eyes, worn)
                else:
                    assert 0.03 < worn < 0.45, (entry.id, eyes, worn)
            if entry.role is not Role.BASE:
                assert (entry.dash is not None) is (entry.role is Role.CUT)
    assert min(looked_at.values()) >= 4, looked_at


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
    bare = Printed(shown.picture, plain, shown.box, shown.height_pt)
    assert texture(bare, "piece-1", "grey") == 0.0
