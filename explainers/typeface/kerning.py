"""Pair kerning: how much nearer together, or further apart, two neighbouring glyphs are set.

Read from the font's GPOS table, feature "kern", pair adjustment lookups of both formats. Contextual kerning is left
out: the typeface used here has none. Pairs are looked up when they are asked for: a table of all would cost more than
a lesson ever asks.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

__all__ = ["PairKerning"]

_PAIR = 2
_EXTENSION = 9


class PairKerning:
    """The kerning of one font; a font without a GPOS table has none."""

    def __init__(self, font: Any) -> None:
        self._lookups: list[list[_Subtable]] = []
        self._known: dict[tuple[str, str], int] = {}
        if "GPOS" not in font:
            return
        table = font["GPOS"].table
        indices = {
            index
            for record in table.FeatureList.FeatureRecord
            if record.FeatureTag == "kern"
            for index in record.Feature.LookupListIndex
        }
        for index in sorted(indices):
            lookup = table.LookupList.Lookup[index]
            self._lookups.append([_Subtable(subtable) for subtable in _pair_subtables(lookup)])

    def between(self, first: str, second: str) -> int:
        """What is added to the advance of the first glyph when the second follows; font units, by glyph name."""
        pair = (first, second)
        if pair not in self._known:
            self._known[pair] = sum(_first_answer(subtables, first, second) for subtables in self._lookups)
        return self._known[pair]


class _Subtable:
    """One pair adjustment subtable."""

    def __init__(self, table: Any) -> None:
        self._table = table
        self._rows = {name: row for row, name in enumerate(table.Coverage.glyphs)}

    def adjustment(self, first: str, second: str) -> int | None:
        """None where this subtable says nothing about the pair; classes say 0 where they say no more."""
        row = self._rows.get(first)
        if row is None:
            return None
        if self._table.Format == 1:
            for record in self._table.PairSet[row].PairValueRecord:
                if record.SecondGlyph == second:
                    return _x_advance(record.Value1)
            return None
        of_first = self._table.ClassDef1.classDefs.get(first, 0)
        of_second = self._table.ClassDef2.classDefs.get(second, 0)
        return _x_advance(self._table.Class1Record[of_first].Class2Record[of_second].Value1)


def _first_answer(subtables: list[_Subtable], first: str, second: str) -> int:
    for subtable in subtables:
        adjustment = subtable.adjustment(first, second)
        if adjustment is not None:
            return adjustment
    return 0


def _pair_subtables(lookup: Any) -> Iterator[Any]:
    for subtable in lookup.SubTable:
        inner = subtable.ExtSubTable if subtable.LookupType == _EXTENSION else subtable
        if inner.LookupType == _PAIR:
            yield inner


def _x_advance(value: Any) -> int:
    return int(getattr(value, "XAdvance", 0) or 0) if value is not None else 0
