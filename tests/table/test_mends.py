"""Mends: each fault planted into an item has the button that mends it, and no button promises what it does not keep."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from demo_items import each_demo_item
from six_pieces import SIX
from test_sitting import CORNER, ITEMS

from explainers.table.desk import Desk
from explainers.table.sitting import Sitting

TURNED = next(path.read_text() for path in sorted(ITEMS.glob("*.yaml")) if "kind: turned-outline" in path.read_text())
RIGHT = "{outline: result, turned: 90}"
WITHOUT_OPTIONS = CORNER.split("options:")[0]


def planted(text: str, old: str, new: str) -> str:
    assert old in text
    return text.replace(old, new, 1)


PLANTED = {
    "a key misspelt": (planted(CORNER, "turned: 135", "trned: 135"), ["Write turned for trned"]),
    "a key that there is not": (planted(CORNER, "turned: 135", "colour: red"), ["Take colour out"]),
    "a word misspelt": (planted(CORNER, "does: join", "does: jion"), ["Join it on"]),
    "a sign misspelt": (planted(CORNER, "sign: leaf", "sign: laef"), ["Mark it with the leaf"]),
    "a slip misspelt": (planted(CORNER, "turned-back", "turnd-back"), ["Write turned-back"]),
    "a piece misspelt in an option": (planted(CORNER, "back, piece: flag", "back, piece: flga"), ["Write flag"]),
    "a number with its unit": (planted(CORNER, "turned: 135", "turned: 135 degrees"), ["Write 135"]),
    "a name with spaces": (planted(CORNER, "item: corner-block", "item: Corner Block"), ["Call it corner-block"]),
    "a mark of two sorts": (planted(CORNER, "sign: leaf", "sign: leaf\n    mark: K"), ["Mark it with the leaf"]),
    "a corner twice": (planted(CORNER, "[4, 2], [2, 2]", "[4, 2], [4, 2], [2, 2]"), ["Take corner 4 out"]),
    "a spike": (planted(CORNER, "[0, 0], [4, 0]", "[0, 0], [6, 0], [4, 0]"), ["Take corner 2 out"]),
    "sides that cross": (
        planted(WITHOUT_OPTIONS, "[4, 0], [4, 2], [2, 2]", "[4, 0], [2, 2], [4, 2]"),
        None,
    ),
    "sides of another length": (
        planted(WITHOUT_OPTIONS, "meets: [[4, 0], [4, 2]]", "meets: [[0, 0], [4, 0]]"),
        [
            "Make the whole flag 2 times as large",
            "Move corner 2 of the flag: its side is 4 long then",
            "Let it meet only 2 of that side",
        ],
    ),
    "a side that is none": (planted(CORNER, "[[4, 0], [4, 2]]", "[[5, 0], [5, 2]]"), ["Let it meet side 2"]),
    "a number of no side": (planted(CORNER, "meets: [[4, 0], [4, 2]]", "meets: 9"), []),
    "an option twice": (
        planted(CORNER, "too-large", "next-side"),
        ["Put left-out of flag in the place of option E", "Take option E out"],
    ),
    "no option": (WITHOUT_OPTIONS, ["Make five options"]),
    "two options": (
        CORNER.split(f"  - {RIGHT}")[0],
        ["Add the right one, left-out of flag and piece-flipped of flag"],
    ),
    "a piece that is none": (planted(CORNER, "sign: leaf", "of: bsae\n    sign: leaf"), ["Let it meet the base"]),
}  # fmt: skip


def desk_of(text: str, tmp_path: Path) -> Desk:
    path = tmp_path / f"planted-{len(list(tmp_path.iterdir()))}.yaml"
    path.write_text(text, encoding="utf-8")
    return Desk(Sitting(path))


def keeps_its_promise(desk: Desk) -> dict[str, Any]:
    """The mends; every offer has been tried as a page would do it, and what it is for is gone."""
    state, mends = desk.state(), desk.mends()["mends"]
    told = [*state["faults"], *state["warnings"]]
    for mend in mends:
        for offer in mend["offers"]:
            status, answer = desk.tried({"revision": state["revision"], "commands": offer["commands"]})
            assert status == 200, (offer, answer)
            after = answer["state"]
            assert len(after["faults"]) <= len(state["faults"])
            if mend["of"] in ("fault", "warning"):
                gone = told[mend["number"]]
                assert gone not in after["faults"] and gone not in after["warnings"], offer["words"]
            if mend["of"] == "verdict" or state["verdict"]["state"] == "sound":
                assert after["verdict"]["state"] == "sound", offer["words"]
    return {"state": state, "mends": mends}


@pytest.mark.parametrize("name", PLANTED)
def test_a_planted_fault_has_its_mend(name: str, tmp_path: Path) -> None:
    text, wanted = PLANTED[name]
    desk = desk_of(text, tmp_path)
    found = keeps_its_promise(desk)
    offered = [[offer["words"] for offer in mend["offers"]] for mend in found["mends"] if mend["of"] == "fault"]
    assert wanted in offered if wanted is not None else any(offered), (offered, found["state"]["faults"])


def test_a_cut_that_reaches_outside_has_no_single_mend(tmp_path: Path) -> None:
    desk = desk_of(
        planted(WITHOUT_OPTIONS, "[[0, 0], [2, 0], [0, 2]]", "[[0, 0], [2, 0], [0, 9]]").replace("join", "cut"),
        tmp_path,
    )
    found = keeps_its_promise(desk)
    place = next(n for n, fault in enumerate(found["state"]["faults"]) if "pieces[0]" in fault["field"])
    assert found["mends"][place]["offers"] == []


def test_an_unsound_question_is_made_sound(tmp_path: Path) -> None:
    for text, wanted in (
        (planted(CORNER, RIGHT, "{outline: result, slip: left-out, piece: flag}"), "Add the right one"),
        (planted(CORNER, "slip: flipped, ", ""), "Put flipped in the place of option C"),
    ):
        found = keeps_its_promise(desk_of(text, tmp_path))
        mend = next(mend for mend in found["mends"] if mend["of"] == "verdict")
        assert mend["offers"][0]["words"] == wanted


def test_a_warning_is_mended_or_let_stand_with_its_reason(tmp_path: Path) -> None:
    desk = desk_of(planted(CORNER, "sign: leaf", "mark: A"), tmp_path)
    found = keeps_its_promise(desk)
    mend = next(mend for mend in found["mends"] if mend["of"] == "warning")
    assert mend["accepts"] == "mark-like-option" and mend["offers"][0]["words"] == "Mark it with the sign of its place"
    told = {"do": "set", "at": "accepted.mark-like-option", "value": "our class knows it"}
    status, answer = desk.edit({"revision": 1, "commands": [told]})
    assert status == 200 and not answer["state"]["warnings"]
    assert [each["kind"] for each in answer["state"]["accepted"]] == ["mark-like-option"]
    assert "mark-like-option: our class knows it" in desk.sitting.path.read_text()


def test_a_piece_that_no_option_tests_gets_one(tmp_path: Path) -> None:
    lines = [line for line in CORNER.splitlines() if "piece: flag," not in line]
    drawn = "  - {corners: [[0, 0], [5, 0], [5, 2], [0, 2]]}\n"
    desk = desk_of("\n".join(lines) + "\n" + drawn, tmp_path)
    found = keeps_its_promise(desk)
    mend = next(mend for mend in found["mends"] if mend["of"] == "without")
    assert mend["piece"] == "flag" and mend["offers"]
    desk.edit({"revision": 1, "commands": mend["offers"][0]["commands"]})
    assert desk.later()["without"] == [] and not [each for each in desk.mends()["mends"] if each["of"] == "without"]


def test_a_turned_outline_is_mended_too(tmp_path: Path) -> None:
    desk = desk_of(TURNED.replace("turned: ", "turnd: ", 1), tmp_path)
    assert keeps_its_promise(desk)["mends"][0]["offers"][0]["words"] == "Write turned for turnd"


@pytest.mark.full
@pytest.mark.parametrize("plant", [
    lambda text: text.replace("slip: flipped, ", "", 1),
    lambda text: text.replace("does: cut", "does: join", 1),
    lambda text: text.replace("does: join", "does: cut", 1),
    lambda text: text.replace("turned: ", "turned: 1", 1),
    lambda text: text.replace("[0, 0], ", "", 1),
    lambda text: text.replace("meets: ", "side: ", 1),
    lambda text: text.replace("outline: result, turned", "outline: result, slip: flipped, turned", 1),
])  # fmt: skip
@pytest.mark.parametrize("item", each_demo_item())
def test_no_button_promises_what_it_does_not_keep(item: Path, plant: Callable[[str], str], tmp_path: Path) -> None:
    keeps_its_promise(desk_of(plant(item.read_text(encoding="utf-8")), tmp_path))


@pytest.mark.full
def test_of_an_item_of_six_pieces_too(tmp_path: Path) -> None:
    keeps_its_promise(desk_of(SIX, tmp_path))
