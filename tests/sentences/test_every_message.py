"""What is said of generated items in every language: nothing left open, nothing doubled, nothing of another one."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from strategies import NAMES, random_item
from told import labels_of, sentences_of

from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.words.catalogue import languages
from explainers.words.catalogue_update import american
from explainers.words.messages import speaking

PARTS = 4  # so that several processes share the items
# One of a thing told as several, or several as one.
MISCOUNTED = {
    "en": re.compile(r"(?<![\d.,])\b(?:1|one) (?:degrees|corners|sides|holes|units|pieces|seconds|minutes|ticks)\b"
                     r"|\b(?:\d*[02-9]|\d+1|two|three) (?:degree|corner|side|hole|unit|piece|second|minute|tick)\b"),
    "de": re.compile(r"(?<![\d.,])\b1 (?:Ecken|Seiten|Löcher|Einheiten|Teile|Sekunden|Minuten|Striche)\b"
                     r"|\b(?:\d*[02-9]|\d+1) (?:Ecke|Loch|Einheit|Sekunde|Minute|Strich)\b"),
}  # fmt: skip
ENGLISH = re.compile(
    r"\b(?:the|is|are|of|to|with|has|have|its|side|corner|outline|piece|turn|mark|clockwise|base|hole|degrees?|about)\b",
    re.I,
)
OWN = re.compile("|".join(NAMES))


def faults_of(text: str, tag: str) -> list[str]:
    """What is wrong with the form of a text in any language."""
    found = []
    if re.search(r"[{}]|\bNone\b|%\(|\bnan\b|\binf\b", text):
        found.append("something is left open")
    if text != " ".join(text.split()):
        found.append("spaces too many")
    if re.search(r"\s[.,;:?!]|[.,;:?!]{2}|\(\)", text):
        found.append("signs out of place")
    if MISCOUNTED[tag[:2]].search(text):
        found.append("a number and its noun do not agree")
    if tag == "de" and ENGLISH.search(OWN.sub("", text)):
        found.append("an English word")
    if tag != "de" and re.search(r"\d,\d", text):
        found.append("another language's decimal sign")
    if tag == "de" and re.search(r"\d\.\d", text):
        found.append("another language's decimal sign")
    return found


@pytest.mark.parametrize("part", range(PARTS))
def test_whatever_is_said_of_generated_items_is_whole(part: int, cases: Callable[[int, int], int]) -> None:
    for seed in range(part, cases(100, 2000), PARTS):
        solution = solve(random_item(seed))
        told = {}
        for tag in languages():
            with speaking(tag):
                sentences, labels = list(sentences_of(solution)), list(labels_of(solution))
            for text in sentences:
                assert faults_of(text, tag) == [], (seed, tag, text)
                assert text[0].isupper() or text[0].isdigit(), (seed, tag, text)
                assert text[-1] in ".?", (seed, tag, text)
            for text in labels:
                assert text and faults_of(text, tag) == [], (seed, tag, text)
                assert text[-1] != ".", (seed, tag, text)
            told[tag] = [*sentences, *labels]
        assert [_plain(american(text)) for text in told["en-GB"]] == [_plain(text) for text in told["en-US"]], seed
        assert len(told["de"]) == len(told["en-GB"])


def _plain(text: str) -> str:
    """Without commas: an American list has one more."""
    return text.replace(",", "")


@pytest.mark.parametrize(
    ("text", "tag"),
    [
        ("Turn it 1 degrees.", "en-GB"),
        ("It has 6 corner.", "en-GB"),
        ("It has one sides.", "en-US"),
        ("Turn {piece}.", "en-GB"),
        ("Turn  it.", "en-GB"),
        ("Turn it .", "en-GB"),
        ("It is 2,8 long.", "en-GB"),
        ("Sie ist 2.8 lang.", "de"),
        ("Er hat 1 Ecken.", "de"),
        ("Drehe the Teil.", "de"),
    ],
)
def test_the_checks_find_what_they_look_for(text: str, tag: str) -> None:
    assert faults_of(text, tag) != []


@pytest.mark.parametrize(
    ("text", "tag"),
    [("Turn it 1 degree.", "en-GB"), ("It is about 2.1 units.", "en-US"), ("Sie ist 2,1 Einheiten lang.", "de"),
     ("It is 21 units.", "en-GB"), ("Turn block 1 45 degrees clockwise.", "en-GB")],
)  # fmt: skip
def test_the_checks_let_pass_what_is_right(text: str, tag: str) -> None:
    assert faults_of(text, tag) == []
