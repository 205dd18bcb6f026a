"""The words round a lesson's own words where it is read: in its transcript, and in the script of whoever records it."""

from __future__ import annotations

from ..words.messages import decimal, say, say_as

__all__ = [
    "cue_heading",
    "nothing_said",
    "on_screen",
    "own_words_of_teacher",
    "said",
    "script_about",
    "script_title",
    "seconds_to_fill",
    "silence",
    "to_wait",
    "transcript_about",
    "transcript_title",
]


def transcript_title(title: str) -> str:
    """Of the transcript of a lesson."""
    return say("{title}: transcript", title=title)


def transcript_about() -> str:
    """What a transcript is."""
    return say("All that is said in the clip, and all that is seen in it, step by step.")


def on_screen(seen: str) -> str:
    """What is seen."""
    return say("On screen: {seen}", seen=seen)


def said(words: str) -> str:
    """What is said."""
    return say("Said: {words}", words=words)


def to_wait(seconds: float) -> str:
    """The clip waits for its learners."""
    return say("The clip waits for {seconds} seconds.", seconds=_seconds(seconds))


def own_words_of_teacher() -> str:
    """A remark beside words that are the teacher's, not ours."""
    return say("The teacher's own words.")


def script_title(title: str) -> str:
    """Of the script of a lesson."""
    return say("{title}: recording script", title=title)


def script_about() -> str:
    """How a script is read."""
    return say(
        "Read each cue aloud in the time that stands beside it. Take a breath between two lines, and leave a "
        "moment of silence between two cues."
    )


def cue_heading(number: int, heading: str) -> str:
    """Of one cue: its number, and the heading of its step."""
    return say("Cue {number}: {heading}", number=number, heading=heading)


def seconds_to_fill(seconds: float) -> str:
    """How long the words of a cue should take."""
    return say("{seconds} seconds to fill.", seconds=_seconds(seconds))


def silence(seconds: float) -> str:
    """Nothing is said for so long."""
    return say_as("in a script", "{seconds} seconds of silence.", seconds=_seconds(seconds))


def nothing_said() -> str:
    """A cue without words."""
    return say_as("in a script", "Say nothing.")


def _seconds(seconds: float) -> str:
    return decimal(f"{seconds:.1f}".removesuffix(".0"))
