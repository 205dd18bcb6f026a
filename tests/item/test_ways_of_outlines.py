"""Every way to give an outline is read into the same corners; what is wrong in one is told where it stands."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from explainers.document.fields import Faults
from explainers.document.nodes import ScalarNode
from explainers.errors import Fault
from explainers.geometry.rings import signed_area
from explainers.intake.reader import read_item, scan_item
from explainers.item.ready_outlines import READY
from explainers.item.walk_reader import CLOSE, STEP_PATTERN, walk_of
from explainers.kinds.join_and_cut.model import Item

TEMPLATE = """\
item: trial
base:
  {base}
pieces:
  - piece: flag
    does: join
    {flag}
    side: {side}
    meets: {meets}
options:
  - outline: result
  - {option}
  - {{outline: result, turned: 90}}
"""
LISTED = {
    "base": "corners: [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]",
    "flag": "corners: [[0, 0], [2, 0], [0, 2]]",
    "side": "[[0, 0], [2, 0]]",
    "meets": "[[4, 0], [4, 2]]",
    "option": "{corners: [[0, 0], [3, 0], [3, 1], [0, 1]], holes: [[[1, 0.25], [2, 0.25], [2, 0.75], [1, 0.75]]]}",
}


def written(folder: Path, **parts: str) -> Path:
    path = folder / "trial.yaml"
    path.write_text(TEMPLATE.format(**(LISTED | parts)), encoding="utf-8")
    return path


def read(folder: Path, **parts: str) -> Item:
    return read_item(written(folder, **parts))


BASES = [
    "walk: right 4, up 2, left 2, up 2, left 2",
    "walk: right 4, up 2, left 2, up 2, left 2, down 4",
    "walk: right 4, up 2, left 2, up 2, left 2, down 4,",
    "walk: right 4, up 2, left 2, up 2, left 2, close",
    "walk: [right 4, up 2, left 2, up 2, left 2]",
    "walk: right 4, up 2,\n    left 2,\n    up 2, left 2",
    "{walk: [0deg 4, 90deg 2, 180° 2, 90 degrees 2, -180deg 2], from: [0, 0]}",
    "ready: {L: {wide: 4, high: 4, stem: 2, arm: 2}}",
    "ready: {L: {wide: 4, high: 4, stem: 2, arm: 2}}\n  from: [0, 0]",
]


@pytest.mark.parametrize("base", BASES)
def test_a_base_is_the_same_however_it_is_given(tmp_path: Path, base: str) -> None:
    assert read(tmp_path, base=base) == read(tmp_path)


@pytest.mark.parametrize(
    "flag",
    [
        "walk: right 2, up-left 2",
        "walk: right 2, left 2 up 2",
        "walk: right 2, up 2 left 2, close",
        "ready: {right-triangle: {wide: 2, high: 2}}",
        "ready:\n      right-triangle:\n        wide: 2\n        high: 2.0",
    ],
)
@pytest.mark.parametrize(("side", "meets"), [("1", "2"), ("[[0, 0], [2, 0]]", "2"), ("1", "[[4, 2], [4, 0]]")])
def test_a_piece_and_its_marks_are_the_same(tmp_path: Path, flag: str, side: str, meets: str) -> None:
    item = read(tmp_path, flag=flag, side=side, meets=meets)
    flagged = item.pieces[0]
    assert flagged.corners == read(tmp_path).pieces[0].corners
    assert flagged.side == ((0.0, 0.0), (2.0, 0.0))
    assert set(flagged.meets) == {(4.0, 0.0), (4.0, 2.0)}


@pytest.mark.parametrize(
    "option",
    [
        "{walk: [right 3, up 1, left 3], holes: [{walk: [right 1, up 0.5, left 1], from: [1, 0.25]}]}",
        "{ready: {rectangle: {wide: 3, high: 1}}, holes: "
        "[{ready: {rectangle: {wide: 1, high: 0.5}}, from: [1, 0.25]}]}",
        "{ready: {rectangle: {wide: 3, high: 1}}, holes: [{corners: [[1, 0.25], [2, 0.25], [2, 0.75], [1, 0.75]]}]}",
    ],
)
def test_an_option_and_its_holes_are_the_same(tmp_path: Path, option: str) -> None:
    assert read(tmp_path, option=option) == read(tmp_path)


def test_sides_are_numbered_as_the_file_lists_them(tmp_path: Path) -> None:
    """Also where the corners run clockwise, and where the partner is an earlier piece."""
    clockwise = "corners: [[0, 0], [0, 4], [2, 4], [2, 2], [4, 2], [4, 0]]"
    item = read(tmp_path, base=clockwise, meets="5")
    assert item.pieces[0].meets == ((4.0, 2.0), (4.0, 0.0))
    assert item.base_corners[4:] == ((4.0, 2.0), (4.0, 0.0))
    assert item.pieces == read(tmp_path, meets="[[4, 2], [4, 0]]").pieces
    more = "[[4, 0], [4, 2]]\n  - {piece: tip, does: join, ready: {right-triangle: {wide: 2, high: 1}}, "
    second = read(tmp_path, meets=more + "side: 1, meets: 3, of: flag}").pieces[1]
    assert second.meets == ((0.0, 2.0), (0.0, 0.0))


def test_numbers_typed_in_tenths_stay_tenths(tmp_path: Path) -> None:
    item = read(tmp_path, option="{walk: [right 0.1, right 0.2, up 0.1, up 0.2, left 0.3]}")
    assert item.options[1].corners == ((0.0, 0.0), (0.1, 0.0), (0.3, 0.0), (0.3, 0.1), (0.3, 0.3), (0.0, 0.3))


WAY_FAULTS = [
    ("base", "walk: right 4, up 2, left 1, up 2, left 2", 3, "base.walk", "does not close: it ends at (1, 4)"),
    ("base", "walk: right 4, up 2, down 1, left 4", 3, "base.walk", "(4, 2) to (4, 1) (step 3) runs back"),
    ("base", "walk: right 4, up 2, left 2, down 4, left 2", 3, "base.walk", "crosses itself"),
    ("base", "walk: right 4, upp 2, left 4", 3, "base.walk", 'step 2, "upp 2": "upp" is no direction'),
    ("base", "walk: [right 4, upp 2, left 4]", 3, "base.walk[1]", 'step 2, "upp 2": "upp" is no direction'),
    ("base", "walk: right 4, right-up 2, left 4", 3, "base.walk", '"right-up" is no direction'),
    ("base", "walk: right 4, up, left 4", 3, "base.walk", 'step 2, "up": up has no length'),
    ("base", "walk: right 4, up two, left 4", 3, "base.walk", '"two" is not a number'),
    ("base", "walk: right 4, up 1/2, left 4", 3, "base.walk", "is a fraction"),
    ("base", "walk: right 4, up -2, left 4", 3, "base.walk", "a length is more than 0"),
    ("base", "walk: right 4, up 0, left 4", 3, "base.walk", "a length is more than 0"),
    ("base", "walk: right 4, 90deg 0, left 4", 3, "base.walk", "a length is more than 0"),
    ("base", "walk: right 4, ninetydeg 2, left 4", 3, "base.walk", '"ninety" is not a number'),
    ("base", "walk: right 4 up 2 left 2 up 2", 3, "base.walk", "one step goes left or right and up or down"),
    ("base", "walk: right 4 left 2, up 4", 3, "base.walk", "one step goes left or right and up or down"),
    ("base", "walk: right 4,, up 2, left 4", 3, "base.walk", "step 2: nothing is written between two commas"),
    ("base", "walk: right 4, close, up 2, left 4", 3, "base.walk", "only the last step can close"),
    ("base", "walk: right 4, up 1e9, left 4", 3, "base.walk", "too large"),
    ("base", "walk: right 4", 3, "base.walk", "at least 3 corners; this walk passes 2"),
    ("base", "walk:", 3, "base.walk", "a walk is due here"),
    ("base", "walk: []", 3, "base.walk", "a walk is due here"),
    ("base", "walk: {right: 4}", 3, "base.walk", "a walk is due here"),
    ("base", "walk: [[4, 0]]", 3, "base.walk[0]", "step 1 is not a direction and a length"),
    ("base", f"walk: {', '.join(['right 1'] * 301)}", 3, "base.walk", "301 steps; at most 300"),
    ("base", "wlak: right 4, up 2, left 4", 3, "base.wlak", "no key called"),
    ("base", "walk: right 4, up 2, left 4\n  from: here", 4, "base.from", "where a point [x, y] is due"),
    ("base", "corners: [[0, 0], [4, 0], [4, 2]]\n  from: [1, 0]", 4, "base.from", "say by themselves where they lie"),
    ("base", "corners: [[0, 0], [4, 0], [4, 2]]\n  walk: right 4, up 2, close", 4, "base.walk",
     "the base has both corners and walk"),
    ("base", "ready: {L: {wide: 4, high: 4, stem: 4, arm: 2}}", 3, "base.ready.L.stem", "leaves nothing of wide 4"),
    ("base", "ready: {L: {wide: 4, high: 4, stem: 2, arm: 5}}", 3, "base.ready.L.arm", "leaves nothing of high 4"),
    ("base", "ready: {L: {wide: 4, high: 4, stem: 2}}", 3, "base.ready.L.arm", "the key arm is missing"),
    ("base", "ready: {L: {wide: 0, high: 4, stem: 2, arm: 2}}", 3, "base.ready.L.wide", "wide is not more than 0"),
    ("base", "ready: {L: {wide: x, high: 4, stem: 2, arm: 2}}", 3, "base.ready.L.wide", "is not a number"),
    ("base", "ready: {L: {wdie: 4, high: 4, stem: 2, arm: 2}}", 3, "base.ready.L.wdie", "no key called"),
    ("base", "ready: {U: {wide: 4, high: 4, stem: 2, arm: 2}}", 3, "base.ready.U.stem", "twice stem is 4"),
    ("base", "ready: {T: {wide: 4, high: 4, stem: 2, arm: 2, left: 2}}", 3, "base.ready.T.left", "right of the stem"),
    ("base", "ready: {regular-polygon: {sides: 2, long: 2}}", 3, "base.ready.regular-polygon.sides", "out of range"),
    ("base", "ready: {regular-polygon: {sides: 3.5, long: 2}}", 3, "base.ready.regular-polygon.sides", "not a whole"),
    ("base", "ready: {steps: {count: 1, wide: 1, high: 1}}", 3, "base.ready.steps.count", "out of range"),
    ("base", "ready: {rectangel: {wide: 4, high: 2}}", 3, "base.ready.rectangel", "no key called"),
    ("base", "ready: {}", 3, "base.ready", "no outline is named"),
    ("base", "ready: L", 3, "base.ready", "where keys with values are due"),
    ("base", "ready: {L: 4}", 3, "base.ready.L", "the sizes wide, high, stem and arm are due here"),
    ("base", "ready: {rectangle: {wide: 4, high: 2}, L: {wide: 4, high: 4, stem: 2, arm: 2}}", 3, "base.ready",
     "2 outlines stand here"),
    ("flag", "ready: {rectangle: {wide: 2, high: 2}}\n    walk: right 2, up 2, left 2", 7, "pieces[0].ready",
     "has both walk and ready"),
    ("side", "4", 8, "pieces[0].side", "there is no side 4: flag has 3 sides"),
    ("side", "0", 8, "pieces[0].side", "out of range"),
    ("side", "1.5", 8, "pieces[0].side", "not a whole number"),
    ("side", "2", 9, "pieces[0].meets", "is 2.828 long, but the side that it must meet is 2 long"),
    ("meets", "7", 9, "pieces[0].meets", "there is no side 7: the base has 6 sides"),
    ("option", "{outline: result, walk: [right 2, up 2, left 2]}", 12, "options[1].outline", "outline beside walk"),
    ("option", "{outline: result, from: [0, 0]}", 12, "options[1].from", "from beside outline"),
    ("option", "{walk: [right 2, up 2, left 2], holes: [{walk: [right 1, up 1, left 1]}]}", 12, "options[1].holes[0]",
     "the hole touches the outline"),
    ("option", "{walk: [right 2, up 2, left 2], holes: [{wlak: [right 1, up 1, left 1]}]}", 12,
     "options[1].holes[0].wlak", "no key called"),
]  # fmt: skip


@pytest.mark.parametrize(("part", "text", "line", "field", "message"), WAY_FAULTS)
def test_what_is_wrong_is_told_where_it_stands(
    tmp_path: Path, part: str, text: str, line: int, field: str, message: str
) -> None:
    faults = scan_item(written(tmp_path, **{part: text})).faults
    found = [fault for fault in faults if (fault.line, fault.field) == (line, field) and message in fault.message]
    assert found, "\n".join(map(str, faults))
    assert all(re.match(r"[a-z]", fault.fix) and not fault.message.endswith(".") for fault in faults)


def test_a_crossing_walk_names_its_steps(tmp_path: Path) -> None:
    faults = scan_item(written(tmp_path, base="walk: right 4, up 2, left 2, down 4, left 2")).faults
    assert "the side (0, 0) to (4, 0) (step 1) crosses the side (2, 2) to (2, -2) (step 4)" in faults[0].message
    assert faults[0].fix == "check each step"


@pytest.mark.parametrize("name", READY)
def test_the_example_of_every_ready_outline_reads_and_runs_anticlockwise(tmp_path: Path, name: str) -> None:
    path = written(tmp_path, base=f"ready: {{{name}: {READY[name].example}}}\n  from: [1, 2]", meets="1")
    reading = scan_item(path)
    assert all(fault.field == "pieces[0].meets" for fault in reading.faults), reading.faults
    item = scan_item(written(tmp_path, option=f"{{ready: {{{name}: {READY[name].example}}}}}")).item
    assert item is not None
    corners = item.options[1].corners
    assert corners is not None and corners[0] == (0.0, 0.0)
    assert signed_area(corners) > 0


def test_a_fault_of_the_corners_from_elsewhere_stands_at_the_key_that_is_written(tmp_path: Path) -> None:
    """The solver speaks of corners, whichever way the file gives them."""
    source = scan_item(written(tmp_path, base=BASES[0], flag="ready: {right-triangle: {wide: 2, high: 2}}")).source
    fields = ("base.corners[2]", "pieces[0].corners", "options[1].corners", "options[1].holes[0]")
    placed = source.placed(Fault(field=field, message="m", fix="f") for field in fields)
    assert [(fault.field, fault.line) for fault in placed] == [
        ("base.walk", 3), ("pieces[0].ready", 7), ("options[1].corners", 12), ("options[1].holes[0]", 12),
    ]  # fmt: skip


AREAS = {  # of the examples, by the formula of each shape
    "rectangle": 8.0,
    "right-triangle": 2.0,
    "regular-polygon": 6 * math.sqrt(3) / 4 * 2**2,  # six equilateral triangles
    "L": 4 * 2 + 2 * 2.0,
    "T": 3 + 2.0,
    "U": 5 * 2 + 2 * 2.0,
    "steps": 1 + 2 + 3.0,
}


@pytest.mark.parametrize("name", READY)
def test_a_ready_outline_has_the_area_of_its_formula(tmp_path: Path, name: str) -> None:
    corners = read(tmp_path, option=f"{{ready: {{{name}: {READY[name].example}}}}}").options[1].corners
    assert corners is not None
    assert signed_area(corners) == pytest.approx(AREAS[name], rel=1e-9)


def test_a_bar_may_reach_further_on_one_side() -> None:
    left = READY["T"].corners({"wide": 4, "high": 3, "stem": 1, "arm": 1, "left": 1})
    middle = READY["T"].corners({"wide": 4, "high": 3, "stem": 1, "arm": 1})
    assert min(x for x, _ in left) == -1.0 and max(x for x, _ in left) == 3.0
    assert min(x for x, _ in middle) == -1.5 and max(x for x, _ in middle) == 2.5


lengths = st.integers(1, 20).map(lambda tenths: tenths / 10)


@given(st.lists(st.tuples(lengths, lengths), min_size=1, max_size=12))
def test_a_staircase_walked_is_the_staircase_listed(stairs: list[tuple[float, float]]) -> None:
    words, corners = [], [(0.0, 0.0)]
    for along, up in stairs:
        words += [f"right {along}", f"up {up}"]
        x, y = corners[-1]
        corners += [(x + along, y), (x + along, y + up)]
    width = round(corners[-1][0], 9)
    faults = Faults()
    ring = walk_of(ScalarNode(", ".join([*words, f"left {width}"]), False, 1), "walk", faults, start=(0.0, 0.0))
    assert faults.found == [] and ring is not None
    wanted = [*corners, (0.0, corners[-1][1])]
    assert len(ring) == len(wanted)
    assert all(math.dist(own, other) < 1e-9 for own, other in zip(ring, wanted, strict=True))


@given(st.text(alphabet="rightupdownle -0123456789.,deg°x\n", max_size=40))
def test_no_text_makes_the_reader_of_walks_stumble(text: str) -> None:
    """Either corners, or a fault; and a step that an editor's pattern lets pass is one, but for its numbers."""
    faults = Faults()
    ring = walk_of(ScalarNode(text, True, 1), "walk", faults, start=(0.0, 0.0))
    assert (ring is None) == bool(faults.found)
    if ring is not None:
        steps = text.strip().removesuffix(",").split(",")
        assert all(re.fullmatch(STEP_PATTERN, step) or step.strip() == CLOSE for step in steps)
