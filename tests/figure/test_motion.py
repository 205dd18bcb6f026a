"""What a motion means for every renderer: its easing, and the poses by which drawings may be carried."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from explainers.figure.model import Area, Arrow, Circle, Dots, Entry, Figure, Label, Lines, drawing_moves, moved_entry
from explainers.figure.motion import Glide, Motion, Move, Pulse, Trace, eased

ROOT = Path(__file__).parent.parent.parent
COMMON = {"group": "piece", "role": "join"}
AREA = Area(id="cloth", rings=(((5.0, 3.0), (8.0, 3.0), (5.0, 7.0)),), fill="#DCEBDD", **COMMON)
DOTS = Dots(id="dots", centres=((5.5, 3.5), (6.5, 4.5)), radius=0.2, fill="#2F6F5E", **COMMON)
LINES = Lines(id="lines", segments=(((5.0, 3.0), (6.0, 4.0)),), stroke="#1F2A37", width=0.03, **COMMON)
ARROW = Arrow(id="arrow", path=((5.0, 3.0), (6.0, 4.0), (7.0, 4.0)), stroke="#6B3FA0", width=0.06, head=0.3, **COMMON)
ENTRIES: tuple[Entry, ...] = (AREA, DOTS, LINES, ARROW)
START = Figure(background="#FFFFFF", entries=ENTRIES)
MIDDLE = (6.0, 4.0)

MOVES: dict[str, Glide | Pulse] = {
    "turn": Glide(group="piece", about=MIDDLE, turn_deg=150.0),
    "more than half a turn": Glide(group="piece", about=MIDDLE, turn_deg=-270.0, by=(2.0, 1.0)),
    "round a corner": Glide(group="piece", about=MIDDLE, by=(3.0, 1.0), via=((1.0, 2.0), (1.0, 2.0))),
    "zoom": Glide(group="piece", about=(1.0, 1.0), scale=1.6, by=(0.5, 0.0), turn_deg=20.0),
    "pulse": Pulse(group="piece", about=MIDDLE),
}


def motion_of(move: Move, *, comes: bool = False) -> Motion:
    """The piece led by a move; or a piece that comes while its group is led."""
    there = move.at(1.0) if isinstance(move, Glide) else None
    end = replace(START, entries=tuple(moved_entry(e, there) if there else e for e in ENTRIES))
    return Motion(start=replace(START, entries=()) if comes else START, end=end, moves=(move,))


def near(one: Entry, other: Entry) -> bool:
    """Whether all places of two entries are the same, opacity aside."""

    def numbers(value: object) -> list[float]:
        if isinstance(value, tuple):
            return [number for part in value for number in numbers(part)]
        return [value] if isinstance(value, float) else []

    fields = ("rings", "centres", "segments", "path", "radius")
    there = [[n for name in fields for n in numbers(getattr(entry, name, ()))] for entry in (one, other)]
    return there[0] == pytest.approx(there[1], abs=1e-9)


def test_time_is_spread_calmly_and_evenly_about_the_middle() -> None:
    assert (eased(0.0), eased(0.5), eased(1.0)) == (0.0, 0.5, 1.0)
    steps = [eased(k / 20) for k in range(21)]
    assert all(a < b for a, b in pairwise(steps))
    assert all(eased(1.0 - k / 20) == pytest.approx(1.0 - steps[k]) for k in range(21))
    assert steps[1] < 0.25 / 20 < 1.4 / 20 < steps[11] - steps[10]  # slow at the ends, quick in the middle


@pytest.mark.parametrize("fraction", [0.05, 0.3, 0.5, 0.9])
@pytest.mark.parametrize("name", list(MOVES))
def test_a_pose_takes_what_the_start_shows_to_where_the_figure_has_it(name: str, fraction: float) -> None:
    motion = motion_of(MOVES[name])
    pose = motion.pose_at("piece", fraction)
    assert pose is not None
    for entry in ENTRIES:
        assert near(moved_entry(entry, pose.similarity), motion.figure_at(fraction).entry(entry.id)), entry.id


@pytest.mark.parametrize("name", [name for name, move in MOVES.items() if isinstance(move, Glide)])
def test_a_pose_since_the_end_takes_what_comes_to_where_the_figure_has_it(name: str) -> None:
    motion = motion_of(MOVES[name], comes=True)
    pose = motion.pose_at("piece", 0.9, since=1.0)
    assert pose is not None
    for entry in motion.end.entries:
        assert near(moved_entry(entry, pose.similarity), motion.figure_at(0.9).entry(entry.id)), entry.id


@pytest.mark.parametrize("name", list(MOVES))
def test_a_pose_leads_from_one_moment_to_another(name: str) -> None:
    motion = motion_of(MOVES[name])
    early, late = motion.pose_at("piece", 0.3), motion.pose_at("piece", 0.8)
    between = motion.pose_at("piece", 0.8, since=0.3)
    assert early is not None and late is not None and between is not None
    for entry in ENTRIES:
        step = moved_entry(moved_entry(entry, early.similarity), between.similarity)
        assert near(step, moved_entry(entry, late.similarity))


def test_a_turn_is_told_as_far_as_it_is_seen_to_go() -> None:
    pose = motion_of(MOVES["more than half a turn"]).pose_at("piece", 1.0)
    assert pose is not None
    assert (pose.turn_deg, pose.similarity.turn_deg) == (-270.0, 90.0)
    assert pose.by == (2.0, 1.0)


@pytest.mark.parametrize("move", [Trace(entry_id="lines"), MOVES["turn"]])
def test_what_is_not_carried_has_no_pose(move: Move) -> None:
    group = "elsewhere" if isinstance(move, Glide) else "piece"
    assert motion_of(move).pose_at(group, 0.5) is None


@pytest.mark.parametrize(
    ("entry", "turns", "grows"),
    [
        (AREA, True, True),
        (DOTS, True, True),
        (LINES, True, True),
        (ARROW, True, False),
        (replace(AREA, dash=(0.3, 0.2)), True, False),
        (replace(AREA, rounded=0.2), False, False),
        (Circle(id="ring", centre=MIDDLE, radius=1.0, stroke="#B3261E", dash=(0.3, 0.2), **COMMON), True, False),
        (Circle(id="disc", centre=MIDDLE, radius=1.0, fill="#B3261E", **COMMON), True, True),
        (Label(id="word", text="join", at=MIDDLE, size=0.4, colour="#1F2A37", **COMMON), False, False),
    ],
)
def test_what_keeps_its_length_or_stands_upright_is_drawn_anew(entry: Entry, turns: bool, grows: bool) -> None:
    assert drawing_moves(entry, turns=False, grows=False)
    assert drawing_moves(entry, turns=True, grows=False) is turns
    assert drawing_moves(entry, turns=False, grows=True) is grows


def test_no_renderer_has_an_easing_of_its_own() -> None:
    written = re.compile(r"\(3(\.0)? - 2(\.0)? \*")
    sources = [
        *(ROOT / "explainers").rglob("*.py"),
        *(ROOT / "explainers").rglob("*.js"),
        *(ROOT / "scenes").rglob("*.py"),
    ]
    knowing = [
        path.relative_to(ROOT).as_posix() for path in sources if written.search(path.read_text(encoding="utf-8"))
    ]
    assert knowing == ["explainers/figure/motion.py"]
