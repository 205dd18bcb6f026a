"""No pattern of the package takes more than twice as long for twice the text.

Anybody's file reaches these patterns, and one that looks through a text again from each place stands still at a few
thousand characters. So every pattern that the sources hold is run, in each way in which it is used, over texts that are
made to keep it busy. What is asserted is how the work grows, never a time: processor time over a text is held against
that over a longer one, and a suspicion is measured again at twice the length, the least of several runs each.
"""

from __future__ import annotations

import ast
import importlib
import math
import re
import time
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from oracles.pattern_texts import Hostile, hostile_texts, loops_of
from oracles.pattern_uses import WAYS, Use, uses_in, ways_of_names

from explainers.intake.schema import schema_of

ROOT = Path(__file__).parent.parent
FILES = sorted(path for package in ("explainers", "scenes") for path in (ROOT / package).rglob("*.py"))

# What patterns that are made while running are made of, by file and function: a new one needs a line here.
MADE_OF: dict[str, Mapping[str, Any]] = {
    "explainers/outputs/html/index_parts.py:_files": {"name": "corner-block", "ending": SimpleNamespace(text=".pdf")},
    "explainers/safe_write.py:_sweep": {"whole": Path("corner-block.mp4")},
    "explainers/sentences/claims.py:_named": {"parts": ["twin", "flag"]},
    "explainers/sentences/contradictions.py:_pieces": {"said": "the flag"},
    "explainers/sentences/contradictions.py:_without_names": {"name": "twin-flag"},
}


# The patterns of the sources.


@cache
def trees() -> dict[str, ast.Module]:
    return {path.relative_to(ROOT).as_posix(): ast.parse(path.read_text(encoding="utf-8")) for path in FILES}


@cache
def all_uses() -> dict[str, Use]:
    ways = {file: ways_of_names(tree) for file, tree in trees().items()}
    public: dict[str, set[str]] = {}
    for of_file in ways.values():
        for name, used in of_file.items():
            if not name.startswith("_"):
                public.setdefault(name, set()).update(used)
    found: dict[str, Use] = {}
    for file, tree in trees().items():
        for use in uses_in(tree, file, {**ways[file], **public}, lambda function, file=file: names_of(file, function)):
            found.setdefault(f"{use.pattern.pattern!r}, {int(use.pattern.flags)}, {use.ways}", use)
    return found


def names_of(file: str, function: str) -> dict[str, Any]:
    module = importlib.import_module(file.removesuffix(".py").replace("/", "."))
    return {**vars(module), **MADE_OF.get(f"{file}:{function}", {})}


def patterns_of_schemas() -> set[str]:
    def inside(value: object) -> Iterator[str]:
        if isinstance(value, Mapping):
            pattern = value.get("pattern")
            if isinstance(pattern, str):
                yield pattern
            for inner in value.values():
                yield from inside(inner)
        elif isinstance(value, list | tuple):
            for inner in value:
                yield from inside(inner)

    return {pattern for kind in ("item", "lesson", "series") for pattern in inside(schema_of(kind))}


# The meter.

SHORT = tuple(2**power for power in range(4, 10))
LONG = 3072
PLAIN = re.compile(r"(?:[a-m]|[^a-m])*+")
FAR_LONGER = 60.0  # than the plain pattern takes over a short text: it is measured at once how the work grows
WORSE = 1.5  # a power of the length: 1 is linear, 2 is quadratic
HOPELESS = 4.0


def run_of(pattern: re.Pattern[Any], way: str) -> Callable[[str], object]:
    run: Callable[[Any], object] = {
        "match": pattern.match,
        "fullmatch": pattern.fullmatch,
        "search": lambda text: sum(1 for _ in pattern.finditer(text)),
    }[way]
    if isinstance(pattern.pattern, bytes):
        return lambda text: run(text.encode())
    return run


def took(run: Callable[[str], object], text: str, times: int = 1) -> int:
    """Processor time of one run, nanoseconds; the least of several."""
    best = 0
    for number in range(times):
        start = time.thread_time_ns()
        run(text)
        spent = time.thread_time_ns() - start
        best = spent if number == 0 else min(best, spent)
    return best


@cache
def plain(length: int) -> int:
    return max(1, took(PLAIN.fullmatch, "n" * length, 20))


def growth(run: Callable[[str], object], hostile: Hostile, first: int, last: int) -> float:
    """The power of the length with which the work grows between two lengths, give or take a few tenths."""
    texts = hostile.text(first), hostile.text(last)
    low, high = (max(1, took(run, text, 2)) for text in texts)
    return math.log(high / low) / math.log(len(texts[1]) / len(texts[0]))


def is_worse_than_linear(pattern: re.Pattern[Any], way: str, hostile: Hostile) -> bool:
    run = run_of(pattern, way)
    spent = 1
    for length in SHORT:  # in small steps, since where each sign doubles the work, four times the text would never end
        text = hostile.text(length)
        bound = FAR_LONGER * plain(length) * len(text) / length
        spent = max(1, took(run, text))
        if spent > bound and took(run, text, 5) > bound:
            power = growth(run, hostile, length, length + length // 4)
            if power > HOPELESS or (power > WORSE and growth(run, hostile, 2 * length, 6 * length) > WORSE):
                return True
    longer = took(run, hostile.text(LONG)) / spent
    return (
        longer > (LONG / SHORT[-1]) ** WORSE
        and growth(run, hostile, SHORT[-1], LONG) > WORSE
        and growth(run, hostile, LONG, 2 * LONG) > WORSE
    )


def slow_texts(pattern: re.Pattern[Any], ways: tuple[str, ...] = WAYS) -> list[str]:
    source = pattern.pattern if isinstance(pattern.pattern, str) else pattern.pattern.decode()
    return [
        f"{way} of {source!r} on {hostile}"
        for hostile in hostile_texts(source, pattern.flags & ~re.UNICODE)
        for way in ways
        # Where a machine has other work a single measure may suspect any of them.
        if all(is_worse_than_linear(pattern, way, hostile) for _ in range(3))
    ]


# The meter sees what is slow, and nothing else.


@pytest.mark.parametrize(
    ("pattern", "way"),
    [
        (r"[-+]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?", "fullmatch"),  # two runs of digits side by side
        (r"\s+$", "search"),  # begins anew inside of a run
        (r"[a-z]+@", "search"),
        (r"<!DOCTYPE[^>]*\[", "search"),  # what it looks for may begin again before its end
        (r"<a.*?>", "search"),
        (r"\s*(px)?\s*", "fullmatch"),
        (r"\s*(?:right|left)\s+\d+\s*,?\s*", "fullmatch"),
        (r"^(?:\d[\d.,]*°?|[A-Z]{1,3})\W*$", "match"),
        (r"\bcorner (?:of|is)\b[^,.]*$", "search"),
        (r"(a+)+b", "match"),  # each sign doubles the work
        (r"([ ,]+[-\d]+|[-]\d+)*\)", "match"),
        (r"matrix\((?:[-\d]+([ ,]+[-\d]+|-\d+)*)\)", "fullmatch"),
    ],
)
def test_a_slow_pattern_is_seen(pattern: str, way: str) -> None:
    slow, hostile = re.compile(pattern), list(hostile_texts(pattern))
    # Where a machine has other work a single measure may miss it.
    assert any(is_worse_than_linear(slow, way, text) for _ in range(3) for text in hostile)


@pytest.mark.parametrize(
    "pattern",
    [r"[-+]?(\d+(\.\d*)?|\.\d+)([eE][-+]?\d+)?", r"(?<!\s)\s++(?=-)", r"(?>[a-z]+)\b", r"<[^<>]*>", r"[^a-z0-9]+"],
)
def test_a_pattern_that_divides_a_text_in_one_way_is_not(pattern: str) -> None:
    assert slow_texts(re.compile(pattern)) == []


def test_a_loop_is_led_to_by_what_stands_before_it() -> None:
    assert loops_of(r"(?:matrix|scale)\(\s*\d{2}(?:[,;]\d+)*\)") == [
        ("matrix(", " "),
        ("matrix(", "\t"),
        ("matrix(", "\n"),
        ("matrix( 00", ",0"),
        ("matrix(00", ",0"),
        ("matrix( 00,", "0"),
        ("matrix(00,", "0"),
    ]


SOURCE = """
import re
KIND = "[a-z]"
TOP = re.compile(f"{KIND}+1")
TABLE = {"key": re.compile("2")}
def plain(text, default=re.compile("3")):
    return TOP.sub("", text) or re.split(r"4", text) or re.search("5", "")
class Reader:
    own = re.compile("6", re.I)
    def read(self, name):
        return re.compile(rf"{re.escape(name)}7"), [part for part in re.findall("8", name, re.M)]
"""


def test_a_pattern_is_found_wherever_it_stands() -> None:
    tree = ast.parse(SOURCE)
    names = {"KIND": "[a-z]", "name": "x"}
    found = {str(use.pattern.pattern): use for use in uses_in(tree, "a.py", ways_of_names(tree), lambda _: names)}
    assert sorted(found) == ["2", "3", "4", "5", "6", "8", "[a-z]+1", "x7"]
    assert found["[a-z]+1"].ways == ("search",) and found["3"].ways == tuple(sorted(WAYS))
    assert found["6"].pattern.flags & re.I and found["8"].pattern.flags & re.M
    with pytest.raises(NameError):
        list(uses_in(tree, "a.py", {}, lambda _: {"KIND": "a"}))


def test_patterns_come_by_way_of_re_alone() -> None:
    """So that none escapes: nobody takes a function out of `re`, or gives it another name."""
    for file, tree in trees().items():
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom):
                assert node.module != "re", file
            elif isinstance(node, ast.Import):
                assert all(name.name != "regex" and (name.name != "re" or not name.asname) for name in node.names), file


# Every pattern.


WITH_PATTERNS = [path.relative_to(ROOT).as_posix() for path in FILES if "re." in path.read_text(encoding="utf-8")]


def test_every_file_with_a_pattern_is_asked() -> None:
    assert {use.place.partition(":")[0] for use in all_uses().values()} <= set(WITH_PATTERNS)


@pytest.mark.parametrize("file", WITH_PATTERNS)
def test_the_patterns_of_a_file_are_linear(file: str) -> None:
    for use in all_uses().values():
        if use.place.partition(":")[0] == file:
            assert slow_texts(use.pattern, use.ways) == [], use.place


@pytest.mark.parametrize("pattern", sorted(patterns_of_schemas()))
def test_a_pattern_of_a_schema_is_linear(pattern: str) -> None:
    assert slow_texts(re.compile(pattern), ("search",)) == []
