"""The deck as LibreOffice shows it: as many pages as slides, holes clear, words where they belong."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from storyboard.sample_board import board

from explainers.outputs.deck_pptx import write_deck
from explainers.storyboard.pacing import pace

SOFFICE, PDFTOPPM, PDFTOTEXT = (shutil.which(name) for name in ("soffice", "pdftoppm", "pdftotext"))

pytestmark = pytest.mark.skipif(
    not (SOFFICE and PDFTOPPM and PDFTOTEXT),
    reason="needs soffice (libreoffice-impress), pdftoppm and pdftotext (poppler-utils)",
)

SIZE = ("960", "540")  # 60 pixels a stage unit


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("opened")
    (deck,) = write_deck(pace(board()), folder)
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    subprocess.run(
        [str(SOFFICE), "--headless", profile, "--convert-to", "pdf", "--outdir", str(folder), str(deck)],
        check=True,
        capture_output=True,
        timeout=240,
    )
    subprocess.run(
        [str(PDFTOPPM), "-scale-to-x", SIZE[0], "-scale-to-y", SIZE[1], deck.with_suffix(".pdf"), folder / "page"],
        check=True,
    )
    return folder


def pages(folder: Path) -> list[np.ndarray]:
    return [ppm(path) for path in sorted(folder.glob("page*.ppm"))]


def ppm(path: Path) -> np.ndarray:
    """A picture as (height, width, 3) from the binary form that pdftoppm writes."""
    kind, size, most, data = path.read_bytes().split(b"\n", 3)
    assert (kind, most) == (b"P6", b"255")
    width, height = map(int, size.split())
    return np.frombuffer(data, dtype=np.uint8).reshape(height, width, 3)


def at(page: np.ndarray, x: float, y: float) -> tuple[int, ...]:
    """The colour at a point of the stage."""
    return tuple(int(level) for level in page[round((9.0 - y) * 60), round(x * 60)])


def near(colour: tuple[int, ...], hexadecimal: str) -> bool:
    wanted = bytes.fromhex(hexadecimal)
    return all(abs(a - b) <= 3 for a, b in zip(colour, wanted, strict=True))


def test_as_many_pages_as_slides(shown: Path) -> None:
    assert len(pages(shown)) == len(board().steps)


def test_what_is_drawn_stands_where_the_figure_has_it(shown: Path) -> None:
    page = pages(shown)[0]
    assert page.shape == (540, 960, 3)
    assert near(at(page, 0.2, 0.5), "FAF6EC"), "paper"
    assert near(at(page, 1.0, 2.0), "FFFFFF"), "the table"
    assert near(at(page, 2.2, 4.5), "C9DDE8"), "cloth"
    assert near(at(page, 4.5, 4.5), "FFFFFF"), "the hole is clear"
    assert near(at(page, 1.5, 4.5), "1F2A37"), "a side"
    assert near(at(page, 11.25, 3.25), "2F6F5E"), "a dot"
    assert near(at(page, 11.45, 3.25), "DCEBDD"), "cloth between dots"


def test_lines_arrows_and_clear_colours_are_seen(shown: Path) -> None:
    page = pages(shown)[1]
    assert near(at(page, 12.0, 5.6), "6B3FA0"), "the arc of the arrow"
    # A quarter of 6B3FA0 over C9DDE8.
    assert near(at(page, 2.2, 3.2), "B2B6D6"), "the half clear disc"
    dashes = page[round((9 - 7.2) * 60), round(1.6 * 60) : round(7.4 * 60)].astype(int)
    dark = dashes[:, 0] < 180
    assert 0.35 < dark.mean() < 0.85, "a dashed outline has dashes and gaps"
    assert 15 < np.count_nonzero(np.diff(dark.astype(int))) < 80


def test_words_stand_on_the_page_inside_the_slide(shown: Path) -> None:
    pdf = next(shown.glob("*.pdf"))
    found = subprocess.run([str(PDFTOTEXT), "-bbox", pdf, "-"], check=True, capture_output=True, text=True).stdout
    words = [line for line in found.splitlines() if "<word" in line]
    for line in words:
        left, top, right, bottom = (measure(line, name) for name in ("xMin", "yMin", "xMax", "yMax"))
        assert 0 <= left < right <= 960
        assert 0 <= top < bottom <= 540
    degrees = [line for line in words if "135°" in line]
    assert len(degrees) == 2, "on the two slides that show the turn"
    for line in degrees:
        middle = (measure(line, "xMin") + measure(line, "xMax")) / 2
        assert middle == pytest.approx(12.0 * 60, abs=2.0), "the middle of a label is where the figure has it"


def measure(line: str, name: str) -> float:
    """A number of one word of pdftotext's list."""
    return float(line.split(f'{name}="')[1].split('"')[0])
