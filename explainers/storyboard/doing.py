"""What a learner may do at a step, where the lesson is one that can be handled: lay a piece, choose an option.

Plain values, worked out beforehand: whoever shows them compares poses and looks up sentences, and works out nothing.
Outputs that are only looked at leave them aside.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..choice.fact import Fact
from ..figure.layout import Box
from ..figure.model import Figure
from ..geometry.rigid_motion import Point

__all__ = ["Choice", "ChoosableOption", "Handling", "Landing", "Loose"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Landing:
    """One way in which a piece may come to lie, and what is said of it.

    at       : where the piece's middle (``Handling.about``) then stands on the stage
    turn_deg : how far the piece is then turned from how the step's picture shows it, in (-180, 180]
    said     : the sentences, each made from `facts`
    """

    at: Point
    turn_deg: float
    said: tuple[str, ...]
    facts: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Handling:
    """A piece of the step's last picture that may be turned and slid until it lies as it must.

    Steps by keys and buttons must be small enough to come within the bounds of `near` and `near_deg` from anywhere.

    group     : the entries that move as one
    about     : the piece's middle in the picture, in stage units; it turns about this
    meeting   : the one pose in which it lies as it must
    slips     : wrong poses that come of a known slip; left where they are put, and named
    near_deg  : a pose counts as one of these if it is turned at most so far from it, in degrees ...
    near      : ... and its middle is at most so far from it, in stage units
    moves     : how far a step by a key or a button moves it, small and large, in stage units
    turns_deg : how far one turns it: small, large, and by a key only, fine
    room      : where it is slid about; a slip may lead beyond
    reach     : how far its farthest corner is from its middle, in stage units
    via       : where its middle passes on its way to the meeting, once it is turned, in stage units
    until     : the stage in which the lesson itself has laid it: whoever has laid it by hand need not see that again
    """

    group: str
    about: Point
    meeting: Landing
    slips: tuple[Landing, ...] = ()
    near_deg: float
    near: float
    moves: tuple[float, float]
    turns_deg: tuple[float, float, float]
    room: Box
    reach: float
    via: tuple[Point, ...] = ()
    until: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loose:
    """Something of the step's last picture that is moved about freely: nothing is said of where it lies.

    name      : what the picture calls it; "" where it is the only one
    group     : the entries that move as one
    about     : its middle in the picture, in stage units; it turns about this
    reach     : how far its farthest corner is from its middle, in stage units
    room      : where it is slid about, in stage units
    moves     : how far a step by a key or a button moves it, small and large, in stage units
    turns_deg : how far one turns it: small, large, and by a key only, fine
    """

    name: str = ""
    group: str
    about: Point
    reach: float
    room: Box
    moves: tuple[float, float]
    turns_deg: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoosableOption:
    """One option that may be chosen, and what is then said and shown.

    room   : its cell in the step's picture, with its letter; as large for every option
    right  : None where the lesson does not tell
    said   : the sentences of this very option, made from `facts`; () where the lesson does not tell
    figure : the question's picture with this option's place ringed, or ticked where it is right; None as above
    """

    label: str
    room: Box
    right: bool | None = None
    said: tuple[str, ...] = ()
    figure: Figure | None = None
    facts: tuple[Fact, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """The options of a question that learners answer by themselves, in their order."""

    options: tuple[ChoosableOption, ...]
