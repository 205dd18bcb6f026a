"""Which options are the outline that is shown, turned: held against exact arithmetic, from file to answer."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path

import pytest
from oracles import exact
from typer.testing import CliRunner

from explainers.choice.question import Option
from explainers.choice.same_question import repeats
from explainers.cli.main import app
from explainers.errors import ItemError
from explainers.geometry.outline import Outline
from explainers.geometry.rigid_motion import Similarity
from explainers.intake.workspace import load_solution
from explainers.intake.writing import item_yaml
from explainers.kinds.turned_outline.kind import TURNED_OUTLINE
from explainers.kinds.turned_outline.model import TurnedOutline

HOOK = ((0, 0), (6, 0), (6, 2), (2, 2), (2, 3), (4, 3), (4, 5), (0, 5))
HOLE = ((1, 0.5), (1, 1.5), (3, 1.5), (3, 0.5))
QUARTER = Similarity(turn_deg=90.0, shift=(7.0, -2.0))


def exactly(outline: Outline) -> exact.ExactRings:
    return [[(Fraction(x).limit_denominator(1000), Fraction(y).limit_denominator(1000)) for x, y in ring]
            for ring in outline.rings]  # fmt: skip


def drawn(outline: Outline) -> Option:
    return Option(corners=outline.exterior, holes=outline.holes)


def question(outline: Outline, *options: Outline) -> TurnedOutline:
    return TurnedOutline(name="hook", title="Hook", outline=outline, options=tuple(map(drawn, options)))


def shifted(outline: Outline, index: int, x: float, y: float) -> Outline:
    """With one corner of the exterior moved."""
    ring = [(a + x, b + y) if at == index else (a, b) for at, (a, b) in enumerate(outline.exterior)]
    return Outline.of(ring, outline.holes)


@pytest.mark.parametrize("holes", [(), (HOLE,)])
def test_the_verdicts_are_those_of_exact_arithmetic(holes: tuple) -> None:
    outline = Outline.of(HOOK, holes)
    options = (
        outline.mirrored(),
        outline.moved(QUARTER),
        shifted(outline, 1, 1, 0),
        shifted(outline, 4, -1, 0),
        shifted(outline, 7, 0, 1).moved(QUARTER),
    )
    solution = TURNED_OUTLINE.solve(question(outline, *options))
    for verdict, option in zip(solution.verdicts, options, strict=True):
        assert verdict.same == exact.same_by_turning(exactly(option), exactly(outline))
        assert verdict.mirrored == exact.is_mirror_only(exactly(option), exactly(outline))
    assert solution.sound and solution.key == "B" and solution.turns_deg == ()
    assert Fraction(solution.outline.area) == exact.area(exactly(outline))


def test_a_question_without_exactly_one_right_option_is_not_sound() -> None:
    outline = Outline.of(HOOK)
    none = TURNED_OUTLINE.solve(question(outline, outline.mirrored(), shifted(outline, 1, 1, 0)))
    both = TURNED_OUTLINE.solve(question(outline, outline, outline.moved(QUARTER)))
    assert not none.sound and not both.sound and none.key is None and both.key is None
    assert "mirror image" in " ".join(none.unsound_because)


def test_a_question_is_known_again_however_it_lies() -> None:
    outline = Outline.of(HOOK, (HOLE,))
    options = (outline, shifted(outline, 1, 1, 0))
    one = TURNED_OUTLINE.solve(question(outline, *options))
    turned = TURNED_OUTLINE.solve(question(outline.moved(QUARTER), *options))
    over = TURNED_OUTLINE.solve(question(outline.mirrored(), outline.mirrored(), options[1]))
    other = TURNED_OUTLINE.solve(question(options[1], options[1], outline))
    found = repeats([one, other, turned, over])
    assert [(again.index, again.earlier, again.likeness.flipped) for again in found] == [(2, 0, False), (3, 0, True)]


def written(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "hook.yaml"
    path.write_text(text, encoding="utf-8")
    return path


CORNERS = "[[0, 5], [4, 5], [4, 3], [2, 3], [2, 2], [6, 2], [6, 0], [0, 0]]"
HEAD = f"item: hook\nkind: turned-outline\noutline: {{corners: {CORNERS}}}\n"
OPTIONS = (
    "options:\n  - {outline: result}\n  - {outline: result, slip: flipped}\n  - {outline: result, slip: part-moved}\n"
)


def test_a_file_is_read_solved_and_written_again(tmp_path: Path) -> None:
    solution = load_solution(written(tmp_path, HEAD + OPTIONS))
    assert solution.sound and solution.key == "A"
    again = load_solution(written(tmp_path, item_yaml(solution.item)))
    assert again.item == solution.item and again.verdicts == solution.verdicts
    assert again.item.corners[0] == (0, 5), "corners are numbered as the file lists them"


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (HEAD + "pieces: []\n" + OPTIONS, "pieces"),
        ("item: hook\nkind: turned-outline\n" + OPTIONS, "outline"),
        (HEAD + OPTIONS.replace("part-moved", "part-movd"), "part-moved"),
        (HEAD.replace("[6, 0], [0, 0]", "[0, 0], [6, 0]") + OPTIONS, "crosses itself"),
        (HEAD + "options: {make: 4}\naccepted: {no-turn: easy}\n", "no-turn"),
    ],
)
def test_a_file_with_a_fault_is_refused_with_the_way_to_mend_it(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(ItemError) as refused:
        load_solution(written(tmp_path, text))
    assert told in str(refused.value) and "To mend it" in str(refused.value)


def test_solving_tells_no_turns(tmp_path: Path) -> None:
    ran = CliRunner().invoke(app, ["solve", str(written(tmp_path, HEAD + OPTIONS)), "--json"])
    told = json.loads(ran.stdout)
    assert ran.exit_code == 0 and told["turns"] == [] and told["key"] == "A" and told["area"] == 22.0
