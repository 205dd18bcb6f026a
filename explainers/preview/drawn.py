"""A file drawn once: its picture, or its faults with a sketch of what can be read. Raises for nothing it may hold."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from ..choice.panels.view import Sign
from ..errors import Fault, ItemError
from ..figure.theme import DEFAULT_THEME, Theme
from .markup import Markup

__all__ = ["Draw", "Drawn", "drawn", "failed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """What became of a file."""

    name: str = ""
    title: str = ""
    state: str = ""
    sign: Sign = ""
    picture: Markup | None = None  # None where there are faults
    small: Markup | None = None  # its finished outline alone
    faults: tuple[Fault, ...] = ()
    sketch: Markup | None = None  # of a file with faults
    given: str = ""  # stands for the outlines and marks that the file gives, right or wrong; "" where none can be read


Draw = Callable[[Path, Theme], Drawn | None]  # None: given up, since the file has changed meanwhile


def drawn(path: Path, theme: Theme = DEFAULT_THEME) -> Drawn:
    """A file as it stands, in a theme."""
    # Here and not above: a process that has its drawing done by another need not load the solver.
    from ..intake.reader import scan_item
    from ..intake.workspace import solved
    from .item_view import item_view
    from .page import thumbnail, view_part

    try:
        reading = scan_item(path)
        solution = solved(reading)
        view = item_view(solution, reading.source.line_of, theme)
        return Drawn(
            name=view.name,
            title=view.title,
            state=view.state,
            sign=view.sign,
            picture=view_part(view),
            small=thumbnail(view),
            given=_given(path, theme),
        )
    except ItemError as error:
        faults = error.faults
    except Exception as error:  # a fault of ours must not end the watching: the next save may be past it
        said = str(error).strip().splitlines()
        faults = (failed(path, f"{type(error).__name__}: {said[0]}" if said else type(error).__name__),)
    return Drawn(faults=faults, sketch=_sketch(path, faults, theme), given=_given(path, theme))


def failed(path: Path, what: str) -> Fault:
    """A fault of the program itself."""
    return Fault(
        file=str(path),
        field="",
        message=f"the program itself failed here ({what})",
        fix="undo the last change, and report this with the file",
    )


def _given(path: Path, theme: Theme) -> str:
    from .item_view import given_in

    try:
        return given_in(path, theme)
    except Exception:  # as for a sketch
        return ""


def _sketch(path: Path, faults: tuple[Fault, ...], theme: Theme) -> Markup | None:
    from .item_view import sketch_of
    from .page import view_part

    try:
        view = sketch_of(path, faults, theme)
        return None if view is None else view_part(view)
    except Exception:  # the faults are told all the same; a sketch of a faulty item may well be impossible
        return None
