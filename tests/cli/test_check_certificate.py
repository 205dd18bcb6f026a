"""`explainers check --certificate`: the proof in words and as data; warnings accepted; items that ask the same."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from explainers.choice.certificate import certificate
from explainers.intake.workspace import load_solution

ITEMS = Path(__file__).parents[2] / "items"
EASY = "the first item of the series is meant to be easy"


@pytest.fixture
def easy(sound: Path, tmp_path: Path) -> Path:
    """The sound item, its piece shown as it lies."""
    path = tmp_path / "easy.yaml"
    path.write_text(sound.read_text(encoding="utf-8").replace("turned: 90\n", "turned: 0\n"), encoding="utf-8")
    return path


@pytest.fixture
def accepted(easy: Path, tmp_path: Path) -> Path:
    """The same, with the warning accepted."""
    path = tmp_path / "accepted.yaml"
    path.write_text(f'{easy.read_text(encoding="utf-8")}accepted: {{no-turn: "{EASY}"}}\n', encoding="utf-8")
    return path


def test_every_option_has_its_proof(run, sound: Path) -> None:
    ran = run("check", "--certificate", sound)
    assert ran.code == 0
    head, *lines = ran.out.splitlines()
    assert head == "The pocket block (pocket-block): sound; option C alone is right"
    assert [line.strip()[:2] for line in lines[:3]] == ["A ", "B ", "C "]
    assert "symmetry order 1" in ran.out
    assert "40 mm across" in ran.out, "what a millimetre is"


def test_the_figures_are_those_of_the_certificate(run, sound: Path) -> None:
    out = run("check", "--certificate", sound).out
    made = certificate(load_solution(sound))
    gaps = [float(gap) for gap in re.findall(r"it is up to about ([\d.]+) mm off", out)]
    assert gaps == [
        pytest.approx(proof.difference.gap_mm, abs=0.05) for proof in made.proofs if proof.difference is not None
    ]
    assert "after a turn of 120 degrees clockwise" in out
    (pause,) = re.findall(r"about (\d+) s \(an estimate\)", out)
    assert float(pause) == made.pause_s == made.solution.suggested_pause_s


def test_a_gap_of_the_whole_pocket(run, sound: Path) -> None:
    """Option B is the square without the pocket, which has its corners at (1, 0), (1, 2) and (2, 0).

    Its slanted side y = 4 - 2x is nowhere farther from the square's boundary than where it is as far from the left as
    from the bottom, x = y = 4/3. Three units are 40 mm.
    """
    found = json.loads(run("check", "--certificate", "--json", sound).out)
    assert found["outline_mm"] == 40.0
    assert found["options"][1]["difference"]["gap_mm"] == pytest.approx(4.0 / 3.0 * 40.0 / 3.0, rel=1e-4)


def test_the_certificate_as_data(run, sound: Path) -> None:
    found = json.loads(run("check", "--certificate", "--json", sound).out)
    assert (found["sound"], found["holds"], found["key"], found["symmetry_order"]) == (True, True, "C", 1)
    assert found["same_question_as"] is None
    a, b, c = found["options"]
    assert c["alignment"]["turn_deg"] == pytest.approx(-120.0)
    assert c["alignment"]["scale"] == pytest.approx(1.0)
    assert c["alignment"]["corners_off_mm"] == pytest.approx(0.0, abs=1e-9)
    assert "difference" not in c and "alignment" not in a
    assert a["difference"]["slips"] == [{"slip": "flipped", "piece": None}]
    assert all(slip["piece"] == "pocket" for slip in b["difference"]["slips"])
    assert found["features"]["cuts"] == found["features"]["pieces"] == 1
    assert found["pause"]["estimate"] is True
    assert "Shepard & Metzler 1971" in found["pause"]["source"]
    total = sum(found["pause"]["parts"].values())
    assert found["pause"]["seconds"] == pytest.approx(min(120, max(15, total)), abs=2.51)


def test_an_unsound_item_gets_none(run, unsound: Path) -> None:
    ran = run("check", "--certificate", unsound)
    assert ran.code == 1
    assert "not sound" in ran.out and "alone is right" not in ran.out
    assert json.loads(run("check", "--certificate", "--json", unsound).out)["holds"] is False


def test_a_refused_item_tells_its_faults(run, refused: Path, sound: Path) -> None:
    ran = run("check", "--certificate", refused, sound)
    assert ran.code == 2
    assert "torn-block: refused, 3 faults" in ran.out
    assert len(ran.err.splitlines()) == 3
    assert "alone is right" in ran.out


def test_a_warning_stands_in_the_certificate_and_not_beside_it(run, easy: Path) -> None:
    ran = run("check", "--certificate", easy)
    assert ran.err == ""
    assert "no-turn: pieces[0].turned: pocket is shown as it lies" in ran.out


@pytest.mark.parametrize("command", ["check", "solve"])
def test_an_accepted_warning_is_told_nowhere_else(run, easy: Path, accepted: Path, command: str) -> None:
    assert "warning" in run(command, easy).err
    assert run(command, accepted).err == ""


def test_an_accepted_warning_is_listed_with_its_reason(run, accepted: Path) -> None:
    ran = run("check", "--certificate", accepted)
    assert f"Accepted: no-turn ({EASY}), which silences: pieces[0].turned: pocket is shown as it lies" in ran.out
    assert "nothing beside what is accepted" in ran.out
    (entry,) = json.loads(run("check", "--certificate", "--json", accepted).out)["accepted"]
    assert (entry["kind"], entry["reason"]) == ("no-turn", EASY)
    assert [warning["kind"] for warning in entry["warnings"]] == ["no-turn"]


def test_warnings_have_kinds_in_plain_json_too(run, easy: Path, accepted: Path) -> None:
    assert [warning["kind"] for warning in json.loads(run("check", "--json", easy).out)["warnings"]] == ["no-turn"]
    assert json.loads(run("check", "--json", accepted).out)["warnings"] == []


@pytest.mark.parametrize("switches", [["--certificate"], []])
def test_items_that_ask_the_same_are_listed_and_change_no_exit_code(
    run, sound: Path, easy: Path, switches: list[str]
) -> None:
    ran = run("check", *switches, sound, easy)
    assert ran.code == 0
    assert f"{easy} is the same question as {sound}" in ran.out
    assert "the same question" not in run("check", *switches, sound, ITEMS / "corner-block.yaml").out


def test_a_flipped_question_is_said_to_be_one(run, sound: Path, tmp_path: Path) -> None:
    flipped = tmp_path / "flipped.yaml"
    text = sound.read_text(encoding="utf-8")
    # The pocket turned over, and laid where the square turned over has it: from (2, 0) to (1, 0), as before.
    flipped.write_text(
        text.replace("[[0, 0], [1, 0], [0, 2]]", "[[0, 0], [1, 0], [1, 2]]"),
        encoding="utf-8",
    )
    ran = run("check", "--certificate", sound, flipped)
    assert f"{flipped} is the same question as {sound}, flipped over." in ran.out
    rows = run("check", "--certificate", "--json", sound, flipped).out.splitlines()
    same = json.loads(rows[1])["same_question_as"]
    assert same == {"item": "pocket-block", "file": str(sound), "flipped": True}


def test_the_demo_needs_no_more_warnings(run) -> None:
    ran = run("check", "--certificate", ITEMS)
    assert ran.code == 0
    assert ran.out.count("What could make it unfair: nothing") == len(list(ITEMS.glob("*-block.yaml")))
    assert "the same question" not in ran.out
