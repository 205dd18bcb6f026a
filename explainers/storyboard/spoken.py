"""How many words a text takes to say: figures count as the words they are read out as."""

from __future__ import annotations

import re

__all__ = ["spoken_words", "words_a_minute"]

# A figure with an optional decimal part, a run of letters (an apostrophe inside belongs to it), or a sign that is said.
_SAID = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+(?:['’][^\W\d_]+)*|[°%+=×&]|(?<![^\s(])[-−](?=\d)")


def spoken_words(text: str) -> int:
    """Words said when the text is read out in English: "135 degrees" is six, "22.5°" is five.

    A hyphened word counts as its parts ("thirty-five" is two), so that the count never flatters a reading speed.
    """
    return sum(_words_of(said) for said in _SAID.findall(text))


def words_a_minute(text: str, seconds: float) -> float:
    """Reading speed: two words in one second are 120 words a minute (BBC Subtitle Guidelines, section 4)."""
    return spoken_words(text) * 60.0 / seconds


def _words_of(said: str) -> int:
    if not said[0].isdigit():
        return 1
    whole, _, decimals = said.replace(",", "").partition(".")
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
