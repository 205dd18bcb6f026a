"""Two changes of one text brought together field by field, or the fields that both have changed otherwise.

What one side has changed since the text that both began from is done to the text of the other, so that remarks and
layout there stay. Points and the values of keys are fields; pieces and options are known again by name, or by what they
say. Nothing is guessed: where both sides changed one field, or one took out what the other changed, whoever wrote them
is to be asked.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from .alignment import aligned, meaning
from .key_order import ANY_ORDER, KeyOrder
from .laid_out import Collection, LaidOutEntry, LaidOutValue, Leaf
from .text_edits import inserted, moved, newline_of, removed, with_value
from .text_places import CannotEdit, Part, above, entry_at, lines_of_entry, rooted, value_at
from .yaml_text import Written, text_yaml

__all__ = ["Clash", "Merged", "merged"]

Parts = tuple[Part, ...]

_LONGEST = 300  # entries of a list that is gone through: each is held against each; a longer one is taken as a whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """One field that both sides have changed; each as it stands in its text, "" where it was taken out."""

    field: str
    ours: str
    theirs: str
    our_line: int = 0  # counted from 1; 0 where it was taken out
    their_line: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """What became of it: a text, or what to ask about."""

    text: str | None = None
    clashes: tuple[Clash, ...] = ()


def merged(base: str, ours: str, theirs: str, order: KeyOrder = ANY_ORDER) -> Merged:
    """Our changes of the base done to their text.

    order : of the keys of the file
    """
    if theirs == base or ours == theirs:
        return Merged(text=ours)
    if ours == base:
        return Merged(text=theirs)
    try:
        work = _Work(ours, theirs, order)
        work.compare(rooted(base), rooted(ours), rooted(theirs), (), ())
        if work.clashes:
            return Merged(clashes=tuple(work.clashes))
        text = theirs
        for _, change in sorted(enumerate(work.changes), key=lambda each: (each[1].rank, each[0])):
            text = change.done(text)
    except CannotEdit:
        return Merged(clashes=(Clash(field="", ours=ours, theirs=theirs, our_line=1, their_line=1),))
    return Merged(text=text)


@dataclass(frozen=True, slots=True)
class _Change:
    """One thing to do to their text."""

    rank: tuple[int, int]  # values first, then keys, then lists, those furthest in first
    done: Callable[[str], str]


@dataclass(slots=True)
class _Work:
    ours: str
    theirs: str
    order: KeyOrder
    changes: list[_Change] = field(default_factory=list)
    clashes: list[Clash] = field(default_factory=list)

    def compare(
        self,
        base: LaidOutValue | None,
        ours: LaidOutValue | None,
        theirs: LaidOutValue | None,
        at: Parts,
        our_at: Parts,
    ) -> None:
        """Note what is to be done for one value; `at` is its place in their text, `our_at` in ours."""
        said = meaning(ours)
        if said == meaning(base) or said == meaning(theirs):
            return
        three = _collections(base, ours, theirs)
        if three and all(each.is_map for each in three):
            self._keys(*three, at, our_at)
        elif three and _are_lists(*three):
            self._lists(*three, at, our_at)
        elif meaning(theirs) != meaning(base):
            self._clash(ours, theirs, at)
        else:
            self._set(ours, at)

    def _keys(self, base: Collection, ours: Collection, theirs: Collection, at: Parts, our_at: Parts) -> None:
        before, our, their = (_by_key(each) for each in (base, ours, theirs))
        for key in (*our, *(key for key in before if key not in our)):
            was, mine, other = before.get(key), our.get(key), their.get(key)
            if mine is not None and other is not None and was is not None:
                self.compare(was, mine, other, (*at, key), (*our_at, key))
            elif mine is None and was is not None:  # taken out by us
                if other is not None and meaning(other) != meaning(was):
                    self._clash(None, other, (*at, key))
                elif other is not None:
                    self.changes.append(_Change((1, -len(at)), _taking_out((*at, key))))
            elif mine is not None and (was is None or meaning(mine) != meaning(was)):  # new, or gone from theirs
                if meaning(other) == meaning(mine):
                    continue
                if other is not None or was is not None:
                    self._clash(mine, other, (*at, key))
                else:
                    self._set(mine, (*at, key))

    def _lists(self, base: Collection, ours: Collection, theirs: Collection, at: Parts, our_at: Parts) -> None:
        our, their = aligned(base, ours), aligned(base, theirs)
        kept, same = range(len(base.entries)), (list(range(len(base.entries))) == their)
        for old in kept:
            was = base.entries[old].value
            mine = ours.entries[our.index(old)].value if old in our else None
            other = theirs.entries[their.index(old)].value if old in their else None
            if mine is not None and other is not None:
                self.compare(was, mine, other, (*at, their.index(old)), (*our_at, our.index(old)))
            elif (mine is None and other is not None and meaning(other) != meaning(was)) or (
                other is None and mine is not None and meaning(mine) != meaning(was)
            ):
                self._clash(mine, other, at)
        if our == list(kept):
            return
        if not same and (_reordered(our) or _reordered(their)):
            self._clash(ours, theirs, at)
            return
        places, order = tuple(their), self.order
        texts = self.ours

        def done(text: str) -> str:
            return _rebuilt(text, at, our, list(places), ours, texts, order)

        self.changes.append(_Change((2, -len(at)), done))

    def _set(self, value: LaidOutValue | None, at: Parts) -> None:
        written = _written(value)
        self.changes.append(_Change((0, 0), lambda text: with_value(text, at, written, self.order)))

    def _clash(self, ours: LaidOutValue | None, theirs: LaidOutValue | None, at: Parts) -> None:
        (our, our_line), (their, their_line) = _shown(self.ours, ours), _shown(self.theirs, theirs)
        self.clashes.append(Clash(field=_path(at), ours=our, theirs=their, our_line=our_line, their_line=their_line))


def _taking_out(at: Parts) -> Callable[[str], str]:
    return lambda text: removed(text, at)


def _rebuilt(
    text: str, at: Parts, our: list[int | None], their: list[int | None], ours: Collection, source: str, order: KeyOrder
) -> str:
    """Their list with what we took out, moved and put in.

    our, their : for each entry the number that it had before, None for a new one
    """
    for place in reversed(range(len(their))):
        if their[place] is not None and their[place] not in our:
            text = removed(text, (*at, place))
            del their[place]
    kept = [old for old in our if old is not None and old in their]
    for goal, known in enumerate(kept) if kept != sorted(kept) else ():
        now = their.index(known)
        if now != goal:
            text = moved(text, at, now, goal)
            their.insert(goal, their.pop(now))
    anchor = -1  # where the last entry stands that both have
    for number, old in enumerate(our):
        if old is not None:
            anchor = their.index(old) if old in their else anchor
            continue
        entry = ours.entries[number]
        after = entry_at(rooted(text), (*at, anchor + 1))
        if after is not None and their[anchor + 1] is None and meaning(after.value) == meaning(entry.value):
            anchor += 1  # both put the same in
            continue
        text = inserted(text, at, anchor + 1, _written(entry.value), order, raw=_raw(text, at, ours, entry, source))
        anchor += 1
        their.insert(anchor, -1)
    return text


def _raw(text: str, at: Parts, ours: Collection, entry: LaidOutEntry, source: str) -> str:
    """The lines of an entry as they stand in our text, remarks and all, where they fit into theirs."""
    target = value_at(rooted(text), at)
    fits = isinstance(target, Collection) and target.entries and not target.in_brackets and not ours.in_brackets
    if not fits or not isinstance(target, Collection) or target.column != ours.column:
        return ""
    lines = source[above(source, entry) : lines_of_entry(source, entry).end].splitlines()
    if not lines or lines[0].lstrip()[:1] not in ("-", "#"):
        return ""
    newline = newline_of(text)
    return "".join(f"{line}{newline}" for line in lines)


def _reordered(numbers: list[int | None]) -> bool:
    known = [number for number in numbers if number is not None]
    return known != sorted(known)


def _collections(
    base: LaidOutValue | None, ours: LaidOutValue | None, theirs: LaidOutValue | None
) -> tuple[Collection, Collection, Collection] | None:
    if isinstance(base, Collection) and isinstance(ours, Collection) and isinstance(theirs, Collection):
        return base, ours, theirs
    return None


def _are_lists(*lists: Collection) -> bool:
    """Whether all are lists that may be gone through: of entries with keys, or of as many points each."""
    if any(each.is_map or len(each.entries) > _LONGEST for each in lists):
        return False
    if all(isinstance(entry.value, Collection) and entry.value.is_map for each in lists for entry in each.entries):
        return True
    inner = all(isinstance(entry.value, Collection) for each in lists for entry in each.entries)
    return inner and len({len(each.entries) for each in lists}) == 1


def _by_key(value: Collection) -> dict[str, LaidOutValue]:
    return {entry.key.text: entry.value for entry in value.entries if entry.key is not None}


def _written(value: LaidOutValue | None) -> Written:
    if value is None:
        return '""'
    if isinstance(value, Leaf):
        return text_yaml(value.text) if value.quoted else value.text
    if value.is_map:
        return {entry.key.text: _written(entry.value) for entry in value.entries if entry.key is not None}
    return [_written(entry.value) for entry in value.entries]


def _shown(text: str, value: LaidOutValue | None) -> tuple[str, int]:
    """(as it stands in a text, on which line)"""
    return ("", 0) if value is None else (text[value.start : value.end], text.count("\n", 0, value.start) + 1)


def _path(parts: Parts) -> str:
    return "".join(f"[{part}]" if isinstance(part, int) else f".{part}" for part in parts).removeprefix(".")
