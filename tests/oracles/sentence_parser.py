"""Reads numbers, directions and names back out of finished sentences, by rules of its own.

It shares no code with ``explainers.sentences``: what it finds is compared with the
facts that the sentences were made from.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

__all__ = [
    "Amount",
    "amounts_of",
    "counts_of",
    "faults_of",
    "marks_of",
    "moved_part_of",
    "options_of",
    "piece_named_in",
    "ratios_of",
    "slips_of",
    "turn_of",
    "words_in",
]

_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_SMALL = {word: number for number, word in enumerate(_WORDS)}

# What a sign is called, one and several.
_SIGNS = {"leaf": "leaf", "leaves": "leaf"} | {
    form: sign
    for sign in ("button", "bell", "spool", "heart", "boat", "ribbon", "tulip", "teacup")
    for form in (sign, f"{sign}s")
}

_NOUNS = "degree|corner|side|hole|unit|second|minute|piece|question|option"
_NUMBER = r"\d+(?:\.\d+)?(?:e-?\d+)?"


@dataclass(frozen=True)
class Amount:
    """A number read out of a sentence."""

    value: float
    about: bool  # the sentence says "about"
    unit: str  # "degrees", "units", ... always in the plural; "" where none follows


def amounts_of(text: str) -> list[Amount]:
    """Every number written in digits, with the word after it."""
    found = []
    for about, digits, unit in re.findall(rf"(about )?(?<![\w.])({_NUMBER})(?: ([a-z]+))?", text):
        noun = unit if not unit or unit.endswith("s") else unit + "s"
        found.append(Amount(float(digits), bool(about), noun))
    return found


def counts_of(text: str, noun: str) -> list[int]:
    """How many of a noun the text says there are, in digits or in words: [7] for "7 corners", [0] for "no holes"."""
    found = re.findall(rf"\b(\d+|{'|'.join(_SMALL)}) {noun}s?\b", text, flags=re.IGNORECASE)
    return [int(word) if word.isdigit() else _SMALL[word.lower()] for word in found]


def turn_of(text: str) -> tuple[float, bool] | None:
    """(turn in degrees, anticlockwise positive, whether "about" was said) of the turn the text asks for, or None.

    Half a turn is 180; "needs no turn" is 0.
    """
    if re.search(r"\bno turn\b|\bwithout a turn\b", text):
        return 0.0, False
    if re.search(r"\bhalf a turn\b(?! to)", re.sub(r"less than half a turn", "", text)):
        return 180.0, False
    sign = {"clockwise": -1.0, "anticlockwise": 1.0}
    quarter = re.search(r"\ba quarter turn (clockwise|anticlockwise)\b", text)
    if quarter:
        return 90.0 * sign[quarter[1]], False
    degrees = re.search(rf"\b(about )?({_NUMBER}) degrees? (clockwise|anticlockwise)\b", text)
    if degrees:
        return float(degrees[2]) * sign[degrees[3]], bool(degrees[1])
    return None


def marks_of(text: str) -> list[str]:
    """Every mark that the text names: its letters, or the sign that it is."""
    letters = r"\bmarks? (\S{1,3}?)(?=[\s.,;:]|$)(?<!meet)"
    signs = rf"\b(?:[Ff]ind the|[Tt]he other) ({'|'.join(_SIGNS)})\b|\b[Tt]he ({'|'.join(_SIGNS)})\b(?= meet)"
    return [match[1] or _SIGNS[match[2] or match[3]] for match in re.finditer(f"{letters}|{signs}", text)]


def options_of(text: str) -> list[str]:
    """The labels of every option the text names, in its order: ["B", "D"] for "options B and D"."""
    named = re.findall(r"\b[Oo]ptions? ([A-F](?:, [A-F])*(?: and [A-F])?)\b", text)
    return [label for labels in named for label in re.findall(r"[A-F]", labels)]


# Each kind of slip by the words that no other has; what stands before them is the piece.
_SLIPS = (
    ("flipped", r"(?P<outline>the outline) is flipped over"),
    ("piece-flipped", r"(?P<piece>.+) is flipped before the marks meet"),
    ("not-turned", r"(?P<piece>.+) slides into place without a turn"),
    ("turned-back", r"(?P<piece>.+) is turned the wrong way"),
    ("next-side", r"(?P<piece>.+) meets the next side of (?P<partner>.+)"),
    ("side-before", r"(?P<piece>.+) meets the side before the marked one"),
    ("slid", r"(?P<piece>.+) slides along the side, off its mark"),
    ("other-way-round", r"(?P<piece>.+) is (?P<done>joined|cut away), not (?P<asked>joined|cut away)"),
    ("left-out", r"(?P<piece>.+) is left out"),
    ("too-large", r"(?P<piece>.+) is too large"),
    ("too-small", r"(?P<piece>.+) is too small"),
    ("swapped", r"(?P<piece>.+) and (?P<other>.+) change places"),
)
_FRAMES = (r"In option [A-F], (.+)\.", r"Also, (.+)\.")


def slips_of(sentences: Iterable[str]) -> list[tuple[str, dict[str, str]]]:
    """The slips that the sentences tell of, each with what it names: ("left-out", {"piece": "the flag"})."""
    clauses = [found[1] for said in sentences for frame in _FRAMES if (found := re.fullmatch(frame, said))]
    told = []
    for clause in clauses:
        kinds = [(kind, found.groupdict()) for kind, rule in _SLIPS if (found := re.fullmatch(rule, clause))]
        if len(kinds) != 1:
            raise ValueError(f"{clause!r} tells of {len(kinds)} kinds of slip")
        told += kinds
    return told


def ratios_of(sentences: Iterable[str]) -> list[float]:
    """Each ratio of two sides that is told, first side over second: [2.0, 1.0] for "2 times as long as the next" in
    one sentence and "equally long" in another; below 1 where it is the second that is so many times as long."""
    found = []
    for sentence in sentences:
        if re.search(r"\btwo sides\b.*\bequally long\b", sentence):
            found.append(1.0)
        for before, times in re.findall(rf"(.*?)({_NUMBER}) times as long", sentence):
            found.append(1.0 / float(times) if re.search(r"\bthe next one is longer\b", before) else float(times))
    return found


def moved_part_of(sentences: Iterable[str]) -> tuple[str, bool] | None:
    """(part or gap, whether it is said to be on the side next to the one shown) where one has moved, or None."""
    text = " ".join(sentences)
    found = re.search(r"Here option [A-F] has a (part|gap) where the outline has none\. (.*)", text)
    if found is None:
        return None
    where = re.match(rf"In the outline, that {found[1]} is on (the side next to this one|another side)\.", found[2])
    return None if where is None else (found[1], where[1] != "another side")


def piece_named_in(text: str, name: str) -> bool:
    """Whether the text names this piece, hyphens read as spaces."""
    spoken = r"\s+".join(re.escape(part) for part in re.split(r"[-_\s]+", name) if part)
    return re.search(rf"(?<![\w-]){spoken}(?![\w-])", text, flags=re.IGNORECASE) is not None


def words_in(sentence: str) -> int:
    """How many words a sentence has."""
    return len(sentence.split())


def faults_of(sentence: str, *, most_words: int = 16) -> list[str]:
    """What is wrong with a sentence as English or as something to be spoken to a ten-year-old; [] where nothing is."""
    rules = [
        (r"  ", "two spaces"),
        (r"^\s|\s$", "space at an end"),
        (r"\n", "line break"),
        (r"!", "exclamation mark"),
        (rf"(?<![\w.])1 (?:{_NOUNS})s\b", "plural after 1"),
        (rf"(?<![\w.])(?!1 )\d+(?:\.\d+)? (?:{_NOUNS})\b", "singular after many"),
        (r"\ba (?!unit|uni|one)[aeiou]", "a before a vowel"),
        (r"\ban [^aeiouh8]", "an before a consonant"),
        (r"\b(\w+) \1\b", "a word twice"),
        (r"\bthe the\b|\bthe (?:a|an|my)\b", "two articles"),
        (r"-0\b|\bnan\b|\binf\b|None|\{|\}", "not a word"),
        (r"\d\.\d{3}", "more than two decimals"),
        (r"\.0\b", "a needless decimal"),
        (r"\.\.|,\.|,,|:\.", "stops in a row"),
        (r"[a-z]- | -[a-z]", "a loose hyphen"),
        (r"(?i)\b(?:color|center|gray|counterclockwise|counter-clockwise)\b", "not British"),
        (r"(?i)\b(?:edge|segment|vertex|vertices|polygon)\b", "not our word"),
    ]  # fmt: skip
    faults = [what for pattern, what in rules if re.search(pattern, sentence)]
    if not re.search(r"[.?]$", sentence):
        faults.append("no full stop or question mark")
    if not re.match(r"[A-Z]", sentence):
        faults.append("no capital letter")
    if words_in(sentence) > most_words:
        faults.append(f"{words_in(sentence)} words")
    return faults
