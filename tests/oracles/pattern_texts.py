"""Texts on which a pattern would have to look again and again, made from the pattern itself.

A pattern is slow where a loop in it can take a text in more ways than one and what follows the loop then fails, or
where it begins anew inside of what it has just tried. So each loop of the pattern gives a lead (a text that gets the
pattern as far as the loop) and units (what the loop takes); the unit is repeated, alone or with its lead, and the text
ends in something that does not fit.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field

__all__ = ["Hostile", "hostile_texts", "loops_of"]

_SIGNS = "a0 .,-\t\nAe+'\"#{<>:;/°’ä_()[]!@|%"
_OF_A_CLASS = 3  # so many signs stand for a class
_MIXED = 3  # alternatives that are mixed
_UNITS = (
    *("a", "0", " ", "\t", "\n", "-", ".", ",", "'", '"', "#", "{", "<", "[", "(", "ä", "°"),
    *("a-", "a ", "0 ", "0.", "0,", "0-", ". ", ", ", " #", "a:", "a.", "'#", "()", "<a", "<!--", "<!DOCTYPE", "]]>"),
)
_ENDS = ("!", "a", "\n", "\0", "")
_ENDS_OF_ANY = ("!", "a")


@dataclass(frozen=True, slots=True)
class Hostile:
    """A text of any length: something, a unit over and over, and an end that does not fit."""

    lead: str
    unit: str
    end: str

    def text(self, length: int) -> str:
        """About so many characters of it."""
        return self.lead + self.unit * max(1, length // len(self.unit)) + self.end


def hostile_texts(pattern: str, flags: int = 0) -> Iterator[Hostile]:
    """Texts for one pattern, those that any pattern gets last."""
    parser = _Parser(pattern, flags)
    alternatives = parser.alternatives()
    found: dict[tuple[str, str], None] = {}
    for lead, unit in loops_of(pattern, flags):
        found[lead, unit] = None
        found["", lead + unit] = None
    for whole in _examples(alternatives):
        for text in (whole, whole[:-1], f"{whole} "):
            found["", text] = None
    for lead, unit in found:
        yield from (Hostile(lead, unit, end) for end in (*_ENDS, *parser.refused) if unit)
    yield from (Hostile("", unit, end) for unit in _UNITS if ("", unit) not in found for end in _ENDS_OF_ANY)


def loops_of(pattern: str, flags: int = 0) -> list[tuple[str, str]]:
    """(a text that leads to a loop, what the loop takes) for each loop of a pattern."""
    found: list[tuple[str, str]] = []
    for alternative in _Parser(pattern, flags).alternatives():
        _walk(alternative, ("", ""), found)
    return list(dict.fromkeys(found))


@dataclass(slots=True)
class _Item:
    """One thing of a sequence, with how often it may stand there."""

    signs: tuple[str, ...] = ()  # of a class or a literal
    inside: list[list[_Item]] = field(default_factory=list)  # the alternatives of a group
    takes: bool = True  # a look ahead or behind takes nothing
    least: int = 1
    most: float = 1


Sequences = Sequence[Sequence[_Item]]


def _examples(alternatives: Sequences) -> list[str]:
    return [_example(alternative, whole=True) for alternative in alternatives]


def _example(sequence: Sequence[_Item], *, whole: bool) -> str:
    """A text that fits.

    whole : what may be left out stands there once
    """
    return "".join(_once(item, whole) * max(item.least, int(whole)) for item in sequence if item.takes)


def _once(item: _Item, whole: bool) -> str:
    return item.signs[0] if item.signs else _example(item.inside[0], whole=whole) if item.inside else ""


def _walk(sequence: Sequence[_Item], leads: tuple[str, str], found: list[tuple[str, str]]) -> None:
    for item in sequence:
        if item.most == float("inf"):
            units = item.signs or tuple(_examples(item.inside))
            found += [(lead, unit) for lead in dict.fromkeys(leads) for unit in units if unit]
            if item.inside and len(units) <= _MIXED:  # one way round once, then another, or both in turn
                pairs = list(itertools.permutations(units, 2))
                found += [pair for one, other in pairs for pair in ((leads[0] + one, other), (leads[0], one + other))]
        for alternative in item.inside:
            _walk(alternative, leads, found)
        if item.takes:
            full, lean = leads
            leads = (full + _once(item, True) * max(1, item.least), lean + _once(item, False) * item.least)


class _Parser:
    """As much of the grammar of patterns as the project uses; anything else stops it."""

    def __init__(self, pattern: str, flags: int) -> None:
        self.pattern, self.flags, self.at = pattern, flags, 0
        self.refused: dict[str, None] = {}  # signs that a class leaves out

    def alternatives(self) -> list[list[_Item]]:
        found = [self._sequence()]
        while self._takes("|"):
            found.append(self._sequence())
        return found

    def _sequence(self) -> list[_Item]:
        items: list[_Item] = []
        while self.at < len(self.pattern) and self.pattern[self.at] not in "|)":
            item = self._atom()
            item.least, item.most = self._count()
            items.append(item)
        return items

    def _takes(self, text: str) -> bool:
        found = self.pattern.startswith(text, self.at)
        self.at += len(text) if found else 0
        return found

    def _count(self) -> tuple[int, float]:
        most = float("inf")
        bounds = re.compile(r"\{(\d*)(,?)(\d*)\}").match(self.pattern, self.at)
        if bounds:
            self.at = bounds.end()
            least = int(bounds[1] or 0)
            found = (least, float(bounds[3] or most) if bounds[2] else least)
        else:
            found = next((count for sign, count in _COUNTS.items() if self._takes(sign)), (1, 1))
        if found != (1, 1):
            _ = self._takes("?") or self._takes("+")
        return found

    def _atom(self) -> _Item:
        if self._takes("("):
            return self._group()
        if self._takes("^") or self._takes("$"):
            return _Item()
        start = self.at
        if self._takes("["):
            if self._takes("^"):
                self.refused[self.pattern[self.at]] = None
            self._takes("]")
            while not self._takes("]"):
                self.at += 2 if self.pattern[self.at] == "\\" else 1
        elif self._takes("\\"):
            self.at += 1
            sign = self.pattern[self.at - 1]
            if sign in "bBAZ" or sign.isdigit():  # a place, or what a group took before
                return _Item()
        else:
            self.at += 1
        return _Item(signs=self._signs(self.pattern[start : self.at]))

    def _signs(self, atom: str) -> tuple[str, ...]:
        """Signs that a class or a literal takes, its own before others."""
        takes: Callable[[str], object] = re.compile(atom, self.flags).fullmatch
        if len(atom) == 1 and atom != ".":
            return (atom,)
        own = [sign for sign in atom.strip("[]^\\") if sign.isprintable()]
        return tuple(dict.fromkeys(sign for sign in (*_SIGNS, *own) if takes(sign)))[:_OF_A_CLASS]

    def _group(self) -> _Item:
        takes = True
        if self._takes("?"):
            takes = not any(self._takes(sign) for sign in ("=", "!", "<=", "<!"))
            if takes and not (self._takes(":") or self._takes(">")):
                assert self._takes("P<"), f"unknown kind of group in {self.pattern}"
                self.at = self.pattern.index(">", self.at) + 1
        inside = self.alternatives()
        assert self._takes(")"), f"a group is not closed in {self.pattern}"
        return _Item(inside=inside, takes=takes)


_COUNTS = {"*": (0, float("inf")), "+": (1, float("inf")), "?": (0, 1.0)}
