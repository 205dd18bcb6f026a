"""Each named slip on items small enough to do in one's head: what comes out, and when nothing does."""

from __future__ import annotations

from dataclasses import replace

import pytest
from small_items import SQUARE, flag, item

from explainers.choice.slip import CannotBeMade, MakesTheResult, SlipCase
from explainers.geometry.congruence import motions_onto
from explainers.geometry.outline import Outline
from explainers.geometry.tolerance import authoring_tolerance
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.slips.diagnosis import Replays
from explainers.kinds.join_and_cut.slips.model import Slipped, SolvedItem
from explainers.kinds.join_and_cut.slips.registry import SLIPS, make, make_all, slip_cases, slip_pairs
from explainers.kinds.join_and_cut.slips.slip_fact import PieceSlipFact
from explainers.kinds.join_and_cut.solving.laying import lay_pieces


def scene_of(base_item: Item) -> SolvedItem:
    placements = lay_pieces(base_item)
    return SolvedItem(item=base_item, placements=placements, outline=placements[-1].after)


def slipped(slip: str, base_item: Item, piece: str | None = "flag") -> Slipped:
    return make(SlipCase(slip=slip, subject=piece), scene_of(base_item))


def corners(outline: Outline) -> set[tuple[float, float]]:
    return {(round(x, 6) + 0.0, round(y, 6) + 0.0) for ring in outline.rings for x, y in ring}


WIDE = ((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0))
CUT = flag(does=Does.CUT, meets=((1.0, 0.0), (3.0, 0.0)))
TIP = Piece(
    name="tip",
    does=Does.JOIN,
    corners=((0, 0), (2, 0), (2, 1), (0, 1)),
    side=((0, 0), (2, 0)),
    meets=((0.0, 0.0), (0.0, 2.0)),
    turned=90.0,
)


def test_turned_back() -> None:
    # Shown at 135, the flag must lie at -90: it turns by 135 anticlockwise. Turned back it lies at 0: its marked side
    # runs from (3, 1) to (5, 1), about the middle (4, 1) of the side that it meets, its third corner is (3, 3).
    assert scene_of(item()).placements[0].turn_deg == pytest.approx(135.0)
    outline = slipped("turned-back", item()).outline
    assert {(4.0, 1.0), (5.0, 1.0), (3.0, 3.0), (3.0, 2.0)} <= corners(outline)
    assert outline.area == pytest.approx(13.0)


@pytest.mark.parametrize(("turned", "why"), [(-90.0, "needs no turn"), (90.0, "half a turn")])
def test_turned_back_needs_a_turn_with_a_direction(turned: float, why: str) -> None:
    with pytest.raises(CannotBeMade, match=why):
        slipped("turned-back", item(flag(turned=turned)))


def test_side_before() -> None:
    # The flag meets the right side, (4, 0) to (4, 2); before it, going anticlockwise, comes the bottom, to (4, 0). Both
    # begin where the flag does: its foot goes from (4, 0) to (0, 0).
    before = slipped("side-before", item()).outline
    assert corners(before) == {(0, 0), (2, -2), (2, 0), (4, 0), (4, 2), (2, 2), (2, 4), (0, 4)}


HALF = 0.5**1.5
SQUARE_OF_2 = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0))


def test_next_side_on_a_rectangle() -> None:
    # The right side ends at (4, 2); on the top side, which begins there, the flag's foot lies at (4, 2).
    outline = slipped("next-side", item(base=SQUARE_OF_2)).outline
    assert corners(outline) == {(0, 0), (4, 0), (4, 2), (2, 4), (2, 2), (0, 2)}


def test_slid_to_the_other_end() -> None:
    outline = slipped("slid", item(flag(meets=((6.0, 0.0), (6.0, 2.0))), base=WIDE)).outline
    assert corners(outline) == {(0, 0), (6, 0), (6, 2), (8, 4), (0, 4)}


def test_slid_by_half_where_the_mark_fills_the_side() -> None:
    outline = slipped("slid", item()).outline
    assert outline.area == pytest.approx(14.0)
    assert {(4.0, 3.0), (6.0, 3.0), (4.0, 1.0)} <= corners(outline)  # one square further up, anticlockwise


def test_other_way_round_of_a_cut() -> None:
    assert slipped("other-way-round", item(CUT, base=WIDE)).outline.area == pytest.approx(26.0)


def test_too_large_and_too_small() -> None:
    small = slipped("too-small", item()).outline
    assert small.area == pytest.approx(12.0 + 2.0 * 4 / 9)
    large = slipped("too-large", item(flag(meets=((6.0, 1.0), (6.0, 3.0))), base=WIDE)).outline
    assert large.area == pytest.approx(24.0 + 2.0 * 9 / 4)


def test_a_piece_that_meets_a_resized_one_still_meets_it() -> None:
    second = Piece(
        name="tip",
        does=Does.JOIN,
        corners=((0, 0), (2, 0), (2, 1), (0, 1)),
        side=((0.5, 0), (1.5, 0)),
        meets=((1.0 + HALF, 1.0 - HALF), (1.0 - HALF, 1.0 + HALF)),  # the middle of the slanting side
        of="flag",
    )
    for slip, factor in (("too-small", 4 / 9), ("too-large", 9 / 4)):
        outline = slipped(slip, item(flag(meets=((6.0, 0.0), (6.0, 2.0))), second, base=WIDE)).outline
        assert outline.area == pytest.approx(24.0 + 2.0 * factor + 2.0)


def test_swapped() -> None:
    two = item(flag(meets=((6.0, 0.0), (6.0, 2.0))), TIP, base=WIDE)
    outline = slipped("swapped", two).outline
    assert outline.area == pytest.approx(28.0)
    assert {(8.0, 0.0), (7.0, 0.0)} & corners(outline) == {(7.0, 0.0)}  # the tip is 1 deep, the flag would be 2
    assert min(x for x, _ in corners(outline)) == pytest.approx(-2.0)
    with pytest.raises(CannotBeMade, match="no piece follows tip"):
        slipped("swapped", two, "tip")
    with pytest.raises(CannotBeMade, match="tip meets flag"):
        slipped("swapped", item(flag(), replace(TIP, of="flag")))
    # Two pieces alike: nothing changes.
    twins = item(flag(meets=((6.0, 0.0), (6.0, 2.0))), flag(name="twin", meets=((0.0, 0.0), (0.0, 2.0))), base=WIDE)
    with pytest.raises(MakesTheResult):
        slipped("swapped", twins)


def test_a_slip_that_changes_nothing_says_so() -> None:
    bar = Piece(
        name="bar",
        does=Does.JOIN,
        corners=((0, 0), (4, 0), (4, 1), (0, 1)),
        side=((0, 0), (4, 0)),
        meets=((4.0, 0.0), (4.0, 4.0)),
    )
    for slip, piece in (("flipped", None), ("piece-flipped", "bar")):
        with pytest.raises(MakesTheResult, match="the finished outline itself"):
            slipped(slip, item(bar, base=SQUARE), piece)


def test_cases_name_each_slip_and_piece_once_the_simplest_first() -> None:
    cases = slip_cases(item(flag(), TIP))
    assert len(set(cases)) == len(cases) == 1 + 10 * 2 + 1
    assert [case.slip for case in cases] == sorted((case.slip for case in cases), key=list(SLIPS).index)
    assert cases[0] == SlipCase(slip="flipped")


def test_pairs_leave_out_slips_that_undo_or_hide_each_other() -> None:
    pairs = set(slip_pairs(item(flag(), TIP)))
    assert (SlipCase(slip="not-turned", subject="flag"), SlipCase(slip="turned-back", subject="flag")) not in pairs
    assert (SlipCase(slip="left-out", subject="flag"), SlipCase(slip="piece-flipped", subject="flag")) not in pairs
    assert (SlipCase(slip="left-out", subject="tip"), SlipCase(slip="swapped", subject="flag")) not in pairs
    assert (SlipCase(slip="left-out", subject="tip"), SlipCase(slip="piece-flipped", subject="flag")) in pairs


def test_the_order_in_which_two_slips_are_named_does_not_matter() -> None:
    solved_item = scene_of(item(flag(meets=((6.0, 0.0), (6.0, 2.0))), TIP, base=WIDE))
    for one, other in list(slip_pairs(solved_item.item))[:120]:
        outlines = []
        for cases in ((one, other), (other, one)):
            try:
                outlines.append(make_all(cases, solved_item).outline)
            except CannotBeMade:
                outlines.append(None)
        assert outlines[0] == outlines[1]


def facts() -> list[PieceSlipFact]:
    two = item(flag(meets=((6.0, 0.0), (6.0, 2.0))), TIP, base=WIDE)
    replays = Replays(scene_of(two), authoring_tolerance(two.extent))
    found = []
    for cases in [*replays.singles(), *list(replays.simplest_pairs())[::40]]:
        try:
            found.append(replays.fact_of("B", cases, replays.made(cases)))
        except CannotBeMade:
            continue
    return found


FACTS = facts()


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: "+".join(case.slip for case in fact.cases))
def test_a_slip_fact_holds_and_is_false_once_anything_it_says_is_changed(fact: PieceSlipFact) -> None:
    assert fact.holds()
    (x, y), *rest = fact.option.exterior
    assert not replace(fact, option=Outline(((x + 0.1, y + 0.2), *rest))).holds()
    assert not replace(fact, option=fact.outline).holds()
    assert not replace(fact, outline=fact.replayed).holds()
    assert not replace(fact, replayed=fact.outline).holds()
    if fact.placements:
        assert not replace(fact, placements=fact.placements[:-1]).holds()
    for other in FACTS:
        if not motions_onto(other.replayed, fact.replayed, 0.006):
            assert not replace(fact, cases=other.cases).holds()
    assert not replace(fact, cases=(SlipCase(slip="no-such-slip"),)).holds()
    elsewhere = replace(fact.item, base=Outline.of(((0.0, 0.0), (6.0, 0.0), (6.0, 4.5), (0.0, 4.5))))
    assert not replace(fact, item=elsewhere).holds()


@pytest.mark.parametrize(("slip", "foot"), [("too-large", (0.0, 3.0)), ("too-small", (1.0, 7 / 3))])
def test_a_piece_of_another_size_grows_or_shrinks_past_the_end_that_the_guide_names(
    slip: str, foot: tuple[float, float]
) -> None:
    # The right side is met from (6, 1), where it begins, to (6, 3), where the flag's marked side begins.
    (placed,) = slipped(slip, item(flag(meets=((6.0, 1.0), (6.0, 3.0))), base=WIDE)).placements
    assert sorted(y for x, y in placed.ring if x == pytest.approx(6.0)) == pytest.approx(foot)
