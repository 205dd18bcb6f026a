"""How a piece is turned so that its marked side lies like its partner: what is seen, what is done, when to stop."""

from __future__ import annotations

from enum import StrEnum

from ....words.messages import message, once, say
from ....words.names import degrees_in_words, is_quarter_turn, sentence_case
from ....words.turning import turn_piece

__all__ = [
    "Hand",
    "Place",
    "Slope",
    "belongs",
    "half_turn",
    "lies_wrongly",
    "no_turn",
    "other_way",
    "sides_alike",
    "sides_differ",
    "size_of_turn",
    "stop_when",
    "then_lies",
    "turn_until",
]


class Slope(StrEnum):
    """How a side lies, as far as it can be named."""

    UPRIGHT = "upright"
    FLAT = "flat"
    RISING = "rising"  # halfway between the two, up to the right
    FALLING = "falling"  # halfway between the two, down to the right
    SLANTED = "slanted"  # plainly neither upright nor flat
    UNNAMED = "unnamed"  # so nearly upright or flat that no word is plainly true

    @property
    def slants(self) -> bool:
        """Whether anybody would say that it slants."""
        return self in (Slope.RISING, Slope.FALLING, Slope.SLANTED)

    @property
    def plain(self) -> str:
        """For a teacher's line."""
        return {
            "rising": "slants up",
            "falling": "slants down",
            "slanted": "slants",
            "unnamed": "lies its own way",
        }.get(self.value, f"is {self.value}")


class Hand(StrEnum):
    """On which side of a side something lies."""

    LEFT = "left"
    RIGHT = "right"
    ABOVE = "above"
    BELOW = "below"

    @property
    def opposite(self) -> Hand:
        """The other side."""
        pairs = {Hand.LEFT: Hand.RIGHT, Hand.ABOVE: Hand.BELOW}
        return {**pairs, **{b: a for a, b in pairs.items()}}[self]

    @property
    def plain(self) -> str:
        """For a teacher's line."""
        return f"{self.value} of" if self in (Hand.LEFT, Hand.RIGHT) else self.value


class Place(StrEnum):
    """Where a piece comes to lie."""

    OUTSIDE = "outside"  # beside the cloth
    HOLE = "hole"  # beside the cloth, in a hole of it
    INSIDE = "inside"  # on the cloth


# How the marked side and its partner lie, where the one must turn to lie like the other.
_DIFFER = {
    ("slants", "upright"): message("The marked side slants, but its partner is upright."),
    ("slants", "flat"): message("The marked side slants, but its partner lies flat."),
    ("flat", "upright"): message("The marked side lies flat, but its partner is upright."),
    ("flat", "slants"): message("The marked side lies flat, but its partner slants."),
    ("upright", "flat"): message("The marked side is upright, but its partner lies flat."),
    ("upright", "slants"): message("The marked side is upright, but its partner slants."),
    ("rising", "falling"): message("The marked side slants up to the right, but its partner slants down."),
    ("falling", "rising"): message("The marked side slants down to the right, but its partner slants up."),
    ("slants", "slants"): message("The marked side slants, and its partner slants another way."),
}


def sides_differ(slope: Slope, goal: Slope) -> str:
    """How the marked side and its partner lie, when they do not lie alike."""
    found = _DIFFER.get((slope.value, goal.value)) or _DIFFER.get((_kind(slope), _kind(goal)))
    if found is None:
        return say("The marked side does not lie like its partner yet.")
    return say(found)


def _kind(slope: Slope) -> str:
    return "slants" if slope.slants else slope.value


def sides_alike(slope: Slope) -> str:
    """How the marked side and its partner lie, when they lie alike."""
    if slope is Slope.UPRIGHT:
        return say("The marked side is upright, just like its partner.")
    if slope is Slope.FLAT:
        return say("The marked side lies flat, just like its partner.")
    if slope.slants:
        return say("The marked side slants just like its partner.")
    return say("The marked side lies just like its partner.")


_BELONGS = {
    (Place.OUTSIDE, Hand.LEFT): message("{piece} belongs outside, on the left."),
    (Place.OUTSIDE, Hand.RIGHT): message("{piece} belongs outside, on the right."),
    (Place.OUTSIDE, Hand.ABOVE): message("{piece} belongs outside, above it."),
    (Place.OUTSIDE, Hand.BELOW): message("{piece} belongs outside, below it."),
    (Place.HOLE, Hand.LEFT): message("{piece} belongs in the hole, on the left."),
    (Place.HOLE, Hand.RIGHT): message("{piece} belongs in the hole, on the right."),
    (Place.HOLE, Hand.ABOVE): message("{piece} belongs in the hole, above it."),
    (Place.HOLE, Hand.BELOW): message("{piece} belongs in the hole, below it."),
    (Place.INSIDE, Hand.LEFT): message("{piece} belongs inside, on the left."),
    (Place.INSIDE, Hand.RIGHT): message("{piece} belongs inside, on the right."),
    (Place.INSIDE, Hand.ABOVE): message("{piece} belongs inside, above it."),
    (Place.INSIDE, Hand.BELOW): message("{piece} belongs inside, below it."),
}


def belongs(piece: str, place: Place, hand: Hand) -> str:
    """Where the piece must come to lie."""
    return sentence_case(say(_BELONGS[place, hand], piece=piece))


_LIES_WRONGLY = {
    Hand.LEFT: message("But now it lies on the left."),
    Hand.RIGHT: message("But now it lies on the right."),
    Hand.ABOVE: message("But now it lies above."),
    Hand.BELOW: message("But now it lies below."),
}


def lies_wrongly(hand: Hand) -> str:
    """The piece lies on the other side of its mark than it must."""
    return say(_LIES_WRONGLY[hand])


_LIES_ALREADY = {
    Hand.LEFT: message("It lies on the left already, so it needs no turn."),
    Hand.RIGHT: message("It lies on the right already, so it needs no turn."),
    Hand.ABOVE: message("It lies above already, so it needs no turn."),
    Hand.BELOW: message("It lies below already, so it needs no turn."),
}


def no_turn(hand: Hand) -> tuple[str, ...]:
    """The piece lies as it must."""
    return (say(_LIES_ALREADY[hand]),)


def half_turn(piece: str) -> tuple[str, ...]:
    """The piece is turned the other way round."""
    return (turn_piece(piece, 180.0), say("Clockwise or anticlockwise: either way will do."))


# Whether anticlockwise, and how the marked side lies when it is to stop.
_UNTIL = {
    (True, "upright"): message("Turn it anticlockwise until the marked side is upright."),
    (True, "flat"): message("Turn it anticlockwise until the marked side lies flat."),
    (True, "slants"): message("Turn it anticlockwise until the marked side slants like its partner."),
    (True, "unnamed"): message("Turn it anticlockwise until the marked side lies like its partner."),
    (False, "upright"): message("Turn it clockwise until the marked side is upright."),
    (False, "flat"): message("Turn it clockwise until the marked side lies flat."),
    (False, "slants"): message("Turn it clockwise until the marked side slants like its partner."),
    (False, "unnamed"): message("Turn it clockwise until the marked side lies like its partner."),
}


def turn_until(turn_deg: float, goal: Slope) -> str:
    """Which way the piece, of which the sentence before it speaks, is turned, and when to stop."""
    return say(_UNTIL[turn_deg > 0.0, _kind(goal)])


# The same where the piece and its turn have just been named.
_STOP = {
    "upright": message("Stop when the marked side is upright."),
    "flat": message("Stop when the marked side lies flat."),
    "slants": message("Stop when the marked side slants like its partner."),
    "unnamed": message("Stop when the marked side lies like its partner."),
}


def stop_when(goal: Slope) -> str:
    """How the marked side lies when the turn is to stop."""
    return say(_STOP[_kind(goal)])


_MUST_LIE = {
    Hand.LEFT: message("Then it lies on the left, where it belongs."),
    Hand.RIGHT: message("Then it lies on the right, where it belongs."),
    Hand.ABOVE: message("Then it lies above, where it belongs."),
    Hand.BELOW: message("Then it lies below, where it belongs."),
}


def then_lies(hand: Hand) -> str:
    """Where a piece that has been given half a turn lies."""
    return say(_MUST_LIE[hand])


_OTHER_WAY = {
    (True, Hand.LEFT): message("Not anticlockwise: that would put it on the left."),
    (True, Hand.RIGHT): message("Not anticlockwise: that would put it on the right."),
    (True, Hand.ABOVE): message("Not anticlockwise: that would put it above."),
    (True, Hand.BELOW): message("Not anticlockwise: that would put it below."),
    (False, Hand.LEFT): message("Not clockwise: that would put it on the left."),
    (False, Hand.RIGHT): message("Not clockwise: that would put it on the right."),
    (False, Hand.ABOVE): message("Not clockwise: that would put it above."),
    (False, Hand.BELOW): message("Not clockwise: that would put it below."),
}


def other_way(hand: Hand, *, is_anticlockwise: bool) -> str:
    """Where the piece would lie if its marked side were brought there the other way round, by less than a quarter.

    is_anticlockwise : of that other way
    """
    return once(say(_OTHER_WAY[is_anticlockwise, hand]), "not the other way")


def size_of_turn(turn_deg: float) -> str:
    """How far that is, put together from quarter turns where it can be; a way that is known is not told again."""
    size, degrees = abs(turn_deg), degrees_in_words(turn_deg)
    if is_quarter_turn(size):
        return say("That is {degrees}, a quarter turn.", degrees=degrees)
    known = say("That is {degrees}.", degrees=degrees)
    if abs(size - 45.0) <= 0.1:
        return once(say("That is {degrees}, half of a quarter turn.", degrees=degrees), "45 degrees", later=known)
    if abs(size - 135.0) <= 0.1:
        told = say("That is {degrees}: a quarter turn and half of another.", degrees=degrees)
        return once(told, "135 degrees", later=known)
    if size < 90.0:
        told = say("That is {degrees}, less than a quarter turn.", degrees=degrees)
        return once(told, "less than a quarter turn", later=known)
    more = degrees_in_words(size - 90.0)
    told = say("That is {degrees}: a quarter turn plus {more}.", degrees=degrees, more=more)
    return once(told, "more than a quarter turn", later=known)
