"""What slips make of an outline, that each fact can be made again, and that a slip drawn by hand is found."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from oracles import exact

from explainers.choice.option_search import LEAST_GAP
from explainers.choice.question import MadeOptions, Option
from explainers.choice.slip import CannotBeMade, MakesTheResult, SlipCase
from explainers.errors import FactError, ItemError
from explainers.geometry.fit import best_fit
from explainers.geometry.hausdorff import hausdorff_distance
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.geometry.rings import diameter
from explainers.kinds.turned_outline.kind import TURNED_OUTLINE
from explainers.kinds.turned_outline.model import TurnedOutline
from explainers.kinds.turned_outline.slips.diagnosis import OutlineSlips
from explainers.kinds.turned_outline.slips.part_moved import PartMoved
from explainers.kinds.turned_outline.slips.part_resized import PartResized
from explainers.kinds.turned_outline.slips.registry import SLIPS

NOTCHED = Outline.of(((0, 0), (6, 0), (6, 5), (4, 5), (4, 3), (3, 3), (3, 5), (0, 5)))
STAIRS = Outline.of(((0, 0), (6, 0), (6, 2), (4, 2), (4, 4), (2, 4), (2, 5), (0, 5)))
WINDOW = Outline.of(((0, 0), (7, 0), (7, 4), (5, 4), (3.5, 6), (2, 4), (0, 4)), (((1, 1), (3, 1), (3, 2), (1, 2)),))
OUTLINES = {"notched": NOTCHED, "stairs": STAIRS, "window": WINDOW}
TURNED = Similarity(turn_deg=127.0, shift=(3.0, 1.0), scale=0.7)


def slips_of(outline: Outline) -> OutlineSlips:
    return OutlineSlips.of(TurnedOutline(name="shown", title="Shown", outline=outline))


def exactly(outline: Outline) -> exact.ExactRings:
    return [[(Fraction(x), Fraction(y)) for x, y in ring] for ring in outline.rings]


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize("slip", SLIPS)
def test_a_slip_gives_another_outline_that_can_be_told_from_the_true_one(name: str, slip: str) -> None:
    outline = OUTLINES[name]
    slips = slips_of(outline)
    case = (SlipCase(slip=slip),)
    made = slips.made(case)
    assert slips.made(case) == slips_of(outline).made(case), "the same every time"
    assert not exact.same_by_turning(exactly(made), exactly(outline))
    assert exact.is_mirror_only(exactly(made), exactly(outline)) == (slip == "flipped")
    if slip != "flipped":
        laid = made.moved(best_fit(made, outline, scales=(1.0,)).motion)
        assert hausdorff_distance(laid, outline) >= LEAST_GAP * max(diameter(made.exterior), diameter(outline.exterior))


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize("slip", SLIPS)
def test_its_fact_holds_and_a_falsified_copy_does_not(name: str, slip: str) -> None:
    slips = slips_of(OUTLINES[name])
    case = (SlipCase(slip=slip),)
    fact = slips.fact_of("B", case, slips.made(case).moved(TURNED))
    assert fact.holds() and fact.in_short() and fact.did() and fact.in_brief()
    other = next(another for another in SLIPS if another != slip)
    false = [
        replace(fact, option=fact.outline),
        replace(fact, option=slips.made((SlipCase(slip=other),))),
        replace(fact, cases=(SlipCase(slip=other),)),
        replace(fact, replayed=fact.outline),
        replace(fact, outline=fact.outline.moved(Similarity(turn_deg=10.0))),
        replace(fact, changes=()),
    ]
    if not exact.same_by_turning(exact.turned_over(exactly(fact.replayed)), exactly(fact.replayed)):
        false.append(replace(fact, option=fact.option.mirrored()))
    for copy in false:
        assert not copy.holds()
        with pytest.raises(FactError):
            copy.in_short()


def test_a_notch_is_moved_as_it_is_and_leaves_nothing_behind() -> None:
    made = slips_of(NOTCHED).made((SlipCase(slip="part-moved"),))
    assert exact.area(exactly(made)) == exact.area(exactly(NOTCHED)) == 28
    assert made.corner_count == NOTCHED.corner_count
    assert not {(4.0, 5.0), (3.0, 5.0)} & set(made.exterior)


@pytest.mark.parametrize(("factor", "told", "area"), [(1.5, "larger", 27), (0.5, "smaller", 29)])
def test_a_notch_is_resized_by_its_depth(factor: float, told: str, area: int) -> None:
    change = PartResized(start=(4, 5), end=(3, 5), factor=factor)
    made = change.made_on(NOTCHED, 0.006)
    assert exact.area(exactly(made)) == area and change.told_as == f"part-resized, {told}"


# Drawn as a learner's slip might be, by figures that no slip chooses by itself.
HAND_DRAWN = {
    "part-moved": ((0, 0), (0.5, 0), (0.5, 2), (1.5, 2), (1.5, 0), (6, 0), (6, 5), (0, 5)),
    "part-resized": ((0, 0), (6, 0), (6, 5), (4, 5), (4, 1.3), (3, 1.3), (3, 5), (0, 5)),
    "angle-changed": ((0, 0), (4.7, 0), (6, 5), (4, 5), (4, 3), (3, 3), (3, 5), (0, 5)),
    "flipped": ((0, 0), (6, 0), (6, 5), (3, 5), (3, 3), (2, 3), (2, 5), (0, 5)),
}


@pytest.mark.parametrize("slip", HAND_DRAWN)
def test_the_slip_behind_an_option_drawn_by_hand_is_found(slip: str) -> None:
    option = Outline.of(HAND_DRAWN[slip]).moved(TURNED)
    fact = slips_of(NOTCHED).diagnosed("A", option, pairs=False)
    assert fact is not None and fact.holds() and [case.slip for case in fact.cases] == [slip]


# Not part-moved: on a rectangle, what is moved and flipped is as well moved to yet another place.
@pytest.mark.parametrize("slip", ["part-resized", "angle-changed"])
def test_so_is_a_slip_with_a_flip_besides_where_pairs_are_sought(slip: str) -> None:
    option = Outline.of(HAND_DRAWN[slip]).mirrored().moved(TURNED)
    slips = slips_of(NOTCHED)
    assert slips.diagnosed("A", option, pairs=False) is None
    fact = slips.diagnosed("A", option, pairs=True)
    assert fact is not None and fact.holds()
    assert {case.slip for case in fact.cases} == {slip, "flipped"} and len(fact.in_short()) == 2


def test_a_slip_in_a_hole_is_found() -> None:
    hole = ((1, 1), (4.4, 1), (3, 2), (1, 2))
    fact = slips_of(WINDOW).diagnosed("A", Outline.of(WINDOW.exterior, (hole,)).moved(TURNED), pairs=False)
    assert fact is not None and fact.holds() and fact.cases[0].slip == "angle-changed"


def test_no_slip_is_found_where_none_makes_the_option() -> None:
    option = Outline.of(((0, 0), (6.5, 0.4), (5, 6), (4, 5), (4, 2), (3, 2.5), (2.5, 5), (0, 5)))
    assert slips_of(NOTCHED).diagnosed("A", option, pairs=True) is None


def test_what_cannot_be_made_says_why() -> None:
    square = slips_of(Outline.of(((0, 0), (4, 0), (4, 4), (0, 4))))
    with pytest.raises(MakesTheResult):
        square.made((SlipCase(slip="flipped"),))
    with pytest.raises(CannotBeMade, match="room on another side"):
        square.made((SlipCase(slip="part-moved"),))
    item = TurnedOutline(
        name="square", title="Square", outline=square.outline, options=(Option(), Option(slip="flipped"))
    )
    assert not TURNED_OUTLINE.solve(item).sound, "both options are right"
    with pytest.raises(ItemError, match="room on another side"):
        TURNED_OUTLINE.solve(replace(item, options=(Option(), Option(slip="part-moved"))))


def test_a_part_that_was_changed_before_cannot_be_moved() -> None:
    gone = PartMoved(start=(4, 5), end=(2.5, 5), side=((0, 5), (0, 0)), place=0.5)
    with pytest.raises(CannotBeMade):
        gone.made_on(NOTCHED, 0.006)


@pytest.mark.parametrize("name", OUTLINES)
@pytest.mark.parametrize("make", [3, 4])
def test_options_are_made_from_several_slips(name: str, make: int) -> None:
    item = TurnedOutline(name="shown", title="Shown", outline=OUTLINES[name], made=MadeOptions(make=make, seed=5))
    solution = TURNED_OUTLINE.solve(item)
    wrong = [verdict for verdict in solution.verdicts if not verdict.same]
    assert solution.sound and len(wrong) == make
    facts = [verdict.slip for verdict in wrong if verdict.slip is not None]
    assert len(facts) == make and all(fact.holds() for fact in facts)
    assert len({case.slip for fact in facts for case in fact.cases}) >= 3
    assert TURNED_OUTLINE.with_pairs(solution) == solution
