"""How many corners the outline will have, counted as a child can: all there are, those that are lost, what is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ....words.messages import say, say_count
from ....words.names import number_in_words, the_piece

__all__ = ["Vanished", "added", "counting", "left", "met", "none_lost", "note", "taken", "vanished"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Vanished:
    """Where no corner is left."""

    places: int
    corners: int  # that came together at all of them
    in_pairs: bool  # whether two came together at each
    straight: bool  # whether the outline runs straight on at each


def counting(base: int, holes: int, pieces: Sequence[tuple[str, int]]) -> tuple[str, ...]:
    """How many corners base and pieces have.

    base   : those of the base, with its holes
    pieces : name and corners of each
    """
    told: tuple[str, ...] = ()
    if holes:
        told = (
            say_count(
                "The corners of the hole count too.",
                "The corners of the holes count too.",
                holes,
            ),
        )
    if len(pieces) == 1:
        ((name, own),) = pieces
        return (
            *told,
            say("The base has {base} corners, and {piece} has {own}.", base=base, piece=the_piece(name), own=own),
        )
    if len(pieces) == 2:
        (first, own), (second, other) = pieces
        return (
            *told,
            say(
                "The base has {base} corners, {piece} has {own} and {other_piece} has {other}.",
                base=base,
                piece=the_piece(first),
                own=own,
                other_piece=the_piece(second),
                other=other,
            ),
        )
    return (
        *told,
        say(
            "The base has {base} corners, and the {pieces} pieces have {own} in all.",
            base=base,
            pieces=number_in_words(len(pieces)),
            own=sum(own for _, own in pieces),
        ),
    )


def vanished(found: Vanished) -> tuple[str, ...]:
    """Where no corner is left."""
    if not found.places:
        return ()
    if found.in_pairs and found.straight:
        return (
            say_count(
                "At the cross, two corners make a straight side.",
                "At each cross, two corners make a straight side.",
                found.places,
            ),
        )
    if found.in_pairs:
        return (
            say_count(
                "At the cross, two corners are gone.",
                "At each cross, two corners are gone.",
                found.places,
            ),
        )
    if found.places == 1:
        return (
            say_count("At the cross, one corner is gone.", "At the cross, {count} corners are gone.", found.corners),
        )
    return (
        say_count("At the crosses, one corner is gone.", "At the crosses, {count} corners are gone.", found.corners),
    )


def met(counts: Sequence[int]) -> tuple[str, ...]:
    """Where several corners come together and one is left.

    counts : how many, for each place
    """
    if not counts:
        return ()
    if set(counts) == {2}:
        return (say_count("At the ring, two corners make one.", "At each ring, two corners make one.", len(counts)),)
    if len(counts) == 1:
        return (say("At the ring, {number} corners make one.", number=number_in_words(counts[0])),)
    return (say("At each ring, several corners make one."),)


def left(*, lost: int, left: int) -> tuple[str, ...]:
    """All that there were, less those that are lost."""
    return (
        say_count(
            "So {count} corner is gone, and {left} are left.",
            "So {count} corners are gone, and {left} are left.",
            lost,
            left=left,
        ),
    )


def none_lost(left: int) -> tuple[str, ...]:
    """Every corner is left."""
    return (say("No corner is lost, so {count} are left.", count=left),)


def added(parts: Sequence[int]) -> str:
    """All that there are, as a sum: "6 + 3 = 9"."""
    return f"{' + '.join(map(str, parts))} = {sum(parts)}"


def taken(came: int, lost: int) -> str:
    """Those that are left, as a sum: "9 \N{MINUS SIGN} 3 = 6"."""
    return f"{came} \N{MINUS SIGN} {lost} = {came - lost}"


def note(*, is_lost: bool) -> str:
    """To the teacher, before the corners are counted."""
    if is_lost:
        return say("Before you go on, ask: where do two corners come together, and what is left of them?")
    return say("Before you go on, ask: does any corner get lost? How many corners will there be?")
