"""The few words inside pictures: under a turn, beside a countdown; and what small signs are called."""

from __future__ import annotations

from ..words.messages import say, say_as, say_count
from ..words.names import degrees_as_sign, is_half_turn, is_no_turn, number_in_words

__all__ = ["clock_label", "difference_alt", "mark_alt", "turn_label"]


def turn_label(turn_deg: float) -> str:
    """A turn as it is written under the piece: "45° clockwise"."""
    if is_no_turn(turn_deg):
        return say_as("a label", "no turn")
    degrees = degrees_as_sign(turn_deg)
    if is_half_turn(turn_deg):
        return say_as("a label", "half a turn, {degrees}", degrees=degrees)
    if turn_deg > 0:
        return say_as("a label", "{degrees} anticlockwise", degrees=degrees)
    return say_as("a label", "{degrees} clockwise", degrees=degrees)


def clock_label(left_s: float) -> str:
    """The time that is left, in seconds."""
    if left_s > 0:
        return say_as("a label", "{seconds} s", seconds=f"{left_s:.0f}")
    return say_as("a label", "time is up")


def difference_alt() -> str:
    """The ring round a difference."""
    return say("the place where they differ")


def mark_alt(mark: str, count: int, *, crosses: bool) -> str:
    """A marked side with its ticks or crosses."""
    number = number_in_words(count)
    if crosses:
        return say_count(
            "side marked {mark}, with one cross",
            "side marked {mark}, with {number} crosses",
            count,
            mark=mark,
            number=number,
        )
    return say_count(
        "side marked {mark}, with one tick", "side marked {mark}, with {number} ticks", count, mark=mark, number=number
    )
