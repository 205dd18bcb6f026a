"""The events of a YAML text with their places: the one parser of the house, for whoever reads and whoever rewrites.

Two parsers would disagree: on a tab inside a plain text, on how much of a file is good. Places are counted in
characters, lines and columns from 0. Mistakes of YAML itself are said in plain English with a way to mend them.
"""

from __future__ import annotations

from collections.abc import Iterator

import yaml

from .file_text import Unreadable
from .line_slips import colon_missing, comma_missing, indented, left_open, line_above, points_without_bracket

__all__ = ["MAX_DEPTH", "MAX_KEY", "MAX_TEXT", "events_of", "index_of", "line_of", "nested_too_deeply", "syntax_fault"]

MAX_KEY = 200  # characters of a key: the id of a step is the longest that there is
MAX_TEXT = 20_000  # characters of a value: a walk of the most steps, each with all digits of a slanted side
MAX_DEPTH = 12  # the deepest value of the contract (a coordinate of an option's hole) stands 6 levels down

# Eight times as fast as the parser in plain Python, which stands in for it where it has not been built.
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def nested_too_deeply(line: int) -> Unreadable:
    """More lists in lists than any item has."""
    return Unreadable(
        f"lists or mappings are nested more than {MAX_DEPTH} deep",
        "look for a bracket too many; an outline is a list of points [x, y]",
        line,
    )


def syntax_fault(problem: str, context: str, *, line: int, opened: int, text: str) -> Unreadable:
    """The parser's complaint in a teacher's words.

    problem, context : the parser's own words
    line, opened     : where it gave up; where the thing that it was reading began
    text             : the file
    """
    lines = text.splitlines()
    here = lines[line - 1] if 0 < line <= len(lines) else ""
    if "\t" in here[: len(here) - len(here.lstrip())]:
        return Unreadable("this line begins with a tab", "indent with spaces instead of tabs", line)
    if here.lstrip().startswith(":"):
        return Unreadable("a value has no key before its colon", "write the key", line)
    if "nesting depth" in problem:
        return nested_too_deeply(line)
    if "scanning an a" in context:  # an alias or an anchor
        return Unreadable(
            "a value begins with * or &, which YAML keeps for itself", "put the value in quotation marks", line
        )
    if "',' or ']'" in problem or "',' or '}'" in problem:
        if slip := comma_missing(lines, opened, line) or left_open(lines, opened, line):
            return Unreadable(*slip)
        return Unreadable(
            f"the bracket opened on line {opened} is not closed, or a comma is missing in it",
            "close every [ with ] and every { with }, with commas between",
            line,
        )
    if "mapping values are not allowed" in problem:
        if here.count(": ") < 2 and (slip := colon_missing(lines, line_above(lines, line))):
            return Unreadable(*slip)
        return Unreadable(
            "a colon stands where no key can stand",
            "put text that holds a colon in quotation marks, and line the keys up",
            line,
        )
    if "expected ':'" in problem and len(here.partition(":")[0]) > MAX_KEY:
        return Unreadable(
            f"what stands before the colon of this line is longer than a key, which has at most {MAX_KEY} characters",
            "write key: value, and put text into quotation marks",
            line,
        )
    if "expected ':'" in problem:
        general = ("a key on this line has no colon after it", "write key: value, with a colon and a space", opened)
        return Unreadable(*(colon_missing(lines, opened) or general))
    if "expected key" in problem or "'-' indicator" in problem or "<block end>" in problem:
        if slip := points_without_bracket(lines, line) or indented(lines, line):
            return Unreadable(*slip)
        return Unreadable(
            "the indentation of this line does not fit the lines above it",
            "line up keys that belong together, with spaces",
            line,
        )
    if "end of stream" in problem and "quoted scalar" in context:
        return Unreadable("a quotation mark is opened here and never closed", "close the quotation mark", opened)
    if "cannot start any token" in problem:
        return Unreadable(
            "a value begins with a character that YAML keeps for itself", "put the value in quotation marks", line
        )
    return Unreadable(f"the file cannot be read as YAML here: {problem}", "compare this line with a working item", line)


def events_of(text: str) -> Iterator[yaml.Event]:
    """The parser's events; a mistake of YAML stops the reading with a plain sentence.

    Raises: Unreadable
    """
    try:
        yield from yaml.parse(text, Loader=_LOADER)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        # At the end of a file the parser may be one line past the last.
        line = min(mark.line + 1, max(1, len(text.splitlines()))) if mark else 0
        opened = error.context_mark.line + 1 if error.context_mark else line
        raise syntax_fault(error.problem or "", error.context or "", line=line, opened=opened, text=text) from error
    except yaml.YAMLError as error:
        raise Unreadable("the file cannot be read as YAML", "compare it with a working item") from error


def line_of(event: yaml.Event) -> int:
    """The line on which an event begins, counted from 1."""
    return event.start_mark.line + 1 if event.start_mark else 0


def index_of(mark: object) -> int:
    """The place of a mark in the text, in characters."""
    index = getattr(mark, "index", None)
    assert isinstance(index, int)  # the parser marks every event of a text
    return index
