"""Laying by marks: lengths at the authoring tolerance itself, and faults that read as the reader's do."""

from __future__ import annotations

from typing import Any

import pytest
from small_items import SQUARE, flag, item

from explainers.choice.question import Option
from explainers.errors import Fault, ItemError
from explainers.geometry.tolerance import AUTHORING, within
from explainers.intake.reader import scan_item
from explainers.kinds.join_and_cut.facts.meet import meet_fact
from explainers.kinds.join_and_cut.facts.piece import piece_fact
from explainers.kinds.join_and_cut.model import Does, Item
from explainers.kinds.join_and_cut.solving.solver import solve


def faults_of(shown: Item) -> tuple[Fault, ...]:
    with pytest.raises(ItemError) as caught:
        solve(shown)
    return caught.value.faults


@pytest.mark.parametrize("start", [0.5, 1.0, 1.1, 1.3, 1.7])
@pytest.mark.parametrize("extent", [4.0, 7.0, 12.3])
def test_a_length_off_by_the_tolerance_itself_is_let_through(start: float, extent: float) -> None:
    """Written as a sum, the difference is often a rounding error more than the tolerance."""
    tolerance = AUTHORING * extent
    base = ((0.0, 0.0), (extent, 0.0), (extent, 3.0), (0.0, 3.0))
    at_it = flag(meets=((start, 0.0), (start + 2.0 + tolerance, 0.0)))
    solution = solve(item(at_it, base=base))
    assert piece_fact(solution, 0).holds()
    assert meet_fact(solution, 0).holds()
    beyond = flag(meets=((start, 0.0), (start + 2.0 + 1.01 * tolerance, 0.0)))
    (fault,) = faults_of(item(beyond, base=base))
    assert fault.field == "pieces[0].side"


def test_within_forgives_rounding_and_no_more() -> None:
    assert within(2.004 - 2.0, 0.004)
    assert not within(0.004 * (1 + 1e-6), 0.004)


def test_a_length_is_told_in_the_words_of_the_reader(tmp_path: Any) -> None:
    """The reader finds it first in a file; an item built by hand comes to the solver as it is."""
    path = tmp_path / "item.yaml"
    path.write_text(
        "item: one\nbase: {corners: [[0, 0], [4, 0], [4, 4], [0, 4]]}\npieces:\n"
        "  - {piece: flag, does: join, corners: [[0, 0], [2, 0], [0, 2]], side: [[0, 0], [2, 0]],"
        " meets: [[4, 0], [4, 2.01]]}\n"
        "options: {make: 4, seed: 1}\n",
        encoding="utf-8",
    )
    (read,) = scan_item(path).faults
    (solved,) = faults_of(item(flag(meets=((4.0, 0.0), (4.0, 2.01))), base=SQUARE))
    assert read.message == solved.message
    assert read.fix == f"{solved.fix}, such as meets: [[4, 0], [4, 2]]", "a file can be shown what to write"


TWO = (flag(), flag(name="tip", mark="A", meets=((0.0, 0.0), (2.0, 0.0)), of="flog"))
OTHER = Option(slip="left-out", slip_subject="flag")


@pytest.mark.parametrize(
    ("shown", "message", "fix"),
    [
        (
            item(flag(name="notch", does=Does.CUT, meets=((1.0, 0.0), (3.0, 0.0))), flag(of="notch")),
            "notch is cut away, so no piece can meet it",
            "write of: base",
        ),
        (item(*TWO), "there is no earlier joined piece called flog", "write of: base or flag"),
        (
            item(flag(side=((0.0, 0.0), (2.0, 1.0)), meets=((0.0, 0.0), (2.0, 1.0)))),
            "(0, 0) to (2, 1) is not on a side of flag",
            "name two points of one side of flag, in the same coordinates as its corners",
        ),
        (
            item(options=(Option(), Option(slip="fliped"), Option(slip="flipped"))),
            "there is no slip called fliped",
            "write slip: flipped",
        ),
        (
            item(options=(Option(), Option(slip="left-out", slip_subject="flog"), Option(slip="flipped"))),
            "there is no piece called flog",
            "write flag",
        ),
        (
            item(options=(Option(), Option(slip="left-out"), Option(slip="flipped"))),
            "the slip left-out happens to one piece, and none is named",
            "add piece: flag",
        ),
        (
            item(options=(Option(), Option(slip="flipped", slip_subject="flag"), OTHER)),
            "the slip flipped happens to the whole outline, not to one piece",
            "take piece out",
        ),
        (
            item(flag(turned=-90.0), options=(Option(), Option(slip="turned-back", slip_subject="flag"), Option())),
            "the slip turned-back gives no outline here: flag needs no turn",
            "choose another slip or another piece, or draw the option by its corners",
        ),
    ],
)  # fmt: skip
def test_faults_of_solving_read_like_those_of_reading(shown: Item, message: str, fix: str) -> None:
    """No quotes, no backticks, no question: names as they are typed, and what to write."""
    faults = faults_of(shown)
    assert (message, fix) in [(fault.message, fault.fix) for fault in faults]
    for fault in faults:
        assert not set("`'\"?").intersection(fault.message + fault.fix), fault


def test_a_slip_of_no_known_name_is_given_all_of_them() -> None:
    (fault,) = faults_of(item(options=(Option(), Option(slip="xyz"), Option(slip="flipped"))))
    assert fault.fix.startswith("write slip: flipped, left-out, ")
    assert " or " in fault.fix
