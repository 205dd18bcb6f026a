"""What is said to a learner who has chosen an option: why it is not this one, or that it is; and the page around it.

The option stands where the question shows it, with a ring on it: nothing here leans on an outline that is not seen.
"""

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
    SameFact,
    SideLengthFact,
)
from ..solution.model import Verdict
from ..solution.part_facts import PartElsewhereFact, SideRatioFact
from ..solution.slips.slip_fact import SlipFact
from ..words.messages import say, say_count
from ..words.names import degrees_in_words, length_in_words, lengths_in_words
from .choices import reasons_known
from .held import said
from .slips import FLIPPED, slip_words

__all__ = ["choosing_words", "crossed_alt", "in_the_ring", "not_this", "this_one", "ticked_alt"]

_SAME_SIZE = 1e-6  # a scale this close to 1 changes no length that is said


def not_this(verdict: Verdict, ringed: DifferenceFact | None) -> tuple[tuple[str, ...], tuple[Fact, ...]]:
    """Why a wrong option is not the one, and the facts that this is made from.

    That it is flipped comes first, for no place tells that better; any other slip comes after what is ringed.
    ringed : the difference in whose place the ring stands; None where no ring can stand
    Raises : FactError where one of the facts does not hold
    """
    flip = next((fact for fact in reasons_known(verdict) if isinstance(fact, MirrorFact) or _is_flip(fact)), None)
    slip = verdict.slip if verdict.slip is not None and not _is_flip(verdict.slip) else None
    words = [say("Not {label}.", label=verdict.label)]
    if isinstance(flip, SlipFact):
        words += slip_words(flip)
    elif isinstance(flip, MirrorFact):
        flipped = say("Option {label} is the finished outline flipped over.", label=verdict.label)
        words += said(flip, (flipped, say("No turn can undo a flip.")))
    if ringed is not None:
        # Lengths are told as they are drawn, so only where nothing has been made larger or smaller.
        as_drawn = all(abs(motion.scale - 1.0) <= _SAME_SIZE for motion in (verdict.fit.motion, verdict.drawn))
        words += said(ringed, in_the_ring(ringed, as_drawn=as_drawn))
    elif flip is None:
        words.append(say("Option {label} does not fit the finished outline, however you turn it.", label=verdict.label))
    if slip is not None:
        words += slip_words(slip)
    return tuple(words), tuple(fact for fact in (flip, ringed, slip) if fact is not None)


def this_one(fact: SameFact) -> tuple[str, ...]:
    """That the option is the right one.

    Raises : FactError where it is not
    """
    return said(
        fact,
        (
            say("Yes, {label}.", label=fact.label),
            say("Every corner and every side of option {label} fits the finished outline.", label=fact.label),
        ),
    )


def in_the_ring(fact: DifferenceFact, *, as_drawn: bool = True) -> tuple[str, ...]:
    """What is seen in the ring on the option, and what the finished outline has instead.

    as_drawn : whether lengths in the fact are those of the option as the question shows it
    Raises   : TypeError for a difference that has no words
    """
    label = fact.label
    match fact:
        case CornerCountFact():
            if fact.on_option:
                here = say("In the ring, option {label} has a corner, but the finished outline has none.", label=label)
            else:
                here = say("In the ring, option {label} has no corner, but the finished outline has one.", label=label)
            return (here, _corners(fact))
        case CornerAngleFact():
            return _corner(fact)
        case SideLengthFact():
            return _side(fact, as_drawn=as_drawn)
        case SideRatioFact():
            return _ratio(fact)
        case PartElsewhereFact():
            return _part_elsewhere(fact)
        case HoleFact():
            return (_holes(fact), _hole_in_ring(fact))
        case ExtraPartFact():
            return (say("In the ring, option {label} has a part too many.", label=label),)
        case MissingPartFact():
            return (say("In the ring, a part of option {label} is missing.", label=label),)
    raise TypeError(f"no words are known for a ring round a {type(fact).__name__}")


def crossed_alt(label: str, *, ringed: bool) -> str:
    """What the picture shows besides, when a wrong option was chosen."""
    if ringed:
        return say("Option {label} has a cross, and a ring where it goes wrong.", label=label)
    return say("Option {label} has a cross.", label=label)


def ticked_alt(label: str) -> str:
    """What the picture shows besides, when the right option was chosen."""
    return say("Option {label} has a tick.", label=label)


def _is_flip(fact: Fact | None) -> bool:
    return isinstance(fact, SlipFact) and [case.slip for case in fact.cases] == [FLIPPED]


def _corners(fact: CornerCountFact) -> str:
    if fact.option.holes or fact.outline.holes:
        return say_count(
            "Option {label} has {count} corner in all, but the finished outline has {others}.",
            "Option {label} has {count} corners in all, but the finished outline has {others}.",
            fact.option_corners,
            label=fact.label,
            others=fact.outline_corners,
        )
    return say_count(
        "Option {label} has {count} corner, but the finished outline has {others}.",
        "Option {label} has {count} corners, but the finished outline has {others}.",
        fact.option_corners,
        label=fact.label,
        others=fact.outline_corners,
    )


def _corner(fact: CornerAngleFact) -> tuple[str, ...]:
    degrees = degrees_in_words(fact.angle_deg)
    none = say("The finished outline has no such corner.")
    if fact.angle_deg > 180.0:
        points = say("In the ring, option {label} has a corner that points into the shape.", label=fact.label)
        return (points, say("Measured inside, it is {degrees}.", degrees=degrees), none)
    return (say("In the ring, option {label} has a corner of {degrees}.", label=fact.label, degrees=degrees), none)


def _side(fact: SideLengthFact, *, as_drawn: bool) -> tuple[str, ...]:
    if fact.length > fact.other_length:
        ends = say("The side of option {label} with the broken line is too long.", label=fact.label)
    else:
        ends = say("The side of option {label} with the broken line is too short.", label=fact.label)
    if not as_drawn:
        return (ends,)
    length, other = lengths_in_words(fact.length, fact.other_length)
    measured = say_count(
        "It is {length} unit long, but in the finished outline it is {other}.",
        "It is {length} units long, but in the finished outline it is {other}.",
        1 if length == "1" else 2,
        length=length,
        other=other,
    )
    return (ends, measured)


def _ratio(fact: SideRatioFact) -> tuple[str, ...]:
    is_equal, is_equal_there = fact.are_equal
    other = length_in_words(fact.other_ratio)
    if is_equal:
        return (
            say("In the ring, two equally long sides of option {label} meet.", label=fact.label),
            say("In the finished outline, one of them is {ratio} times as long as the other.", ratio=other),
        )
    here = (
        say("In the ring, two sides of option {label} meet.", label=fact.label),
        say("One of them is {ratio} times as long as the other.", ratio=length_in_words(fact.ratio)),
    )
    if is_equal_there:
        return (*here, say("In the finished outline, the two sides are equally long."))
    if fact.other_ratio > 1.0:
        return (*here, say("In the finished outline, it is {ratio} times as long.", ratio=other))
    longer = length_in_words(1.0 / fact.other_ratio)
    return (*here, say("In the finished outline, the other one is longer: {ratio} times as long.", ratio=longer))


def _part_elsewhere(fact: PartElsewhereFact) -> tuple[str, ...]:
    if fact.filled:
        here = say("In the ring, option {label} has a part in the wrong place.", label=fact.label)
        if fact.adjacent:
            return (here, say("In the finished outline, that part is on the side next to this one."))
        return (here, say("In the finished outline, that part is on another side."))
    here = say("In the ring, option {label} has a gap in the wrong place.", label=fact.label)
    if fact.adjacent:
        return (here, say("In the finished outline, that gap is on the side next to this one."))
    return (here, say("In the finished outline, that gap is on another side."))


def _holes(fact: HoleFact) -> str:
    if not fact.option_holes:
        return say(
            "Option {label} has no hole, but the finished outline has {others}.",
            label=fact.label,
            others=fact.outline_holes,
        )
    if not fact.outline_holes:
        return say_count(
            "Option {label} has {count} hole, but the finished outline has none.",
            "Option {label} has {count} holes, but the finished outline has none.",
            fact.option_holes,
            label=fact.label,
        )
    return say_count(
        "Option {label} has {count} hole, but the finished outline has {others}.",
        "Option {label} has {count} holes, but the finished outline has {others}.",
        fact.option_holes,
        label=fact.label,
        others=fact.outline_holes,
    )


def _hole_in_ring(fact: HoleFact) -> str:
    # Which of the two is empty there is read from the outlines: the counts alone do not say.
    filled = contains(fact.option, fact.ring_centre)
    if fact.at is HolePlace.WALL:
        if filled:
            return say("In the ring, the option is closed, but the finished outline is open.")
        return say("In the ring, the option is open, but the finished outline is closed.")
    if filled:
        return say("In the ring, the option is filled, but the finished outline is empty.")
    return say("In the ring, the option is empty, but the finished outline is filled.")


def choosing_words() -> dict[str, str]:
    """The texts of the page where an option is chosen, by key; what stands in braces is filled there."""
    label, count, labels = "{label}", "{count}", "{labels}"
    return {
        "choose.legend": say("Which option do you choose?"),
        "choose.option": say("Option {label}", label=label),
        "choose.tried": say("tried, not this one"),
        "choose.right": say("this one"),
        "choose.check": say("Check my answer"),
        "choose.note": say("Note my answer"),
        "choose.noted": say("Option {label} is noted.", label=label),
        "choose.notTold": say("This lesson does not tell the answer. Tell someone why you chose it."),
        "choose.change": say("Choose again"),
        "choose.solution": say("Show the solution"),
        "choose.pick": say("Choose an option first."),
        "choose.hold": say("Choose an option and check it, or ask for the solution."),
        "choose.holdTried": say("Try again, or see the solution."),
        "choose.sure": say("You have not checked an option yet. Do you want to see the solution now?"),
        "choose.yes": say("Yes, show the solution"),
        "choose.no": say("No, not yet"),
        "choose.again": say("Try again"),
        "choose.see": say("See the solution"),
        "choose.on": say("On to the solution"),
        "choose.asked": say("You asked for the solution."),
        "clock.title": say("Clock"),
        "clock.ready": say("Take as long as you like, or use the clock: it gives you {time}.", time="{time}"),
        "clock.seconds": say("{count} seconds", count=count),
        "clock.minute": say("1 minute"),
        "clock.minutes": say("{count} minutes", count=count),
        "clock.minuteMore": say("1 minute and {count} seconds", count=count),
        "clock.minutesMore": say("{minutes} minutes and {count} seconds", minutes="{minutes}", count=count),
        "clock.left": say("About {time} left.", time="{time}"),
        "clock.fewLeft": say("A few seconds left."),
        "clock.held": say("The clock stands still. About {time} left.", time="{time}"),
        "clock.fewHeld": say("The clock stands still. A few seconds left."),
        "clock.up": say("The time is up. Nothing happens: take as long as you still need."),
        "clock.off": say("The clock is off. Take as long as you like."),
        "clock.start": say("Start the clock"),
        "clock.stop": say("Stop the clock"),
        "clock.more": say("30 seconds more"),
        "clock.turnOff": say("No clock"),
        "clock.turnOn": say("Use the clock"),
        "answers.title": say("My answers"),
        "answers.none": say("You have not answered a question yet."),
        "answers.chose": say("Chosen: {labels}.", labels=labels),
        "answers.wasRight": say("{label} is right.", label=label),
        "answers.notRight": say("The right one was not chosen."),
        "answers.solution": say("The solution was asked for."),
        "answers.took": say("Time: about {time}.", time="{time}"),
        "answers.where": say(
            "Your answers are kept on this device only, and only while this window is open. No name is kept."
        ),
        "answers.copy": say("Copy for the teacher"),
        "answers.copied": say("Copied. Now you can paste it into a message."),
        "answers.byHand": say("The text is selected. Copy it with Ctrl and C, or hold it with your finger."),
        "answers.forget": say("Forget my answers"),
        "answers.forgotten": say("Your answers are forgotten."),
        "answers.text": say("Your answers as text"),
    }
