"""What draws and encodes, as one hash: a part of the key of every drawn thing.

It changes with the source that a picture goes through, with the libraries that draw, with the typeface and with the
build of the encoder. Source that only decides *what* is drawn is left out, since its results are in the figures.
"""

from __future__ import annotations

import hashlib
from functools import cache
from importlib import metadata
from pathlib import Path

from ...typeface.faces import face
from ...video.encoder_build import encoder_build

__all__ = ["DRAWING_LIBRARIES", "DRAWING_SOURCE", "drawn_by"]

# manimpango brings Pango and pycairo brings cairo, where they are installed from wheels.
DRAWING_LIBRARIES = ("av", "manim", "manimpango", "numpy", "pycairo")

# Beside the package, or inside it. A motion is worked out while it is drawn, so figure and geometry count.
DRAWING_SOURCE = (
    "../scenes",
    "figure/model.py",
    "figure/motion.py",
    "figure/strokes.py",
    "geometry/angles.py",
    "geometry/rigid_motion.py",
    "outputs/clip/drawing_job.py",
    "typeface",
    "video",
)


@cache
def drawn_by() -> str:
    """The hash, in hexadecimal.

    Raises : FontError where the typeface is missing
    """
    digest = hashlib.sha256()
    for path in source_files():
        digest.update(path.name.encode() + b"\0" + path.read_bytes() + b"\0")
    for library in DRAWING_LIBRARIES:
        digest.update(f"{library}={_version(library)}\0".encode())
    for bold in (False, True):
        digest.update(face(bold).file_hash.encode())
    digest.update(encoder_build().encode())
    return digest.hexdigest()


def source_files() -> tuple[Path, ...]:
    """Every file of Python source that a picture goes through."""
    package = Path(__file__).parent.parent.parent  # `explainers`
    named = [package / place for place in DRAWING_SOURCE]
    return tuple(path for place in named for path in ([place] if place.suffix else sorted(place.rglob("*.py"))))


def _version(library: str) -> str:
    try:
        return metadata.version(library)
    except metadata.PackageNotFoundError:
        return "missing"
