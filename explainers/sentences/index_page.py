"""The words of the page that opens a lesson's folder: what each file is called there, and what it is for.

Read before the lesson by anyone, so nothing in here says which option fits.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum

from ..words.messages import decimal, message, say, say_as, say_count
from .sheets import CutOutWords, cut_out_words
from .variants import called

__all__ = [
    "Group",
    "IndexItem",
    "captions_off",
    "captions_on",
    "captions_track",
    "chapters_heading",
    "clip_heading",
    "clip_of_before",
    "clip_unplayable",
    "files_label",
    "group_heading",
    "holding",
    "pictures_label",
    "purpose_of",
    "size_in_words",
    "title_of",
]


class Group(StrEnum):
    """For whom a file is."""

    LEARNERS = "learners"
    TEACHER = "teacher"
    PUBLISHING = "publishing"
    KEPT = "kept"


class IndexItem(StrEnum):
    """What may lie in the folder; what is made by a writer of ours has the writer's name."""

    DECK_HTML = "deck-html"
    QUESTIONS = "questions"
    CUT_OUT = "cutout"
    TRANSCRIPT = "transcript"
    DECK = "deck"
    DECK_PDF = "deck-pdf"
    HANDOUT = "handout"
    ANSWERS = "answers"
    MARKING = "marking"
    CERTIFICATE = "certificate"
    CUES = "cues"
    SCRIPT = "script"
    PROMPTER = "prompter"
    CLIP = "clip"
    POSTER = "poster"
    STILLS = "stills"
    DESCRIPTION = "description"
    KEPT = "kept"


_GROUPS = {
    Group.LEARNERS: message("For learners"),
    Group.TEACHER: message("For the teacher"),
    Group.PUBLISHING: message("For showing it elsewhere"),
    Group.KEPT: message("Kept for you"),
}
_TITLES = {
    IndexItem.DECK_HTML: message("Slides in the browser"),
    IndexItem.QUESTIONS: message("Question sheet"),
    IndexItem.TRANSCRIPT: message("The lesson as text"),
    IndexItem.DECK: message("Slides to edit"),
    IndexItem.DECK_PDF: message("Slides to show"),
    IndexItem.HANDOUT: message("Handout"),
    IndexItem.ANSWERS: message("Answer sheet"),
    IndexItem.MARKING: message("Marking sheet"),
    IndexItem.CERTIFICATE: message("Certificate"),
    IndexItem.CUES: message("Cue sheet"),
    IndexItem.SCRIPT: message("Recording script"),
    IndexItem.PROMPTER: message("Prompter"),
    IndexItem.CLIP: message("The clip as a file"),
    IndexItem.POSTER: message("Poster"),
    IndexItem.STILLS: message("Pictures of every step"),
    IndexItem.DESCRIPTION: message("Description"),
    IndexItem.KEPT: message("Files put aside"),
}
_PURPOSES = {
    IndexItem.DECK_HTML: message("Go through the lesson step by step, at your own pace. No network is needed."),
    IndexItem.QUESTIONS: message("The questions on paper, to print and hand out."),
    IndexItem.TRANSCRIPT: message("All that is said and seen in the clip, to read or to have read aloud."),
    IndexItem.DECK: message("Every shape can be changed, and the notes hold what is said."),
    IndexItem.DECK_PDF: message("The steps as pages, which look the same on every machine."),
    IndexItem.HANDOUT: message("The steps on paper, with lines to write on."),
    IndexItem.ANSWERS: message("The answers and their reasons, for after the learners have tried."),
    IndexItem.MARKING: message("What each choice tells of a learner, and what to practise next."),
    IndexItem.CERTIFICATE: message("The proof that each question has exactly one answer. It gives the answers away."),
    IndexItem.CUES: message("What is said when, over which picture, as a table and as captions."),
    IndexItem.SCRIPT: message("What to say, and in how many seconds, to read from while you record."),
    IndexItem.PROMPTER: message("A page to read from while your recorder runs. It notes when each step began."),
    IndexItem.CLIP: message("The clip to copy, and its captions for other players."),
    IndexItem.POSTER: message("One picture that stands for the lesson in a list."),
    IndexItem.STILLS: message("The pictures one by one, for a sheet or a page of your own."),
    IndexItem.DESCRIPTION: message("Title, summary and chapters as plain text, to paste where the clip is shown."),
    IndexItem.KEPT: message("Files that somebody had changed, or put here, before new ones got their names."),
}


def group_heading(group: Group) -> str:
    """Over the files that are for the same people."""
    return say(_GROUPS[group])


def title_of(thing: IndexItem, to_cut: CutOutWords | None = None) -> str:
    """What it is called.

    to_cut : what the cut-outs of these questions are called, and what they are for
    """
    return (to_cut or cut_out_words(())).title if thing is IndexItem.CUT_OUT else say(_TITLES[thing])


def purpose_of(thing: IndexItem, to_cut: CutOutWords | None = None) -> str:
    """What it is for, in a sentence or two.

    to_cut : as for ``title_of``
    """
    return (to_cut or cut_out_words(())).purpose if thing is IndexItem.CUT_OUT else say(_PURPOSES[thing])


# Of a thing that has several files: what each holds.
_LABELS = {
    "table": message("Table"),
    "captions": message("Captions"),
    "chapters": message("Chapters"),
    "descriptions": message("Descriptions"),
}


def holding(what: str) -> str:
    """What a file holds, where a thing has several: of "table", "captions", "chapters", "descriptions"."""
    return say(_LABELS[what])


def pictures_label(count: int, words: Sequence[str]) -> str:
    """A folder of pictures, with the words of its variant."""
    pictures = say_count("{count} picture", "{count} pictures", count)
    return ", ".join((pictures, called(words))) if words else pictures


def files_label(count: int) -> str:
    """A folder of files of several kinds."""
    return say_count("{count} file", "{count} files", count)


def size_in_words(size: int) -> str:
    """How large a file is: "12 kB", "1.5 MB".

    size : bytes; a kB is a thousand of them
    """
    if size < 999_500:
        return say("{number} kB", number=max(1, round(size / 1000)))
    return say("{number} MB", number=decimal(f"{size / 1e6:.1f}" if size < 99.95e6 else f"{size / 1e6:.0f}"))


def clip_heading() -> str:
    """Over the clip."""
    return say("The clip")


def chapters_heading() -> str:
    """Over the list of its chapters."""
    return say_as("of a clip", "Chapters")


def captions_track() -> str:
    """What a player's menu calls the captions."""
    return say_as("of a clip", "Captions")


def captions_on() -> str:
    """On the button, while captions are shown."""
    return say("Captions: on")


def captions_off() -> str:
    """On the button, while none are shown."""
    return say("Captions: off")


def clip_of_before() -> str:
    """Where the clip in the folder was made from other words."""
    return say(
        "The clip in this folder is of the lesson as it was before. Build the lesson again to see the clip here."
    )


def clip_unplayable() -> str:
    """Where the browser cannot play the clip."""
    return say("This browser cannot play the clip. Try another browser, or open the file in a player.")
