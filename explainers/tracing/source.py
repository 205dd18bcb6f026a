"""Any source to its proposal: which of the readers takes it is seen by its first bytes, never by its name."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from .choosing import NO_CHOICE, Choice, chosen, numbered
from .from_picture import sketch_of_picture
from .from_slide import sketch_of_slide
from .from_svg import sketch_of_svg
from .proposal import Proposal
from .reading import proposal_of
from .shown import drawing_of, picture_over
from .sketch import Refused, Sketch

__all__ = ["Source", "kind_of", "proposal_chosen", "proposal_in", "shown_with", "sketch_in"]


class Source(StrEnum):
    """What a question may be read from."""

    DRAWING = "SVG drawing"
    SLIDE = "slide"
    PICTURE = "picture"


@dataclass(frozen=True, slots=True)
class Shown:
    """What was read, to be looked at: the bytes of a file, and what its name ends in."""

    data: bytes
    suffix: str


def kind_of(data: bytes) -> Source:
    """What it is by its first bytes.

    Raises : Refused where it is none that can be read
    """
    if data.startswith((b"\x89PNG", b"\xff\xd8")):
        return Source.PICTURE
    if data.startswith(b"PK"):
        return Source.SLIDE
    if data[:1000].lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        return Source.DRAWING
    message = "the file is no SVG drawing, no PPTX presentation and no PNG or JPEG picture"
    raise Refused(message if data else "the file is empty", "save it as one of these: SVG, PPTX, PNG, JPEG")


def proposal_in(
    data: bytes, *, unit: float = 1.0, grid: float = 0.5, base: str = "base", slide: int = 1
) -> tuple[Source, Proposal]:
    """A whole question as it was read.

    unit   : how long 1 is: in a drawing's units, in centimetres of a slide, in squares of the paper on a picture
    grid   : units between the places that corners go to where they are near
    base   : what the base is called; where no shape is, the largest is the base
    slide  : its number, counted from 1
    Raises : Refused where nothing can be read from it; OutputError where a picture's library is not installed
    """
    kind, sketch = sketch_in(data, unit=unit, slide=slide)
    return kind, proposal_chosen(sketch, NO_CHOICE, grid=grid, base=base)


def sketch_in(data: bytes, *, unit: float = 1.0, slide: int = 1) -> tuple[Source, Sketch]:
    """All that was found, each shape with its number; as for ``proposal_in``."""
    kind = kind_of(data)
    if kind is Source.PICTURE:
        sketch = sketch_of_picture(data, unit=unit)
    elif kind is Source.SLIDE:
        sketch = sketch_of_slide(data, unit=unit, slide=slide)
    else:
        sketch = sketch_of_svg(data, unit=unit)
    return kind, numbered(sketch)


def proposal_chosen(sketch: Sketch, choice: Choice, *, grid: float = 0.5, base: str = "base") -> Proposal:
    """A whole question of a sketch, with what a person has said of its shapes.

    Raises : Refused where nothing can be read from it
    """
    return proposal_of(chosen(sketch, choice), grid=grid, base=base if choice.base is None else choice.base)


def shown_with(data: bytes, kind: Source, proposal: Proposal) -> Shown:
    """What was read, over the picture that it was read from; for drawings and slides by itself."""
    if kind is Source.PICTURE:
        return Shown(picture_over(data, proposal), ".png")
    return Shown(drawing_of(proposal).encode("utf-8"), ".svg")
