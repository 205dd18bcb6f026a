"""The format of an item as JSON Schema, from the tables that the readers read by."""

from __future__ import annotations

from ..document.fields import MAX_CORNERS
from ..document.schema_values import (
    CORNERS,
    NAME_VALUE,
    POINT,
    SIDE,
    Schema,
    choice,
    either,
    keys_with,
    list_of,
    number,
    text,
    told,
    whole,
    whole_match,
)
from ..document.syntax import MAX_TEXT
from .accepted_reader import ACCEPTED_KEYS, MAX_REASON
from .item_reader import BASE_KEYS, ITEM_KEYS, MAX_TITLE
from .model import Does
from .option_reader import (
    LEAST_OPTIONS,
    LEAST_SCALE,
    MADE_KEYS,
    MAX_SEED,
    MOST_OPTIONS,
    MOST_SCALE,
    OPTION_KEYS,
)
from .outline_reader import MAX_HOLES
from .piece_reader import MAX_MARK, MAX_PIECES, PIECE_KEYS
from .ready_outlines import READY
from .ring_reader import LEAST_SIZE, RING_KEYS, WAYS
from .walk_reader import CLOSE, STEP_PATTERN

__all__ = ["ITEM_SCHEMA"]

_READY = {
    name: told(
        keys_with(
            [size.name for size in kind.sizes],
            {
                size.name: told(whole(*size.counts) if size.counts else number(LEAST_SIZE), size.what)
                for size in kind.sizes
            },
            due=[size.name for size in kind.sizes if not size.optional],
        ),
        f"{kind.what}; such as {kind.example}",
    )
    for name, kind in READY.items()
}

_WALK = either(
    {
        "type": "string",
        "pattern": whole_match(rf"{STEP_PATTERN}(,{STEP_PATTERN})*(,\s*{CLOSE}\s*)?(,\s*)?"),
        "maxLength": MAX_TEXT,
    },
    list_of({"type": "string", "pattern": whole_match(rf"{STEP_PATTERN}|\s*{CLOSE}\s*")}, 1, MAX_CORNERS),
)


def _defined(name: str) -> Schema:
    """What is said once, below."""
    return {"$ref": f"#/$defs/{name}"}


_RING = {
    "corners": told(_defined("corners"), "the corners [x, y] in the order of a walk round, either way, from any start"),
    "walk": told(
        _defined("walk"),
        "steps round the outline, such as right 4, up 2, left 3 up 1, up-left 2, 60deg 3; close: back to the start",
    ),
    "ready": told(_defined("ready"), "a ready outline with its sizes"),
    "from": told(POINT, "where corner 1 of a walk or of a ready outline lies; else at [0, 0]"),
}
_ONE_WAY: list[Schema] = [{"required": [way]} for way in WAYS]
_NO_START = {"from": {"not": {"required": ["corners"]}}}

_HOLE = keys_with(RING_KEYS, _RING, oneOf=_ONE_WAY, dependentSchemas=_NO_START)
_OUTLINE = {
    **_RING,
    "holes": told(
        list_of(either(_defined("corners"), _defined("hole")), 0, MAX_HOLES),
        "the outlines of holes, each like the outline itself",
    ),
}

_TURNED = told(number(), "how it is shown turned: degrees, anticlockwise (default 0)")

_PIECE = keys_with(
    PIECE_KEYS,
    {
        **_RING,
        "piece": told({**NAME_VALUE, "not": {"const": "base"}}, "the name of the piece, such as flag"),
        "does": told(choice(does.value for does in Does), "join: it is joined on; cut: it is cut out"),
        "turned": _TURNED,
        "side": told(SIDE, "the marked side of the piece, or a part of one: two points, or the number of a side"),
        "meets": told(SIDE, "the side that it must meet, or a part of one: two points, or the number of a side"),
        "of": told(NAME_VALUE, "whose side it must meet: base (the default), or an earlier joined piece"),
        "mark": told(
            {"type": ["string", "number", "boolean"], "pattern": r"^\S+$", "maxLength": MAX_MARK},
            f"1 to {MAX_MARK} letters or digits, shown at both sides",
        ),
    },
    due=("piece", "does", "side", "meets"),
    oneOf=_ONE_WAY,
    dependentSchemas=_NO_START,
)

_MADE_FROM_RESULT: Schema = {
    "required": ["outline"],
    "not": {"anyOf": [{"required": [key]} for key in (*WAYS, "from", "holes")]},
}
_DRAWN: Schema = {"oneOf": _ONE_WAY, "not": {"anyOf": [{"required": [key]} for key in ("outline", "slip", "piece")]}}

_OPTION = keys_with(
    OPTION_KEYS,
    {
        **_OUTLINE,
        "outline": told({"const": "result"}, "result: the finished outline, changed by slip where there is one"),
        "slip": told(NAME_VALUE, "the slip that makes it, such as flipped or not-turned"),
        "piece": told(NAME_VALUE, "the piece that the slip happens to"),
        "turned": _TURNED,
        "scale": told(number(LEAST_SCALE, MOST_SCALE), "how large it is shown (default 1)"),
        "name": told(NAME_VALUE, "a name for step ids; learners never see it"),
    },
    anyOf=[_MADE_FROM_RESULT, _DRAWN],
    dependentRequired={"piece": ["slip"]},
    dependentSchemas=_NO_START,
)

_MADE = keys_with(
    MADE_KEYS,
    {
        "make": told(whole(LEAST_OPTIONS - 1, MOST_OPTIONS - 1), "how many wrong options to make (default 4)"),
        "seed": told(whole(0, MAX_SEED), "another number, other options (default 1)"),
    },
)

ITEM_SCHEMA = keys_with(
    ITEM_KEYS,
    {
        "item": told(NAME_VALUE, "the name of the item: lower-case letters, digits, hyphens"),
        "title": told(text(MAX_TITLE), "what learners read above it (default: from the name)"),
        "base": told(
            keys_with(BASE_KEYS, _OUTLINE, oneOf=_ONE_WAY, dependentSchemas=_NO_START),
            "the outline that pieces are joined to or cut out of",
        ),
        "pieces": told(list_of(_PIECE, 1, MAX_PIECES), f"1 to {MAX_PIECES} pieces, done in this order"),
        "options": told(
            either(list_of(_OPTION, LEAST_OPTIONS, MOST_OPTIONS), _MADE),
            f"{LEAST_OPTIONS} to {MOST_OPTIONS} options, labelled A, B, C ... in order; or make: to have them made",
        ),
        "accepted": told(
            keys_with(
                ACCEPTED_KEYS,
                {kind: told(text(MAX_REASON), "why this warning may stand") for kind in ACCEPTED_KEYS},
            ),
            "warnings that you have looked at, each with your reason",
        ),
    },
    due=("item", "base", "pieces", "options"),
    **{
        "$defs": {
            "corners": CORNERS,
            "walk": _WALK,
            "ready": keys_with(list(READY), _READY, minProperties=1, maxProperties=1),
            "hole": _HOLE,
        }
    },
)
