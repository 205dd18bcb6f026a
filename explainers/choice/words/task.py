"""What is asked of a learner, whatever the question: to try, to choose, to compare, to stop and think."""

from __future__ import annotations

from ...words.messages import say, say_count
from .choices import look_first

__all__ = [
    "ask_options",
    "check",
    "compare",
    "drawn_sizes",
    "pause_over",
    "recall",
    "stop_note",
    "try_options",
    "your_turn",
]


def your_turn(pause_s: float) -> tuple[str, ...]:
    """The learner is asked to try, with the time there is; no time is named where there is none."""
    sentences = (say("Your turn: choose one, and say why."),)
    return sentences if pause_s <= 0 else (*sentences, _take(pause_s))


def recall(*, outline_given: bool = False) -> tuple[str, ...]:
    """The sheet of a question that learners have tried already, or see solved at once.

    outline_given : as `Question.outline_given`
    """
    if outline_given:
        which = say("Which option shows this outline?")
    else:
        which = say("Which option shows the finished outline?")
    return (say("This is the question."), which, say("We work it out together."))


def check(*, sizes_differ: bool = False, outline_given: bool = False) -> tuple[str, ...]:
    """The question of a quick check: the outline and the options, nothing to work out first. It answers nothing.

    sizes_differ  : whether an option is drawn to another scale than the others
    outline_given : as `Question.outline_given`
    """
    if outline_given:
        here = say("Here is an outline, with options beside it.")
    else:
        here = say("Here is a finished outline, with options beside it.")
    return (
        here,
        say("You may turn options, but never flip them."),
        *drawn_sizes(sizes_differ),
        say("Which option shows this outline?"),
    )


def compare() -> tuple[str, ...]:
    """The end of a question without its solution."""
    return (say("Which option did you choose?"), say("Tell someone, and say why."))


def try_options(*, sifted: bool) -> tuple[str, ...]:
    """The pause of a quick check has ended.

    sifted : whether some options are ruled out by what can be seen before any is tried
    """
    return (*pause_over(), look_first() if sifted else say("Let us try the options one by one."))


def pause_over() -> tuple[str, ...]:
    """The pause has ended."""
    return (say("Let us work it out together."),)


def ask_options() -> tuple[str, ...]:
    """Before the options are tried."""
    return (say("Before that, stop and think."), say("Which option fits the outline, and why?"))


def stop_note() -> str:
    """For the teacher, at every stop."""
    return say("Stop the clip if you need longer. Hear two or three answers with reasons before you go on.")


def drawn_sizes(differ: bool) -> list[str]:
    """Said where an option is drawn to another scale than the others."""
    return [say("An option may be drawn larger or smaller.")] if differ else []


def _take(seconds: float) -> str:
    """The time there is, in whole seconds, or in minutes where it is a half or whole one."""
    whole = max(1, round(seconds))
    if whole < 60 or whole % 30:
        return say_count("Take about {count} second.", "Take about {count} seconds.", whole)
    minutes, half = divmod(whole, 60)
    if half:
        return say_count("Take about {count} and a half minutes.", "Take about {count} and a half minutes.", minutes)
    return say_count("Take about {count} minute.", "Take about {count} minutes.", minutes)
