"""What is drawn on a sheet: shade evened out, a pen's lines told from the paler ones of the paper, regions inside."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .sketch import Refused
from .vision import Pixels, opencv

__all__ = ["Drawn", "Region", "drawn_on", "loose_lines", "regions_in"]

_FAINT = 0.07  # of the paper's brightness: darker than that is a line at all
_FAINTEST = 0.025  # the same for the paper's own lines, which are many and run straight
_STEEP = 0.4  # of the brightness: what changes by more, close by, is the edge of the sheet
_NOISE = 2.0  # times what the camera's noise makes of plain paper
_LEAST_INK = 0.12
_MARGIN = 3  # pixels round a pen's line where its edge looks like a line of the paper
MOST_REGIONS = 5_000


@dataclass(frozen=True, slots=True)
class Drawn:
    """Two masks of a picture."""

    pen: Pixels  # 255 where a pen drew
    paper_lines: Pixels  # 255 where the paper has lines of its own
    stroke: float  # how wide the pen's lines are, pixels


@dataclass(frozen=True, slots=True)
class Region:
    """What a pen's lines enclose."""

    contour: Pixels  # n x 2, pixels, along the inner edge of the line
    area: float
    depth: float  # how far its middle lies from its edge, pixels


def drawn_on(pixels: Pixels) -> Drawn:
    """The pen's lines and the paper's.

    Raises : Refused where nothing is drawn
    """
    cv2 = opencv()
    grey = cv2.GaussianBlur(cv2.cvtColor(pixels, cv2.COLOR_BGR2GRAY), (0, 0), 1.0)
    across = max(15, round(max(grey.shape) / 50)) | 1
    # The brightest near by, and of that the darkest: the sheet without its lines, its edge kept where it is.
    sheet = cv2.morphologyEx(grey, cv2.MORPH_CLOSE, np.ones((across, across), np.uint8))
    dark = 1.0 - (grey.astype(np.float32) + 1.0) / (sheet.astype(np.float32) + 1.0)
    lines = dark > _FAINT
    if not lines.any():
        raise Refused("nothing is drawn on the picture", "take it in better light, and with a darker pen")
    steps = np.clip(dark * 255.0, 0, 255).astype(np.uint8)
    least, _ = cv2.threshold(steps[lines].reshape(-1, 1), 0, 255, cv2.THRESH_OTSU)
    pen = np.where(dark > max(least / 255.0, _LEAST_INK), 255, 0).astype(np.uint8)
    pen = cv2.morphologyEx(pen, cv2.MORPH_CLOSE, np.ones((3, 3), np.uint8))
    beside = cv2.dilate(pen, np.ones((2 * _MARGIN + 1, 2 * _MARGIN + 1), np.uint8))
    return Drawn(pen, _paper_lines(grey, across, beside), _stroke(pen))


def _paper_lines(grey: Pixels, across: int, beside: Pixels) -> Pixels:
    """Where the paper is a little darker than close by, by more than noise."""
    cv2 = opencv()
    smooth = cv2.GaussianBlur(grey, (0, 0), 0.8).astype(np.float32)
    near_by = cv2.blur(smooth, (across, across))
    darker = near_by - smooth
    plain = beside == 0
    if not plain.any():
        return np.zeros_like(grey)
    noise = 1.48 * float(np.median(np.abs(darker[plain] - np.median(darker[plain]))))
    # At the edge of the sheet what is near by is no measure: there the brightest and the darkest lie far apart.
    inner = cv2.morphologyEx(grey, cv2.MORPH_CLOSE, np.ones((across, across), np.uint8))
    around = np.ones((across, across), np.uint8)
    steep = (cv2.dilate(inner, around).astype(np.float32) - cv2.erode(inner, around)) > _STEEP * inner
    found = plain & ~steep & (darker > np.maximum(_FAINTEST * near_by, _NOISE * noise))
    return np.where(found, 255, 0).astype(np.uint8)


def _stroke(pen: Pixels) -> float:
    """The usual width of a line: twice the depth along its middle."""
    cv2 = opencv()
    depth = cv2.distanceTransform(pen, cv2.DIST_L2, 5)
    ridge = depth[(depth > 0) & (depth >= cv2.dilate(depth, np.ones((3, 3), np.uint8)))]
    return float(2.0 * np.median(ridge) - 1.0) if ridge.size else 1.0


def regions_in(drawn: Drawn, *, least_area: float) -> list[Region]:
    """What is enclosed, largest first; what reaches the edge of the picture is not.

    least_area : pixels; what is smaller is left out
    Raises     : Refused where there are too many
    """
    cv2 = opencv()
    open_ = cv2.bitwise_not(drawn.pen)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(open_, connectivity=4)
    if count > MOST_REGIONS * 4:
        raise Refused("the picture is full of lines", "take it nearer, so that only the question is on it")
    high, wide = open_.shape
    found = list[Region]()
    for label in range(1, count):
        x, y, w, h, area = (int(value) for value in stats[label])
        if area < least_area or x == 0 or y == 0 or x + w == wide or y + h == high:
            continue
        if len(found) >= MOST_REGIONS:
            raise Refused("the picture is full of lines", "take it nearer, so that only the question is on it")
        mask = np.where(labels[y : y + h, x : x + w] == label, 255, 0).astype(np.uint8)
        mask = cv2.copyMakeBorder(mask, 1, 1, 1, 1, cv2.BORDER_CONSTANT, value=0)
        depth = float(cv2.distanceTransform(mask, cv2.DIST_L2, 5).max())
        contours, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
        contour = max(contours, key=len).reshape(-1, 2) + np.array((x - 1, y - 1))
        found.append(Region(contour.astype(np.float64), float(area), depth))
    return sorted(found, key=lambda region: -region.area)


def loose_lines(drawn: Drawn, regions: list[Region], *, least: float) -> list[tuple[float, float]]:
    """The middle of each long line of a pen that bounds none of the regions: most likely one that does not close.

    least : pixels; what is smaller is a letter
    """
    cv2 = opencv()
    count, labels, stats, middles = cv2.connectedComponentsWithStats(drawn.pen, connectivity=8)
    high, wide = labels.shape
    bounding = np.zeros(count, dtype=bool)
    for region in regions:
        at = region.contour.astype(int)
        for dx, dy in ((-2, 0), (2, 0), (0, -2), (0, 2)):
            bounding[labels[np.clip(at[:, 1] + dy, 0, high - 1), np.clip(at[:, 0] + dx, 0, wide - 1)]] = True
    long = np.maximum(stats[:, cv2.CC_STAT_WIDTH], stats[:, cv2.CC_STAT_HEIGHT]) >= least
    loose = [label for label in range(1, count) if long[label] and not bounding[label]]
    return [(float(middles[label][0]), float(middles[label][1])) for label in loose]
