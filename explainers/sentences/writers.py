"""What writers add to the words of a lesson: in the notes of slides, on cue sheets, where words are a draft."""

from __future__ import annotations

from ..words.catalogue import languages
from ..words.messages import say, say_as

__all__ = [
    "cue_columns",
    "draft_line",
    "in_the_clip",
    "own_words",
    "own_words_mark",
    "own_words_note",
    "pause_note",
    "scratch_note",
    "scratch_title",
]


def own_words(sentences: str) -> str:
    """Words that are the teacher's, told to be so."""
    return say("The teacher's own words: {words}", words=sentences)


def own_words_note() -> str:
    """That words are the teacher's, as a note beside captions."""
    return say("the teacher's own words")


def own_words_mark() -> str:
    """That words are the teacher's, in a column that says whose they are."""
    return say_as("whose words", "teacher")


def pause_note(seconds: float) -> str:
    """How long a slide waits."""
    return say("Pause: {seconds} seconds.", seconds=f"{seconds:g}")


def in_the_clip(start: str, end: str) -> str:
    """Where a slide's words are in the clip."""
    return say("In the clip: {start} to {end}.", start=start, end=end)


def cue_columns() -> tuple[str, ...]:
    """The columns of a cue sheet."""
    return (
        *(say_as("a column", "number"), say_as("a column", "step id"), say_as("a column", "start")),
        *(say_as("a column", "end"), say_as("a column", "duration"), say_as("a column", "chapter")),
        *(say_as("a column", "words"), say_as("a column", "words a minute")),
        *(say_as("a column", "what changes on screen"), say_as("a column", "whose words")),
    )


def draft_line(tag: str) -> str:
    """What must be said of words in a language that no speaker has read; "" for a language that is read.

    In English, and the same everywhere: it is for whoever chose the language.
    """
    status = languages().get(tag, "")
    return f"Language {tag}: {status}" if status else ""


def scratch_note() -> str:
    """Of a lesson that a machine speaks until somebody has recorded it."""
    return say("A machine speaks this lesson: it is a scratch voice, to judge the pace.")


def scratch_title(title: str) -> str:
    """The title of such a lesson."""
    return say("{title} (scratch voice)", title=title)
