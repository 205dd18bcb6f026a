"""What a page of a PDF file and an SVG picture draw, in order, as plain contours: read from the files, not drawn.

Of a PDF every path is followed through its matrices and forms, of an SVG through a library that knows nothing of ours.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import pikepdf
import shapely
from pikepdf import Name
from svgelements import SVG, Arc, Close, Color, CubicBezier, Line, Move, Path, QuadraticBezier, Rect

__all__ = ["Stroke", "apart", "in_pdf", "in_svg", "moved"]

_STEPS = 8  # points of a curve
Contour = list[tuple[float, float]]


@dataclass(frozen=True)
class Stroke:
    """One colour laid on the paper: contours that are filled, or drawn with a line of some width."""

    colour: str  # "#1F2A37"
    opacity: float
    width: float | None  # None where it is filled
    contours: tuple[Contour, ...]


# Of a PDF


@dataclass(frozen=True)
class _State:
    matrix: np.ndarray
    fill: str = "#000000"
    line: str = "#000000"
    fill_opacity: float = 1.0
    line_opacity: float = 1.0
    width: float = 1.0
    group: float = 1.0  # opacity of the forms that all this stands in


def in_pdf(page: Any) -> list[Stroke]:
    """All paths of a page, y up, in points; text is left out."""
    return list(_content(page.obj, page.obj.Resources, _State(np.eye(3))))


def _content(holder: Any, resources: Any, state: _State) -> Iterator[Stroke]:
    kept: list[_State] = []
    contours: list[Contour] = []
    for instruction in pikepdf.parse_content_stream(holder):
        operator, operands = str(instruction.operator), instruction.operands
        if operator == "q":
            kept.append(state)
        elif operator == "Q":
            state = kept.pop()
        elif operator == "cm":
            state = replace(state, matrix=_matrix(operands) @ state.matrix)
        elif operator in ("rg", "RG", "g", "G", "sc", "scn", "SC", "SCN"):
            colour = _colour(operands)
            state = replace(state, fill=colour) if operator.islower() else replace(state, line=colour)
        elif operator == "w":
            state = replace(state, width=float(operands[0]))
        elif operator == "gs":
            state = _with_opacity(state, resources.ExtGState[str(operands[0])])
        elif operator in ("m", "l", "c", "v", "y", "h", "re"):
            _draw(contours, operator, [float(value) for value in operands])
        elif operator in ("f", "F", "f*", "B", "B*", "b", "b*", "S", "s", "n"):
            yield from _painted(operator, contours, state)
            contours = []
        elif operator == "Do":
            form = resources.XObject[str(operands[0])]
            if form.get("/Subtype") == Name.Form:
                inner = replace(state, matrix=_matrix(form.get("/Matrix", [1, 0, 0, 1, 0, 0])) @ state.matrix)
                if "/Group" in form:  # laid down as a whole, so that what is said inside is a share of that
                    whole = state.group * state.fill_opacity
                    inner = replace(inner, group=whole, fill_opacity=1.0, line_opacity=1.0)
                yield from _content(form, form.get("/Resources", resources), inner)


def _matrix(values: Any) -> np.ndarray:
    a, b, c, d, e, f = (float(value) for value in values)
    return np.array([[a, b, 0.0], [c, d, 0.0], [e, f, 1.0]])


def _colour(values: Any) -> str:
    parts = [float(value) for value in values if not isinstance(value, pikepdf.Name)]
    red, green, blue = parts * 3 if len(parts) == 1 else parts
    return "#" + "".join(f"{round(255 * part):02X}" for part in (red, green, blue))


def _with_opacity(state: _State, settings: Any) -> _State:
    fill, line = float(settings.get("/ca", state.fill_opacity)), float(settings.get("/CA", state.line_opacity))
    return replace(state, fill_opacity=fill, line_opacity=line)


def _draw(contours: list[Contour], operator: str, values: Sequence[float]) -> None:
    points = list(zip(values[::2], values[1::2], strict=True))
    if operator == "m":
        contours.append([points[0]])
    elif operator == "l":
        contours[-1].append(points[0])
    elif operator == "h":
        contours[-1].append(contours[-1][0])
    elif operator == "re":
        (x, y), (width, height) = points
        contours.append([(x, y), (x + width, y), (x + width, y + height), (x, y + height), (x, y)])
    else:
        start = contours[-1][-1]
        first, second, end = {
            "c": lambda: points,
            "v": lambda: (start, *points),
            "y": lambda: (points[0], points[1], points[1]),
        }[operator]()
        contours[-1] += _bezier(start, first, second, end)


def _bezier(*ends: tuple[float, float]) -> Contour:
    t = np.linspace(0.0, 1.0, _STEPS + 1)[1:, None]
    a, b, c, d = (np.array(end) for end in ends)
    row = (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d
    return [(float(x), float(y)) for x, y in row]


def _painted(operator: str, contours: list[Contour], state: _State) -> Iterator[Stroke]:
    if not contours or operator == "n":
        return
    if operator in ("s", "b", "b*"):
        contours[-1].append(contours[-1][0])
    placed = tuple(_placed(contour, state.matrix) for contour in contours if len(contour) > 1)
    if operator not in ("S", "s"):
        yield Stroke(state.fill, state.group * state.fill_opacity, None, placed)
    if operator not in ("f", "F", "f*"):
        scale = float(np.sqrt(abs(np.linalg.det(state.matrix[:2, :2]))))
        yield Stroke(state.line, state.group * state.line_opacity, state.width * scale, placed)


def _placed(contour: Contour, matrix: np.ndarray) -> Contour:
    row = np.column_stack([np.array(contour), np.ones(len(contour))]) @ matrix
    return [(float(x), float(y)) for x, y, _ in row]


# Of an SVG


def in_svg(text: str) -> list[Stroke]:
    """All shapes of a picture, y down, in its own pixels."""
    found: list[Stroke] = []
    for element in SVG.parse(io.StringIO(text), reify=True).elements():
        if not isinstance(element, Path | Rect):
            continue
        opacity = float(element.values.get("opacity", 1.0))
        contours = tuple(_of_path(Path(element)))
        for colour, width in ((element.fill, None), (element.stroke, float(element.stroke_width or 0.0))):
            if colour is not None and colour.value is not None:
                found.append(Stroke(Color(colour).hex[:7].upper(), opacity, width, contours))
    return found


def _of_path(path: Path) -> Iterator[Contour]:
    contour: Contour = []
    for segment in path:
        if isinstance(segment, Move):
            if len(contour) > 1:
                yield contour
            contour = [tuple(segment.end)]
        elif isinstance(segment, Line | Close):
            contour.append(tuple(segment.end))
        elif isinstance(segment, QuadraticBezier | CubicBezier | Arc):
            contour += [tuple(segment.point(step / _STEPS)) for step in range(1, _STEPS + 1)]
    if len(contour) > 1:
        yield contour


# Held against each other


def moved(stroke: Stroke, scale: float, shift: tuple[float, float], *, flipped: bool) -> Stroke:
    """The stroke elsewhere, in units of so much; `flipped` turns its y over first."""
    sign = -1.0 if flipped else 1.0
    contours = tuple(
        [(scale * x + shift[0], scale * sign * y + shift[1]) for x, y in contour] for contour in stroke.contours
    )
    return replace(stroke, contours=contours, width=None if stroke.width is None else scale * stroke.width)


def apart(one: Stroke, other: Stroke) -> float:
    """How far the contours of two strokes lie from each other at most; without end where they are not alike."""
    if one.colour != other.colour or abs(one.opacity - other.opacity) > 0.01:
        return float("inf")
    if (one.width is None) is not (other.width is None) or len(one.contours) != len(other.contours):
        return float("inf")
    lines = [[shapely.LineString(contour) for contour in stroke.contours] for stroke in (one, other)]
    off = shapely.hausdorff_distance(lines[0], lines[1], densify=0.5)
    wider = abs(one.width - other.width) if one.width is not None and other.width is not None else 0.0
    return float(max(off.max(), wider))
