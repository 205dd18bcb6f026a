"""Standard output and standard error made safe to print to.

A terminal that cannot show a degree sign gets the word for it; a closed stream swallows what it is given.
"""

from __future__ import annotations

import codecs
import os
import sys
from io import TextIOWrapper

__all__ = ["complain", "make_safe", "say", "silence"]

# For a terminal that is not UTF-8: what a reader would say aloud, rather than a question mark.
SPOKEN = {
    "°": " degrees",
    "×": "x",
    "·": "*",
    "−": "-",
    "–": "-",
    "—": "-",
    "‑": "-",
    "…": "...",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
    "½": "1/2",
    "¼": "1/4",
    "¾": "3/4",
    "√": "root ",
    "²": "^2",
    "\N{NO-BREAK SPACE}": " ",
    "\N{NARROW NO-BREAK SPACE}": " ",
    "✓": "yes",
    "✗": "no",
    "•": "-",
    "→": "->",
}


def _speak(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    character = error.object[error.start]
    return SPOKEN.get(character, character.encode("ascii", "backslashreplace").decode("ascii")), error.start + 1


def make_safe() -> None:
    """Prepare the streams of this process; called once, before anything is printed."""
    codecs.register_error("explainers.spoken", _speak)
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:  # closed by the shell, as in `explainers check item.yaml >&-`
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115 - lives as long as the process
        elif isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="explainers.spoken")


def silence() -> None:
    """Send what standard output still holds to nowhere, so that no second complaint follows when Python exits."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):  # not a real file, as in a test
        return


def say(text: str) -> None:
    """A line of results, on standard output."""
    print(text)


def complain(text: str) -> None:
    """A line about the run, on standard error; after the results printed so far, so that the two read in order."""
    sys.stdout.flush()
    print(text, file=sys.stderr)
