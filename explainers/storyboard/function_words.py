"""The little words of a language, by which a spoken sentence is cut where a reader would breathe: data only."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["FunctionWords", "function_words"]


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


@dataclass(frozen=True, slots=True, kw_only=True)
class FunctionWords:
    """All in small letters.

    links   : begin a clause or the next part of a list: a cut before one is cheap
    placers : begin a place or a way
    verbs   : belong to the word that completes them
    leaders : belong to the word after them, so that a cut behind one tears a phrase
    owners  : belong to the word before them, as "of" does
    """

    links: frozenset[str] = frozenset()
    placers: frozenset[str] = frozenset()
    verbs: frozenset[str] = frozenset()
    leaders: frozenset[str] = frozenset()
    owners: frozenset[str] = frozenset()


_ENGLISH = FunctionWords(
    links=_set(
        "and or but so because then until till which that where when while if as than before after for since like"
    ),
    placers=_set(
        "to on in by at with along round around about from into onto over under between through across against inside"
        " outside beside without towards"
    ),
    verbs=_set("is are was were has have lies lie goes go comes come meets meet turns turn stands stand will can must"),
    leaders=_set(
        "the a an this these those its his her their our your my of no not each every both it they we you he she"
        " one two three four five six seven eight nine ten be been had may do does"
        " option side corner mark piece letter own long short longer shorter longest shortest top bottom upper lower"
        " inner outer whole finished very more less most half quarter full same other first second third last"
    ),
    owners=_set("of"),
)
# A draft, not yet read by a speaker.
_GERMAN = FunctionWords(
    links=_set(
        "und oder aber denn weil dann bis welche welcher welches wo wenn während ob als bevor nachdem wie damit dass"
        " sondern"
    ),
    placers=_set(
        "zu zum zur auf in im ins an am ans bei beim mit entlang um über unter von vom aus zwischen durch gegen"
        " innerhalb außerhalb neben ohne nach für vor hinter"
    ),
    verbs=_set(
        "ist sind war waren hat haben liegt liegen geht kommt trifft treffen dreht drehen steht stehen wird werden kann"
        " können muss müssen"
    ),
    leaders=_set(
        "der die das den dem des ein eine einen einem einer eines kein keine keinen diese dieser dieses diesen diesem"
        " sein seine seiner ihr ihre ihrer unser euer dein deine mein nicht jede jeder jedes jeden beide beiden es sie"
        " wir du er ihr eins zwei drei vier fünf sechs sieben acht neun zehn sehr mehr weniger halbe halben ganze"
        " ganzen gleiche gleichen andere anderen erste zweite dritte letzte fertige fertigen"
        " option seite ecke marke teil buchstabe"
    ),
)
_BY_LANGUAGE = {"en": _ENGLISH, "de": _GERMAN}


def function_words(tag: str) -> FunctionWords:
    """The words of a language tag such as "en-GB"; none for one that is not known: only signs say where to cut then."""
    return _BY_LANGUAGE.get(tag.split("-")[0].lower(), FunctionWords())
