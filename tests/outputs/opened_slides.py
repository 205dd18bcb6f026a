"""Decks as LibreOffice shows them: pages as pictures, with our typeface found through fontconfig."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from html import unescape
from pathlib import Path

import numpy as np

from explainers.typeface.faces import face

__all__ = ["MISSING", "Opened", "opened"]

SOFFICE, PDFTOPPM, PDFTOTEXT = (shutil.which(name) for name in ("soffice", "pdftoppm", "pdftotext"))
MISSING = "" if SOFFICE and PDFTOPPM and PDFTOTEXT else (
    "needs soffice (libreoffice-impress), pdftoppm and pdftotext (poppler-utils)"
)  # fmt: skip

_FONTS = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><include ignore_missing="yes">/etc/fonts/fonts.conf</include><dir>{folder}</dir></fontconfig>
"""
_POINTS = 72.0


@dataclass(frozen=True)
class Opened:
    """One deck as it was shown."""

    deck: Path
    pdf: Path

    def pages(self, width: int = 1920, height: int = 1080, only: Sequence[int] | None = None) -> list[np.ndarray]:
        """Its pages as pictures, each (height, width, 3); `only` those numbers, from 0."""
        folder = self.pdf.parent / f"{self.pdf.stem}-{width}"
        if not folder.exists():
            folder.mkdir()
            subprocess.run(
                [str(PDFTOPPM), "-scale-to-x", str(width), "-scale-to-y", str(height), self.pdf, folder / "page"],
                check=True,
            )
        paths = sorted(folder.glob("page*.ppm"))
        return [_ppm(path) for number, path in enumerate(paths) if only is None or number in only]

    def words(self) -> list[list[tuple[str, tuple[float, float, float, float]]]]:
        """The words of every page, each with its box: left, top, right, bottom in points."""
        found = subprocess.run(
            [str(PDFTOTEXT), "-bbox", self.pdf, "-"], check=True, capture_output=True, text=True
        ).stdout
        pages: list[list[tuple[str, tuple[float, float, float, float]]]] = []
        for line in found.splitlines():
            if "<page" in line:
                pages.append([])
            elif "<word" in line:
                left, top, right, bottom = (_measure(line, name) for name in ("xMin", "yMin", "xMax", "yMax"))
                pages[-1].append((unescape(line.split(">")[1].split("<")[0]), (left, top, right, bottom)))
        return pages


def opened(decks: Sequence[Path], folder: Path) -> dict[str, Opened]:
    """All decks opened in one run, by their names."""
    fonts = folder / "fonts.conf"
    fonts.write_text(_FONTS.format(folder=face(False).path.parent), encoding="utf-8")
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    subprocess.run(
        [str(SOFFICE), "--headless", profile, "--convert-to", "pdf", "--outdir", str(folder), *map(str, decks)],
        check=True,
        capture_output=True,
        timeout=240,
        env={**os.environ, "FONTCONFIG_FILE": str(fonts)},
    )
    return {deck.stem: Opened(deck, folder / f"{deck.stem}.pdf") for deck in decks}


def _ppm(path: Path) -> np.ndarray:
    """A picture from the binary form that pdftoppm writes."""
    kind, size, most, data = path.read_bytes().split(b"\n", 3)
    assert (kind, most) == (b"P6", b"255")
    width, height = map(int, size.split())
    return np.frombuffer(data, dtype=np.uint8).reshape(height, width, 3)


def _measure(line: str, name: str) -> float:
    """A number of one word of pdftotext's list."""
    return float(line.split(f'{name}="')[1].split('"')[0])
