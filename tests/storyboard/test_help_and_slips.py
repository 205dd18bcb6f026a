"""How much a lesson says: slips where it asks for them, and what is the same in every question once."""

from __future__ import annotations

import json
import re
import shutil
from collections import Counter
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from demo_items import demo_items
from typer.testing import CliRunner

from explainers.choice.differences.mirror import MirrorFact
from explainers.choice.slip import SlipFact
from explainers.cli.main import app
from explainers.figure.model import Figure
from explainers.figure.motion import Motion
from explainers.intake.workspace import load_lesson, load_solution
from explainers.item.model import Help, Lesson, LessonPart, Manner, SlipsTold
from explainers.lesson.once import said_once
from explainers.lesson.planner import plan_lesson
from explainers.storyboard.model import Beat, Step, Still, Storyboard
from explainers.storyboard.pacing import pace
from explainers.words.messages import Routine, once

ITEMS = Path(__file__).parents[2] / "items"
FLIPS = ("corner-block", "border-block", "kite-block")  # each has an option that is flipped
ROUTINE = ": no turn undoes that."  # once, then "So A is flipped." is enough


def folder_with(tmp_path: Path, parts: str, *lines: str) -> Path:
    for name in FLIPS:
        shutil.copy(ITEMS / f"{name}.yaml", tmp_path)
    path = tmp_path / "mine.yaml"
    path.write_text("\n".join(("lesson: mine", *lines, "parts:", parts)) + "\n", encoding="utf-8")
    return path


def part(name: str, **more: str) -> str:
    keys = {"show": f"{name}.yaml", "as": "worked-example", **more}
    return f"  - {{{', '.join(f'{key}: {value}' for key, value in keys.items())}}}"


def told(path: Path) -> str:
    """As `explainers words` lists it."""
    done = CliRunner().invoke(app, ["words", str(path)])
    assert done.exit_code == 0, done.output
    return done.output


# At the door


def test_slips_are_told_only_where_the_lesson_says_so(tmp_path: Path) -> None:
    path = folder_with(tmp_path, part("corner-block"), "slips: told")
    in_short = "In option B, the flag is turned the wrong way."
    assert in_short in told(path)
    for line in ("slips: untold", ""):
        assert in_short not in told(folder_with(tmp_path, part("corner-block"), line))
    assert load_lesson(path)[0].slips is SlipsTold.UNTOLD, "the file as it was written last: nothing is the default"


def test_a_slip_comes_after_what_is_seen_and_with_its_fact() -> None:
    for path in demo_items():
        solution = load_solution(path)
        lesson = Lesson(
            name="one", title="One", parts=(LessonPart(show=path, manner=Manner.SOLUTION),), slips=SlipsTold.TOLD
        )
        untold = Lesson(name="one", title="One", parts=lesson.parts)
        fuller, plain = (plan_lesson(each, [solution]).steps for each in (lesson, untold))
        for step, bare in zip(fuller, plain, strict=True):
            assert step.id == bare.id, "what is told of slips changes no step's id"
            more = [sentence for sentence in step.narration if sentence not in bare.narration]
            # That an option is flipped is said once: by its slip where that is told, else on its own.
            flips = {
                sentence for fact in bare.facts if isinstance(fact, MirrorFact) for sentence in fact.over_outline()
            }
            kept = [sentence for sentence in bare.narration if sentence in step.narration or sentence not in flips]
            assert [sentence for sentence in step.narration if sentence in bare.narration] == kept
            slips = [fact for fact in step.facts if isinstance(fact, SlipFact)]
            assert set(more) <= {sentence for fact in slips for sentence in fact.in_short()}, step.id
            seen = [sentence for sentence in bare.narration if re.search(r"\bhas\b|\bhave\b|^Here |^On ", sentence)]
            for sentence in more:
                assert step.narration.index(sentence) > max(step.narration.index(each) for each in seen), step.id
        said = [sentence for step in plain for sentence in step.narration]
        assert not [sentence for sentence in said if re.match(r"In option [A-F], |Also, ", sentence)]


@pytest.mark.parametrize(
    ("line", "parts", "field", "number"),
    [
        ("slips: sometimes", part("corner-block"), "slips", 2),
        ("", part("corner-block", help="loud"), "parts[0].help", 4),
    ],
)
def test_another_value_is_told_once_with_its_line_and_what_to_write(
    tmp_path: Path, line: str, parts: str, field: str, number: int
) -> None:
    path = folder_with(tmp_path, parts, line)
    done = CliRunner().invoke(app, ["check", str(path)])
    assert done.exit_code == 2
    (fault,) = [line for line in done.output.splitlines() if "mine.yaml:" in line]
    assert f"mine.yaml:{number}: {field}: " in fault
    due = "told or untold" if field == "slips" else "full or brief"
    assert f"To mend it: write {due}." in fault


def test_the_schema_has_both_keys_with_their_values() -> None:
    done = CliRunner().invoke(app, ["schema", "lesson"])
    lesson = json.loads(done.output)["properties"]
    assert lesson["slips"]["enum"] == ["told", "untold"]
    assert lesson["parts"]["items"]["properties"]["help"]["enum"] == ["full", "brief"]


# What is the same in every question


def test_what_is_the_same_in_every_question_is_said_once_a_lesson(tmp_path: Path) -> None:
    parts = "\n".join(part(name) for name in FLIPS)
    assert told(folder_with(tmp_path, parts)).count(ROUTINE) == 1
    alone = [told(folder_with(tmp_path, part(name))).count(ROUTINE) for name in FLIPS]
    assert alone == [1, 1, 1], "each says it where it is alone"


@pytest.mark.parametrize(
    ("helps", "count"),
    [(("full", "full", "full"), 3), (("brief", "", ""), 0), (("", "brief", "full"), 2), (("full", "", "full"), 3)],
)
def test_help_says_how_often(tmp_path: Path, helps: tuple[str, ...], count: int) -> None:
    parts = "\n".join(part(name, **({"help": how} if how else {})) for name, how in zip(FLIPS, helps, strict=True))
    assert told(folder_with(tmp_path, parts)).count(ROUTINE) == count


def routines(board: Storyboard) -> Counter[str]:
    return Counter(str(said) for step in board.steps for said in step.narration if isinstance(said, Routine))


def test_no_routine_sentence_is_repeated_in_any_demo_lesson_and_all_else_is_as_it_was() -> None:
    for name in ("first-blocks", "cutting-out", "looking-closely", "turning-round"):
        if not (ITEMS / f"{name}.yaml").exists():
            continue
        lesson, solutions = load_lesson(ITEMS / f"{name}.yaml")
        board = plan_lesson(lesson, solutions)
        assert not [said for said, count in routines(board).items() if count > 1], name
        every = [LessonPart(**{**_fields(each), "help": Help.FULL}) for each in lesson.parts]
        full = plan_lesson(Lesson(**{**_fields(lesson), "parts": tuple(every)}), solutions)
        for fading, whole in zip(board.steps, full.steps, strict=True):
            assert fading.id == whole.id
            dropped = [said for said in whole.narration if said not in fading.narration]
            assert all(isinstance(said, Routine) for said in dropped), fading.id
            shorter = [said for said in fading.narration if said not in whole.narration]
            assert set(shorter) <= {said.later for said in dropped if isinstance(said, Routine)}, fading.id
            assert fading.stills == whole.stills or not fading.teachers_own


def _fields(value: Lesson | LessonPart) -> dict[str, object]:
    return {name: getattr(value, name) for name in type(value).__dataclass_fields__}


def test_every_motion_starts_with_a_sentence_that_is_said_and_the_clip_still_paces() -> None:
    lesson = Lesson(
        name="mine",
        title="Mine",
        parts=tuple(
            LessonPart(show=ITEMS / f"{name}.yaml", manner=Manner.WORKED_EXAMPLE, help=how)
            for name, how in zip(FLIPS, (None, None, Help.BRIEF), strict=True)
        ),
    )
    board = plan_lesson(lesson, [load_solution(each.show) for each in lesson.parts])
    for step in board.steps:
        afters = [b.after_sentences for b in step.beats if isinstance(b, Motion) and b.after_sentences is not None]
        assert all(0 <= after <= len(step.narration) for after in afters), step.id
        assert afters == sorted(afters), step.id
    assert pace(board).cues[-1].end_s <= pace(board).seconds


SENTENCES = ("It is shown.", once("Routine one."), "It moves.", once("Routine two."), "It is done.")


def a_step(after: tuple[int | None, ...]) -> Step:
    figure = Figure(background="#FFFFFF", entries=())
    beats: list[Beat] = [Still(figure=figure)]
    for each in after:
        beats += (Motion(start=figure, end=figure, after_sentences=each), Still(figure=figure))
    return Step(item="one", stage="try", chapter="One", heading="One", beats=tuple(beats), narration=SENTENCES)


@pytest.mark.parametrize("gone", [set(each) for n in range(3) for each in combinations(("one", "two"), n)])
def test_a_motion_keeps_to_the_sentence_that_it_started_with(gone: set[str]) -> None:
    """Whichever routine sentences have been said, the motion still comes right before the sentence it came before."""
    after = (0, 2, 4, 5, None)
    (step,) = said_once([a_step(after)], {f"Routine {number}." for number in gone})
    kept = [said for said in SENTENCES if said not in {f"Routine {number}." for number in gone}]
    assert list(step.narration) == kept
    found = [beat.after_sentences for beat in step.beats if isinstance(beat, Motion)]
    for before, now in zip(after, found, strict=True):
        if before is None:
            assert now is None
        else:
            assert [str(s) for s in step.narration[:now]] == [str(s) for s in SENTENCES[:before] if s in kept]


def test_a_routine_sentence_may_have_a_shorter_one_that_takes_its_place() -> None:
    step = a_step((0, 2))
    longer = once("Look at both of them.", "looking", later="Look.")
    step = replace(step, narration=("It is shown.", longer, "It moves.", "It stays.", "It is done."))
    first, second, third = said_once([step, step, step], set())
    assert first.narration == step.narration
    assert second.narration == third.narration == ("It is shown.", "Look.", "It moves.", "It stays.", "It is done.")
    assert [beat.after_sentences for beat in second.beats if isinstance(beat, Motion)] == [0, 2]


def test_a_step_of_nothing_but_what_has_been_said_says_it_once_more() -> None:
    step = a_step((0,))
    bare = Step(**{**{n: getattr(step, n) for n in Step.__dataclass_fields__}, "narration": (once("Routine one."),)})
    (still,) = said_once([bare], {"Routine one."})
    assert still.narration == ("Routine one.",)
