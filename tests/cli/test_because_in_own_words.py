"""`check --json` says why a question is sound in the words of its kind: what is shown is not called finished."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from demo_items import demo_items

TURNED, BUILT = demo_items("turned-outline"), demo_items("join-and-cut")


def because(run, path: Path) -> tuple[dict[str, object], list[str]]:
    ran = run("check", path, "--json")
    assert ran.code == 0
    found = json.loads(ran.out)
    lines: list[str] = found["because"]
    return found, lines


@pytest.mark.parametrize("path", TURNED, ids=lambda path: path.stem)
def test_of_a_turned_outline_it_is_said_why_the_right_one_is_right_and_no_other(run, path: Path) -> None:
    found, (right, others, *flipped) = because(run, path)
    assert right.startswith(f"Option {found['key']} is the outline: it fits ")
    options = {option["label"]: option for option in found["options"]}  # type: ignore[attr-defined]
    wrong = [label for label in options if label != found["key"]]
    assert others == (
        f"None of the others, {', '.join(wrong[:-1])} and {wrong[-1]}, is laid on the outline by any turn, shift and "
        "scale."
    )
    mirrored = [label for label in wrong if options[label]["mirrored"]]
    assert flipped == [f"Option {label} is its mirror image, which no turn makes right." for label in mirrored]
    assert "finished" not in " ".join((right, others, *flipped))


def test_what_pieces_make_is_called_finished(run) -> None:
    for path in BUILT[:2]:
        _, (right, others, *_) = because(run, path)
        assert "is the finished outline" in right and "on the finished outline" in others
