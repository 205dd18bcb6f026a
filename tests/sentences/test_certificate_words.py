"""The certificate in words: figures read back out of the lines, grammar at every count, roundings that stay true."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from strategies import random_item

from explainers.choice.certificate import Certificate, certificate
from explainers.choice.question import Accepted
from explainers.choice.words.certificate import (
    PAUSE_SOURCE,
    certificate_lines,
    pause_in_brief,
    print_scale,
    repeat_line,
)
from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.model import PieceWarning
from explainers.kinds.join_and_cut.solving.solver import solve

ITEMS = Path(__file__).parents[2] / "items"


@pytest.fixture(scope="module")
def corner() -> Certificate:
    return certificate(load_solution(ITEMS / "corner-block.yaml"))


def line_of(made: Certificate, start: str) -> str:
    (line,) = (line.strip() for line in certificate_lines(made) if line.strip().startswith(start))
    return line


def asked_for(made: Certificate, **changes: object) -> str:
    return line_of(replace(made, features=replace(made.features, **changes)), "It asks for ")  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", range(8))
def test_the_gaps_read_back(seed: int) -> None:
    made = certificate(solve(random_item(seed)))
    for proof in made.proofs:
        if proof.difference is None:
            continue
        line = line_of(made, f"{proof.verdict.label} is wrong: ")
        (gap,) = re.findall(r"it is up to about ([\d.]+) mm off", line)
        assert float(gap) == pytest.approx(proof.difference.gap_mm, abs=0.0501)


@pytest.mark.parametrize(
    ("off_mm", "said"), [(0.0, "0 mm"), (0.0401, "0.05 mm"), (0.04, "0.04 mm"), (0.123, "0.13 mm"), (1.251, "1.26 mm")]
)
def test_corners_off_are_rounded_up(corner: Certificate, off_mm: float, said: str) -> None:
    index = next(i for i, proof in enumerate(corner.proofs) if proof.alignment is not None)
    proof = corner.proofs[index]
    assert proof.alignment is not None
    proofs = list(corner.proofs)
    proofs[index] = replace(proof, alignment=replace(proof.alignment, corners_off_mm=off_mm))
    assert f"no corner is more than {said} from" in line_of(replace(corner, proofs=tuple(proofs)), "C is right: ")


def test_a_scale_is_said_where_there_is_one(corner: Certificate) -> None:
    proof = corner.proofs[2]
    assert proof.alignment is not None
    assert "at its own size" in line_of(corner, "C is right: ")
    proofs = (*corner.proofs[:2], replace(proof, alignment=replace(proof.alignment, scale=1.5)), *corner.proofs[3:])
    assert "at 1.5 times its size" in line_of(replace(corner, proofs=proofs), "C is right: ")


def test_a_proof_that_does_not_hold_is_not_called_sound(corner: Certificate) -> None:
    proof = corner.proofs[2]
    assert proof.alignment is not None
    proofs = (*corner.proofs[:2], replace(proof, alignment=replace(proof.alignment, holds=False)), *corner.proofs[3:])
    head = certificate_lines(replace(corner, proofs=proofs))[0]
    assert "alone is right" not in head and "did not hold" in head


def test_no_place_to_point_at_is_said_plainly(corner: Certificate) -> None:
    first = corner.proofs[0]
    assert first.difference is not None
    proofs = (replace(first, difference=replace(first.difference, fact=None, slip=None)), *corner.proofs[1:])
    assert "too little" not in (line := line_of(replace(corner, proofs=proofs), "A is wrong: "))
    assert "no turn, shift and scale lays it on" in line and "mm off" in line


@pytest.mark.parametrize(
    ("changes", "phrase"),
    [
        ({"pieces": 1, "total_turn_deg": 135.0, "largest_turn_deg": 135.0}, "1 piece, a turn of 135 degrees"),
        ({"pieces": 1, "total_turn_deg": 0.0, "largest_turn_deg": 0.0}, "1 piece, no turn"),
        ({"pieces": 2, "total_turn_deg": 90.0, "largest_turn_deg": 45.0}, "turns of 90 degrees in all, the largest 45"),
        ({"odd_angles": 1}, "1 odd angle"),
        ({"odd_angles": 2}, "2 odd angles"),
        ({"part_side_marks": 1}, "1 mark on part of a side"),
        ({"part_side_marks": 2}, "2 marks on part of a side"),
        ({"cuts": 2}, "2 cuts"),
        ({"pieces_on_pieces": 1}, "1 piece on another piece"),
        ({"pieces_on_pieces": 2}, "2 pieces on other pieces"),
        ({"nearly_right": 1}, "1 option that is nearly right"),
        ({"nearly_right": 2}, "2 options that are nearly right"),
        ({"hole": True}, "a hole"),
        ({"flipped_option": True}, "a flipped option"),
    ],
)
def test_features_in_words(corner: Certificate, changes: dict[str, object], phrase: str) -> None:
    assert phrase in asked_for(corner, **changes)


def test_features_that_are_not_there_are_not_named(corner: Certificate) -> None:
    said = asked_for(corner, flipped_option=False)
    assert not any(word in said for word in ("hole", "cut", "odd", "part of", "flipped", "nearly"))


def test_an_acceptance_that_silences_nothing_is_said_to_be_needless() -> None:
    solution = load_solution(ITEMS / "corner-block.yaml")
    entry = Accepted(kind=PieceWarning.NO_TURN, reason="easy on purpose")
    made = certificate(replace(solution, item=replace(solution.item, accepted=(entry,))))
    assert "not needed: no-turn (easy on purpose)" in line_of(made, "Accepted, but")


def test_the_parts_of_the_pause_add_up(corner: Certificate) -> None:
    line = line_of(corner, "A pause to try first: ")
    listed = line.split("in seconds:")[1].split("; in whole")[0]
    parts = [int(part) for part in re.findall(r" (\d+)(?=,| and|$)", listed)]
    assert len(parts) == sum(part.seconds >= 0.5 for part in corner.features.pause_parts())
    assert sum(parts) == pytest.approx(corner.pause_s, abs=2.5 + 0.5 * len(parts))


def test_a_pause_is_always_called_an_estimate() -> None:
    assert pause_in_brief(30.0) == "a pause to try first: about 30 s (an estimate)"
    assert "estimates" in PAUSE_SOURCE
    assert "Shepard & Metzler 1971" in PAUSE_SOURCE and "Cooper 1975" in PAUSE_SOURCE and "memory" in PAUSE_SOURCE


@pytest.mark.parametrize("outline_given", [False, True])
def test_the_print_scale_is_said(outline_given: bool) -> None:
    said = print_scale(outline_given=outline_given)
    assert "A4" in said and "40 mm" in said and ("finished" in said) is not outline_given


def test_repeats_in_words() -> None:
    assert repeat_line("b", "a", flipped=True) == "b is the same question as a, flipped over."
    assert "flipped" not in repeat_line("b", "a", flipped=False)
