"""What laying the pieces asks of a learner: what makes an item easy or hard before its options are looked at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ....choice.features import Features, PausePart, counted
from ....words.messages import own_verbs
from ....words.names import degrees_in_words, is_no_turn, number_of

__all__ = ["JoinAndCutFeatures"]

MEETING_S = 3.0  # a piece's mark and its partner's are found


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinAndCutFeatures(Features):
    """What an item asks of a learner."""

    pieces: int
    total_turn_deg: float  # of all pieces, sizes added
    largest_turn_deg: float
    odd_angles: int  # pieces that turn by no multiple of 45 degrees
    part_side_marks: int  # pieces whose mark, or its partner, covers only a part of a side
    cuts: int
    pieces_on_pieces: int  # pieces that meet an earlier piece

    @property
    def turned(self) -> str:
        """What is turned, as a phrase."""
        return "pieces and options"

    @property
    def turning_deg(self) -> float:
        """The sizes of all turns added."""
        return self.total_turn_deg + self.options_turn_deg

    @property
    def special(self) -> int:
        """A part-side mark, a cut, a piece on a piece, an odd angle, a hole: one thing more to think of each."""
        return self.part_side_marks + self.cuts + self.pieces_on_pieces + self.odd_angles + self.hole

    def further_parts(self) -> tuple[PausePart, ...]:
        """Marks are found."""
        return (PausePart(work="meeting", words="finding the marks", seconds=MEETING_S * self.pieces),)

    def told(self) -> Iterator[str]:
        """What it asks for, a phrase each, for a teacher: only what is there."""
        yield number_of(self.pieces, "piece")
        if self.pieces:
            total = degrees_in_words(self.total_turn_deg)
            if is_no_turn(self.largest_turn_deg):
                yield "no turn"
            elif self.pieces == 1:
                yield f"a turn of {total}"
            else:
                yield f"turns of {total} in all, the largest {degrees_in_words(self.largest_turn_deg)}"
        for count, one, several in (
            (self.odd_angles, "odd angle", "odd angles"),
            (self.part_side_marks, "mark on part of a side", "marks on part of a side"),
            (self.cuts, *_cut_counted()),
            (self.pieces_on_pieces, "piece on another piece", "pieces on other pieces"),
        ):
            if count:
                yield counted(count, one, several)
        yield from Features.told(self)


def _cut_counted() -> tuple[str, str]:
    """One cut, and several, as the theme calls them."""
    own = own_verbs().get("cut")
    return ("cut", "cuts") if own is None else (f"piece to be {own.done}", f"pieces to be {own.done}")
