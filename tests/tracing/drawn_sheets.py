"""Sheets of squared paper with outlines drawn on them, photographed: by a script, so that every corner is known.

A hand errs by a few hundredths of a square, the sheet is turned and seen at a slant, the light falls off to one side,
the camera adds noise, blur and what a JPEG loses.
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass

import cv2
import numpy as np

from explainers.geometry.rigid_motion import Point, Ring

SQUARE = 36  # pixels of the sheet as drawn
WIDE, HIGH = 26, 20  # squares


@dataclass(frozen=True, slots=True)
class DrawnSheet:
    """A photograph, and what is on it in squares with y up."""

    jpeg: bytes
    outlines: tuple[Ring, ...]
    number: int


# Each row: a base and its pieces in places that leave room on the sheet, in squares, y up.
ROWS: tuple[tuple[Ring, ...], ...] = (
    (((3, 3), (11, 3), (11, 7), (7, 7), (7, 11), (3, 11)), ((15, 4), (19, 4), (15, 8))),
    (
        ((3, 4), (12, 4), (12, 12), (3, 12)),
        ((15, 5), (18, 5), (20, 9), (15, 9)),
        ((16, 12), (19, 12), (19, 15), (16, 15)),
    ),
    (((4, 4), (13, 4), (16, 10), (7, 13)), ((18, 4), (22, 4), (22, 8))),
    (((3, 3), (12, 3), (12, 12), (9, 12), (9, 6), (3, 6)), ((14, 10), (18, 10), (20, 13), (16, 15))),
    (((5, 3), (14, 3), (14, 13), (5, 13)), ((7, 6), (11, 6), (9, 10)), ((17, 6), (21, 6), (21, 8.5), (17, 8.5))),
    (((4, 4), (12, 4), (12, 12), (4, 12)), ((12, 6), (16, 6), (16, 10), (12, 10))),
    (((3, 5), (9, 2), (15, 5), (15, 11), (9, 14), (3, 11)), ((18, 5), (22, 5), (20, 9))),
    (((3, 3), (15, 3), (15, 6), (12, 6), (12, 9), (9, 9), (9, 12), (3, 12)), ((18, 9), (22, 9), (22, 13), (19, 12))),
    (
        ((4, 3.5), (12.5, 3.5), (12.5, 9), (8, 13), (4, 9)),
        ((16, 4), (20.5, 4), (20.5, 8.5), (18, 8.5), (18, 6), (16, 6)),
    ),
    (((5, 4), (15, 4), (12, 12), (8, 12)), ((18, 11), (22, 11), (22, 15)), ((17, 3), (21, 3), (19, 7))),
)


def drawn_sheet(number: int, *, squared: bool = True) -> DrawnSheet:
    """The sheet of a number: the same whenever it is asked for."""
    return sheet_of(ROWS[number % len(ROWS)], number=number, squared=squared)


def sheet_of(outlines: tuple[Ring, ...], *, number: int, squared: bool = True, gap: int | None = None) -> DrawnSheet:
    """A sheet with these outlines as chance has it; `gap` is the one whose last side stops early."""
    chance = random.Random(number)
    sheet = _paper(chance, squared)
    _draw(sheet, outlines, chance, gap)
    photo = _photographed(sheet, chance, np.random.default_rng(number))
    _, packed = cv2.imencode(".jpg", photo, [cv2.IMWRITE_JPEG_QUALITY, chance.choice((80, 90, 95))])
    return DrawnSheet(packed.tobytes(), outlines, number)


def _paper(chance: random.Random, squared: bool) -> np.ndarray:
    sheet = np.full((HIGH * SQUARE, WIDE * SQUARE, 3), 246, np.uint8)
    colour = chance.choice(((215, 185, 160), (200, 200, 200), (190, 215, 190)))  # blue, grey or green, blue first
    wide = chance.choice((1, 2))
    if not squared:
        return sheet
    for x in range(WIDE + 1):
        cv2.line(sheet, (x * SQUARE, 0), (x * SQUARE, HIGH * SQUARE), colour, wide, cv2.LINE_AA)
    for y in range(HIGH + 1):
        cv2.line(sheet, (0, y * SQUARE), (WIDE * SQUARE, y * SQUARE), colour, wide, cv2.LINE_AA)
    return sheet


def _draw(sheet: np.ndarray, outlines: tuple[Ring, ...], chance: random.Random, gap: int | None) -> None:
    ink = chance.choice(((60, 55, 50), (110, 50, 30), (40, 40, 40)))  # pencil, a blue pen, a black one
    wide = chance.choice((3, 4, 5))
    for order, ring in enumerate(outlines):
        placed = [_on_sheet(_missed(point, chance)) for point in ring]
        for (ax, ay), (bx, by) in zip(
            placed, [*placed[1:], _short(placed) if order == gap else placed[0]], strict=True
        ):
            bow = chance.gauss(0, 0.02) * SQUARE  # no hand draws quite straight
            steps = 12
            length = math.hypot(bx - ax, by - ay)
            nx, ny = -(by - ay) / length, (bx - ax) / length
            line = [
                (
                    ax + (bx - ax) * t / steps + nx * bow * math.sin(math.pi * t / steps),
                    ay + (by - ay) * t / steps + ny * bow * math.sin(math.pi * t / steps),
                )
                for t in range(steps + 1)
            ]
            points = np.round(np.array(line) * 16).astype(np.int32)
            cv2.polylines(sheet, [points], False, ink, wide, cv2.LINE_AA, shift=4)
    if not outlines:
        return
    x, y = _on_sheet((outlines[0][0][0] - 1.2, outlines[0][0][1] + 1.5))
    cv2.putText(sheet, "K", (round(x), round(y)), cv2.FONT_HERSHEY_SIMPLEX, 1.0, ink, 2, cv2.LINE_AA)


def _short(placed: list[Point]) -> Point:
    """Two thirds of the way along the last side."""
    (ax, ay), (bx, by) = placed[-1], placed[0]
    return ax + (bx - ax) * 2 / 3, ay + (by - ay) * 2 / 3


def _missed(point: Point, chance: random.Random) -> Point:
    return point[0] + chance.gauss(0, 0.03), point[1] + chance.gauss(0, 0.03)


def _on_sheet(point: Point) -> Point:
    return point[0] * SQUARE, (HIGH - point[1]) * SQUARE


def _photographed(sheet: np.ndarray, chance: random.Random, noise: np.random.Generator) -> np.ndarray:
    high, wide = sheet.shape[:2]
    out_wide, out_high = 1600, 1300
    turn = math.radians(chance.uniform(-25, 25))
    scale = chance.uniform(0.95, 1.1)
    corners = []
    for x, y in ((0, 0), (wide, 0), (wide, high), (0, high)):
        dx, dy = (x - wide / 2) * scale, (y - high / 2) * scale
        px = out_wide / 2 + dx * math.cos(turn) - dy * math.sin(turn) + chance.uniform(-60, 60)
        py = out_high / 2 + dx * math.sin(turn) + dy * math.cos(turn) + chance.uniform(-60, 60)
        corners.append((px, py))
    source = np.array([(0, 0), (wide, 0), (wide, high), (0, high)], np.float32)
    matrix = cv2.getPerspectiveTransform(source, np.array(corners, np.float32))
    table = chance.choice(((70, 90, 120), (150, 160, 170), (246, 246, 246)))
    photo = cv2.warpPerspective(sheet, matrix, (out_wide, out_high), flags=cv2.INTER_AREA, borderValue=table)
    x, y = np.meshgrid(np.linspace(-1, 1, out_wide), np.linspace(-1, 1, out_high))
    towards = chance.uniform(0, 2 * math.pi)
    shade = 0.8 + 0.2 * (x * math.cos(towards) + y * math.sin(towards)) - 0.08 * (x * x + y * y)
    lit = photo.astype(np.float32) * shade[..., None]
    lit = cv2.GaussianBlur(lit, (0, 0), chance.uniform(0.4, 1.0))
    lit += noise.normal(0, chance.uniform(2, 6), lit.shape)
    return np.clip(lit, 0, 255).astype(np.uint8)
