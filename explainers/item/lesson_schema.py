"""The formats of a lesson and of a series as JSON Schema, from the tables that the readers read by.

Whether a file that is named is there, and what is in it, no schema sees.
"""

from __future__ import annotations

from ..document.schema_values import (
    NAME_VALUE,
    Schema,
    choice,
    either,
    keys_with,
    list_of,
    number,
    text,
    told,
    whole_match,
)
from ..document.syntax import MAX_KEY
from .lesson_reader import (
    ASK_OF_A_PIECE,
    ASKS_IN_GENERAL,
    LEAST_PAUSE_S,
    LESSON_KEYS,
    MANNERS,
    MAX_ASKS,
    MAX_PARTS,
    MAX_STEPS,
    MOST_PAUSE_S,
    PART_KEYS,
    STEP_ID,
)
from .model import PACE_NAMES, Manner
from .series_reader import MAX_LESSONS, SERIES_KEYS
from .shared_reader import (
    LANGUAGES,
    LANGUAGES_OFFERED,
    MAX_CARD_LINE,
    MAX_CARD_LINES,
    MAX_COMMAND,
    MAX_CREDIT,
    MAX_FILE_NAME,
    MAX_TITLE,
    MAX_VOICE_KEYS,
    MAX_WORDS,
)

__all__ = ["LESSON_SCHEMA", "SERIES_SCHEMA"]

_FILE = text(MAX_FILE_NAME)
_VOICE: Schema = {
    "type": "object",
    "properties": {
        "command": told(
            list_of(text(MAX_FILE_NAME), 1, MAX_COMMAND),
            "a program that speaks a scratch voice, and its arguments, as a list: words in, WAV out",
        )
    },
    "additionalProperties": text(MAX_CREDIT),
    "minProperties": 1,
    "maxProperties": MAX_VOICE_KEYS,
}
_SHARED = {
    "language": told(choice(LANGUAGES), f"of all words: {', '.join(LANGUAGES_OFFERED)}; default en-GB"),
    "pace": told(choice(PACE_NAMES), "how fast it is told, and how long its captions are (default school)"),
    "theme": told(_FILE, "how everything looks: light, dark, print, or the name of a theme file"),
    "opening": told(text(MAX_WORDS), "what is said first"),
    "closing": told(text(MAX_WORDS), "what is said last"),
    "card": told(
        either(text(MAX_CARD_LINE), list_of(text(MAX_CARD_LINE), 1, MAX_CARD_LINES)), "further lines of the title card"
    ),
    "template": told(_FILE, "a .pptx file whose masters dress the deck"),
    "voice": told(
        _VOICE, "what is known of the voice, such as speaker: Ada; command: the program of a scratch voice, as a list"
    ),
    "credit": told(text(MAX_CREDIT), "who made it"),
    "licence": told(text(MAX_CREDIT), "under what licence it may be used"),
}

_ASK = either(choice(ASKS_IN_GENERAL), {"type": "string", "pattern": whole_match(ASK_OF_A_PIECE)})
_PART = keys_with(
    PART_KEYS,
    {
        "show": told(_FILE, "the file of an item, from the lesson's folder"),
        "as": told(choice(MANNERS), "how it is shown (default worked-example)"),
        "pause": told(number(LEAST_PAUSE_S, MOST_PAUSE_S), "seconds for learners to try first; else as suggested"),
        "ask": told(
            either(_ASK, {**list_of(_ASK, 1, MAX_ASKS), "uniqueItems": True}),
            "where to stop and ask: every-piece, or a list such as [flag.turn, flag.meet, outline, options]",
        ),
    },
    due=("show",),
    dependentSchemas={
        "pause": {
            "required": ["as"],
            "properties": {"as": choice(manner.value for manner in Manner if manner.asks_to_try)},
        },
        "ask": {"properties": {"as": choice(manner.value for manner in Manner if manner.works_through)}},
    },
)

LESSON_SCHEMA = keys_with(
    LESSON_KEYS,
    {
        **_SHARED,
        "lesson": told(NAME_VALUE, "the name of the lesson: lower-case letters, digits, hyphens"),
        "title": told(text(MAX_TITLE), "what learners read first (default: from the name)"),
        "series": told(
            _FILE, "the series' file, from the lesson's folder: the lesson takes from it what it leaves out"
        ),
        "parts": told(list_of(_PART, 1, MAX_PARTS), "the items in order, each with how it is shown"),
        "words": told(
            {
                "type": "object",
                "propertyNames": {"pattern": whole_match(STEP_ID), "maxLength": MAX_KEY},
                "additionalProperties": text(MAX_WORDS),
                "maxProperties": MAX_STEPS,
            },
            "your own sentence for a step, by its id on the cue sheet, such as corner-block.flag.turn",
        ),
    },
    due=("lesson", "parts"),
)

SERIES_SCHEMA = keys_with(
    SERIES_KEYS,
    {
        **_SHARED,
        "series": told(NAME_VALUE, "the name of the series: lower-case letters, digits, hyphens"),
        "title": told(text(MAX_TITLE), "the title of the series (default: from the name)"),
        "lessons": told(list_of(_FILE, 1, MAX_LESSONS), "the files of the lessons in order"),
    },
    due=("series",),
)
