"""How long a text takes to say: in words, and from its letters alone in seconds.

Figures count as the words they are read out as (see `said_numbers`). An even speaker says so many syllables a second;
syllables are counted by their vowels, which is right for about nine English words in ten. The lengths of a word's end
and of bunches of consonants are those of English; for other languages with Latin letters they are assumed, and silent
vowels are looked for in English alone. What is asked of seconds is how long one sentence is *beside another*.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from .said_numbers import as_words

__all__ = ["SYLLABLE_S", "phrases_to_say", "seconds_to_say", "spoken_words", "syllables", "words_a_minute"]

# A figure with an optional decimal part, a run of letters (an apostrophe inside belongs to it), or a sign that is said.
_SAID = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+(?:['’][^\W\d_]+)*|[°%+=×&]|(?<![^\s(])[-−](?=\d)")


# The sign before tenths, and the one between thousands.
_SIGNS = {"en": (".", ","), "de": (",", ".")}

# At this an average sentence comes to 140 words a minute with the pauses between sentences.
SYLLABLE_S = 0.17
# In syllables; least squares on sentences of the demo lessons, said by a machine in two voices (residue 11 %).
_WORD = 0.35  # a word's end takes time of its own ...
_CONSONANT = 0.36  # ... as does each consonant beyond the first of a syllable
_SPELLED = 1.0  # a letter that is said by its name, such as a mark
_SENTENCE = -0.3
_LEAST = 2.4  # a letter alone between two silences is drawn out
_PHRASE_END = re.compile(r"(?<=[.!?…,;:–—])[\"'”’)]*\s+|(?<!\s)\s++(?=[–—-]\s)")
_VOWELS = re.compile(r"[aeiouyàáâãäåæèéêëìíîïòóôõöøœùúûüýÿ]+")
_GERMAN_TWO_VOWELS = re.compile(r"i[ao]|(?:eu|äu|ei|ai|au|ie)(?=[aeiouäöü])")
_SILENT_END = re.compile(r"(?<=[^aeiouy])e$|(?<=[^aeiouytd])ed$|(?<=[^aeiouyszxcg])es$")
_TWO_VOWELS = re.compile(r"i[ao]|eo|[aeiouy]ing|[uo]e[rt]|ua(?!r)")


def spoken_words(text: str, language: str = "en-GB") -> int:
    """Words said when the text is read out: in English "135 degrees" is six, "22.5°" is five.

    In another language figures count as they do in English, for they take about as long; only their signs are read as
    the language writes them.

    A hyphened word counts as its parts ("thirty-five" is two), so that the count never flatters a reading speed.
    """
    return sum(_words_of(said, language) for said in _SAID.findall(text))


def words_a_minute(text: str, seconds: float, language: str = "en-GB") -> float:
    """Reading speed: two words in one second are 120 words a minute (BBC Subtitle Guidelines, section 4)."""
    return spoken_words(text, language) * 60.0 / seconds


def _words_of(said: str, language: str) -> int:
    if not said[0].isdigit():
        return 1
    point, between = _SIGNS.get(language.split("-")[0], _SIGNS["en"])
    whole, _, decimals = said.replace(between, "").replace(point, ".").partition(".")
    digits = decimals.replace(".", "")
    return _words_of_whole(int(whole)) + (1 + len(digits) if digits else 0)


def _words_of_whole(number: int) -> int:
    """Words of a whole number as said in English: 135 is "one hundred and thirty-five", five words."""
    if number < 21:
        return 1
    if number < 100:
        return 1 if number % 10 == 0 else 2
    for size in (10**9, 10**6, 1000, 100):
        if number >= size:
            head, rest = divmod(number, size)
            said = _words_of_whole(head) + 1
            if rest == 0:
                return said
            return said + (1 if rest < 100 else 0) + _words_of_whole(rest)
    raise AssertionError("every number of three digits or more is at least 100")


def seconds_to_say(text: str, language: str = "en") -> float:
    """Seconds at an even, careful speed; 0 for a text without words."""
    return SYLLABLE_S * syllables(text, language)


def phrases_to_say(narration: Sequence[str], language: str = "en") -> tuple[tuple[float, bool], ...]:
    """(seconds, whether a sentence ends with it) of each phrase between full stops and commas."""
    found: list[tuple[float, bool]] = []
    for said in narration:
        parts = [part for part in _PHRASE_END.split(said) if _SAID.search(part)]
        for number, part in enumerate(parts, start=1):
            found.append((seconds_to_say(part, language), number == len(parts) or part.rstrip("\"'”’)")[-1:] in ".!?…"))
    return tuple(found)


def syllables(text: str, language: str = "en") -> float:
    """Length of a text in syllables; the ends of words and bunches of consonants count as parts of one."""
    words = [word for said in _SAID.findall(text) for word in as_words(said, language)]
    spoken = sum(_syllables_of(word, language.split("-")[0]) for word in words)
    return max(_LEAST, spoken + _SENTENCE) if words else 0.0


def _syllables_of(word: str, language: str) -> float:
    if word.isupper() and len(word) <= 3:  # a mark such as K or AB is spelled
        return _SPELLED * len(word)
    plain = word.lower()
    letters = sum(char.isalpha() for char in plain)
    vowels = _VOWELS.findall(plain)
    count = len(vowels) + len((_GERMAN_TWO_VOWELS if language == "de" else _TWO_VOWELS).findall(plain))
    if language == "en" and count > 1 and _SILENT_END.search(plain):
        count -= 1
    count = max(1, count)
    further = max(0, letters - sum(map(len, vowels)) - count)
    return count + _CONSONANT * further + _WORD
