"""What happens in each slip, in whole messages: as a sentence of its own, in an option, and in brief.

No blame: it is told what happens to a piece, never what somebody forgot or did wrongly.
"""

from __future__ import annotations

from dataclasses import dataclass

from ....words.messages import message, message_as

__all__ = ["HAPPENINGS", "KINDS", "Happening", "SlipWords"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """One slip in one form; placeholders: label, piece, other (of a swap)."""

    when: str  # the option is what comes of it
    within: str  # the same where that would be too long a sentence
    also: str  # it happens besides another slip
    brief: str  # a phrase for a table
    did: tuple[str, str]  # the same for a teacher, of whoever chose the option: after "probably"


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipWords:
    """One slip, to whatever piece it happens."""

    in_both: str  # to one piece in one option, to another in another
    in_all: str  # the same of more than two options
    practise: str


# By the slip's name, and by what it is done to where that is told differently.
HAPPENINGS = {
    "flipped": Happening(
        when=message("Option {label} is what you get when the outline is flipped over."),
        within=message("In option {label}, the outline is flipped over."),
        also=message("Also, the outline is flipped over."),
        brief=message("the outline flipped over"),
        did=message_as("probably", "flipped the finished outline over"),
    ),
    "piece-flipped": Happening(
        when=message("Option {label} is what you get when {piece} is flipped before the marks meet."),
        within=message("In option {label}, {piece} is flipped before the marks meet."),
        also=message("Also, {piece} is flipped before the marks meet."),
        brief=message("{piece} flipped over"),
        did=message_as("probably", "flipped {piece} over"),
    ),
    "not-turned": Happening(
        when=message("Option {label} is what you get when {piece} slides into place without a turn."),
        within=message("In option {label}, {piece} slides into place without a turn."),
        also=message("Also, {piece} slides into place without a turn."),
        brief=message("{piece} not turned"),
        did=message_as("probably", "slid {piece} into place without turning it"),
    ),
    "turned-back": Happening(
        when=message("Option {label} is what you get when {piece} is turned the wrong way."),
        within=message("In option {label}, {piece} is turned the wrong way."),
        also=message("Also, {piece} is turned the wrong way."),
        brief=message("{piece} turned the wrong way"),
        did=message_as("probably", "turned {piece} the wrong way"),
    ),
    "next-side of the base": Happening(
        when=message("Option {label} is what you get when {piece} meets the next side of the base."),
        within=message("In option {label}, {piece} meets the next side of the base."),
        also=message("Also, {piece} meets the next side of the base."),
        brief=message("{piece} at the next side of the base"),
        did=message_as("probably", "took {piece} to the next side of the base, anticlockwise from the marked one"),
    ),
    "next-side of the shape": Happening(
        when=message("Option {label} is what you get when {piece} meets the next side of the shape."),
        within=message("In option {label}, {piece} meets the next side of the shape."),
        also=message("Also, {piece} meets the next side of the shape."),
        brief=message("{piece} at the next side of the shape"),
        did=message_as("probably", "took {piece} to the next side of the shape, anticlockwise from the marked one"),
    ),
    "side-before": Happening(
        when=message("Option {label} is what you get when {piece} meets the side before the marked one."),
        within=message("In option {label}, {piece} meets the side before the marked one."),
        also=message("Also, {piece} meets the side before the marked one."),
        brief=message("{piece} at the side before the marked one"),
        did=message_as("probably", "took {piece} to the side before the marked one, clockwise from it"),
    ),
    "slid": Happening(
        when=message("Option {label} is what you get when {piece} slides along the side, off its mark."),
        within=message("In option {label}, {piece} slides along the side, off its mark."),
        also=message("Also, {piece} slides along the side, off its mark."),
        brief=message("{piece} slid along the side, off its mark"),
        did=message_as("probably", "slid {piece} along the side, off its mark"),
    ),
    "other-way-round, cut": Happening(
        when=message("Option {label} is what you get when {piece} is cut away, not joined."),
        within=message("In option {label}, {piece} is cut away, not joined."),
        also=message("Also, {piece} is cut away, not joined."),
        brief=message("{piece} cut away, not joined"),
        did=message_as("probably", "cut away {piece}, which should be joined"),
    ),
    "other-way-round, joined": Happening(
        when=message("Option {label} is what you get when {piece} is joined, not cut away."),
        within=message("In option {label}, {piece} is joined, not cut away."),
        also=message("Also, {piece} is joined, not cut away."),
        brief=message("{piece} joined, not cut away"),
        did=message_as("probably", "joined {piece}, which should be cut away"),
    ),
    "left-out": Happening(
        when=message("Option {label} is what you get when {piece} is left out."),
        within=message("In option {label}, {piece} is left out."),
        also=message("Also, {piece} is left out."),
        brief=message("{piece} left out"),
        did=message_as("probably", "left {piece} out"),
    ),
    "too-large": Happening(
        when=message("Option {label} is what you get when {piece} is too large."),
        within=message("In option {label}, {piece} is too large."),
        also=message("Also, {piece} is too large."),
        brief=message("{piece} too large"),
        did=message_as("probably", "took {piece} too large"),
    ),
    "too-small": Happening(
        when=message("Option {label} is what you get when {piece} is too small."),
        within=message("In option {label}, {piece} is too small."),
        also=message("Also, {piece} is too small."),
        brief=message("{piece} too small"),
        did=message_as("probably", "took {piece} too small"),
    ),
    "swapped": Happening(
        when=message("Option {label} is what you get when {piece} and {other} change places."),
        within=message("In option {label}, {piece} and {other} change places."),
        also=message("Also, {piece} and {other} change places."),
        brief=message("{piece} and {other} in each other's place"),
        did=message_as("probably", "let {piece} and {other} change places"),
    ),
}

KINDS = {
    "flipped": SlipWords(
        in_both=message("In both, the outline is flipped over."),
        in_all=message("In all of them, the outline is flipped over."),
        practise=message("Practise telling a turned outline from a flipped one."),
    ),
    "piece-flipped": SlipWords(
        in_both=message("In both, a piece is flipped before the marks meet."),
        in_all=message("In all of them, a piece is flipped before the marks meet."),
        practise=message("Practise turning a piece while it stays flat on the table."),
    ),
    "not-turned": SlipWords(
        in_both=message("In both, a piece slides into place without a turn."),
        in_all=message("In all of them, a piece slides into place without a turn."),
        practise=message("Practise turning a piece until both marked sides slant alike."),
    ),
    "turned-back": SlipWords(
        in_both=message("In both, a piece is turned the wrong way."),
        in_all=message("In all of them, a piece is turned the wrong way."),
        practise=message("Practise turning a piece the shorter way round, clockwise or anticlockwise."),
    ),
    "next-side": SlipWords(
        in_both=message("In both, a piece meets the side after the marked one."),
        in_all=message("In all of them, a piece meets the side after the marked one."),
        practise=message("Practise finding the two sides that have the same mark."),
    ),
    "side-before": SlipWords(
        in_both=message("In both, a piece meets the side before the marked one."),
        in_all=message("In all of them, a piece meets the side before the marked one."),
        practise=message("Practise following the outline from a corner until you come to the mark."),
    ),
    "slid": SlipWords(
        in_both=message("In both, a piece slides along the side, off its mark."),
        in_all=message("In all of them, a piece slides along the side, off its mark."),
        practise=message("Practise sliding a piece until both ends of the marks meet."),
    ),
    "other-way-round": SlipWords(
        in_both=message("In both, a piece lies on the wrong side of its mark."),
        in_all=message("In all of them, a piece lies on the wrong side of its mark."),
        practise=message("Practise laying a piece to join beside the mark, a piece to cut on top."),
    ),
    "left-out": SlipWords(
        in_both=message("In both, a piece is left out."),
        in_all=message("In all of them, a piece is left out."),
        practise=message("Practise ticking off each piece when it is done."),
    ),
    "too-large": SlipWords(
        in_both=message("In both, a piece is too large."),
        in_all=message("In all of them, a piece is too large."),
        practise=message("Practise checking that both marked sides are equally long."),
    ),
    "too-small": SlipWords(
        in_both=message("In both, a piece is too small."),
        in_all=message("In all of them, a piece is too small."),
        practise=message("Practise checking from one end of a mark to the other."),
    ),
    "swapped": SlipWords(
        in_both=message("In both, two pieces change places."),
        in_all=message("In all of them, two pieces change places."),
        practise=message("Practise finding each piece's own letter before it slides into place."),
    ),
}
