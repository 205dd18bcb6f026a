"""An item, or its options, as YAML text in the house's form: what the reader reads back as the same values.

Coordinates are rounded to a millionth of what is drawn, far below what a teacher could mean to tell apart.
"""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Sequence

from ..geometry.rigid_motion import Point, Ring
from ..geometry.rings import larger_extent
from .model import BASE, Item, MadeOptions, Option, Piece

__all__ = ["decimals_for", "item_yaml", "made_yaml", "number_yaml", "options_yaml", "outline_yaml", "text_yaml"]

WIDTH = 120  # columns after which a list of corners goes on in the next line
ANGLE_DECIMALS = 6
DIGITS = 6  # of the larger extent

_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9]*([ -][A-Za-z0-9]+)*")
# Other readers of YAML take these for something else than a text.
_NOT_A_TEXT = re.compile(r"y|n|yes|no|on|off|true|false|null", re.IGNORECASE)


def item_yaml(item: Item, *, comment: Sequence[str] = ()) -> str:
    """The whole file of an item; options are listed where there are any, else asked for.

    comment : lines for the head of the file, without their #
    """
    lines = [f"# {line}".rstrip() for line in comment]
    lines += [f"item: {text_yaml(item.name)}", f"title: {text_yaml(item.title)}", "base:"]
    lines += outline_yaml(item.base.exterior, item.base.holes, indent="  ")
    lines.append("pieces:")
    for piece in item.pieces:
        lines += _piece(piece)
    if item.options:
        lines += ["options:", *options_yaml(item.options)]
    elif item.made is not None:
        lines.append(f"options: {made_yaml(item.made)}")
    if item.accepted:
        lines += ["accepted:", *(f"  {entry.kind}: {text_yaml(entry.reason)}" for entry in item.accepted)]
    return "\n".join(lines) + "\n"


def options_yaml(options: Iterable[Option]) -> list[str]:
    """The lines of a list of options, as they stand below ``options:``."""
    lines: list[str] = []
    for option in options:
        words: list[str] = []
        if option.corners is None:
            words.append("outline: result")
            words += [f"slip: {text_yaml(option.slip)}"] if option.slip is not None else []
            words += [f"piece: {text_yaml(option.slip_piece)}"] if option.slip_piece is not None else []
        else:
            decimals = decimals_for(option.corners)
            words += [f"corners: [{_points(option.corners, decimals)}]"]
            if option.holes:
                words.append(f"holes: [{', '.join(f'[{_points(hole, decimals)}]' for hole in option.holes)}]")
        words += [f"turned: {number_yaml(option.turned, ANGLE_DECIMALS)}"] if option.turned else []
        words += [f"scale: {number_yaml(option.scale, ANGLE_DECIMALS)}"] if option.scale != 1.0 else []
        words += [f"name: {text_yaml(option.name)}"] if option.name is not None else []
        lines += _wrapped(f"  - {{{', '.join(words)}}}", hanging="     ")
    return lines


def made_yaml(made: MadeOptions) -> str:
    """A request for options, as it stands after ``options:``."""
    return f"{{make: {made.make}, seed: {made.seed}}}"


def number_yaml(number: float, decimals: int) -> str:
    """A number as a teacher would type it, with no more decimals than it needs."""
    text = f"{number:.{decimals}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def decimals_for(ring: Ring) -> int:
    """As many decimals as it takes to write a millionth of the outline's larger extent."""
    size = larger_extent(ring)
    return max(0, DIGITS - (math.floor(math.log10(size)) if size > 0.0 else 0))


def _piece(piece: Piece) -> list[str]:
    decimals = decimals_for(piece.corners)
    lines = [f"  - piece: {text_yaml(piece.name)}", f"    does: {piece.does}"]
    lines += outline_yaml(piece.corners, (), indent="    ")
    if piece.turned:
        lines.append(f"    turned: {number_yaml(piece.turned, ANGLE_DECIMALS)}")
    lines += [f"    side: [{_points(piece.side, decimals)}]", f"    meets: [{_points(piece.meets, decimals)}]"]
    if piece.of != BASE:
        lines.append(f"    of: {text_yaml(piece.of)}")
    return [*lines, f"    mark: {text_yaml(piece.mark)}"]


def outline_yaml(corners: Ring, holes: Sequence[Ring], *, indent: str) -> list[str]:
    """The lines of corners and holes, as they stand below ``base:``."""
    decimals = decimals_for(corners)
    lines = _wrapped(f"{indent}corners: [{_points(corners, decimals)}]", hanging=f"{indent}          ")
    if holes:
        lines.append(f"{indent}holes:")
        for hole in holes:
            lines += _wrapped(f"{indent}  - [{_points(hole, decimals)}]", hanging=f"{indent}     ")
    return lines


def _points(points: Iterable[Point], decimals: int) -> str:
    return ", ".join(f"[{number_yaml(x, decimals)}, {number_yaml(y, decimals)}]" for x, y in points)


def _wrapped(line: str, *, hanging: str) -> list[str]:
    """The line, broken after a point's comma where it is too wide."""
    lines = []
    while len(line) > WIDTH:
        at = line.rfind("], ", len(hanging) + 4, WIDTH)
        if at < 0:
            break
        lines.append(line[: at + 2])
        line = hanging + line[at + 3 :]
    return [*lines, line]


def text_yaml(text: str) -> str:
    """A text as it is, or quoted where YAML would read something else in it."""
    if _PLAIN.fullmatch(text) and not _NOT_A_TEXT.fullmatch(text):
        return text
    return json.dumps(text, ensure_ascii=False)
