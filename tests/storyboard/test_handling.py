"""Laying a piece by hand: the pose in which marks meet, the poses of slips, and that what is said there is true."""

from __future__ import annotations

import cmath
import math
import random
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from demo_items import demo_items
from shapely.geometry import Polygon
from strategies import random_item

from explainers.choice.question import Option
from explainers.figure.model import Area, Figure, Lines
from explainers.figure.theme import DEFAULT_THEME
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Point, RigidMotion, Ring
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.drawing.work_table import TablePhase, WorkTable
from explainers.kinds.join_and_cut.facts.landing import LandingFact, LandingKind
from explainers.kinds.join_and_cut.facts.meet import MeetFact
from explainers.kinds.join_and_cut.model import Does, Item, Piece
from explainers.kinds.join_and_cut.solving.solver import solve
from explainers.kinds.join_and_cut.stages.handling import (
    MOVE_UNITS,
    NEAR_DEG,
    NEAR_UNITS,
    ROOM,
    TURN_STEPS_DEG,
    grid_unit,
    handling,
)
from explainers.kinds.join_and_cut.words.handling import handling_words
from explainers.lesson.planner import plan_item
from explainers.storyboard.doing import Handling, Landing
from explainers.words.catalogue import languages
from explainers.words.messages import speaking

ITEMS = demo_items("join-and-cut")
MOVE, TURN_DEG = MOVE_UNITS[0], TURN_STEPS_DEG[0]  # what a press of a key or a button does


@cache
def table_of(path: Path) -> WorkTable:
    return WorkTable(solution=load_solution(path), theme=DEFAULT_THEME)


def places(table: WorkTable) -> range:
    return range(len(table.solution.placements))


def every_handling(table: WorkTable) -> list[tuple[int, Handling]]:
    return [(index, handling(table, index)) for index in places(table)]


def posed(points: Ring, about: Point, landing: Landing) -> list[complex]:
    """Points of the first picture where they are in a pose; own arithmetic with complex numbers."""
    turn = cmath.exp(1j * math.radians(landing.turn_deg))
    middle, goal = complex(*about), complex(*landing.at)
    return [goal + turn * (complex(*point) - middle) for point in points]


def area_of(figure: Figure, name: str) -> Area:
    (found,) = (entry for entry in figure.entries if entry.id == name and isinstance(entry, Area))
    return found


def pointer(figure: Figure, name: str) -> tuple[Point, Point]:
    (found,) = (entry for entry in figure.entries if entry.id == f"point-{name}" and isinstance(entry, Lines))
    return found.segments[0]


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_the_meeting_is_the_picture_in_which_the_lesson_has_the_marks_meet(path: Path) -> None:
    table = table_of(path)
    for index, done in every_handling(table):
        first, met = (table.figure(index, phase, "") for phase in (TablePhase.POINTED, TablePhase.MET))
        moved = posed(area_of(first, done.group).rings[0], done.about, done.meeting)
        there = [complex(*corner) for corner in area_of(met, done.group).rings[0]]
        assert len(moved) == len(there)
        assert max(abs(a - b) for a, b in zip(moved, there, strict=True)) < 1e-9
        turn, meet = table.turn_glide(index), table.meet_glide(index)
        assert done.meeting.turn_deg == turn.turn_deg
        assert math.dist(done.meeting.at, (meet.about[0] + meet.by[0], meet.about[1] + meet.by[1])) < 1e-12


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_the_meeting_lays_the_marked_side_on_its_partner(path: Path) -> None:
    for index, done in every_handling(table_of(path)):
        meets_as_it_must(table_of(path), index, done)


def test_the_meeting_of_generated_items_lays_the_marked_side_on_its_partner(cases: Callable[[int, int], int]) -> None:
    for seed in range(cases(12, 300)):
        table = WorkTable(solution=solve(random_item(seed)), theme=DEFAULT_THEME)
        for index, done in every_handling(table):
            meets_as_it_must(table, index, done)
            slips_are_far_and_on_the_stage(done)


def meets_as_it_must(table: WorkTable, index: int, done: Handling) -> None:
    """Going by the picture alone: mark on mark, and the material on the side of it that joining or cutting asks for."""
    figure, solution = table.figure(index, TablePhase.POINTED, ""), table.solution
    placement = solution.placements[index]
    own = posed(pointer(figure, "own"), done.about, done.meeting)
    partner = [complex(*point) for point in pointer(figure, "partner")]
    order = partner[::-1] if placement.piece.does is Does.JOIN else partner
    slack = 2e-3 * solution.item.extent * table.view.scale
    assert max(abs(a - b) for a, b in zip(own, order, strict=True)) < slack
    piece = Polygon([(z.real, z.imag) for z in posed(area_of(figure, done.group).rings[0], done.about, done.meeting)])
    rings = [table.view.apply(ring) for ring in placement.before.rings]
    before = Polygon(rings[0], rings[1:])
    wrong = piece.intersection(before) if placement.piece.does is Does.JOIN else piece.difference(before)
    assert wrong.area < slack * piece.length


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_a_slip_is_never_where_a_piece_would_snap(path: Path) -> None:
    for _, done in every_handling(table_of(path)):
        assert done.near_deg == 8.0
        assert done.near == pytest.approx(0.3 * done.moves[1])
        slips_are_far_and_on_the_stage(done)


def slips_are_far_and_on_the_stage(done: Handling) -> None:
    for slip in done.slips:
        assert apart(slip, done.meeting, done) > 2.0
        assert 0.0 < slip.at[0] < 16.0 and 0.0 < slip.at[1] < 9.0
    for i, slip in enumerate(done.slips):
        assert all(apart(slip, other, done) > 1.0 for other in done.slips[:i])


def apart(landing: Landing, other: Landing, done: Handling) -> float:
    """How far two poses are apart, in what counts as near."""
    turned = abs(math.remainder(landing.turn_deg - other.turn_deg, 360.0)) / done.near_deg
    return max(turned, math.dist(landing.at, other.at) / done.near)


def test_only_the_step_that_points_at_the_marks_can_be_handled() -> None:
    board = plan_item(load_solution(ITEMS[0].with_name("twin-block.yaml")))
    handled = [step for step in board.steps if step.handling is not None]
    assert [step.id for step in handled] == ["twin-block.peak.marks", "twin-block.step.marks"]
    for step in handled:
        assert step.handling is not None
        groups = {entry.id for entry in step.picture.entries if entry.group == step.handling.group}
        assert {step.handling.group, "point-own"} <= groups
        assert "point-partner" not in groups


def kinds(done: Handling) -> list[LandingKind]:
    return [fact.kind for slip in done.slips for fact in slip.facts if isinstance(fact, LandingFact)]


def test_the_flag_of_the_corner_block_has_the_slips_that_can_be_reckoned_by_hand() -> None:
    table = table_of(ITEMS[0].with_name("corner-block.yaml"))
    done = handling(table, 0)
    by_kind = dict(zip(kinds(done), done.slips, strict=True))
    # Turned by 135 degrees, the flag lies with its corners at (4, 2), (4, 0) and (6, 2); its middle is (5, 1).
    assert done.meeting.turn_deg == pytest.approx(135.0)
    assert done.meeting.at == pytest.approx(table.view.apply_point((5.0, 1.0)))
    # Turned back, it is as it was typed, its mark about (4, 1): corners (3, 1), (5, 1) and (3, 3).
    assert by_kind[LandingKind.TURNED_BACK].turn_deg == pytest.approx(-135.0)
    assert by_kind[LandingKind.TURNED_BACK].at == pytest.approx(table.view.apply_point((4.0, 2.0)))
    # On the wrong side of the marks it is turned by half a turn about (4, 1).
    assert by_kind[LandingKind.WRONG_SIDE].turn_deg == pytest.approx(-45.0)
    assert by_kind[LandingKind.WRONG_SIDE].at == pytest.approx(table.view.apply_point((3.0, 1.0)))
    assert by_kind[LandingKind.NOT_TURNED].turn_deg == 0.0
    # The next side, anticlockwise, runs from (4, 2) to (2, 2): a quarter turn more.
    assert by_kind[LandingKind.NEXT_SIDE].turn_deg == pytest.approx(-135.0)
    assert by_kind[LandingKind.NEXT_SIDE].at == pytest.approx(table.view.apply_point((3.0, 3.0)))
    # Its other short side at the mark: corners (4, 2), (4, 0) again, but turned a quarter turn the other way.
    assert by_kind[LandingKind.OTHER_SIDE].at == pytest.approx(table.view.apply_point((5.0, 1.0)))
    assert by_kind[LandingKind.OTHER_SIDE].turn_deg == pytest.approx(-135.0)


def test_of_two_pieces_with_marks_of_one_length_the_one_may_be_laid_at_the_mark_of_the_other() -> None:
    done = handling(table_of(ITEMS[0].with_name("twin-block.yaml")), 0)
    (slip,) = (
        each
        for each in done.slips
        if any(isinstance(fact, LandingFact) and fact.kind is LandingKind.OTHER_MARK for fact in each.facts)
    )
    assert slip.said == ("The peak is at mark R.", "It has mark K: look for the other mark K.")


def square_item(does: Does = Does.JOIN) -> Item:
    """A square patch, which looks the same in four positions, with one marked side."""
    meets = ((3.0, 1.0), (3.0, 2.0)) if does is Does.JOIN else ((1.0, 0.0), (2.0, 0.0))
    return Item(
        name="square",
        title="Square",
        base=Outline.of([(0.0, 0.0), (3.0, 0.0), (3.0, 4.0), (0.0, 4.0)]),
        pieces=(
            Piece(
                name="patch",
                does=does,
                corners=((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)),
                side=((0.0, 0.0), (1.0, 0.0)),
                meets=meets,
                of="base",
                mark="K",
                turned=20.0,
            ),
        ),
        options=(Option(), Option(slip="slid", slip_subject="patch"), Option(slip="next-side", slip_subject="patch")),
    )


@pytest.mark.parametrize("does", Does)
def test_a_piece_that_fits_in_a_wrong_position_is_told_so(does: Does) -> None:
    done = handling(WorkTable(solution=solve(square_item(does)), theme=DEFAULT_THEME), 0)
    same = [slip for slip, kind in zip(done.slips, kinds(done), strict=True) if kind is LandingKind.SAME_PLACE]
    turns = sorted(math.remainder(slip.turn_deg - done.meeting.turn_deg, 360.0) % 360.0 for slip in same)
    assert turns == pytest.approx([90.0, 180.0, 270.0])
    for slip in same:
        assert slip.at == pytest.approx(done.meeting.at)
        assert slip.said[0] == "Like this, the patch would fit too, but the marks K do not meet."


def test_only_a_piece_that_looks_the_same_when_turned_is_told_that_it_would_fit() -> None:
    for path in ITEMS:
        table = table_of(path)
        for index, done in every_handling(table):
            own = [complex(*corner) for corner in table.solution.placements[index].ring]
            middle = sum(own) / len(own)
            symmetric = any(
                max(min(abs(middle + turned * (z - middle) - goal) for goal in own) for z in own) < 0.01
                for turned in (cmath.rect(1.0, math.radians(angle)) for angle in range(20, 341))
            )
            assert (LandingKind.SAME_PLACE in kinds(done)) is symmetric, (path.stem, index)


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_what_is_said_of_a_slip_is_true_wherever_near_it_the_piece_lies(path: Path) -> None:
    rng = random.Random(path.stem)
    for _, done in every_handling(table_of(path)):
        for slip in done.slips:
            (fact,) = slip.facts
            assert isinstance(fact, LandingFact) and fact.holds()
            for _ in range(12):
                near = somewhere_near(fact, rng)
                is_true_here(fact, near, " ".join(slip.said))


def somewhere_near(fact: LandingFact, rng: random.Random) -> RigidMotion:
    """A pose as far from the slip's as still counts."""
    turned = RigidMotion.turning(rng.choice((-1, 1)) * fact.near_deg * rng.random() ** 0.2, about=fact.at)
    angle, away = rng.uniform(0, 2 * math.pi), fact.near * rng.random() ** 0.2
    shifted = RigidMotion(shift=(away * math.cos(angle), away * math.sin(angle)))
    moved = shifted.after(turned).after(fact.motion)
    return RigidMotion(turn_deg=moved.turn_deg, shift=moved.shift)


def is_true_here(fact: LandingFact, motion: RigidMotion, said: str) -> None:
    """Every claim that the sentences make, looked up in this very pose."""
    placement, piece = fact.placement, fact.piece
    lying = Polygon(motion.apply(piece.corners))
    before = Polygon(placement.before.exterior, placement.before.holes)
    turn = math.remainder(motion.turn_deg - piece.turned, 360.0)
    mark = motion.apply(piece.side)
    middle = complex(*mark[0]) / 2 + complex(*mark[1]) / 2
    true_middle = (complex(*placement.partner[0]) + complex(*placement.partner[1])) / 2
    off = math.remainder(turn - placement.turn_deg, 360.0)
    assert abs(off) > NEAR_DEG or abs(middle - true_middle) > 0.9 * fact.near  # the marks do not meet
    if "over a part of" in said:
        assert lying.intersection(before).area > 0.0
    if "lies outside" in said:
        assert lying.difference(before).area > 0.0
    if "hardly turned" in said:
        assert abs(turn) <= NEAR_DEG + 0.2 < abs(placement.turn_deg)
    if "turned the wrong way" in said:
        assert turn * placement.turn_deg < 0.0
    if "wrong side of them" in said:
        assert abs(abs(off) - 180.0) <= NEAR_DEG + 0.2
    if "off its mark" in said:
        assert abs(middle - true_middle) > 0.9 * fact.near
        assert abs(off) <= NEAR_DEG + 0.2


@pytest.mark.parametrize("tag", sorted(languages()))
def test_every_sentence_is_whole_in_every_language(tag: str) -> None:
    with speaking(tag):
        for path in ITEMS:
            for _, done in every_handling(table_of(path)):
                for landing in (done.meeting, *done.slips):
                    for sentence in landing.said:
                        assert re.fullmatch(r"[A-ZÄÖÜ][^{}]*\.", sentence), sentence
                        assert "None" not in sentence and sentence == " ".join(sentence.split())
        texts = handling_words()
    assert all(texts.values())
    assert not [key for key, text in texts.items() if "{" in text]


def test_a_landing_that_is_not_what_it_says_does_not_hold() -> None:
    seen = set()
    for path in ITEMS:
        for _, done in every_handling(table_of(path)):
            for slip in done.slips:
                (fact,) = slip.facts
                assert isinstance(fact, LandingFact)
                seen.add(fact.kind)
                x, y = fact.motion.shift
                off = 0.02 * fact.placement.before.larger_extent
                aside = replace(fact, motion=replace(fact.motion, shift=(x + off, y + 0.7 * off)), astray=None)
                turned = RigidMotion.turning(3.0, about=fact.at).after(fact.motion)
                tilted = replace(fact, motion=RigidMotion(turn_deg=turned.turn_deg, shift=turned.shift), astray=None)
                assert not aside.holds(), fact.kind
                assert not tilted.holds(), fact.kind
                assert not replace(fact, motion=fact.placement.motion).holds()
                wrong = fact.at if fact.astray is None else (fact.astray[0] + 50.0, fact.astray[1])
                if not fact.is_astray(wrong):
                    assert not replace(fact, astray=wrong).holds()
    assert {LandingKind.TURNED_BACK, LandingKind.NOT_TURNED, LandingKind.WRONG_SIDE, LandingKind.NEXT_SIDE} <= seen
    assert {LandingKind.SIDE_BEFORE, LandingKind.SLID, LandingKind.OTHER_MARK, LandingKind.OTHER_SIDE} <= seen


@pytest.mark.parametrize("path", ITEMS, ids=lambda path: path.stem)
def test_steps_alone_bring_the_piece_to_its_meeting_from_anywhere(path: Path) -> None:
    rng = random.Random(path.stem)
    for _, done in every_handling(table_of(path)):
        # The farthest from a lattice of squares is the middle of one, the farthest from a row of turns half way.
        assert MOVE * done.moves[1] * math.sqrt(0.5) < done.near
        assert done.near_deg > TURN_DEG / 2.0
        for _ in range(20):
            at = (rng.uniform(ROOM.left, ROOM.right), rng.uniform(ROOM.bottom, ROOM.top))
            turn = rng.uniform(-180.0, 180.0)
            x, y = (here + MOVE * done.moves[1] * round((goal - here) / (MOVE * done.moves[1]))
                    for here, goal in zip(at, done.meeting.at, strict=True))  # fmt: skip
            left = math.remainder(done.meeting.turn_deg - turn, 360.0)
            turn += TURN_DEG * round(left / TURN_DEG)
            assert math.dist((x, y), done.meeting.at) <= done.near
            assert abs(math.remainder(turn - done.meeting.turn_deg, 360.0)) <= done.near_deg


@pytest.mark.parametrize(
    ("extent", "unit"), [(4.0, 1.0), (2.0, 1.0), (19.9, 1.0), (1.9, 0.1), (300.0, 100.0), (0.004, 0.001)]
)
def test_a_grid_unit_is_the_files_own_unless_that_is_far_too_large_or_small(extent: float, unit: float) -> None:
    assert grid_unit(extent) == pytest.approx(unit)


def hundredfold(side: tuple[Point, Point]) -> tuple[Point, Point]:
    (ax, ay), (bx, by) = side
    return (100 * ax, 100 * ay), (100 * bx, 100 * by)


def test_an_item_in_millimetres_is_handled_like_the_same_item_in_squares() -> None:
    item = square_item()
    large = replace(
        item,
        base=Outline(tuple((100 * x, 100 * y) for x, y in item.base.exterior)),
        pieces=tuple(
            replace(
                piece,
                corners=tuple((100 * x, 100 * y) for x, y in piece.corners),
                side=hundredfold(piece.side),
                meets=hundredfold(piece.meets),
            )
            for piece in item.pieces
        ),
    )
    one, other = (handling(WorkTable(solution=solve(each), theme=DEFAULT_THEME), 0) for each in (item, large))
    assert other.near == pytest.approx(one.near, rel=1e-6)
    assert len(other.slips) == len(one.slips)
    assert NEAR_UNITS == 0.3


def test_the_meeting_is_told_from_the_fact_of_the_meeting() -> None:
    done = handling(table_of(ITEMS[0].with_name("corner-block.yaml")), 0)
    (fact,) = done.meeting.facts
    assert isinstance(fact, MeetFact) and fact.holds()
    assert done.meeting.said == (
        "The leaves meet.",
        "They lie side by side, ready to be joined.",
    )
