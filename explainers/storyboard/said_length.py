"""How long a text takes to say, from its letters alone: in syllables, of which an even speaker says so many a second.

Figures count as the words they are read out as, in English. Syllables are counted by their vowels, which is right for
about nine English words in ten, and near enough in other languages with Latin letters; what is asked of it is how long
one sentence is *beside another*.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

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
_PHRASE_END = re.compile(r"(?<=[.!?…,;:–—])[\"'”’)]*\s+|\s+(?=[–—-]\s)")
_VOWELS = re.compile(r"[aeiouyàáâãäåæèéêëìíîïòóôõöøœùúûüýÿ]+")
_SILENT_END = re.compile(r"(?<=[^aeiouy])e$|(?<=[^aeiouytd])ed$|(?<=[^aeiouyszxcg])es$")
_TWO_VOWELS = re.compile(r"i[ao]|eo|[aeiouy]ing|[uo]e[rt]|ua(?!r)")

_ONES = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    *("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_SIGNS = {"°": "degrees", "%": "percent", "+": "plus", "=": "equals", "×": "times", "&": "and", "-": "minus"}


def seconds_to_say(text: str) -> float:
    """Seconds at an even, careful speed; 0 for a text without words."""
    return SYLLABLE_S * syllables(text)


def phrases_to_say(narration: Sequence[str]) -> tuple[tuple[float, bool], ...]:
    """(seconds, whether a sentence ends with it) of each phrase between full stops and commas."""
    found: list[tuple[float, bool]] = []
    for said in narration:
        parts = [part for part in _PHRASE_END.split(said) if _SAID.search(part)]
        for number, part in enumerate(parts, start=1):
            found.append((seconds_to_say(part), number == len(parts) or part.rstrip("\"'”’)")[-1:] in ".!?…"))
    return tuple(found)


def syllables(text: str) -> float:
    """Length of a text in syllables; the ends of words and bunches of consonants count as parts of one."""
    words = [word for said in _SAID.findall(text) for word in _as_words(said)]
    return max(_LEAST, sum(map(_syllables_of, words)) + _SENTENCE) if words else 0.0


def _syllables_of(word: str) -> float:
    if word.isupper() and len(word) <= 3:  # a mark such as K or AB is spelled
        return _SPELLED * len(word)
    plain = word.lower()
    letters = sum(char.isalpha() for char in plain)
    vowels = _VOWELS.findall(plain)
    count = len(vowels) + len(_TWO_VOWELS.findall(plain))
    if count > 1 and _SILENT_END.search(plain):
        count -= 1
    count = max(1, count)
    further = max(0, letters - sum(map(len, vowels)) - count)
    return count + _CONSONANT * further + _WORD


def _as_words(said: str) -> list[str]:
    if not said[0].isdigit():
        return [_SIGNS.get(said.replace("−", "-"), said)]
    whole, _, decimals = said.replace(",", "").partition(".")
    digits = decimals.replace(".", "")
    return [*_whole(int(whole)), *(["point", *(_ONES[int(digit)] for digit in digits)] if digits else [])]


def _whole(number: int) -> list[str]:
    if number < 20:
        return [_ONES[number]]
    if number < 100:
        return [_TENS[number // 10 - 2], *(_whole(number % 10) if number % 10 else [])]
    for size, name in ((10**9, "billion"), (10**6, "million"), (1000, "thousand"), (100, "hundred")):
        if number >= size:
            head, rest = divmod(number, size)
            return [*_whole(head), name, *((["and"] if rest < 100 else []) + _whole(rest) if rest else [])]
    raise AssertionError("every number of three digits or more is at least 100")
