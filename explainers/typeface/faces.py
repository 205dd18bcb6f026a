"""The typeface: widths, heights, kerning and outlines of text, from the font files of a Python package.

Atkinson Hyperlegible, drawn for readers with low vision: letters that are easily taken for one another look different.
All lengths are in the unit of `size` (the em), y up. A line of text starts at the origin of its baseline. Nothing here
asks the operating system for a font, so that a picture does not change with the machine.
"""

from __future__ import annotations

import hashlib
import importlib
from functools import cache, cached_property
from importlib import resources
from pathlib import Path
from typing import Any, Protocol

from ..errors import FontError
from .kerning import PairKerning
from .outline_pen import OutlinePen, PathCommand

__all__ = [
    "FAMILY",
    "SIGN_ACROSS",
    "Bounds",
    "Face",
    "PathCommand",
    "TextLine",
    "face",
    "label_box",
    "label_disc_radius",
    "missing_in",
]

FAMILY = "Atkinson Hyperlegible"
SIGN_ACROSS = 1.2  # of the circle that holds a sign in the place of letters, in ems
Bounds = tuple[float, float, float, float]  # left, bottom, right, top

_PACKAGE = "fontpkg_atkinson_hyperlegible"
_INSTALL = "install it with: pip install fontpkg-atkinson-hyperlegible"
_TALL = "bdfhkl"
_HANGING = "gjpqy"


class TextLine(Protocol):
    """One line of upright text: what a ``figure.model.Label`` is, named here so that this room needs no other."""

    @property
    def text(self) -> str: ...
    @property
    def at(self) -> tuple[float, float]: ...
    @property
    def size(self) -> float: ...
    @property
    def bold(self) -> bool: ...
    @property
    def align(self) -> str: ...
    @property
    def sign(self) -> str: ...  # "" for text; else drawn in its place, in a circle SIGN_ACROSS ems wide


class Face:
    """One weight of the typeface; get it from ``face``. The font file is opened at the first question asked."""

    def __init__(self, path: Path, *, bold: bool) -> None:
        self.path = path
        self.bold = bold
        self.family = FAMILY
        self._glyphs: dict[str, tuple[PathCommand, ...]] = {}
        self._bounds: dict[str, Bounds | None] = {}

    def __repr__(self) -> str:
        return f"Face({self.path.name})"

    @cached_property
    def _font(self) -> Any:
        from fontTools.ttLib import TTFont, TTLibError

        try:
            return TTFont(self.path, lazy=True)
        except (OSError, TTLibError) as error:
            raise FontError(f"the font file {self.path.name} cannot be read ({error}); {_INSTALL}") from error

    @cached_property
    def _characters(self) -> dict[int, str]:
        characters: dict[int, str] = self._font.getBestCmap()
        return characters

    @cached_property
    def _glyph_set(self) -> Any:
        return self._font.getGlyphSet()

    @cached_property
    def _em(self) -> int:
        return int(self._font["head"].unitsPerEm)

    @cached_property
    def _advances(self) -> dict[str, tuple[int, int]]:
        advances: dict[str, tuple[int, int]] = self._font["hmtx"].metrics
        return advances

    @cached_property
    def _kerning(self) -> PairKerning:
        return PairKerning(self._font)

    @cached_property
    def file_hash(self) -> str:
        """SHA-256 of the font file, in hexadecimal: part of the key of everything drawn with it."""
        return hashlib.sha256(self.path.read_bytes()).hexdigest()

    @property
    def letters(self) -> str:
        """Every character that there is a glyph for, in order."""
        return "".join(map(chr, sorted(self._characters)))

    def has(self, character: str) -> bool:
        """Whether there is a glyph for one character."""
        return ord(character) in self._characters

    def _names(self, text: str) -> list[str]:
        names = []
        for character in text:
            name = self._characters.get(ord(character))
            if name is None:
                raise FontError(
                    f"{FAMILY} has no glyph for {character!r} (U+{ord(character):04X}) in {text!r}; "
                    "use another character there"
                )
            names.append(name)
        return names

    def _placed(self, text: str) -> tuple[list[tuple[str, int]], int]:
        """Each glyph with where it starts, and where the line ends; font units."""
        x = 0
        placed: list[tuple[str, int]] = []
        before = None
        for name in self._names(text):
            if before is not None:
                x += self._kerning.between(before, name)
            placed.append((name, x))
            x += self._advances[name][0]
            before = name
        return placed, x

    def width(self, text: str, size: float) -> float:
        """Advance width of a line, kerning included; FontError for a character that the typeface lacks."""
        return self._placed(text)[1] * size / self._em

    def cap_height(self, size: float) -> float:
        """Height of a capital letter above the baseline."""
        return float(self._font["OS/2"].sCapHeight) * size / self._em

    def ascent(self, size: float) -> float:
        """How far the tallest small letters reach above the baseline."""
        return max(self.ink(letter, 1.0)[3] for letter in _TALL) * size

    def descent(self, size: float) -> float:
        """How far hanging letters reach above the baseline: a negative number."""
        return min(self.ink(letter, 1.0)[1] for letter in _HANGING) * size

    def ink(self, text: str, size: float) -> Bounds:
        """The box round what is really inked, from the start of the baseline; (0, 0, 0, 0) for spaces."""
        placed, _ = self._placed(text)
        boxes = []
        for name, x in placed:
            bounds = self._glyph_bounds(name)
            if bounds is not None:
                boxes.append((bounds[0] + x, bounds[1], bounds[2] + x, bounds[3]))
        if not boxes:
            return (0.0, 0.0, 0.0, 0.0)
        lefts, bottoms, rights, tops = zip(*boxes, strict=True)
        scale = size / self._em
        return (min(lefts) * scale, min(bottoms) * scale, max(rights) * scale, max(tops) * scale)

    def glyph_paths(self, text: str, size: float) -> tuple[PathCommand, ...]:
        """Outlines of a line of text, for a non-zero winding fill.

        Returns : ("M", (p,)), ("L", (p,)), ("Q", (control, p)), ("C", (control, control, p)) and ("Z", ()) in order;
                  points start at the left end of the baseline, y up
        """
        scale = size / self._em
        placed, _ = self._placed(text)
        return tuple(
            (verb, tuple(((px + x) * scale, py * scale) for px, py in points))
            for name, x in placed
            for verb, points in self._glyph(name)
        )

    def _glyph(self, name: str) -> tuple[PathCommand, ...]:
        if name not in self._glyphs:
            pen = OutlinePen(self._glyph_set)
            self._glyph_set[name].draw(pen)
            self._glyphs[name] = tuple(pen.commands)
        return self._glyphs[name]

    def _glyph_bounds(self, name: str) -> Bounds | None:
        """Of every point that shapes the glyph; control points included, which never lie inside the true box."""
        if name not in self._bounds:
            points = [point for _, points in self._glyph(name) for point in points]
            if points:
                xs, ys = zip(*points, strict=True)
                self._bounds[name] = (min(xs), min(ys), max(xs), max(ys))
            else:
                self._bounds[name] = None
        return self._bounds[name]


@cache
def face(bold: bool = False) -> Face:
    """The regular or the bold weight; FontError, saying what to install, where its package is missing."""
    try:
        package = importlib.import_module(_PACKAGE)
    except ImportError as error:
        raise FontError(f"the typeface {FAMILY} is missing; {_INSTALL}") from error
    name = f"AtkinsonHyperlegible-{'Bold' if bold else 'Regular'}.ttf"
    path = Path(str(resources.files(package) / "files" / name))
    if not path.is_file():
        raise FontError(f"the font file {name} is missing from the package {_PACKAGE}; {_INSTALL}")
    return Face(path, bold=bold)


def label_box(label: TextLine) -> Bounds:
    """The box round a label on the stage: its advance width by what its letters ink.

    It reaches at least from the baseline to the top of the capitals, so that labels in a row get boxes in a row.
    """
    x, y = label.at
    if label.sign:
        half = SIGN_ACROSS * label.size / 2
        return (x - half, y - half, x + half, y + half)
    letters = face(label.bold)
    width = letters.width(label.text, label.size)
    cap = letters.cap_height(label.size)
    _, ink_bottom, _, ink_top = letters.ink(label.text, label.size)
    left = {"start": x, "middle": x - width / 2, "end": x - width}[str(label.align)]
    baseline = y - cap / 2
    return (left, baseline + min(0.0, ink_bottom), left + width, baseline + max(cap, ink_top))


def label_disc_radius(label: TextLine) -> float:
    """Radius of the circle round a label's `at` that holds its text however the label stands to what turns about it."""
    if label.sign:
        return SIGN_ACROSS * label.size / 2
    left, bottom, right, top = label_box(label)
    x, y = label.at
    across, up = max(x - left, right - x), max(y - bottom, top - y)
    return float((across**2 + up**2) ** 0.5)


def missing_in(text: str) -> tuple[str, ...]:
    """Each character of a text that a weight of the typeface has no glyph for, once, in order."""
    if text.isascii():  # all of those are there, and no font need be opened to know it
        return ()
    return tuple(dict.fromkeys(sign for sign in text if not all(face(bold).has(sign) for bold in (False, True))))
