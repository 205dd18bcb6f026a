"""The small change of language: names, numbers, lengths, angles and turns in words.

What stands in sentences for learners is in the language that is being spoken; what only teachers read at the command
line (``plural``, ``number_of``, ``turn_in_words`` and the like) is English.

Every number is written so that it can be read back out of the finished sentence: "135 degrees anticlockwise",
"3 units", "about 2.8". A number that is written without "about" is the value itself, to within what a teacher's
typing leaves open.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..geometry.tolerance import MEANT_DEG
from .messages import decimal, listed, say, say_as, say_count

__all__ = [
    "a_turn_in_words",
    "area_in_words",
    "count_in_words",
    "degrees_as_sign",
    "degrees_in_words",
    "direction_in_words",
    "is_half_turn",
    "is_no_turn",
    "is_quarter_turn",
    "length_in_words",
    "lengths_in_words",
    "list_in_words",
    "named",
    "number_in_words",
    "number_of",
    "ordinal",
    "plural",
    "point_in_words",
    "sentence_case",
    "the_option",
    "the_piece",
    "turn_in_words",
    "units_in_words",
    "with_unit",
]

# An angle this close to half a degree is said with its decimal, as in 22.5: other decimals are too fine to be spoken.
HALF_DEG = 0.02
PLAIN_LENGTH = 0.001  # a length this close to two decimals is said without "about"

_CARDINALS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_DETERMINERS = frozenset({"the", "a", "an", "my", "our", "your"})


def named(name: str) -> str:
    """A name as it is read aloud: hyphens become spaces."""
    return " ".join(re.split(r"[\s\-_]+", name.strip("-_ \t\n")))


def the_piece(name: str) -> str:
    """A piece in the middle of a sentence: "the flag"; a numbered one has no article: "block 2", "part B"."""
    words = named(name).split(" ")
    if words[0].lower() in _DETERMINERS and len(words) > 1:
        return say_as("a piece with a name of its own", "{name}", name=" ".join(words))
    last = words[-1]
    if len(last) == 1:
        words[-1] = last = last.upper()  # "piece A", since "Give piece a a quarter turn" cannot be read
    if len(last) == 1 or any(letter.isdigit() for letter in last):
        if len(words) == 1:
            return say_as("a piece called by a letter or a number", "piece {name}", name=last)
        return say_as("a piece with a name of its own", "{name}", name=" ".join(words))
    return say_as("a piece", "the {name}", name=" ".join(words))


def the_option(label: str) -> str:
    """An option in the middle of a sentence: "option B"."""
    return f"option {label}"


def sentence_case(text: str) -> str:
    """A text with a capital first letter; nothing else changes, so marks and labels keep their case."""
    return text[:1].upper() + text[1:]


def plural(noun: str) -> str:
    """The plural of a plain English noun: corners, patches, bodies."""
    if re.search(r"(s|x|z|ch|sh)$", noun):
        return noun + "es"
    if re.search(r"[^aeiou]y$", noun):
        return noun[:-1] + "ies"
    return noun + "s"


def number_of(count: int, noun: str) -> str:
    """How many, in figures: "1 corner", "2 corners", "no holes"."""
    if count == 0:
        return f"no {plural(noun)}"
    return f"{count} {noun if count == 1 else plural(noun)}"


def count_in_words(count: int, noun: str) -> str:
    """How many, in words up to ten: "one piece", "two pieces"; figures above."""
    if 0 <= count < len(_CARDINALS):
        return f"{_CARDINALS[count]} {noun if count == 1 else plural(noun)}"
    return number_of(count, noun)


def ordinal(number: int) -> str:
    """ "first", "second" ... "tenth", then "11th", "12th", "21st"."""
    if 1 <= number <= len(_ORDINALS):
        return _ORDINALS[number - 1]
    ending = "th" if 10 <= number % 100 <= 20 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")
    return f"{number}{ending}"


def number_in_words(count: int) -> str:
    """A number of things, 2 or more, as a word up to ten; in figures above."""
    words = (
        *(say_as("how many", "two"), say_as("how many", "three"), say_as("how many", "four")),
        *(say_as("how many", "five"), say_as("how many", "six"), say_as("how many", "seven")),
        *(say_as("how many", "eight"), say_as("how many", "nine"), say_as("how many", "ten")),
    )
    return words[count - 2] if 2 <= count <= 10 else str(count)


def list_in_words(words: Sequence[str]) -> str:
    """A list as it is spoken: "A", "A and B", "A, B and C"; "" for an empty one."""
    return listed(words)


def length_in_words(length: float, *, decimals: int = 1) -> str:
    """A length in the teacher's units: "3", "1.25", "about 2.8"; at most two decimals, none when whole.

    decimals : how many an "about" keeps, 1 or 2
    """
    plain = round(length, 2)
    if abs(length - plain) <= PLAIN_LENGTH and (plain or not length):
        return _trimmed(plain, 2)
    near = round(length, decimals)
    return _about(_trimmed(near, decimals) if near else decimal(f"{length:.2g}"))


def lengths_in_words(one: float, other: float) -> tuple[str, str]:
    """Two different lengths so that their words differ too: "about 2.83" beside "about 2.77"."""
    for decimals in (1, 2):
        words = length_in_words(one, decimals=decimals), length_in_words(other, decimals=decimals)
        if words[0] != words[1]:
            return words
    return _about(decimal(f"{one:.4g}")), _about(decimal(f"{other:.4g}"))


def _about(digits: str) -> str:
    return say_as("a length", "about {digits}", digits=digits)


def _trimmed(number: float, decimals: int) -> str:
    digits = f"{number:.{decimals}f}"
    return decimal(digits.rstrip("0").rstrip(".") if "." in digits else digits)


def units_in_words(length: float) -> str:
    """A length with its unit: "1 unit", "3 units", "about 2.8 units".

    The sheet shows no grid, so lengths are not called squares; whoever typed the item knows what its unit is.
    """
    return with_unit(length_in_words(length), "unit")


def area_in_words(area: float) -> str:
    """An area with its unit: "1 square unit", "12 square units"."""
    return with_unit(length_in_words(area), "square unit")


def with_unit(digits: str, unit: str) -> str:
    """Digits from ``length_in_words`` with a unit that agrees with them."""
    return f"{digits} {unit}" if digits == "1" else f"{digits} {plural(unit)}"


def point_in_words(point: tuple[float, float]) -> str:
    """Where a point is, for a teacher who has the file: "(4, 2.828)"."""
    x, y = (f"{round(number, 3) + 0.0:g}" for number in point)
    return f"({x}, {y})"


def degrees_in_words(angle_deg: float, *, decimals: int = 0) -> str:
    """A size of angle: "1 degree", "45 degrees", "22.5 degrees", "about 37 degrees". The sign is left to others.

    decimals : how many an "about" keeps, 0 or 1
    """
    digits, itself = _plain_degrees(abs(angle_deg), decimals)
    number = int(digits) if digits.isdigit() else 2  # what has a decimal is told of like several
    if itself:
        return say_count("{degrees} degree", "{degrees} degrees", number, degrees=decimal(digits))
    return say_count("about {degrees} degree", "about {degrees} degrees", number, degrees=decimal(digits))


def degrees_as_sign(angle_deg: float) -> str:
    """A size of angle as a label has it: "45°", "about 37°". The sign is left to others."""
    digits, itself = _plain_degrees(abs(angle_deg), 0)
    if itself:
        return say("{degrees}°", degrees=decimal(digits))
    return say("about {degrees}°", degrees=decimal(digits))


def _plain_degrees(angle_deg: float, decimals: int) -> tuple[str, bool]:
    """(digits of a size of angle, whether they are the angle itself)."""
    whole = round(angle_deg)
    if abs(angle_deg - whole) <= MEANT_DEG:
        return str(whole), True
    tenth = f"{angle_deg:.1f}"
    if abs(angle_deg - float(tenth)) <= HALF_DEG and (decimals or whole % 45 == 0 or tenth.endswith(".5")):
        return tenth, True
    # "about 90 degrees" beside a true 90 would be a riddle, so the angles that learners know keep a decimal.
    return (tenth if decimals or whole % 45 == 0 else str(whole)), False


def is_no_turn(turn_deg: float) -> bool:
    """Whether a turn is so small that it is said to be none."""
    return abs(turn_deg) <= MEANT_DEG


def is_half_turn(turn_deg: float) -> bool:
    """Whether a turn is said to be half a turn, either way round."""
    return abs(abs(turn_deg) - 180.0) <= MEANT_DEG


def is_quarter_turn(turn_deg: float) -> bool:
    """Whether a turn is said to be a quarter turn."""
    return abs(abs(turn_deg) - 90.0) <= MEANT_DEG


def direction_in_words(turn_deg: float) -> str:
    """Which way a turn goes; anticlockwise is positive."""
    return "anticlockwise" if turn_deg > 0 else "clockwise"


def turn_in_words(turn_deg: float) -> str:
    """A turn as a thing that is given or made: "no turn", "half a turn", "a quarter turn clockwise",
    "135 degrees anticlockwise".

    turn_deg : in (-180, 180], anticlockwise positive: already the shorter way round
    """
    if is_no_turn(turn_deg):
        return "no turn"
    if is_half_turn(turn_deg):
        return "half a turn"
    if is_quarter_turn(turn_deg):
        return f"a quarter turn {direction_in_words(turn_deg)}"
    return f"{degrees_in_words(turn_deg)} {direction_in_words(turn_deg)}"


def a_turn_in_words(turn_deg: float) -> str:
    """A turn as a thing with an article: "half a turn", "a turn of 135 degrees clockwise"; "no turn" for none."""
    words = turn_in_words(turn_deg)
    return words if words.startswith(("no ", "half ", "a quarter ")) else f"a turn of {words}"
