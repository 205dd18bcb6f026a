"""The catalogues are complete both ways, and one that is not is refused with everything that is wrong with it."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.lists import format_list
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po as parse_po

from explainers.errors import CatalogueError
from explainers.item.shared_reader import DRAFTS, LANGUAGES
from explainers.sentences.writers import draft_line
from explainers.words import catalogue
from explainers.words.catalogue import SOURCE, faults_of, language_called, languages, placeholders, read_po
from explainers.words.catalogue_update import AMERICAN, messages_in_source
from explainers.words.messages import decimal, listed, say, say_as, say_count, speaking, spoken_language

TAGS = sorted(languages())


@pytest.fixture(scope="module")
def asked() -> Catalog:
    """Every message that the source asks for."""
    return messages_in_source()


def messages_of(found: Catalog) -> Iterator[Message]:
    return (message for message in found if message.id)


def forms_of(string: str | tuple[str, ...] | list[str]) -> tuple[str, ...]:
    return (string,) if isinstance(string, str) else tuple(string)


def test_the_languages_that_a_lesson_may_name_are_those_there_are_catalogues_of() -> None:
    assert set(LANGUAGES) == set(languages())
    assert {tag: status for tag, status in languages().items() if status} == DRAFTS
    assert LANGUAGES[0] == SOURCE


@pytest.mark.parametrize("tag", TAGS)
def test_a_catalogue_has_every_message_of_the_source_and_none_besides(tag: str, asked: Catalog) -> None:
    assert len(list(messages_of(asked))) > 400
    assert faults_of(read_po(tag), asked) == [], "run python -m explainers.words.catalogue_update, then translate"


def test_british_sentences_are_what_the_source_says() -> None:
    for message in messages_of(read_po(SOURCE)):
        assert forms_of(message.string) == forms_of(message.id)


def test_american_differs_from_british_in_listed_spellings_only() -> None:
    differing = 0
    for message in messages_of(read_po("en-US")):
        for british, american in zip(forms_of(message.id), forms_of(message.string), strict=True):
            # A placeholder is one word, and stays.
            pairs = zip(*(re.findall(r"\{\w+\}|\W|\w+", text) for text in (british, american)), strict=True)
            for one, other in pairs:
                assert other.lower() == AMERICAN.get(one.lower(), one.lower()), british
            differing += british != american
    assert differing > 20


def test_no_british_spelling_is_left_in_american_sentences() -> None:
    for message in messages_of(read_po("en-US")):
        for form in forms_of(message.string):
            words = set(re.findall(r"[a-z]+", re.sub(r"\{\w+\}", "", form).lower()))
            assert not words & set(AMERICAN), form


@pytest.mark.parametrize("tag", TAGS)
def test_every_message_reads_well_whatever_it_is_filled_with(tag: str) -> None:
    for message in messages_of(read_po(tag)):
        for form in forms_of(message.string):
            filled = form.format(**dict.fromkeys(placeholders(form), "K"))
            assert "{" not in filled and "}" not in filled
            assert filled == " ".join(filled.split()), f"{form!r} has spaces too many"
            assert not re.search(r"\s[.,;:?!]", filled), form
            is_sentence = forms_of(message.id)[0][-1] in ".?"
            assert (form[-1] in ".?") == is_sentence, f"{form!r} must be a sentence only where {message.id!r} is one"


HEAD = (
    'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n'
    '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n'
)
ENGLISH = HEAD + (
    'msgid "Turn {piece}."\nmsgstr "Turn {piece}."\n\n'
    'msgid "Join {piece} to {partner}."\nmsgstr "Join {piece} to {partner}."\n\n'
    'msgid "Look."\nmsgstr "Look."\n\n'
    'msgid "Wait."\nmsgstr "Wait."\n\n'
    'msgid "Stop."\nmsgstr "Stop."\n\n'
    'msgctxt "a label"\nmsgid "cut"\nmsgstr "cut"\n\n'
    'msgid "{count} side"\nmsgid_plural "{count} sides"\nmsgstr[0] "{count} side"\nmsgstr[1] "{count} sides"\n\n'
)
BROKEN = HEAD + (
    'msgid "Turn {piece}."\nmsgstr "Drehe {teil}."\n\n'
    'msgid "Join {piece} to {partner}."\nmsgstr "Lege {piece} an {partner."\n\n'
    'msgid "Look."\nmsgstr ""\n\n'
    '#, fuzzy\nmsgid "Wait."\nmsgstr "Geh."\n\n'
    'msgid "{count} side"\nmsgid_plural "{count} sides"\nmsgstr[0] "{count} Seite"\nmsgstr[1] ""\n\n'
    'msgid "Long gone."\nmsgstr "Lange her."\n\n'
)
FAULTS = [
    '"Turn {piece}." lacks the placeholder {piece}',
    '"Turn {piece}." has the unknown placeholder {teil}',
    '"Join {piece} to {partner}." has a brace that belongs to no placeholder',
    '"Join {piece} to {partner}." lacks the placeholder {partner}',
    '"Look." is not translated',
    '"Wait." is not translated in every form',
    '"Stop." is missing',
    '"cut" (a label) is missing',
    '"{count} side" is not translated in every form',
    '"Long gone." is a message that nobody asks for',
]


def test_everything_that_is_wrong_with_a_catalogue_is_told_at_once() -> None:
    broken, source = (
        parse_po(io.BytesIO(text.encode()), locale=tag) for text, tag in ((BROKEN, "de"), (ENGLISH, "en"))
    )
    assert faults_of(broken, source) == FAULTS
    assert faults_of(source, source) == []


def test_a_language_that_is_not_whole_is_refused_when_it_is_loaded(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "en_GB.po").write_text(ENGLISH, encoding="utf-8")
    (tmp_path / "de.po").write_text(BROKEN, encoding="utf-8")
    monkeypatch.setattr(catalogue, "LOCALE_FOLDER", tmp_path)
    for function in (languages, language_called):
        function.cache_clear()
    try:
        with pytest.raises(CatalogueError) as refused, speaking("de"):
            pytest.fail("nothing may be said in it")
        for fault in FAULTS:
            assert fault in str(refused.value)
        with speaking("en-GB"):
            assert say("Turn {piece}.", piece="it") == "Turn it."
            with pytest.raises(CatalogueError, match="is in no catalogue"):
                say("A sentence that nobody has collected.")
    finally:
        for function in (languages, language_called):
            function.cache_clear()


def test_a_language_without_a_catalogue_is_refused_by_name() -> None:
    with pytest.raises(CatalogueError, match=r"no catalogue for the language 'fr'; there is de, en-GB, en-US"):
        language_called("fr")
    assert language_called("en").tag == "en-GB", "a tag without a region"


def test_a_language_is_spoken_within_its_block_and_nowhere_else() -> None:
    assert spoken_language().tag == "en-GB"
    with speaking("de"):
        assert say("Look for holes") == "Suche nach Löchern"
        with speaking("en-US"):
            assert say_as("a label", "{degrees} anticlockwise", degrees="45°") == "45° counterclockwise"
        assert say_count("It has {count} hole.", "It has {count} holes.", 2) == "Er hat 2 Löcher."
        assert (listed(["A", "B", "C"]), decimal("22.5")) == ("A, B und C", "22,5")
    with pytest.raises(ZeroDivisionError), speaking("de"):
        _ = 1 / 0
    assert spoken_language().tag == "en-GB"
    assert (listed(["A", "B", "C"]), listed(["A", "B"]), listed(["A"]), listed([])) == (
        "A, B and C",
        "A and B",
        "A",
        "",
    )
    assert decimal("22.5") == "22.5"


def test_a_draft_is_told_to_be_one() -> None:
    assert draft_line("de") == "Language de: draft, not yet read by a speaker"
    assert draft_line("en-GB") == draft_line("en-US") == ""


@pytest.mark.parametrize("tag", TAGS)
def test_what_is_kept_of_a_catalogue_says_what_the_file_says(tag: str) -> None:
    language_called.cache_clear()
    anew = language_called(tag)
    language_called.cache_clear()
    kept = language_called(tag)
    assert kept.decimal_sign == anew.decimal_sign
    for message in messages_of(read_po(tag)):
        ids, forms = forms_of(message.id), forms_of(message.string)
        for language in (anew, kept):
            said = language.translations
            if message.context:
                assert len(ids) > 1 or said.pgettext(message.context, ids[0]) == forms[0]
            elif len(ids) == 1:
                assert said.gettext(ids[0]) == forms[0]
            else:
                assert {said.ngettext(ids[0], ids[1], count) for count in (1, 2)} == set(forms)


def test_a_catalogue_that_has_changed_is_read_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("en_GB.po", "de.po"):
        text = (catalogue.LOCALE_FOLDER / name).read_text(encoding="utf-8")
        (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.setattr(catalogue, "LOCALE_FOLDER", tmp_path)
    languages.cache_clear()
    language_called.cache_clear()
    try:
        language_called("de")
        language_called.cache_clear()
        text = (tmp_path / "de.po").read_text(encoding="utf-8")
        (tmp_path / "de.po").write_text(text.replace('msgstr "', 'msgstr "{astray} ', 3), encoding="utf-8")
        with pytest.raises(CatalogueError, match="unknown placeholder"):
            language_called("de")
    finally:
        languages.cache_clear()
        language_called.cache_clear()


@pytest.mark.parametrize("tag", TAGS)
def test_lists_are_written_as_unicode_says_that_the_language_writes_them(tag: str) -> None:
    with speaking(tag):
        for count in range(7):
            words = [f"{{{letter}}}" for letter in "ABCDEFG"[:count]]
            assert listed(words) == format_list(words, locale=tag.replace("-", "_"))
