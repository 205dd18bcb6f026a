"""Stills of every theme, rendered by a library that knows nothing of ours, as grey paper and all eyes show them.

A region that wears a pattern must have texture there, and plain cloth none: measured over pixels, so that a pattern
that is drawn too thin, too sparse or in too faint a colour is found out.
"""

from __future__ import annotations

import io
from functools import cache
from pathlib import Path

import cairosvg
import numpy as np
import pytest
import shapely
from PIL import Image

from explainers.choice.model import Solution
from explainers.drawing.svg import svg_of
from explainers.figure.contrast import DEFICIENCIES, GRAPHICS
from explainers.figure.model import STAGE_HEIGHT, STAGE_WIDTH, Area, Dots, Figure, Label, Lines, Role
from explainers.figure.themes import PRINT, THEMES
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.sheet import Sheet
from explainers.kinds.join_and_cut.drawing.work_table import TablePhase, WorkTable
from explainers.style import THEME_NAMES

ITEM = Path(__file__).parent.parent.parent / "items" / "border-block.yaml"  # one piece to join, one to cut away
WIDTH_PX = 1280  # of a small screen
LUMINANCE = np.array([0.2126, 0.7152, 0.0722])  # WCAG 2.2, relative luminance


@cache
def solution() -> Solution:
    return load_solution(ITEM)


@cache
def figure(name: str, which: str) -> Figure:
    theme = THEMES[name]
    if which == "sheet":
        return Sheet(solution=solution(), theme=theme).figure("")
    table = WorkTable(solution=solution(), theme=theme)
    return table.alone("") if which == "outline" else table.figure(1, TablePhase.MET, "")


@cache
def light_of(name: str, which: str) -> np.ndarray:
    """Amounts of red, green and blue light, shape (rows, columns, 3)."""
    png = cairosvg.svg2png(bytestring=svg_of(figure(name, which)).encode(), output_width=WIDTH_PX)
    values = np.asarray(Image.open(io.BytesIO(png)).convert("RGB")) / 255
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def seen(light: np.ndarray, eyes: str = "grey") -> np.ndarray:
    """Relative luminance of each pixel, to eyes of a kind or in greyscale."""
    if eyes != "grey":
        light = np.clip(light @ np.array(DEFICIENCIES[eyes]).T, 0.0, 1.0)
    return light @ LUMINANCE


def inner(shape: shapely.Geometry, marks: shapely.Geometry) -> np.ndarray:
    """Rows and columns of the pixels well inside a region, away from marks."""
    room = shape.buffer(-0.08).difference(marks)
    px = WIDTH_PX / STAGE_WIDTH
    left, bottom, right, top = room.bounds
    xs = np.arange(np.ceil(left * px), np.floor(right * px)) + 0.5
    ys = np.arange(np.ceil((STAGE_HEIGHT - top) * px), np.floor((STAGE_HEIGHT - bottom) * px)) + 0.5
    columns, rows = np.meshgrid(xs, ys)
    inside = shapely.contains_xy(room, columns / px, STAGE_HEIGHT - rows / px)
    return np.stack([rows[inside], columns[inside]]).astype(int)


@cache
def pixels(name: str, which: str, entry_id: str) -> np.ndarray:
    """The light of the pixels inside a region, shape (n, 3)."""
    shown = figure(name, which)
    cloth = shown.entry(entry_id)
    assert isinstance(cloth, Area)
    shape = shapely.Polygon(cloth.rings[0], cloth.rings[1:])
    marks = [
        shapely.Point(entry.at).buffer(0.6 * entry.size)
        if isinstance(entry, Label)
        else shapely.MultiLineString(entry.segments).buffer(0.08)
        for entry in shown.entries
        if isinstance(entry, Label | Lines) and entry.role in (Role.MARK, Role.SEAM)
    ]
    marks += [
        shapely.MultiPoint(entry.centres).buffer(entry.radius + 0.04)
        for entry in shown.entries
        if isinstance(entry, Dots) and entry.role == Role.MARK
    ]
    others = [
        shapely.Polygon(entry.rings[0]).buffer(0.08)
        for entry in shown.entries
        if isinstance(entry, Area) and entry.role in ("join", "cut") and entry.id != entry_id
    ]
    rows, columns = inner(shape, shapely.union_all([*marks, *(others if entry_id == "base" else [])]))
    assert len(rows) > 500
    return light_of(name, which)[rows, columns]


def texture(name: str, which: str, entry_id: str, eyes: str) -> float:
    """The part of a region's pixels that stand out from its cloth by the contrast that graphics need."""
    values = seen(pixels(name, which, entry_id), eyes)
    ground = np.median(values)
    ratio = (np.maximum(values, ground) + 0.05) / (np.minimum(values, ground) + 0.05)
    return float((ratio >= GRAPHICS).mean())


@pytest.mark.parametrize("eyes", ["grey", *DEFICIENCIES])
@pytest.mark.parametrize("name", THEME_NAMES)
def test_join_and_cut_have_texture_and_the_rest_has_none(name: str, eyes: str) -> None:
    for which in ("sheet", "met"):
        worn = {piece: texture(name, which, piece, eyes) for piece in ("piece-1", "piece-2")}
        assert min(worn.values()) > 0.04, worn
        assert max(worn.values()) < 0.30, worn
        assert texture(name, which, "base", eyes) == 0.0
    for option in "abcde":
        assert texture(name, "sheet", f"option-{option}-cloth", eyes) == 0.0
    assert texture(name, "outline", "outline-cloth", eyes) == 0.0


@pytest.mark.parametrize("name", THEME_NAMES)
def test_the_finished_outline_is_heavier_than_any_other_side(name: str) -> None:
    def weight(which: str, entry_id: str) -> float:
        """Area of line a length of side, from what differs from the cloth near the sides."""
        area = figure(name, which).entry(entry_id)
        assert isinstance(area, Area)
        side = shapely.LinearRing(area.rings[0])
        middle = shapely.LineString(area.rings[0][:2])
        along = [middle.interpolate(part, normalized=True) for part in (0.15, 0.25, 0.75, 0.85)]
        assert side.length > 0
        values = seen(light_of(name, which))
        px = WIDTH_PX / STAGE_WIDTH
        (ax, ay), (bx, by) = area.rings[0][:2]
        nx, ny = -(by - ay) / middle.length, (bx - ax) / middle.length
        widths = []
        for point in along:
            steps = np.arange(-0.12, 0.12, 0.25 / px)
            columns = ((point.x + steps * nx) * px).astype(int)
            rows = ((STAGE_HEIGHT - point.y - steps * ny) * px).astype(int)
            line = values[rows, columns]
            inked = np.abs(line - values[rows[len(rows) // 2], columns[len(columns) // 2]]) < 0.1
            widths.append(inked.mean())
        return float(np.median(widths))

    assert weight("outline", "outline") > 1.3 * weight("met", "base")


def test_print_is_sparing_with_toner() -> None:
    for which in ("sheet", "met", "outline"):
        covered = {name: 1.0 - float(seen(light_of(name, which)).mean()) for name in ("print", "light")}
        assert covered["print"] < 0.05
        assert covered["print"] < 0.5 * covered["light"]


def test_print_has_no_grey_but_at_the_edges_of_lines() -> None:
    values = seen(light_of("print", "sheet"))
    grey = (values > 0.05) & (values < 0.95)
    paper_or_ink = 1.0 - grey.mean()
    assert paper_or_ink > 0.97
    assert PRINT.paper == "#FFFFFF" and values.max() == pytest.approx(1.0)
