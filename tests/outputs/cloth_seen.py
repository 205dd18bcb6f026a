"""How much texture a piece of cloth shows in a picture, to eyes of a kind or on grey paper."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
import shapely

from explainers.figure.contrast import DEFICIENCIES, GRAPHICS
from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines

__all__ = ["CLOTH", "EYES", "Seen", "light_of", "told_apart"]

EYES = ("grey", *DEFICIENCIES)
CLOTH = ("base", "join", "cut")
LUMINANCE = np.array([0.2126, 0.7152, 0.0722])  # WCAG 2.2, relative luminance
KEPT_OFF = 0.12  # of a stage unit: from sides, marks and letters
FEWEST = 150  # pixels from which a share can be told


def light_of(pixels: np.ndarray) -> np.ndarray:
    """Amounts of red, green and blue light, from values of 0 to 255; shape (rows, columns, 3)."""
    values = pixels / 255
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


@dataclass(frozen=True)
class Seen:
    """A picture of a figure: its light, and where the stage lies in it."""

    figure: Figure
    light: np.ndarray
    px: float  # of a stage unit
    corner: tuple[float, float] = (0.0, 9.0)  # of the stage, where the picture has its upper left corner

    def cloth(self) -> list[Area]:
        """What is to be told apart: base and pieces that are seen whole."""
        return [e for e in self.figure.entries if isinstance(e, Area) and e.role in CLOTH and e.opacity > 0.99]

    def texture(self, entry: Area) -> dict[str, float]:
        """The part of a cloth's pixels that stand out by the contrast that graphics need, to all eyes.

        Empty where too few of its pixels are bare.
        """
        room = self._bare(entry)
        if room.is_empty:
            return {}
        x0, y0 = self.corner
        left, bottom, right, top = room.bounds
        columns, rows = np.meshgrid(
            np.arange(int((left - x0) * self.px) + 1, int((right - x0) * self.px)),
            np.arange(int((y0 - top) * self.px) + 1, int((y0 - bottom) * self.px)),
        )
        inside = shapely.contains_xy(room, x0 + (columns + 0.5) / self.px, y0 - (rows + 0.5) / self.px)
        if inside.sum() < FEWEST:
            return {}
        light = self.light[rows[inside], columns[inside]]
        return {eyes: _standing_out(light, eyes) for eyes in EYES}

    def _bare(self, entry: Area) -> shapely.Geometry:
        """Where nothing but the cloth and its own pattern is seen, away from sides."""
        entries = self.figure.entries
        above = [shape for e in entries[entries.index(entry) + 1 :] if (shape := _covered(e, entry)) is not None]
        return shapely.Polygon(entry.rings[0], entry.rings[1:]).buffer(-KEPT_OFF).difference(shapely.union_all(above))


def _standing_out(light: np.ndarray, eyes: str) -> float:
    if eyes != "grey":
        light = np.clip(light @ np.array(DEFICIENCIES[eyes]).T, 0.0, 1.0)
    values = light @ LUMINANCE
    ground = np.median(values)
    ratio = (np.maximum(values, ground) + 0.05) / (np.minimum(values, ground) + 0.05)
    return float((ratio >= GRAPHICS).mean())


def _covered(above: Entry, cloth: Area) -> shapely.Geometry | None:
    """What an entry keeps from being seen; None for the pattern of the cloth itself."""
    if above.group == cloth.group and above.role is cloth.role and not isinstance(above, Area):
        return None
    match above:
        case Label() if above.sign:
            return shapely.Point(above.at).buffer(0.8 * above.size)
        case Label():
            return shapely.Point(above.at).buffer(0.8 * above.size * max(1, len(above.text)) ** 0.5)
        case Lines():
            return shapely.MultiLineString(above.segments).buffer(KEPT_OFF) if above.segments else None
        case Dots():
            return shapely.MultiPoint(above.centres).buffer(above.radius + KEPT_OFF) if above.centres else None
        case Arrow():
            return shapely.LineString(above.path).buffer(above.head)
        case Circle():
            return shapely.Point(above.centre).buffer(above.radius + KEPT_OFF)
        case Area() if above.fill is not None:
            return shapely.Polygon(above.rings[0]).buffer(KEPT_OFF)
        case Area():
            return shapely.MultiLineString([(*ring, ring[0]) for ring in above.rings]).buffer(KEPT_OFF)
    return None


def told_apart(pictures: Iterable[Seen]) -> dict[str, int]:
    """Holds every cloth of the pictures: a base is plain, a piece has texture, a piece to cut away a broken outline.

    Returns : how many of each role there were to look at
    """
    looked_at = dict.fromkeys(CLOTH, 0)
    for picture in pictures:
        for entry in picture.cloth():
            worn = picture.texture(entry)
            looked_at[entry.role] += bool(worn)
            for eyes, share in worn.items():
                if entry.role == "base":
                    assert share < 0.005, (entry.id, eyes, share)
                else:
                    assert 0.03 < share < 0.45, (entry.id, eyes, share)
            if entry.role != "base":
                assert (entry.dash is not None) is (entry.role == "cut")
    return looked_at
