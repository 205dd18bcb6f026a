"""Where a spoken sentence is cut into captions, so that no phrase is torn.

Each gap between two words has a price: cheap after a comma or before "and", dear between "the" and its noun or between
a figure and its unit. The cut with the lowest sum of prices is taken, by dynamic programming over the gaps; a caption
costs something too, so that a sentence that fits stays whole.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from itertools import accumulate

from .function_words import FunctionWords, function_words
from .spoken import spoken_words

__all__ = ["CaptionShape", "captions_of"]

CaptionLines = tuple[str, ...]

_STOP = re.compile(r"[.!?:;…][\"'”’)]*$")
_COMMA = re.compile(r"[,–—][\"'”’)]*$")
_FIGURE_OR_LETTER = re.compile(r"^(?:\d[\d.,]*+°?|[A-Z]{1,3})\W*$")

_LISTED = re.compile(r"^(?:\d[\d.]*|[A-Z]{1,3}),$")
_BARE_FIGURE = re.compile(r"^\d[\d.,]*$")


_PRICE_STOP = 0.0
_PRICE_COMMA = 1.0
_PRICE_LINK = 2.0
_PRICE_PLACER = 4.0
_PRICE_VERB = 11.0
_PRICE_PLAIN = 15.0
_PRICE_LED = 20.0  # after "with", "through"
_PRICE_TORN = 30.0
_PRICE_CAPTION = 7.0
_PRICE_FEW_WORDS = 9.0
_FEW_WORDS = 3  # a caption of fewer words, cut off a longer sentence, flickers by


@dataclass(frozen=True, slots=True, kw_only=True)
class CaptionShape:
    """What one caption may hold."""

    max_lines: int = 2
    max_characters: int = 37  # in one line
    max_words: int = 13  # spoken words
    language: str = "en-GB"  # of the words


def captions_of(sentence: str, shape: CaptionShape) -> tuple[CaptionLines, ...]:
    """The sentence as captions, each of one or more lines; () where there are no words.

    Words and their order never change. A single word longer than a line stands alone on a line of its own.
    """
    words = tuple(sentence.split())
    if not words:
        return ()
    return tuple(_lines(words[start:end], shape) for start, end in _cuts(words, shape))


def _cuts(words: tuple[str, ...], shape: CaptionShape) -> list[tuple[int, int]]:
    """(first word, word after the last) of each caption."""
    count = len(words)
    little = function_words(shape.language)
    said = [0, *accumulate(spoken_words(word, shape.language) for word in words)]  # no spoken word spans a space
    reach = _reach(words, said, shape)
    best: list[tuple[float, int]] = [(0.0, 0)]  # cheapest way to caption words[:end], and where its last caption starts
    for end in range(1, count + 1):
        options = []
        gap_price = _gap_price(words, end, little) if end < count else 0.0
        for start in range(end - 1, -1, -1):
            if reach[start] < end:
                break
            price = best[start][0] + _PRICE_CAPTION + gap_price
            if end - start < _FEW_WORDS and (start, end) != (0, count):
                price += _PRICE_FEW_WORDS
            # Of two equal cuts the more even one wins: long captions cost a little more than their share.
            price += 0.5 * ((said[end] - said[start]) / shape.max_words) ** 2
            options.append((price, start))
        best.append(min(options))
    spans = []
    end = count
    while end > 0:
        start = best[end][1]
        spans.append((start, end))
        end = start
    return spans[::-1]


def _reach(words: tuple[str, ...], said: list[int], shape: CaptionShape) -> list[int]:
    """For each word, the word after the last that fits into one caption with it; a single word always fits."""
    count = len(words)
    reach = []
    for start in range(count):
        lines, length, end = 1, len(words[start]), start + 1
        whole = length <= shape.max_characters
        while whole and end < count and said[end + 1] - said[start] <= shape.max_words:
            word = len(words[end])
            if length + 1 + word <= shape.max_characters:
                length += 1 + word
            elif lines < shape.max_lines and word <= shape.max_characters:
                lines, length = lines + 1, word
            else:
                break
            end += 1
        reach.append(end)
    return reach


def _filled(words: tuple[str, ...], shape: CaptionShape) -> CaptionLines:
    """The fewest lines that hold the words, each as full as can be."""
    lines = [words[0]]
    for word in words[1:]:
        if len(lines[-1]) + 1 + len(word) <= shape.max_characters:
            lines[-1] += " " + word
        else:
            lines.append(word)
    return tuple(lines)


def _lines(words: tuple[str, ...], shape: CaptionShape) -> CaptionLines:
    """The words on the fewest lines, broken where it hurts least and as evenly as that allows."""
    count = len(_filled(words, shape))
    if count <= 1:
        return (" ".join(words),)

    even = len(" ".join(words)) / count
    little = function_words(shape.language)

    def slack_price(line: str) -> float:
        # Grows with the square of what a line lacks of its even share, at the scale of the gap prices.
        return ((len(line) - even) / 3.5) ** 2

    @cache
    def best(start: int, lines: int) -> tuple[float, CaptionLines] | None:
        if lines == 1:
            line = " ".join(words[start:])
            fits = len(line) <= shape.max_characters or start == len(words) - 1
            return (slack_price(line), (line,)) if fits else None
        found: tuple[float, CaptionLines] | None = None
        for end in range(start + 1, len(words) - lines + 2):
            line = " ".join(words[start:end])
            if len(line) > shape.max_characters and end > start + 1:
                break
            rest = best(end, lines - 1)
            if rest is None:
                continue
            price = rest[0] + slack_price(line) + _gap_price(words, end, little)
            if found is None or price < found[0]:
                found = (price, (line, *rest[1]))
        return found

    broken = best(0, count)
    return broken[1] if broken is not None else _filled(words, shape)


def _gap_price(words: tuple[str, ...], index: int, little: FunctionWords) -> float:
    """Price of a cut before words[index]."""
    before, after = words[index - 1], words[index]
    if _STOP.search(before):
        return _PRICE_STOP
    if _LISTED.match(before):
        return _PRICE_PLAIN  # "A, | B and C"
    if _COMMA.search(before):
        return _PRICE_COMMA
    if _LISTED.match(after):
        return _PRICE_PLACER  # "the options | A, B and C"
    before_word, after_word = before.lower().strip("\"'“”‘’("), after.lower().strip(".,;:!?\"'“”‘’()")
    if before_word in little.placers:
        return _PRICE_LED
    if _FIGURE_OR_LETTER.match(after) or before_word in (little.leaders | little.links) or after_word in little.owners:
        return _PRICE_TORN  # "side K", "option B", "the | flag", "half | of it"
    if after_word in little.links:
        return _PRICE_LINK
    if before_word in little.verbs:
        return _PRICE_PLAIN if after_word in little.placers else _PRICE_TORN  # "lies | on the left", "is | round"
    if after_word in little.placers:
        return _PRICE_PLACER
    if _BARE_FIGURE.match(before):
        return _PRICE_TORN  # "135 degrees"
    return _PRICE_VERB if after_word in little.verbs else _PRICE_PLAIN
