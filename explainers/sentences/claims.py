"""What somebody's own sentence claims: angles, directions, labels, marks, counts.

Read by rules that would rather miss a claim than invent one.

Numbers may be digits or words ("a hundred and thirty-five"). A claim that is denied ("not clockwise") is none.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import Enum

from ..words.mark_names import signs_by_word

__all__ = [
    "Claim",
    "Vague",
    "angles_in",
    "bare_numbers_in",
    "counts_in",
    "directions_in",
    "in_digits",
    "labels_in",
    "labels_told",
    "marks_in",
    "names",
    "seconds_in",
    "sentences_of",
]


class Vague(Enum):
    """How exactly a figure is meant."""

    NO = "no"
    ABOUT = "about"
    LESS = "less"  # less than the figure
    MORE = "more"


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """A figure that is claimed, and the words that claim it."""

    value: float
    said: str
    vague: Vague = Vague.NO
    noun: str = ""  # of a count: "corner", "side", "hole"; "corner" too where an angle is that of a corner
    slack: float = 0.0  # half of its last digit


_ONES = (
    *("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_VALUES = {word: number for number, word in enumerate(_ONES)} | {word: 10 * n for n, word in enumerate(_TENS, start=2)}
_BELOW_100 = rf"(?:(?:{'|'.join(_TENS)})(?:[- ](?:{'|'.join(_ONES[1:10])}))?|{'|'.join(sorted(_ONES, key=len)[::-1])})"
_SPELLED = re.compile(
    rf"\b(?:(?P<hundreds>a|one|two|three) hundred(?:(?: and)? (?P<rest>{_BELOW_100}))?|(?P<small>{_BELOW_100}))\b", re.I
)


def in_digits(text: str) -> str:
    """The text with numbers in digits: "a hundred and thirty-five degrees" becomes "135 degrees"."""

    def digits(found: re.Match[str]) -> str:
        hundreds = {"a": 1, **_VALUES}[found["hundreds"].lower()] * 100 if found["hundreds"] else 0
        return str(hundreds + _below_100(found["rest"] or found["small"] or ""))

    return _SPELLED.sub(digits, text)


def _below_100(words: str) -> int:
    return sum(_VALUES[word] for word in re.split(r"[- ]", words.lower()) if word)


def sentences_of(text: str) -> list[str]:
    """The sentences of a text; a full stop inside a number ends none."""
    return [sentence for sentence in re.split(r"(?<=[.!?;])\s+", " ".join(text.split())) if sentence]


_WHOLE = r"(?:full |whole |complete )?"
_TURNS = (  # the longer forms first, so that "half of a quarter turn" is not read as a quarter turn
    (r"half (?:of )?a quarter[- ]turn", 45.0),
    (r"quarter[- ]turn and (?:a )?half(?: of (?:another|one|it))?", 135.0),
    (rf"3[- ]quarters?(?: of an?)? {_WHOLE}turn|3[- ]quarters?[- ]turn|3 quarter[- ]turns", 270.0),
    (r"2 quarter[- ]turns", 180.0),
    (rf"(?:an? )?8th (?:of an? )?{_WHOLE}turn|(?:an? )?eighth (?:of an? )?{_WHOLE}turn", 45.0),
    (rf"half(?: of)? an? {_WHOLE}turn|half[- ]turn", 180.0),
    (rf"quarter(?: of an?)? {_WHOLE}turn|quarter[- ]turn", 90.0),
    (r"(?:a|1|one) (?:full|whole|complete) turn", 360.0),
    (r"(?:needs?|takes?|with|makes?) no turn(?:ing)?|without (?:a turn|turning|any turn)", 0.0),
    (r"(?:does not|doesn['’]t|do not|don['’]t) (?:have|need) (?:to (?:be )?turn(?:ed)?|a turn|any turn(?:ing)?)", 0.0),
    (r"(?:by|through) (?:a|1|one) right[- ]angle", 90.0),
)
_ANGLE = re.compile(
    r"(?<!\d)(?:(?P<times>\d++) ?(?:×|x|times) )?(?P<degrees>\d++(?:\.\d++)?)(?: ?°| ?degrees?\b|[- ]degree\b| ?deg\b)|"
    + "|".join(rf"(?P<t{index}>\b(?:{pattern})\b)" for index, (pattern, _) in enumerate(_TURNS)),
    re.I,
)
_NEAR_WORDS = 4  # so many words before a figure say how it is meant
_ABOUT = re.compile(r"\b(?:about|around|roughly|nearly|almost|approximately|just|close to|or so)\b", re.I)
_LESS = re.compile(r"\b(?:less than|under|below|smaller than|at most|up to|no more than|not more than)\b", re.I)
_MORE = re.compile(r"\b(?:more than|over|above|larger than|greater than|at least|further than|beyond|past)\b", re.I)
_DENIED = re.compile(
    r"\b(?:not|never|no|nor|neither|cannot|instead of|rather than|without|unlike|opposite|against|if|would|could|might"
    r"|than)\b|n['’]t\b",
    re.I,
)
_DENIED_AFTER = re.compile(
    r"\b(?:not|never|too|short|wrong|would|could|might|long|longer|only half|other way)\b|n['’]t\b", re.I
)
_OF_A_CORNER = re.compile(r"\b(?:corners?|angles?) (?:of|is|are|has|measures?)\b", re.I)
_PART_END = re.compile(r"[,.]")
_A_CORNER_AFTER = re.compile(r"^[- ](?:corner|angle)", re.I)


def angles_in(sentence: str) -> list[Claim]:
    """The angles and turns that a sentence claims, in degrees without a sign.

    A sentence that says what a quarter turn is in degrees claims neither.
    """
    text = in_digits(sentence)
    found = list(_ANGLE.finditer(text))
    claims = []
    for match in found:
        value, slack = _angle_of(match)
        before, after = _words_before(text, match.start()), text[match.end() :]
        vague = _how(before)
        is_denied = _DENIED.search(before) or _DENIED_AFTER.search(_words_after(text, match.end()))
        if value != 0.0 and vague is Vague.NO and is_denied:
            continue
        noun = "corner" if _OF_A_CORNER.search(_PART_END.split(before)[-1]) or _A_CORNER_AFTER.search(after) else ""
        claims.append(Claim(value=value, said=match[0].strip(), vague=vague, noun=noun, slack=slack))
    if len(claims) == 2 and re.search(r"\bturn (?:is|=|means|makes|measures)\b", text) and _agree(claims):
        return []
    return claims


def _angle_of(match: re.Match[str]) -> tuple[float, float]:
    digits = match["degrees"]
    if digits is not None:
        return float(match["times"] or 1) * float(digits), 0.5 * 10.0 ** -len(digits.partition(".")[2])
    return next(value for index, (_, value) in enumerate(_TURNS) if match[f"t{index}"] is not None), 0.05


def _agree(claims: list[Claim]) -> bool:
    return abs(claims[0].value - claims[1].value) <= claims[0].slack + claims[1].slack


def _words_before(text: str, start: int) -> str:
    clause = re.split(r"[,;:.!?]\s", text[:start])[-1]
    return " ".join(clause.split()[-_NEAR_WORDS:])


def _words_after(text: str, end: int) -> str:
    clause = re.split(r"[,;:.!?](?:\s|$)", text[end:])[0]
    return " ".join(clause.split()[:_NEAR_WORDS])


def _how(before: str) -> Vague:
    for pattern, vague in ((_LESS, Vague.LESS), (_MORE, Vague.MORE), (_ABOUT, Vague.ABOUT)):
        if pattern.search(before):
            return vague
    return Vague.NO


_CLOCK = re.compile(r"\b(?P<against>anti|counter)?[- ]?clockwise\b", re.I)
_TURNING = re.compile(r"\b(?:turn|rotat|spin|swing|twist|swivel)|°|\bdegree|\bquarter\b|\bhalf\b", re.I)
_WALKING = re.compile(
    r"\b(?:count|follow|trace|walk|go(?:es|ing)? (?:a?round|along)|round the (?:outline|shape))\b", re.I
)
_FEW_WORDS = 6  # so short a sentence can only be about the turn


def directions_in(sentence: str) -> list[tuple[float, str]]:
    """Which ways of turning a sentence claims, each as +1 (anticlockwise) or -1 with the words; [] where it walks."""
    if _WALKING.search(sentence) or not (_TURNING.search(sentence) or len(sentence.split()) <= _FEW_WORDS):
        return []
    return [
        (1.0 if found["against"] else -1.0, found[0].strip(" -"))
        for found in _CLOCK.finditer(sentence)
        if not _DENIED.search(_words_before(sentence, found.start()))
        and not _DENIED_AFTER.search(_words_after(sentence, found.end()))
    ]


_LABELS = re.compile(r"\b[Oo]ptions? ((?:[A-F]\b)(?:(?:,? and|,? or|,|,? to) [A-F]\b)*)")
_TOLD = re.compile(
    r"(?:^|[.!;:,] )(?:(?:now|then|next|so|here|in|look at|lay|try|take|turn|give|this is|and|but|let us|put) )*"
    r"options? ([A-F])\b",
    re.I,
)
_ANSWERS = re.compile(r"\b[Aa]nswer (?:is|must be) (?:option )?([A-F])\b|\b([A-F]) is the (?:answer|right one|key)\b")


def labels_in(text: str) -> list[str]:
    """The labels of the options that a text names; "options A to E" names all between."""
    found: list[str] = []
    for match in _LABELS.finditer(text):
        letters = re.findall(r"\b[A-F]\b", match[1])
        if re.search(r"\bto\b", match[1]) and len(letters) == 2:
            letters = [chr(code) for code in range(ord(letters[0]), ord(letters[1]) + 1)]
        found += letters
    found += [first or second for first, second in _ANSWERS.findall(text)]
    return list(dict.fromkeys(found))


def labels_told(text: str) -> list[str]:
    """The labels of the options that a text is about; one that is only compared with is none of them."""
    told = [found[1].upper() for found in _TOLD.finditer(text)]
    return list(dict.fromkeys([*told, *(first or second for first, second in _ANSWERS.findall(text))]))


_BARE_NUMBER = re.compile(r"(?<![\w.])(\d++(?:\.\d++)?)(?! ?°| ?deg|-deg|[\w.]*\d)\b")


def bare_numbers_in(sentence: str) -> list[float]:
    """Numbers without a unit, such as the 45 of "90 degrees and then 45 more"."""
    return [float(digits) for digits in _BARE_NUMBER.findall(in_digits(sentence))]


_MARKED = re.compile(r"\b[Mm]ark(?:s|ed)? (\w{1,3})(?: and (\w{1,3}))?\b|\b[Ss]ides? ([A-Z]{1,3})\b")


# A leaf may be many things: it is a sign where it is looked for, where it meets another, where it is called a mark.
_SIGNS = signs_by_word()
_SIGN = rf"({'|'.join(_SIGNS)})\b(?! (?:block|of)\b|[-’'])"
_SIGNED = re.compile(
    rf"\b(?:find|look for|spot|point (?:at|to)) (?:the|both|two|its)(?: other| two| own)? {_SIGN}"
    rf"|\b(?:the|both|its|two)(?: other| own| two)? {_SIGN}(?= (?:marks?|signs?|meet|touch)\b)"
    rf"|\bthe other {_SIGN}",
    re.I,
)


def marks_in(text: str, known: Collection[str], names: Collection[str] = ()) -> list[str]:
    """The marks that a text names.

    known : the marks there are; another word counts only where it is in capitals or has a digit in it
    names : of the pieces; a word that stands in one of them may be meant for the piece
    """
    named = [mark for marks in _MARKED.findall(text) for mark in marks if mark]
    found = [mark for mark in named if mark in known or any(c.isupper() or c.isdigit() for c in mark)]
    signs = [_SIGNS[word.lower()] for words in _SIGNED.findall(text) for word in words if word]
    return [*found, *(sign for sign in signs if not any(sign in name.lower() for name in names))]


_COUNT = re.compile(
    r"\b(?P<start>has|have|had|there (?:is|are)|counts?|with|all its|of its|its)"
    r"(?: (?:exactly|now|only|also|still|always))? (?P<count>\d+|no) (?P<noun>corner|side|hole)s?\b(?P<after> \w+)?",
    re.I,
)
_PARTIAL = re.compile(r"^ (?:more|extra|fewer|less|too|missing|of|that|which|at|on|where|left|are|is)$", re.I)


def counts_in(sentence: str) -> list[Claim]:
    """How many corners, sides or holes a whole shape is said to have; "3 corners at the top" is no such claim."""
    text = in_digits(sentence)
    claims = []
    for found in _COUNT.finditer(text):
        noun = found["noun"].lower()
        value = 0 if found["count"].lower() == "no" else int(found["count"])
        is_part = found["after"] is not None and _PARTIAL.search(found["after"])
        if is_part or (noun != "hole" and value < 3) or _DENIED.search(_words_before(text, found.start())):
            continue
        claims.append(
            Claim(value=value, said=f"{found['count']} {found['noun']}{'s' if value != 1 else ''}", noun=noun)
        )
    return claims


_TIME = re.compile(
    r"\b(?:(?P<half>half an? minute)|(?:(?P<number>\d+(?:\.\d+)?|an?)(?P<more> and a half)?"
    r" (?P<unit>second|minute)s?(?P<half_after> and a half)?))\b",
    re.I,
)


def seconds_in(sentence: str) -> list[Claim]:
    """The times that a sentence gives, in seconds."""
    text = in_digits(sentence)
    claims = []
    for found in _TIME.finditer(text):
        before = _words_before(text, found.start())
        if _DENIED.search(before):
            continue
        if found["half"]:
            value = 30.0
        else:
            number = 1.0 if found["number"].lower().startswith("a") else float(found["number"])
            number += 0.5 if found["more"] or found["half_after"] else 0.0
            value = number * (60.0 if found["unit"].lower() == "minute" else 1.0)
        claims.append(Claim(value=value, said=found[0], vague=_how(before), slack=0.5))
    return claims


def names(text: str, name: str) -> bool:
    """Whether a text names a piece, hyphens read as spaces, whatever the case."""
    return _named(name).search(text) is not None


def _named(name: str) -> re.Pattern[str]:
    parts: Iterator[str] = (re.escape(part) for part in re.split(r"[-_\s]+", name) if part)
    return re.compile(rf"(?<![\w-]){'[- ]'.join(parts)}(?![\w-])", re.I)
