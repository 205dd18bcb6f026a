"""The catalogues: every message for learners in every language there is, read from the .po files beside this module.

British English is the source: its sentences are the ids of the messages, so its catalogue says which messages there
are. Another language is taken only if it has every one of them, each with the same placeholders.
"""

from __future__ import annotations

import hashlib
import io
import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from gettext import GNUTranslations, NullTranslations
from pathlib import Path
from typing import TYPE_CHECKING

from ..cache.place import compiled_store
from ..errors import CatalogueError

if TYPE_CHECKING:
    from babel.messages.catalog import Catalog, Message

__all__ = [
    "LOCALE_FOLDER",
    "SOURCE",
    "Language",
    "faults_of",
    "language_called",
    "languages",
    "placeholders",
    "read_po",
]

SOURCE = "en-GB"
LOCALE_FOLDER = Path(__file__).parent / "locale"

_COMPILED_AS = b"habits, messages 1"  # to be raised where what is looked for or written changes

_STATUS = re.compile(r'^"X-Status: (.*?)(?:\\n)?"$', re.M)
_PLACEHOLDER = re.compile(r"\{([a-z_]+)\}")
_OTHER_BRACE = re.compile(r"[{}]")


@dataclass(frozen=True, slots=True)
class Language:
    """One language, whole.

    tag          : such as "en-GB"
    status       : "" where a speaker has read it, else what to say of it wherever it is offered or used
    translations : the messages
    decimal_sign : what stands between units and tenths
    lists        : how lists are written: patterns with {0} and {1} by the names that Unicode's locale data (CLDR) gives
                   them: "2" (of two), "start", "middle", "end"
    """

    tag: str
    status: str
    translations: GNUTranslations
    decimal_sign: str
    lists: Mapping[str, str]


@cache
def languages() -> dict[str, str]:
    """Every language there is: its tag, and its status as in ``Language``. Reads no messages."""
    found = {}
    for path in sorted(LOCALE_FOLDER.glob("*.po")):
        status = _STATUS.search(path.read_text(encoding="utf-8").partition("\n\n")[0])
        found[path.stem.replace("_", "-")] = status[1] if status else ""
    return found


@cache
def language_called(tag: str) -> Language:
    """The language of a tag; a tag without a region, such as "en", means the first that there is of it.

    Raises : CatalogueError where there is none, or messages of it are missing or broken: all that are wrong at once
    """
    there = languages()
    near = [known for known in there if known == tag or known.split("-")[0] == tag]
    if not near:
        raise CatalogueError(f"there is no catalogue for the language {tag!r}; there is {', '.join(there)}")
    name = near[0]
    head, _, compiled = _compiled(name).partition(b"\n")
    habits = json.loads(head)
    translations = GNUTranslations(io.BytesIO(compiled))
    translations.add_fallback(_Missing())
    return Language(name, there[name], translations, habits["decimal_sign"], habits["lists"])


def read_po(tag: str) -> Catalog:
    """The catalogue of a tag as it stands in its file."""
    from babel.messages.pofile import read_po as read

    with _file_of(tag).open("rb") as file:
        return read(file, locale=tag.replace("-", "_"), abort_invalid=True)


def _file_of(tag: str) -> Path:
    return LOCALE_FOLDER / f"{tag.replace('-', '_')}.po"


def faults_of(catalogue: Catalog, source: Catalog) -> list[str]:
    """Everything that is wrong with a catalogue beside the source, a clause each."""
    faults: list[str] = []
    for message in source:
        if message.id:
            faults += _faults_of_message(message, catalogue.get(message.id, message.context), catalogue.num_plurals)
    for message in catalogue:
        if message.id and source.get(message.id, message.context) is None:
            faults.append(f"{_named(message)} is a message that nobody asks for")
    return faults


def placeholders(text: str) -> set[str]:
    """The names in braces."""
    return set(_PLACEHOLDER.findall(text))


def _faults_of_message(asked: Message, found: Message | None, plurals: int) -> Iterator[str]:
    name = _named(asked)
    if found is None:
        yield f"{name} is missing"
        return
    forms = [form or "" for form in (found.string if isinstance(found.string, list | tuple) else (found.string,))]
    wanted = plurals if asked.pluralizable else 1
    if found.fuzzy or len(forms) != wanted or not all(forms):
        yield f"{name} is not translated{' in every form' if any(forms) else ''}"
        return
    ids = asked.id if isinstance(asked.id, list | tuple) else (asked.id,)
    least, most = placeholders(ids[0]), set().union(*map(placeholders, ids))
    for number, form in enumerate(forms, start=1):
        # The last form speaks of many, so it needs all; an earlier one may leave out a number that is always one.
        needed = most if number == len(forms) else least
        if _OTHER_BRACE.search(_PLACEHOLDER.sub("", form)):
            yield f"{name} has a brace that belongs to no placeholder"
        for missing in sorted(needed - placeholders(form)):
            yield f"{name} lacks the placeholder {{{missing}}}"
        for unknown in sorted(placeholders(form) - most):
            yield f"{name} has the unknown placeholder {{{unknown}}}"


def _named(message: Message) -> str:
    text = message.id[0] if isinstance(message.id, list | tuple) else message.id
    return f'"{text}"' + (f" ({message.context})" if message.context else "")


def _compiled(tag: str) -> bytes:
    """The habits of the language as a line of JSON, then the messages in gettext's binary form.

    Reading a catalogue and looking for its faults takes longer than all else that a check of a small file does, so what
    came of it is kept, under the print of every file that it came from; nobody has to run a step for it.
    """
    files = b"\0".join(_file_of(name).read_bytes() for name in dict.fromkeys((tag, SOURCE)))
    key = hashlib.sha256(b"\n".join((_COMPILED_AS, tag.encode(), files))).hexdigest()
    store = compiled_store()
    kept = store.get(key)
    if kept is not None:
        return kept
    made = _compile(tag)
    store.put(key, made)
    store.trim()
    return made


def _compile(tag: str) -> bytes:
    from babel.core import Locale
    from babel.messages.mofile import write_mo

    catalogue = read_po(tag)
    faults = faults_of(catalogue, catalogue if tag == SOURCE else read_po(SOURCE))
    if faults:
        raise CatalogueError(f"{tag}: {len(faults)} messages cannot be used: {'; '.join(faults)}")
    compiled = io.BytesIO()
    write_mo(compiled, catalogue)
    locale = Locale.parse(tag, sep="-")
    habits = {"decimal_sign": locale.number_symbols["latn"]["decimal"], "lists": dict(locale.list_patterns["standard"])}
    return json.dumps(habits).encode() + b"\n" + compiled.getvalue()


class _Missing(NullTranslations):
    """Asked for what no catalogue has: a sentence of the program that the source language lacks."""

    def gettext(self, message: str) -> str:
        raise CatalogueError(f'"{message}" is in no catalogue: run python -m explainers.words.catalogue_update')

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1)

    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)

    def npgettext(self, context: str, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1)
