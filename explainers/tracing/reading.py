"""From a sketch to the proposal of a whole question."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..geometry.rigid_motion import Point, Side
from ..geometry.stretches import overlap
from ..geometry.tolerance import authoring_tolerance
from .letters import MOST_OF_A_MARK, Letter, letters_beside
from .meeting import InPlace, by_letters, in_place
from .placed import placed
from .plane import Plane
from .proposal import Does, OpenQuestion, Proposal, ProposedPiece, TracedOutline
from .sketch import Sketch

__all__ = ["SURE", "proposal_of"]

SURE = 0.8  # an outline that is less sure is to be looked at
MOST_PIECES = 6
_IN_ITS_PLACE = "laid where it lies on the drawing"


def proposal_of(sketch: Sketch, *, grid: float = 0.5, base: str | int = "base") -> Proposal:
    """A whole question as it was read, with what is left open.

    grid   : item units between the places that corners go to where they are near
    base   : what the base is called on the source, or its number; where nothing is, the largest outline is the base
    Raises : Refused where no outline is found
    """
    found = placed(sketch, grid=grid, base=base)
    outlines = found.outlines
    letters = letters_beside(
        (each for each in found.words if len(each.text) <= MOST_OF_A_MARK), [each.outline for each in outlines]
    )
    reader = _Reader(outlines, letters, found.plane)
    pieces = reader.pieces()
    open_ = [OpenQuestion(about="", message=doubt, fix="compare it with the original") for doubt in sketch.doubts]
    open_ += [*found.open, *_doubtful(outlines), *reader.open]
    if not sketch.exact:
        open_ += [_either(piece) for piece in pieces if piece.does is Does.JOIN and piece.how == _IN_ITS_PLACE]
    if not pieces:
        message, fix = "there is no other outline than the base", "draw the pieces too, or write them below pieces:"
        open_.append(OpenQuestion(about="", message=message, fix=fix))
    if len(pieces) > MOST_PIECES:
        message = f"there are {len(pieces)} pieces; a question has at most {MOST_PIECES}"
        open_.append(OpenQuestion(about="", message=message, fix="take out those that are none"))
    for each in found.words:
        if len(each.text) > MOST_OF_A_MARK:
            message = f"the words {each.text} stand in no outline of their own and were not used"
            open_.append(
                OpenQuestion(
                    about="",
                    message=message,
                    fix="write them where they belong",
                    on_source=found.plane.on_source(each.at),
                )
            )
    return Proposal(
        base=outlines[0],
        pieces=pieces,
        open=tuple(open_),
        passed=found.passed,
        remarks=sketch.remarks,
        size=sketch.size,
        plane=found.plane,
    )


def _either(piece: ProposedPiece) -> OpenQuestion:
    """One line of a pen between two outlines tells a join from a cut no more than a base from what is left of it."""
    message = "one line divides it from the other outline, so it is taken as joined"
    fix = "where it is cut away, let the base be both together, and write does: cut"
    return OpenQuestion(about=piece.outline.name, message=message, fix=fix, on_source=piece.outline.on_source[0][0])


def _doubtful(outlines: Sequence[TracedOutline]) -> list[OpenQuestion]:
    found = list[OpenQuestion]()
    for outline in outlines:
        at = outline.on_source[0][0]
        fix = "compare its corners with the original"
        said = [*outline.doubts]
        if outline.sure < SURE and not said:
            said = ["it was not clearly seen"]
        found += [OpenQuestion(about=outline.name, message=doubt, fix=fix, on_source=at) for doubt in said]
    return found


class _Reader:
    """Takes one piece after another, those first that meet what is there already."""

    def __init__(self, outlines: Sequence[TracedOutline], letters: Sequence[Letter], plane: Plane) -> None:
        self._outlines, self._letters, self._plane = outlines, letters, plane
        self._tolerance = authoring_tolerance(outlines[0].outline.larger_extent)
        self._used: set[int] = set()  # of the letters
        self.open: list[OpenQuestion] = []

    def pieces(self) -> tuple[ProposedPiece, ...]:
        waiting = list(range(1, len(self._outlines)))
        done: dict[int, ProposedPiece] = {}
        for does in (Does.JOIN, Does.CUT):
            again = True
            while again:
                again = False
                for index in tuple(waiting):
                    piece = self._in_place(index, done, does)
                    if piece is not None:
                        done[index] = piece
                        waiting.remove(index)
                        again = True
        for index in waiting:
            done[index] = self._apart(index)
        self._letters_left()
        return tuple(done.values())

    def _ask(self, index: int, message: str, fix: str, at: Point | None = None) -> None:
        outline = self._outlines[index]
        self.open.append(
            OpenQuestion(about=outline.name, message=message, fix=fix, on_source=at or outline.on_source[0][0])
        )

    def _where(self, letter: Letter) -> Point:
        return self._plane.on_source(letter.words.at)

    def _in_place(self, index: int, done: dict[int, ProposedPiece], does: Does) -> ProposedPiece | None:
        """The piece where it lies; None where it lies at nothing that is there, or where letters tell it better."""
        outline = self._outlines[index]
        for host in (0, *(each for each in done if done[each].does is Does.JOIN)):
            found = in_place(outline.outline, self._outlines[host].outline)
            if found is None or found.does is not does or found.side is None or found.meets is None:
                continue
            mark = self._mark_of(index, host, found)
            self._elsewhere(index, found.side)
            return ProposedPiece(
                outline=outline,
                does=found.does,
                side=found.side,
                meets=found.meets,
                of=None if host == 0 else self._outlines[host].name,
                mark=mark,
                how=_IN_ITS_PLACE,
            )
        return None

    def _mark_of(self, index: int, host: int, found: InPlace) -> str | None:
        """The letter at the sides that are married; two different ones are left open."""
        assert found.side is not None
        at = [
            order
            for order, letter in enumerate(self._letters)
            if letter.at(index, found.side, self._tolerance) or letter.at(host, found.side, self._tolerance)
        ]
        texts = {self._letters[order].words.text for order in at}
        self._used.update(at)
        if len(texts) > 1:
            self._ask(index, f"{' and '.join(sorted(texts))} stand at the side that it meets", "write one as its mark")
            return None
        return next(iter(texts), None)

    def _elsewhere(self, index: int, side: Side) -> None:
        """A letter that stands at another of its sides, and at a side of the base too, tells another place."""
        for own, base in self._pairs(index):
            if not overlap(self._letters[own].near[0][1], side, self._tolerance):
                text = self._letters[own].words.text
                self._used.update((own, base))
                message = f"it lies along one side, but {text} stands at another"
                self._ask(index, message, "decide which of the two is meant", self._where(self._letters[own]))

    def _pairs(self, index: int) -> list[tuple[int, int]]:
        """Letters that stand clearly at a side of the piece and, the same, clearly at a side of the base."""
        clear = [(order, letter, letter.clear_side) for order, letter in enumerate(self._letters)]
        return [
            (own, its)
            for own, letter, one in clear
            for its, other, two in clear
            if one and two and one[0] == index and two[0] == 0 and letter.words.text == other.words.text
        ]

    def _apart(self, index: int) -> ProposedPiece:
        """A piece that lies at nothing, or not plainly: what its letters say."""
        outline = self._outlines[index]
        pairs = self._pairs(index)
        if len(pairs) == 1:
            own, its = pairs[0]
            self._used.update(pairs[0])
            letter = self._letters[own]
            side, meets = letter.near[0][1], self._letters[its].near[0][1]
            found = by_letters(outline.outline, side, self._outlines[0].outline, meets)
            text = letter.words.text
            if found.doubt:
                self._ask(index, found.doubt, found.fix, self._where(letter))
            how = f"by the letter {text}, which stands at a side of it and of the base"
            piece = ProposedPiece(outline=outline, does=found.does, side=found.side, meets=found.meets, how=how)
            return replace(piece, mark=text)
        if pairs:
            self._used.update(order for pair in pairs for order in pair)
            self._ask(index, "more than one of its letters stands at the base too", "keep the letter of one pair")
            return ProposedPiece(outline=outline)
        lies = in_place(outline.outline, self._outlines[0].outline)
        if lies is not None and lies.doubt:
            self._ask(index, lies.doubt, lies.fix)
            return ProposedPiece(outline=outline, does=lies.does)
        own_letters = [
            order for order, letter in enumerate(self._letters) if letter.clear_side and letter.clear_side[0] == index
        ]
        if len(own_letters) == 1:
            self._used.update(own_letters)
            letter = self._letters[own_letters[0]]
            text = letter.words.text
            message = f"{text} stands at a side of it, and at no side of the base that is clear"
            self._ask(index, message, "write meets: the side of the base", self._where(letter))
            return ProposedPiece(outline=outline, side=letter.near[0][1], mark=text)
        self._ask(
            index,
            "it lies clear of the rest, and no letter says where it belongs",
            "write does, side and meets, or draw it where it belongs",
        )
        return ProposedPiece(outline=outline)

    def _letters_left(self) -> None:
        for order, letter in enumerate(self._letters):
            if order in self._used:
                continue
            names = list(dict.fromkeys(self._outlines[index].name for index, _ in letter.near))
            if not letter.near:
                message = f"{letter.words.text} stands at no side"
            elif len(letter.near) > 1:
                message = f"{letter.words.text} stands as near to one side as to another ({', '.join(names)})"
            else:
                message = f"{letter.words.text} stands at a side of {names[0]} and was not used"
            fix = "write side, meets and mark where it belongs"
            self.open.append(OpenQuestion(about="", message=message, fix=fix, on_source=self._where(letter)))
