"""Figures and signs as the words that they are read out as, by language; only to know how long they take to say.

English is held to tests. German is a draft that no speaker has read. In any other language figures are counted as if
they were read out in English, which is off by the difference of the two languages' words for a number.
"""

from __future__ import annotations

from collections.abc import Callable

__all__ = ["as_words"]

_ONES = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"),
    *("ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_SIGNS = {"°": "degrees", "%": "percent", "+": "plus", "=": "equals", "×": "times", "&": "and", "-": "minus"}

_GERMAN_ONES = (
    *("null", "eins", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun", "zehn", "elf", "zwölf"),
    *("dreizehn", "vierzehn", "fünfzehn", "sechzehn", "siebzehn", "achtzehn", "neunzehn"),
)
_GERMAN_TENS = ("zwanzig", "dreißig", "vierzig", "fünfzig", "sechzig", "siebzig", "achtzig", "neunzig")
_GERMAN_SIGNS = {"°": "Grad", "%": "Prozent", "+": "plus", "=": "gleich", "×": "mal", "&": "und", "-": "minus"}


def as_words(said: str, language: str) -> list[str]:
    """The words of one number or sign; anything else as it stands.

    said : digits with decimals and thousands as the language writes them, or a sign, or a word
    """
    if language.split("-")[0] == "de":
        return _read(said.replace(".", "").replace(",", "."), said, _GERMAN_SIGNS, "Komma", _GERMAN_ONES, _german)
    return _read(said.replace(",", ""), said, _SIGNS, "point", _ONES, _english)


def _read(
    plain: str,
    said: str,
    signs: dict[str, str],
    point: str,
    ones: tuple[str, ...],
    whole_of: Callable[[int], list[str]],
) -> list[str]:
    if not said[0].isdigit():
        return [signs.get(said.replace("−", "-"), said)]
    whole, _, decimals = plain.partition(".")
    digits = [ones[int(digit)] for digit in decimals.replace(".", "")]
    return [*whole_of(int(whole)), *([point, *digits] if digits else [])]


def _english(number: int) -> list[str]:
    if number < 20:
        return [_ONES[number]]
    if number < 100:
        return [_TENS[number // 10 - 2], *(_english(number % 10) if number % 10 else [])]
    for size, name in ((10**9, "billion"), (10**6, "million"), (1000, "thousand"), (100, "hundred")):
        if number >= size:
            head, rest = divmod(number, size)
            return [*_english(head), name, *((["and"] if rest < 100 else []) + _english(rest) if rest else [])]
    raise AssertionError("every number of three digits or more is at least 100")


def _german(number: int) -> list[str]:
    """One word, up to a million."""
    if number >= 10**6:
        head, rest = divmod(number, 10**6)
        name = "Million" if head == 1 else "Millionen"
        return [*(["eine"] if head == 1 else _german(head)), name, *(_german(rest) if rest else [])]
    return [_german_word(number)]


def _german_word(number: int, before: bool = False) -> str:
    """`before` a further part of the word, one is said without its last sound."""
    if number < 20:
        return "ein" if number == 1 and before else _GERMAN_ONES[number]
    if number < 100:
        one = number % 10
        return (f"{_german_word(one, before=True)}und" if one else "") + _GERMAN_TENS[number // 10 - 2]
    size, name = (1000, "tausend") if number >= 1000 else (100, "hundert")
    head, rest = divmod(number, size)
    return f"{_german_word(head, before=True)}{name}{_german_word(rest) if rest else ''}"
