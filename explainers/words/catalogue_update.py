"""For contributors: bring the catalogues in line with the sentences in the source.

    python -m explainers.words.catalogue_update

British English says what the source says. American English is the same in the spellings of a table below. In any other
language a new sentence is left empty, to be translated; what nobody asks for any more is taken out.
"""

from __future__ import annotations

import re
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_file
from babel.messages.pofile import write_po

from .catalogue import LOCALE_FOLDER, SOURCE, languages, read_po
from .messages import KEYWORDS

__all__ = ["AMERICAN", "american", "messages_in_source", "update"]

_ASKS = re.compile(r"^from [.\w]*\bmessages import", re.M)

# British -> American, a word each; all that the two catalogues may differ in, beside how a list is written.
AMERICAN = {
    "anticlockwise": "counterclockwise",
    "practise": "practice",
    "practising": "practicing",
    "ticking": "checking",
    "colour": "color",
    "centre": "center",
    "licence": "license",
    "round": "around",
}


def messages_in_source() -> Catalog:
    """Every message that a module of ours asks for, with where it stands.

    A module asks for messages where it takes its words from ``messages``: elsewhere `say` may be another function.
    """
    house = Path(__file__).parents[1]
    found = Catalog(fuzzy=False)
    for path in sorted(house.rglob("*.py")):
        if not _ASKS.search(path.read_text(encoding="utf-8")):
            continue
        name = path.relative_to(house).as_posix()
        for line, ids, _, context in extract_from_file("python", path, keywords=dict(KEYWORDS)):
            found.add(ids, locations=[(name, line)], context=context)
    return found


def american(text: str) -> str:
    """British words in American spelling."""

    def spelled(word: re.Match[str]) -> str:  # a placeholder is no word, and stays
        other = AMERICAN.get(word[0].lower())
        if other is None:
            return word[0]
        return other[0].upper() + other[1:] if word[0][0].isupper() else other

    return re.sub(r"\{[a-z_]+\}|[A-Za-z]+", spelled, text)


def update() -> list[str]:
    """Write the catalogues anew; what is left to translate, a line each."""
    asked = messages_in_source()
    left = []
    for tag in languages():
        old = read_po(tag)
        new = Catalog(
            locale=tag.replace("-", "_"), fuzzy=False, header_comment=old.header_comment, charset="utf-8",
            project="explainers", version="0", copyright_holder="", msgid_bugs_address="", last_translator="",
            language_team="",
        )  # fmt: skip
        for message in asked:
            if not message.id:
                continue
            known = old.get(message.id, message.context)
            string = known.string if known is not None else None
            ids = message.id if isinstance(message.id, tuple | list) else (message.id,)
            if tag == SOURCE:
                string = tuple(ids) if len(ids) > 1 else ids[0]
            elif tag == "en-US":
                string = tuple(map(american, ids)) if len(ids) > 1 else american(ids[0])
            if not (all(string) if isinstance(string, tuple | list) else string):
                left.append(f"{tag}: {ids[0]}")
            new.add(message.id, string, context=message.context, auto_comments=_modules(message.locations))
        _write(tag, new)
    return left


def _modules(locations: list[tuple[str, int]]) -> list[str]:
    """Where a message is asked for; no lines, so that an edit elsewhere in a module changes no catalogue."""
    return sorted({name for name, _ in locations})


def _write(tag: str, catalogue: Catalog) -> None:
    status = languages()[tag]
    path = LOCALE_FOLDER / f"{tag.replace('-', '_')}.po"
    with path.open("wb") as file:
        write_po(file, catalogue, omit_header=True, width=100, sort_output=True)
    body = path.read_text(encoding="utf-8")
    header = [
        'msgid ""', 'msgstr ""', f'"Language: {tag.replace("-", "_")}\\n"', '"MIME-Version: 1.0\\n"',
        '"Content-Type: text/plain; charset=utf-8\\n"', '"Content-Transfer-Encoding: 8bit\\n"',
        f'"Plural-Forms: {catalogue.plural_forms}\\n"',
    ]  # fmt: skip
    header += [f'"X-Status: {status}\\n"'] if status else []
    path.write_text("\n".join(header) + "\n\n" + body, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    untranslated = update()
    print("\n".join(untranslated) if untranslated else "Every message is in every catalogue.")
