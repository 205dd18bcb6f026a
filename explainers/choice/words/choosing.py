"""What is said to a learner who has chosen an option: why it is not this one, or that it is; and the page around it.

The option stands where the question shows it, with a ring on it: nothing here leans on its being laid on the outline.
"""

from __future__ import annotations

from ...words.messages import say
from ..differences.difference import DifferenceFact
from ..differences.mirror import MirrorFact
from ..fact import Fact, verified
from ..model import Verdict
from ..sieves.sieve import SieveFact
from ..slip import SlipFact
from ..walk import WalkFact
from .choices import flips_known

__all__ = ["choosing_words", "crossed_alt", "not_this", "ticked_alt"]


def not_this(
    verdict: Verdict,
    seen: SieveFact | WalkFact | DifferenceFact | None,
    *,
    outline_given: bool = False,
    slips_told: bool = True,
) -> tuple[tuple[str, ...], tuple[Fact, ...]]:
    """Why a wrong option is not the one, and the facts that this is made from.

    That it is flipped comes first, for no place tells that better; any other slip comes after what is seen.
    seen          : what the picture shows: what can be counted, the walk round a flipped one, or the difference in
                    whose place a ring stands; None where none can stand
    outline_given : as `Question.outline_given`
    slips_told    : whether a slip that is no flip is told
    Raises        : FactError where one of the facts does not hold
    """
    flip = next(iter(flips_known(verdict)), None)
    slip = verdict.slip if verdict.slip is not None and flip is not verdict.slip and slips_told else None
    words = [say("Not {label}.", label=verdict.label)]
    if isinstance(flip, SlipFact):
        words += (*flip.in_short(), say("No turn can undo a flip."))
    elif isinstance(flip, MirrorFact):
        words += verified(flip, flip.of_choice())
    if isinstance(seen, SieveFact):
        words += verified(seen, seen.of_choice(outline_given=outline_given))
    elif isinstance(seen, WalkFact):
        words += verified(seen, seen.of_choice())
    elif seen is not None:
        words += verified(seen, seen.of_choice(outline_given=outline_given))
    elif flip is None and outline_given:
        words.append(say("Option {label} does not fit the outline, however you turn it.", label=verdict.label))
    elif flip is None:
        words.append(say("Option {label} does not fit the finished outline, however you turn it.", label=verdict.label))
    if slip is not None:
        words += slip.in_short()
    return tuple(words), tuple(fact for fact in (flip, seen, slip) if fact is not None)


def crossed_alt(label: str, *, ringed: bool, counted: bool = False) -> str:
    """What the picture shows besides, when a wrong option was chosen."""
    if counted:
        return say("Option {label} has a cross, and what is spoken of is marked on it.", label=label)
    if ringed:
        return say("Option {label} has a cross, and a ring where it goes wrong.", label=label)
    return say("Option {label} has a cross.", label=label)


def ticked_alt(label: str) -> str:
    """What the picture shows besides, when the right option was chosen."""
    return say("Option {label} has a tick.", label=label)


def choosing_words() -> dict[str, str]:
    """The texts of the page where an option is chosen, by key; what stands in braces is filled there."""
    label, count, labels = "{label}", "{count}", "{labels}"
    return {
        "choose.legend": say("Which option do you choose?"),
        "choose.option": say("Option {label}", label=label),
        "choose.told": say("What is told of your answers"),
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
