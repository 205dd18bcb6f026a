"""How many words a text takes to say: figures count as the words they are read out as."""

from __future__ import annotations

import re

__all__ = ["spoken_words", "words_a_minute"]

# A figure with an optional decimal part, a run of letters (an apostrophe inside belongs to it), or a sign that is said.
_SAID = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+(?:['’][^\W\d_]+)*|[°%+=×&]|(?<![^\s(])[-−](?=\d)")


# The sign before tenths, and the one between thousands.
_SIGNS = {"en": (".", ","), "de": (",", ".")}


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
