"""No id of a step or an entry, and no name of a group, is taken apart: what they are made from is carried as data.

Ids are to be written, looked up and compared with one another. Where one is split, sliced, matched by a pattern, or
compared with a string that was built from what somebody knows of it, a field is missing in the value that has the id.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
OF_OTHERS = {ROOT / "explainers" / "words" / "catalogue.py"}  # the ids of messages, as a catalogue's library has them
MODULES = sorted({path for room in ("explainers", "scenes") for path in (ROOT / room).rglob("*.py")} - OF_OTHERS)
SCRIPTS = sorted((ROOT / "explainers").rglob("*.js"))

FIELDS = {"id", "step_id", "entry_id", "group"}
VARIABLES = FIELDS - {"id", "group"}  # Python has an `id` itself; and sequences are grouped too
STRING_METHODS = {
    *("split", "rsplit", "partition", "rpartition", "startswith", "endswith"),
    *("removeprefix", "removesuffix", "find", "index", "replace", "count"),
}
PATTERN_METHODS = {"match", "search", "fullmatch", "sub", "subn", "split", "findall", "finditer"}


def is_id(node: ast.expr) -> bool:
    """Whether an expression is an id, or one in other letters."""
    match node:
        case ast.Attribute(attr=name):
            return name in FIELDS
        case ast.Name(id=name):
            return name in VARIABLES
        case ast.Call(func=ast.Attribute(value=value, attr="lower" | "upper" | "casefold")):
            return is_id(value)
    return False


def is_written_out(node: ast.expr) -> bool:
    """Whether an expression is a text, or one that is put together here, or holds such."""
    match node:
        case ast.Constant(value=str(text)):
            return text != ""
        case ast.Tuple(elts=parts) | ast.List(elts=parts) | ast.Set(elts=parts):
            return any(map(is_written_out, parts))
    return isinstance(node, ast.JoinedStr)


def taken_apart(tree: ast.AST) -> Iterator[int]:
    """Lines in which an id is."""
    for node in ast.walk(tree):
        match node:
            case ast.Call(func=ast.Attribute(value=value, attr=name)) if is_id(value) and name in STRING_METHODS:
                yield node.lineno
            case ast.Call(func=ast.Attribute(value=value, attr=name), args=args) if name in PATTERN_METHODS:
                # A pattern that was compiled, or the module of patterns; of `sub` the text comes after what is put in.
                if any(is_id(arg) or ast.unparse(arg) == "group" for arg in args) and not is_written_out(value):
                    yield node.lineno
            case ast.Subscript(value=value) if is_id(value):
                yield node.lineno
            case ast.Compare(left=left, ops=ops, comparators=others):
                for one, operator, other in zip([left, *others], ops, others, strict=False):
                    within = isinstance(operator, ast.In | ast.NotIn) and is_id(other)
                    if within or (is_id(one) and is_written_out(other)) or (is_id(other) and is_written_out(one)):
                        yield node.lineno


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_module_takes_an_id_apart(path: Path) -> None:
    lines = list(taken_apart(ast.parse(path.read_text(encoding="utf-8"))))
    assert not lines, f"{path.relative_to(ROOT)}: line {', '.join(map(str, lines))}"


SCRIPTED = re.compile(
    r"\.(?:id|group|step)\s*(?:\.(?:split|startsWith|endsWith|slice|substring|match|replace|includes|indexOf)\(|\[)"
)


def test_no_script_takes_an_id_apart() -> None:
    assert SCRIPTS
    found = [(path.name, hit[0]) for path in SCRIPTS for hit in SCRIPTED.finditer(path.read_text(encoding="utf-8"))]
    assert not found


@pytest.mark.parametrize(
    "line",
    [
        'step.id.split(".")[0]',
        "step.id[:7]",
        'step.id.lower().endswith(".pause")',
        're.sub("x", "", step.id)',
        "PATTERN.fullmatch(entry.group)",
        '".option-" in step.id',
        'entry.id == f"seam-{number}"',
        'entry.group != "tray"',
        "NUMBERED.fullmatch(group)",
        'span.step_id in ("one.task", "one.pause")',
        'question, _, name = step_id.rpartition(".")',
    ],
)
def test_the_walk_sees_every_way_to_take_one_apart(line: str) -> None:
    assert list(taken_apart(ast.parse(line))) == [1]


@pytest.mark.parametrize(
    "line",
    [
        "step.id == other.id",
        "entry.id in known",
        'f"{step.id}/{number}"',
        "by_id[step.id]",
        'if not entry.group == "": pass',
        '", ".join(step.id for step in steps)',
    ],
)
def test_whole_ids_may_be_written_and_compared(line: str) -> None:
    assert list(taken_apart(ast.parse(line))) == []
