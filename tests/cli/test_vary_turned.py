"""`explainers vary` of a turned outline: what is written is sound, new, and called by a name fit for learners."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest
from demo_items import demo_items

from explainers.geometry.congruence import Match, congruence
from explainers.intake.workspace import load_solution
from explainers.kinds.turned_outline.slips.registry import SLIPS

TURNED = demo_items("turned-outline")


LEVELS = ((), ("--easier",), ("--harder",))
ALWAYS = (("letterbox-block", ()), ("sail-block", ("--harder",)))


@pytest.mark.parametrize(
    ("path", "level"),
    [
        pytest.param(
            path,
            level,
            id=" ".join((path.stem, *level)),
            marks=() if (path.stem, level) in ALWAYS else pytest.mark.full,
        )
        for path in TURNED
        for level in LEVELS
    ],
)
def test_what_is_written_is_sound_new_and_named_for_learners(run, tmp_path: Path, path: Path, level) -> None:
    ran = run("vary", path, "--count", 2, "--seed", 4, *level, "--to", tmp_path)
    assert ran.code == 0, ran.err
    written = sorted(tmp_path.glob("*.yaml"))
    assert len(written) == 2
    assert run("check", *written).code == 0
    original, varied = load_solution(path), [load_solution(each) for each in written]
    for solution in varied:
        assert solution.sound and solution.item.kind == "turned-outline"
        assert not solution.warnings
    for one, other in combinations([original, *varied], 2):
        assert congruence(one.outline, other.outline, one.tolerance).kind is Match.DIFFERENT
    titles = [solution.item.title for solution in varied]
    assert len({original.item.title, *titles}) == 3
    telling = {"easier", "harder", "variation", "outline", path.stem.split("-")[0], *SLIPS}
    for title in titles:
        assert title.startswith("The ") and title.endswith(" block") and not any(letter.isdigit() for letter in title)
        assert not telling & set(title.lower().split())


def test_another_seed_gives_others_and_the_same_seed_the_same(run, tmp_path: Path) -> None:
    texts = []
    for number, seed in enumerate((4, 4, 9)):
        folder = tmp_path / str(number)
        assert run("vary", TURNED[1], "--count", 1, "--seed", seed, "--to", folder).code == 0
        (path,) = folder.glob("*.yaml")
        texts.append(path.read_text(encoding="utf-8").split("outline:")[1])
    assert texts[0] == texts[1] != texts[2]
