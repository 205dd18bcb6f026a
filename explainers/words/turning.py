"""Turns in whole sentences: a piece, an option or the outline is told to turn, so far and that way round."""

from __future__ import annotations

from .messages import say
from .names import degrees_in_words, is_half_turn, is_quarter_turn

__all__ = ["turn_and_fit", "turn_outline", "turn_piece"]

# All turns are in degrees, in (-180, 180], anticlockwise positive, and none of them is no turn.


def turn_piece(piece: str, turn_deg: float) -> str:
    """A piece, such as "the flag", is told to turn."""
    if is_half_turn(turn_deg):
        return say("Give {piece} half a turn.", piece=piece)
    if is_quarter_turn(turn_deg):
        if turn_deg > 0:
            return say("Give {piece} a quarter turn anticlockwise.", piece=piece)
        return say("Give {piece} a quarter turn clockwise.", piece=piece)
    degrees = degrees_in_words(turn_deg)
    if piece[-1].isdigit():  # "Turn block 2 45 degrees" cannot be followed
        if turn_deg > 0:
            return say("Turn {piece} by {degrees} anticlockwise.", piece=piece, degrees=degrees)
        return say("Turn {piece} by {degrees} clockwise.", piece=piece, degrees=degrees)
    if turn_deg > 0:
        return say("Turn {piece} {degrees} anticlockwise.", piece=piece, degrees=degrees)
    return say("Turn {piece} {degrees} clockwise.", piece=piece, degrees=degrees)


def turn_and_fit(label: str, turn_deg: float) -> str:
    """An option is told to turn, and fits the outline then; how far is told where it has a name."""
    if is_half_turn(turn_deg):
        return say("Give {label} half a turn, and it fits all the way round.", label=label)
    if is_quarter_turn(turn_deg):
        if turn_deg > 0:
            return say("Give {label} a quarter turn anticlockwise, and it fits all the way round.", label=label)
        return say("Give {label} a quarter turn clockwise, and it fits all the way round.", label=label)
    if turn_deg > 0:
        return say("Turn {label} anticlockwise, and it fits all the way round.", label=label)
    return say("Turn {label} clockwise, and it fits all the way round.", label=label)


def turn_outline(turn_deg: float) -> str:
    """The finished outline is told to turn."""
    if is_half_turn(turn_deg):
        return say("Give the outline half a turn.")
    if is_quarter_turn(turn_deg):
        if turn_deg > 0:
            return say("Give the outline a quarter turn anticlockwise.")
        return say("Give the outline a quarter turn clockwise.")
    degrees = degrees_in_words(turn_deg)
    if turn_deg > 0:
        return say("Turn the outline {degrees} anticlockwise.", degrees=degrees)
    return say("Turn the outline {degrees} clockwise.", degrees=degrees)
