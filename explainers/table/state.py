"""What has become of a text, as plain values for a page: outlines as drawn, faults, verdict, sheet, options.

``state_of`` is what a page needs after every change; what takes longer (the proof, what every slip would give) comes in
a second answer, ``later_of``. Everything said is said by the readers, the solver and their words; nothing is judged
here. The shapes of both are told in ``server``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from ..choice.certificate import certificate
from ..choice.making import surveyed
from ..choice.model import Solution, Verdict, Warning_
from ..choice.panels.spare_panels import spare_panels
from ..choice.question import OPTION_LABELS, Question, WarningKind
from ..choice.words.certificate import certificate_lines
from ..choice.words.report import because_lines, reason_in_brief
from ..document.nodes import ListNode, MapNode, Node, text_at
from ..document.text_places import composed_once
from ..editing.drawn import drawn_outline
from ..errors import Fault, ItemError
from ..figure.theme import DEFAULT_THEME
from ..geometry.outline import Outline
from ..intake.reader import Reading
from ..intake.workspace import solved
from ..kinds.registry import kind_named, kind_of, solve
from .pictures import DrawnSheet, drawn_sheet, option_svg, panel_svg
from .sitting import kind_of_text, reading_of

_OF_OPTIONS = re.compile(r"options\b")

__all__ = ["Judged", "Sheets", "judged", "later_of", "state_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A text read and solved."""

    text: str
    reading: Reading
    solution: Solution | None
    faults: tuple[Fault, ...]

    def so_far(self) -> Solution | None:
        """The solution, or that of a question of which only options are missing or faulty: those that were read."""
        begun = self.reading.begun
        if self.solution is not None or begun is None:
            return self.solution
        if not all(_OF_OPTIONS.match(fault.field) for fault in self.faults):
            return None
        return _solved_so_far(begun)


@lru_cache(maxsize=2)
def _solved_so_far(begun: Question) -> Solution | None:
    try:
        return solve(begun)
    except Exception:  # of a question that is not whole; its faults say what is missing
        return None


def judged(text: str, path: Path) -> Judged:
    """What readers and solver make of a text; never raises for what it holds."""
    reading = reading_of(text, path)
    try:
        solution = solved(reading)
    except ItemError as error:
        return Judged(text=text, reading=reading, solution=None, faults=error.faults)
    except Exception as error:  # told as a fault, and past with the next change
        message = f"the program itself failed here ({type(error).__name__})"
        ours = Fault(
            field="", file=str(path), message=message, fix="undo the last change, and report this with the file"
        )
        return Judged(text=text, reading=reading, solution=None, faults=(*reading.faults, ours))
    return Judged(text=text, reading=reading, solution=solution, faults=())


class Sheets:
    """The sheet drawn last, since many changes leave it as it is; drawing it takes most of the time."""

    def __init__(self) -> None:
        self._item: Question | None = None
        self._sheet: DrawnSheet | None = None

    def of(self, solution: Solution) -> DrawnSheet | None:
        """The sheet of a question, or None where there is no way of drawing it."""
        asked = replace(solution.item, name="", title="", accepted=())
        if asked != self._item:
            try:
                self._sheet = drawn_sheet(solution)
            except Exception:  # of a question that is not sound; the verdict says why
                self._sheet = None
            self._item = asked
        return self._sheet


def state_of(now: Judged, sheets: Sheets) -> dict[str, Any]:
    """The first answer."""
    root = composed_once(now.text).root
    solution = now.solution
    kind = kind_named(kind_of_text(now.text))
    lines = now.reading.source.line_of
    state: dict[str, Any] = {
        "kind": kind.name,
        "name": now.reading.name,
        "title": text_at(root, "title") if root is not None else "",
        "readable": root is not None,
        "outlines": [each.told() for each in kind.tools.outlines(root)] if root is not None else [],
        "options": _options(root, now.so_far()),
        "made": _made(now),
        "faults": [_fault(fault) for fault in now.faults],
        "todo": [each.told() for each in kind.tools.todo(root)] if root is not None else [],
        "warnings": [],
        "accepted": [],
        "verdict": {"state": "refused", "key": None, "because": []},
        "laid": [],
        "result": None,
        "features": {},
        "pause_s": None,
        "sheet": None,
        "on_sheet": [],
    }
    if solution is None:
        begun = now.reading.begun
        state["laid"] = [part.told() for part in kind.tools.laid_so_far(begun)] if begun is not None else []
        return state
    state["warnings"] = [_warning(warning, lines(warning.field)) for warning in solution.warnings]
    state["accepted"] = [_warning(warning, lines(warning.field)) for warning in solution.accepted]
    word = "sound" if solution.sound else "unsound"
    state["verdict"] = {"state": word, "key": solution.key, "because": list(because_lines(solution))}
    state["laid"] = [part.told() for part in kind.tools.laid(solution)]
    state["result"] = _outline(solution.outline)
    state["features"] = dict(solution.features().figures())
    state["pause_s"] = solution.suggested_pause_s
    if (sheet := sheets.of(solution)) is not None:
        state["sheet"] = sheet.svg
        state["on_sheet"] = sheet.told([part["id"] for part in state["laid"]])
    return state


def later_of(now: Judged) -> dict[str, Any]:
    """The second answer: the proof in words, what no option tests, every slip that could be an option."""
    solution = now.so_far()
    if solution is None:
        return {"certificate": [], "slips": [], "refused": [], "without": []}
    slips = kind_of(solution.item).slips_of(solution)
    survey = surveyed(solution, slips)
    panels = spare_panels(survey, slips, DEFAULT_THEME)
    return {
        "certificate": certificate_lines(certificate(solution)) if now.solution is not None else [],
        "without": list(survey.without),
        "refused": [{"why": why, "slips": list(names)} for why, names in survey.by_reason()],
        "slips": [
            {
                "slip": cases[0].slip,
                "piece": cases[0].subject,
                "words": panel.heading,
                "svg": panel_svg(panel.pictures[0]),
                "outline": _outline(outline),
                "command": {"do": "add-option", "slip": cases[0].slip, "piece": cases[0].subject},
            }
            for (cases, outline), panel in zip(survey.spare, panels, strict=True)
        ],
    }


def _options(root: MapNode | None, solution: Solution | None) -> list[dict[str, Any]]:
    """Each option as it stands in the file, or as it was made, with its verdict where there is one."""
    entry = root.entries.get("options") if root is not None else None
    nodes: Sequence[Node] = entry.value.items if entry is not None and isinstance(entry.value, ListNode) else ()
    verdicts: Iterable[Verdict] = solution.verdicts if solution is not None else ()
    found = dict(enumerate(verdicts))
    nearly = (
        {
            warning.field
            for warning in (*solution.warnings, *solution.accepted)
            if warning.kind == WarningKind.NEARLY_RIGHT
        }
        if solution is not None
        else set()
    )
    told = []
    for number in range(max(len(nodes), len(found))):
        node = nodes[number] if number < len(nodes) else None
        field = f"options[{number}]"
        label = OPTION_LABELS[number] if number < len(OPTION_LABELS) else str(number + 1)
        drawn = drawn_outline(node, field, id_=f"option-{number + 1}", role="option").told()
        mine = {**drawn, "label": label, "nearly_right": field in nearly, "svg": None, "same": None}
        mine |= _made_by(node, solution, number)
        verdict = found.get(number)
        if verdict is not None:
            mine |= {
                "id": f"option-{verdict.code}",
                "same": verdict.same,
                "mirrored": verdict.mirrored,
                "reason": _reason(verdict),
                "svg": option_svg(verdict),
                "outline": _outline(verdict.outline),
            }
        told.append(mine)
    return told


@lru_cache(maxsize=64)
def _reason(verdict: Verdict) -> str:
    """Why an option fits or not; found true once for each verdict, since most changes leave most options alone."""
    return reason_in_brief(verdict)


def _made_by(node: Node | None, solution: Solution | None, number: int) -> dict[str, Any]:
    if solution is not None and number < len(solution.item.options):
        option = solution.item.options[number]
        return {"slip": option.slip, "piece": option.slip_subject, "turned": option.turned, "scale": option.scale}
    if isinstance(node, MapNode):
        return {"slip": text_at(node, "slip") or None, "piece": text_at(node, "piece") or None}
    return {}


def _made(now: Judged) -> dict[str, int] | None:
    """The request by which options are made; None where they are listed."""
    item = now.solution.item if now.solution is not None else now.reading.item
    return None if item is None or item.made is None else {"make": item.made.make, "seed": item.made.seed}


def _outline(outline: Outline) -> dict[str, Any]:
    return {
        "corners": [list(corner) for corner in outline.exterior],
        "holes": [[list(corner) for corner in hole] for hole in outline.holes],
    }


def _fault(fault: Fault) -> dict[str, Any]:
    return {"field": fault.field, "line": fault.line, "message": fault.message, "fix": fault.fix}


def _warning(warning: Warning_, line: int) -> dict[str, Any]:
    return {
        "kind": str(warning.kind), "field": warning.field, "line": line, "message": warning.message, "fix": warning.fix
    }  # fmt: skip
