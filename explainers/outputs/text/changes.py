"""What changes on the screen from one moment to another, in a few words: for whoever speaks while it is seen.

The whole picture in words is another matter, and stands in the descriptions.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping

from ...figure.model import Entry, Figure, Label, Role
from ...sentences.labels import one_of_several, other_name
from ...words.messages import message, say
from ...words.names import list_in_words

__all__ = ["MOST_SIGNS", "change_in_words"]

MOST_SIGNS = 160

_Thing = tuple[str, frozenset[Entry]]


def change_in_words(before: Figure | None, after: Figure, things: Mapping[tuple[str, str], str]) -> str:
    """The new heading, what is new, gone or changed; of no more signs than MOST_SIGNS.

    before : None at the start, when all is new
    things : as `Storyboard.things`
    """
    old, new = {} if before is None else _things(before, things), _things(after, things)
    told = []
    heading = _heading(after)
    if heading and (before is None or heading != _heading(before)):
        told.append(say("Heading: {heading}.", heading=heading.rstrip(".?!")))
    changed = [name for key, (name, drawn) in new.items() if key in old and old[key][1] != drawn]
    for text, names in (
        (message("New: {things}."), [name for key, (name, _) in new.items() if key not in old]),
        (message("Gone: {things}."), [name for key, (name, _) in old.items() if key not in new]),
        (message("Changed: {things}."), changed),
    ):
        if names:
            told.append(say(text, things=list_in_words(names)))
    return textwrap.shorten(" ".join(told) or say("Nothing changes."), MOST_SIGNS, placeholder=" …")


def _things(figure: Figure, named: Mapping[tuple[str, str], str]) -> dict[str, _Thing]:
    """What is seen, by its group: what it is called, and all that is drawn of it; nothing that has no name."""
    drawn: dict[str, list[Entry]] = {}
    names: dict[str, str | None] = {}
    for entry in figure.entries:
        if entry.opacity <= 0.0 or entry.role in (Role.HEADING, Role.PROGRESS):
            continue
        subject = None if entry.role == Role.PANEL else entry.subject
        key = entry.group if subject is None else subject.group
        drawn.setdefault(key, []).append(entry)
        names[key] = (subject and one_of_several(subject.thing, subject.name, "", named)) or other_name(key)
    return {key: (name, frozenset(drawn[key])) for key, name in names.items() if name}


def _heading(figure: Figure) -> str:
    return next((e.text for e in figure.entries if isinstance(e, Label) and e.role == Role.HEADING), "")
