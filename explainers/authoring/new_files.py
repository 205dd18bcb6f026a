"""New files that build as they are: an item begun from a demo item, a lesson of the items beside it, a series.

Every key of the format is told in the file, those in use above them, the others below as examples in remarks.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path

from ..document.fields import Faults, name_of
from ..document.nodes import ScalarNode
from ..errors import ExplainersError, OutputError
from ..intake.workspace import Workspace
from ..item.accepted_reader import accepted_example
from ..item.folder import item_files, kind_of_file
from ..item.series_reader import scan_series
from ..kinds.registry import DEFAULT_KIND, kind_named
from .demo import demo_text, first_demo, sections_of
from .glossary import item_remarks, lesson_remarks, remarks, series_remarks

__all__ = ["Files", "checked_name", "new_item", "new_lesson", "new_series"]

Files = dict[str, str]
"""File name -> text."""

MADE_OPTIONS = "options: {make: 4, seed: 7}"
MOST_SHOWN = 3  # parts of a new lesson; the items beyond are named in remarks

# What stands in a remark for a key that is not in use.
_SHARED_EXAMPLES = {
    "language": "language: en-GB",
    "pace": "pace: slow",
    "theme": "theme: dark",
    "card": "card: [Patchwork Club, Autumn term]",
    "credit": "credit: Made by Ada for the Patchwork Club",
    "licence": "licence: CC BY 4.0",
    "template": "template: club.pptx",
    "items-from": "items-from: ../blocks",
    "voice": "voice: {speaker: Ada}",
    "opening": "opening: Welcome to the sewing table.",
    "closing": "closing: See you next week.",
}
_LESSON_EXAMPLES = {
    "series": "series: series.yaml",
    "at-most": "at-most: 420",
    "slips": "slips: told",
    **_SHARED_EXAMPLES,
}
_SERIES_EXAMPLES = {"lessons": "lessons: [first-blocks.yaml]", **_SHARED_EXAMPLES}


def checked_name(name: str) -> str:
    """A name that the readers take.

    Raises: OutputError for any other, with one that they would take
    """
    faults = Faults()
    typed = name.removesuffix(".yaml")
    found = name_of(ScalarNode(typed, True, 0), "", faults, example="corner-block")
    if found is None:
        fault = faults.found[0]
        raise OutputError(f"{fault.message}. To mend it: {fault.fix}; --to names the folder.")
    return found


def new_item(name: str, like: str | None = None, kind: str | None = None) -> Files:
    """An item begun from a demo item.

    like   : the demo item; None for the first one of its kind, its options given over to be made
    kind   : the kind of question; None for that of the demo item
    Raises : OutputError where there is no such demo item or kind, or the one is not of the other
    """
    first = first_demo(kind)
    demo = like or first
    told, keys = sections_of(demo_text(demo))
    own_kind = keys["kind"].partition(":")[2].strip() if "kind" in keys else DEFAULT_KIND
    if kind not in (None, own_kind):
        raise OutputError(
            f"the demo item {demo} is of the kind {own_kind}, not {kind}. To mend it: leave --kind or --like out."
        )
    kind = own_kind
    keys["item"] = f"item: {name}"
    keys["title"] = f"title: {_title(name)}"
    if like is None:
        keys["options"] = MADE_OPTIONS
    head = [
        f"A new question, begun from the demo item {demo}. It builds as it is: change it step by step.",
        *([f"What that one shows: {told}"] if like else []),
        f"  explainers look {name}.yaml --watch         see it, again at every save",
        f"  explainers check --certificate {name}.yaml  is it sound and fair?",
        f"  explainers options {name}.yaml --write      other wrong options",
        "Lengths are squares of your paper; angles are degrees, anticlockwise.",
    ]
    of_kind = kind_named(kind).keys
    examples = {
        **of_kind.examples,
        "kind": f"kind: {kind}",
        "accepted": f"accepted: {{{accepted_example(of_kind.warnings)}}}",
    }
    return {f"{name}.yaml": _file(head, keys, item_remarks(kind), examples)}


def new_lesson(name: str, folder: Path, like: str | None = None, kind: str | None = None) -> Files:
    """A lesson of the items that lie in the folder; where none does, a first item too.

    folder     : where the lesson will stand
    like, kind : of the first item, as for ``new_item``
    Raises     : OutputError as ``new_item``, or where items lie there already and one is asked for
    """
    files: Files = {}
    shown, others = _items_in(folder)
    if not shown and not others:
        first = "my-block" if name != "my-block" else "my-first-block"
        files = new_item(first, like, kind)
        shown = [f"{first}.yaml"]
    elif like is not None or kind is not None:
        begun, option = (f"begun from {like}", "--like") if like is not None else (f"of the kind {kind}", "--kind")
        raise OutputError(
            f"items lie in {folder} already, so none is {begun}. To mend it: leave {option} out, "
            f"or make the item by itself with the command explainers new item."
        )
    if not shown:
        raise OutputError(
            f"no item in {folder} can be shown as it is, such as {others[0][0]}: {others[0][1]}. "
            "To mend it: run explainers check on the folder, then try again."
        )
    manners = ["worked-example", *["your-turn"] * len(shown)]
    parts = [f"  - {{show: {item}, as: {manner}}}" for item, manner in zip(shown, manners, strict=False)]
    keys = {
        "lesson": f"lesson: {name}",
        "title": f"title: {_title(name)}",
        "parts": "\n".join(
            [
                "parts:",
                *parts[:MOST_SHOWN],
                *[f"  # {part.strip()}" for part in parts[MOST_SHOWN:]],
                *[f"  # {item} is left out: {why}" for item, why in others],
            ]
        ),
    }
    series = _series_in(folder)
    if len(series) == 1:
        keys["series"] = f"series: {series[0]}"
    head = [
        "A new lesson. It builds as it is: change it step by step.",
        f"  explainers words {name}.yaml  every step with its id, its words and its facts",
        f"  explainers build {name}.yaml  clip, deck, cue sheet, stills",
    ]
    examples = {**_LESSON_EXAMPLES, "words": f'words:\n  {name}.opening: "Good morning, everybody."'}
    return {**files, f"{name}.yaml": _file(head, keys, lesson_remarks(), examples)}


def new_series(name: str, folder: Path) -> Files:
    """A series of the lessons that lie in the folder.

    folder : where the series will stand
    """
    lessons = [path.name for path in _yaml_in(folder) if kind_of_file(path) == "lesson"]
    keys = {"series": f"series: {name}", "title": f"title: {_title(name)}"}
    if lessons:
        keys["lessons"] = "\n".join(["lessons:", *[f"  - {lesson}" for lesson in lessons]])
    head = [
        "A new series: what its lessons have in common. A lesson's own keys win.",
        f"  explainers check {name}.yaml  its questions as a whole: asked twice, never practised",
        f"To belong to it, a lesson is listed here and says series: {name}.yaml",
    ]
    return {f"{name}.yaml": _file(head, keys, series_remarks(), _SERIES_EXAMPLES)}


def _file(
    head: Iterable[str], keys: Mapping[str, str], told: Mapping[str, list[str]], examples: Mapping[str, str]
) -> str:
    """The keys in the order of the format, each below its remarks; then those not in use."""
    blocks = [remarks(head)]
    blocks += [f"{remarks(lines)}\n{keys[key]}" for key, lines in told.items() if key in keys]
    further = [key for key in told if key not in keys]
    if further:
        blocks.append(remarks(["Further keys. To use one, take the # away from the line with its name."]))
        blocks += [f"{remarks(told[key])}\n{_remarked(examples[key])}" for key in further]
    return "\n\n".join(blocks) + "\n"


def _remarked(lines: str) -> str:
    return "\n".join(f"#{line}" for line in lines.splitlines())


def _title(name: str) -> str:
    plain = name.replace("-", " ")
    return plain[:1].upper() + plain[1:]


def _items_in(folder: Path) -> tuple[list[str], list[tuple[str, str]]]:
    """The files of a folder's items that a lesson can show, and the others, each with why not."""
    shown: list[str] = []
    others: list[tuple[str, str]] = []
    workspace = Workspace()
    for path in item_files([folder], workspace.opened) if folder.is_dir() else []:
        try:
            sound = workspace.answer(path).sound
        except ExplainersError:
            others.append((path.name, "it cannot be read or solved"))
            continue
        if sound:
            shown.append(path.name)
        else:
            others.append((path.name, "it has not exactly one right option"))
    return shown, others


def _series_in(folder: Path) -> list[str]:
    return [
        path.name
        for path in _yaml_in(folder)
        if kind_of_file(path) == "series" and scan_series(path).series is not None
    ]


def _yaml_in(folder: Path) -> list[Path]:
    return sorted(path for path in folder.glob("*.yaml") if path.is_file() and not path.name.startswith("."))
