"""How long a text takes to say, from its letters alone: in syllables, of which an even speaker says so many a second.

Figures count as the words they are read out as (see `said_numbers`). Syllables are counted by their vowels, which is
right for about nine English words in ten. The lengths of a word's end and of bunches of consonants are those of
English; for other languages with Latin letters they are assumed, and silent vowels are looked for in English alone.
What is asked of it is how long one sentence is *beside another*.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from .said_numbers import as_words

__all__ = ["SYLLABLE_S", "phrases_to_say", "seconds_to_say", "syllables"]

# At this an average sentence comes to 140 words a minute with the pauses between sentences.
SYLLABLE_S = 0.17
# In syllables; least squares on sentences of the demo lessons, said by a machine in two voices (residue 11 %).
_WORD = 0.35  # a word's end takes time of its own ...
_CONSONANT = 0.36  # ... as does each consonant beyond the first of a syllable
_SPELLED = 1.0  # a letter that is said by its name, such as a mark
_SENTENCE = -0.3
_LEAST = 2.4  # a letter alone between two silences is drawn out

_SAID = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+(?:['’][^\W\d_]+)*|[°%+=×&]|(?<![^\s(])[-−](?=\d)")
_PHRASE_END = re.compile(r"(?<=[.!?…,;:–—])[\"'”’)]*\s+|(?<!\s)\s++(?=[–—-]\s)")
_VOWELS = re.compile(r"[aeiouyàáâãäåæèéêëìíîïòóôõöøœùúûüýÿ]+")
_GERMAN_TWO_VOWELS = re.compile(r"i[ao]|(?:eu|äu|ei|ai|au|ie)(?=[aeiouäöü])")
_SILENT_END = re.compile(r"(?<=[^aeiouy])e$|(?<=[^aeiouytd])ed$|(?<=[^aeiouyszxcg])es$")
_TWO_VOWELS = re.compile(r"i[ao]|eo|[aeiouy]ing|[uo]e[rt]|ua(?!r)")


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
