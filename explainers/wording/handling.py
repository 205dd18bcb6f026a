"""What is said while a learner lays a piece by hand: where it lies, and the words of the controls.

A landing's sentences are true however near to it the piece lies, so none says that marks touch or that a turn is exact.
"""

from __future__ import annotations

from ..item.model import Does
from ..solution.facts import MeetFact
from ..solution.landing_fact import LandingFact, LandingKind
from ..words.messages import say
from ..words.names import sentence_case, the_piece
from .held import said

__all__ = ["handling_words", "landed", "met"]


def met(fact: MeetFact) -> tuple[str, ...]:
    """The piece lies where it must."""
    meeting, piece = say("The marks {mark} meet.", mark=fact.mark), the_piece(fact.name)
    if fact.does is Does.CUT:
        return said(fact, (meeting, say("Now {piece} lies on top, because it will be cut away.", piece=piece)))
    return said(fact, (meeting, say("Now {piece} lies beside its partner, because it will be joined.", piece=piece)))


def landed(fact: LandingFact, *, is_first: bool) -> tuple[str, ...]:
    """The piece lies where a slip leads: what is wrong there, and what to try.

    is_first : whether nothing has been done to the base yet; it is called a shape else
    """
    piece, mark = the_piece(fact.piece.name), fact.piece.mark
    words: tuple[str, ...]
    match fact.kind:
        case LandingKind.SAME_PLACE:
            words = (
                say("Like this, {piece} would fit too, but the marks {mark} do not meet.", piece=piece, mark=mark),
                say("Turn it until they do."),
            )
        case LandingKind.NOT_TURNED:
            words = (
                sentence_case(say("{piece} is hardly turned.", piece=piece)),
                *_astray(fact, is_first=is_first),
                say("It must turn before the marks can meet."),
            )
        case LandingKind.TURNED_BACK:
            words = (
                sentence_case(say("{piece} is turned the wrong way.", piece=piece)),
                *_astray(fact, is_first=is_first),
                say("Put it back and turn it the other way."),
            )
        case LandingKind.WRONG_SIDE:
            words = (
                say(
                    "The marks {mark} are close together, but {piece} lies on the wrong side of them.",
                    piece=piece,
                    mark=mark,
                ),
                *_astray(fact, is_first=is_first),
                _should_lie(fact.piece.does),
            )
        case LandingKind.OTHER_MARK if fact.other is not None:
            other = fact.other.piece.mark
            words = (
                sentence_case(say("{piece} is at the mark {other}.", piece=piece, other=other)),
                say("Its own mark is {mark}: look for the other mark {mark}.", mark=mark),
            )
        case LandingKind.NEXT_SIDE:
            if is_first:
                where = say("{piece} is at the next side of the base.", piece=piece)
            else:
                where = say("{piece} is at the next side of the shape.", piece=piece)
            words = (sentence_case(where), say("The other mark {mark} is not there.", mark=mark))
        case LandingKind.SIDE_BEFORE:
            words = (
                sentence_case(say("{piece} is at the side before the marked one.", piece=piece)),
                say("The other mark {mark} is not there.", mark=mark),
            )
        case LandingKind.SLID:
            words = (
                sentence_case(say("{piece} is at the marked side, but off its mark.", piece=piece)),
                say("Slide it along that side until the marks {mark} meet.", mark=mark),
            )
        case LandingKind.OTHER_SIDE:
            words = (
                say("Another side of {piece} is at the other mark {mark}.", piece=piece, mark=mark),
                say("Its marked side must meet that mark."),
            )
        case _:
            raise TypeError(f"no words are known for a landing called {fact.kind!r}")
    return said(fact, words)


def _astray(fact: LandingFact, *, is_first: bool) -> tuple[str, ...]:
    """What the piece covers that it must not; nothing where that does not hold of every pose near by."""
    if fact.astray is None:
        return ()
    if fact.piece.does is Does.JOIN:
        return (say("It lies over a part of the base.") if is_first else say("It lies over a part of the shape."),)
    return (say("A part of it lies outside the base.") if is_first else say("A part of it lies outside the shape."),)


def _should_lie(does: Does) -> str:
    if does is Does.CUT:
        return say("A piece to cut away lies on top of its partner.")
    return say("A piece to join lies beside its partner.")


def handling_words() -> dict[str, str]:
    """The texts of the page where a piece is laid, by key; {count} and {piece} are filled there."""
    return {
        "handle.title": say("Try it yourself"),
        "handle.lead": say("Turn the piece and slide it until the marks meet."),
        "handle.pad": say("Move the piece with the arrow keys, turn it with R and L"),
        "handle.keys": say(
            "Arrow keys move the piece a little, with Shift farther. R turns it clockwise, L anticlockwise, "
            "with Shift only a little."
        ),
        "handle.steps": say("Move and turn the piece"),
        "handle.turnLeft": say("Turn anticlockwise"),
        "handle.turnRight": say("Turn clockwise"),
        "handle.left": say("Move left"),
        "handle.right": say("Move right"),
        "handle.up": say("Move up"),
        "handle.down": say("Move down"),
        "handle.large": say("Large steps"),
        "handle.putBack": say("Put back"),
        "handle.show": say("Show me"),
        "handle.turnedLeft": say("Turned {count} degrees anticlockwise.", count="{count}"),
        "handle.turnedRight": say("Turned {count} degrees clockwise.", count="{count}"),
        "handle.turnedLeftByOne": say("Turned 1 degree anticlockwise."),
        "handle.turnedRightByOne": say("Turned 1 degree clockwise."),
        "handle.movedLeft": say("Moved left."),
        "handle.movedRight": say("Moved right."),
        "handle.movedUp": say("Moved up."),
        "handle.movedDown": say("Moved down."),
        "handle.edge": say("This is the edge of the picture."),
        "handle.back": say("The piece is back where it was."),
        "handle.apart": say("The marks do not meet yet."),
        "handle.turnIsNear": say("The turn is nearly right. Now slide the piece."),
        "handle.turnIsRight": say("The turn is right. Now slide the piece."),
        "handle.placeIsNear": say("The place is nearly right. Now turn the piece."),
        "handle.placeIsRight": say("The place is right. Now turn the piece."),
        "handle.again": say("To try again, put the piece back."),
    }
