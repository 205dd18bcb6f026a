"""The events of a YAML text with their places: the one parser of the house, for whoever reads and whoever rewrites.

Two parsers would disagree: on a tab inside a plain text, on how much of a file is good. Places are counted in
characters, lines and columns from 0.
"""

from __future__ import annotations

from collections.abc import Iterator

import yaml

from .file_text import Unreadable
from .syntax import syntax_fault

__all__ = ["events_of", "index_of", "line_of"]

# Eight times as fast as the parser in plain Python, which stands in for it where it has not been built.
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


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
