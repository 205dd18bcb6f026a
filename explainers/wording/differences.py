"""Why an option is not the outline: one difference in words, of one option or of several that share it."""

from __future__ import annotations

from ..geometry.locate import contains
from ..solution.facts import (
    CornerAngleFact,
    CornerCountFact,
    DifferenceFact,
    ExtraPartFact,
    Fact,
    HoleFact,
    HolePlace,
    MirrorFact,
    MissingPartFact,
    SideLengthFact,
)
from ..solution.part_facts import PartElsewhereFact, SideRatioFact
from ..words.messages import say, say_count
from ..words.names import degrees_in_words, length_in_words, lengths_in_words

__all__ = ["difference", "shared_figures"]


def difference(fact: Fact) -> tuple[str, ...]:
    """What sets an option apart, with its place.

    Raises : TypeError for a fact that is no reason against an option
    """
    match fact:
        case MirrorFact():
            flipped = say("Option {label} is the outline flipped over.", label=fact.label)
            return (flipped, say("No turn can undo a flip."))
        case CornerCountFact():
            return _corner_count(fact)
        case CornerAngleFact():
            return _corner_angle(fact)
        case SideLengthFact():
            return _side_length(fact)
        case SideRatioFact():
            return _side_ratio(fact)
        case PartElsewhereFact():
            return _part_elsewhere(fact)
        case HoleFact():
            return _holes(fact)
        case ExtraPartFact():
            return (_here(fact.label, filled=True),)
        case MissingPartFact():
            return (_here(fact.label, filled=False),)
    raise TypeError(f"no words are known for a reason of kind {type(fact).__name__}")


def shared_figures(fact: DifferenceFact) -> tuple[str, ...]:
    """What a fact says of each of several options that have just been named."""
    match fact:
        case HoleFact():
            return (_they_have_holes(fact.option_holes, fact.outline_holes),)
        case CornerCountFact():
            if fact.option.holes or fact.outline.holes:
                each = say_count(
                    "They each have {count} corner in all, but the outline has {others}.",
                    "They each have {count} corners in all, but the outline has {others}.",
                    fact.option_corners,
                    others=fact.outline_corners,
                )
            else:
                each = say_count(
                    "They each have {count} corner, but the outline has {others}.",
                    "They each have {count} corners, but the outline has {others}.",
                    fact.option_corners,
                    others=fact.outline_corners,
                )
            return (each,)
        case CornerAngleFact():
            degrees = degrees_in_words(fact.angle_deg)
            if fact.angle_deg > 180.0:
                return (
                    say("They each have a corner that points into the shape."),
                    say("Measured inside, it is {degrees}.", degrees=degrees),
                )
            return (say("They each have a corner of {degrees}, but the outline has none.", degrees=degrees),)
    raise TypeError(f"no words are known for several options with a {type(fact).__name__}")


def _they_have_holes(holes: int, others: int) -> str:
    if not holes:
        return say("They have no hole, but the outline has {others}.", others=others)
    if not others:
        return say_count(
            "They each have {count} hole, but the outline has none.",
            "They each have {count} holes, but the outline has none.",
            holes,
        )
    return say_count(
        "They each have {count} hole, but the outline has {others}.",
        "They each have {count} holes, but the outline has {others}.",
        holes,
        others=others,
    )


def _corner_count(fact: CornerCountFact) -> tuple[str, ...]:
    if fact.on_option:
        here = say("Here option {label} has a corner, but the outline has none.", label=fact.label)
    else:
        here = say("Here the outline has a corner, but option {label} has none.", label=fact.label)
    if fact.option.holes or fact.outline.holes:
        counted = say_count(
            "Option {label} has {count} corner in all, but the outline has {others}.",
            "Option {label} has {count} corners in all, but the outline has {others}.",
            fact.option_corners,
            label=fact.label,
            others=fact.outline_corners,
        )
    else:
        counted = say_count(
            "Option {label} has {count} corner, but the outline has {others}.",
            "Option {label} has {count} corners, but the outline has {others}.",
            fact.option_corners,
            label=fact.label,
            others=fact.outline_corners,
        )
    return (here, counted)


def _corner_angle(fact: CornerAngleFact) -> tuple[str, ...]:
    degrees = degrees_in_words(fact.angle_deg)
    if fact.angle_deg > 180.0:
        return (
            say("Here option {label} has a corner that points into the shape.", label=fact.label),
            say("Measured inside, it is {degrees}.", degrees=degrees),
            say("The outline has no such corner."),
        )
    return (
        say("Here option {label} has a corner of {degrees}.", label=fact.label, degrees=degrees),
        say("The outline has no such corner."),
    )


def _side_length(fact: SideLengthFact) -> tuple[str, ...]:
    if fact.length > fact.other_length:
        here = say("Here a side of option {label} is longer than the outline's side.", label=fact.label)
    else:
        here = say("Here a side of option {label} is shorter than the outline's side.", label=fact.label)
    length, other = lengths_in_words(fact.length, fact.other_length)
    measured = say_count(
        "It is {length} unit long, but the outline's side is {other}.",
        "It is {length} units long, but the outline's side is {other}.",
        1 if length == "1" else 2,
        length=length,
        other=other,
    )
    return (here, measured)


def _side_ratio(fact: SideRatioFact) -> tuple[str, ...]:
    is_equal, is_equal_there = fact.are_equal
    other = length_in_words(fact.other_ratio)
    if is_equal:
        return (
            say("Here two sides of option {label} that meet are equally long.", label=fact.label),
            say("In the outline, one of them is {ratio} times as long as the other.", ratio=other),
        )
    here = say(
        "Here a side of option {label} is {ratio} times as long as the next.",
        label=fact.label,
        ratio=length_in_words(fact.ratio),
    )
    if is_equal_there:
        return (here, say("In the outline, the two sides are equally long."))
    if fact.other_ratio > 1.0:
        return (here, say("In the outline, it is {ratio} times as long.", ratio=other))
    longer = length_in_words(1.0 / fact.other_ratio)
    return (here, say("In the outline, the next one is longer: {ratio} times as long as it.", ratio=longer))


def _part_elsewhere(fact: PartElsewhereFact) -> tuple[str, ...]:
    if fact.filled:
        here = say("Here option {label} has a part, but the outline is empty.", label=fact.label)
        if fact.adjacent:
            return (here, say("In the outline, that part is on the side next to this one."))
        return (here, say("In the outline, that part is on another side."))
    here = say("Here option {label} has a gap, but the outline is filled.", label=fact.label)
    if fact.adjacent:
        return (here, say("In the outline, that gap is on the side next to this one."))
    return (here, say("In the outline, that gap is on another side."))


def _holes(fact: HoleFact) -> tuple[str, ...]:
    # Which of the two is filled at the ring is read from the outlines: the counts alone do not say.
    filled = contains(fact.option, fact.ring_centre)
    here = _closed_here if fact.at is HolePlace.WALL else _here
    return (_it_has_holes(fact.label, fact.option_holes, fact.outline_holes), here(fact.label, filled=filled))


def _it_has_holes(label: str, holes: int, others: int) -> str:
    if not holes:
        return say("Option {label} has no hole, but the outline has {others}.", label=label, others=others)
    if not others:
        return say_count(
            "Option {label} has {count} hole, but the outline has none.",
            "Option {label} has {count} holes, but the outline has none.",
            holes,
            label=label,
        )
    return say_count(
        "Option {label} has {count} hole, but the outline has {others}.",
        "Option {label} has {count} holes, but the outline has {others}.",
        holes,
        label=label,
        others=others,
    )


def _closed_here(label: str, *, filled: bool) -> str:
    if filled:
        return say("Here option {label} is closed, but the outline is open.", label=label)
    return say("Here the outline is closed, but option {label} is open.", label=label)


def _here(label: str, *, filled: bool) -> str:
    if filled:
        return say("Here option {label} is filled, but the outline is empty.", label=label)
    return say("Here the outline is filled, but option {label} is empty.", label=label)
