"""The few words inside pictures, and what signs and groups of shapes are called in a list, or to whoever listens.

Names say what is seen, never what it means for the answer: they are the same before the solution and after it."""

from __future__ import annotations

from collections.abc import Mapping

from ..words.mark_names import mark_name, the_mark
from ..words.messages import message, message_as, say, say_as, say_count
from ..words.names import degrees_as_sign, is_half_turn, is_no_turn, number_in_words

__all__ = [
    "clock_label",
    "difference_alt",
    "mark_alt",
    "mark_shown",
    "one_of_several",
    "other_name",
    "slide_number_name",
    "turn_label",
]

_OTHERS = {
    "base": message_as("group of shapes", "The base"),
    "outline": message_as("group of shapes", "The outline"),
    "panels": message_as("group of shapes", "Work table and tray"),
    "progress": message_as("group of shapes", "How far the lesson is"),
    "patchwork": message_as("group of shapes", "A row of patches"),
    "words": message_as("group of shapes", "What is written on the card"),
    "turn": message_as("group of shapes", "The turn"),
    "clock": message_as("group of shapes", "The time that is left"),
    "agrees": message_as("group of shapes", "Sides that agree"),
    "differs": message_as("group of shapes", "Places that differ"),
    "pointed": message_as("group of shapes", "Places that are pointed at"),
    "paper": message_as("group of shapes", "The paper"),
    "said": message_as("group of shapes", "What is said"),
}
# What a figure is about, whatever the kind of its question -> what is said of one of several.
_ONE_OF_SEVERAL = {"option": message("Option {label}")}


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
            "side with {mark}, and one cross",
            "side with {mark}, and {number} crosses",
            count,
            mark=the_mark(mark),
            number=number,
        )
    return say_count(
        "side with {mark}, and one tick",
        "side with {mark}, and {number} ticks",
        count,
        mark=the_mark(mark),
        number=number,
    )


def mark_shown(mark: str) -> str:
    """What stands beside a marked side, in a word: what a sign is called, letters as they are."""
    return mark_name(mark)


def one_of_several(thing: str, name: str, material: str, things: Mapping[tuple[str, str], str]) -> str | None:
    """A thing with its pattern and marks, such as the outline of an option: None for one that has no words.

    name     : which one: a number, a letter
    material : the role of its cloth; "" where the shapes do not show it
    things   : as `Storyboard.things`: what kinds of question call what they alone are made of
    """
    if name and thing in _ONE_OF_SEVERAL:
        return say(_ONE_OF_SEVERAL[thing], label=name)
    text = things.get((thing, material), things.get((thing, "")))
    return None if text is None or not name else text.format(name=name)


def other_name(group: str) -> str | None:
    """Any other group of a figure by its own name for it; None for one that has no words."""
    return say_as(*_OTHERS[group]) if group in _OTHERS else None


def slide_number_name() -> str:
    """The field with the slide's number."""
    return say("Slide number")
