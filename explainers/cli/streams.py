"""Standard output and standard error made safe to print to.

A terminal that cannot show a degree sign gets the word for it; a closed stream swallows what it is given. Characters
that command a terminal, or turn the order of its letters round, come out as their numbers: keys and names of files are
whoever's who wrote them.
"""

from __future__ import annotations

import codecs
import os
import re
import sys
from io import TextIOWrapper

__all__ = ["complain", "harmless", "make_safe", "say", "silence"]

# Controls but tab and line feed, and what overrides the direction of what follows.
_COMMANDS = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ufff9-\ufffb]")

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


def harmless(text: str) -> str:
    """The text with a number for each character that a terminal would obey; JSON stays the same JSON."""
    return _COMMANDS.sub(lambda found: f"\\u{ord(found[0]):04x}", text)


def say(text: str) -> None:
    """A line of results, on standard output."""
    print(harmless(text))


def complain(text: str) -> None:
    """A line about the run, on standard error; after the results printed so far, so that the two read in order."""
    sys.stdout.flush()
    print(harmless(text), file=sys.stderr)
