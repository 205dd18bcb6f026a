"""`explainers words` speaks of pieces in the verbs of the lesson's theme: what is said, facts, blocks to paste."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

ITEMS = Path(__file__).parents[2] / "items"
OURS = re.compile(r"\b(?:join|joins|joined|joining|cut|cuts|cutting)\b", re.I)


@pytest.fixture
def lesson(tmp_path: Path) -> Path:
    """A piece to join and one to cut away, in the words of a club."""
    shutil.copy(ITEMS / "border-block.yaml", tmp_path)
    words = "words:\n  join: {verb: glue on, done: glued on}\n  cut: snip\n"
    (tmp_path / "club.yaml").write_text(f"theme: club\n{words}", encoding="utf-8")
    path = tmp_path / "one.yaml"
    path.write_text(
        "lesson: one\ntitle: One block\ntheme: club.yaml\nparts:\n  - {show: border-block.yaml, as: your-turn}\n",
        encoding="utf-8",
    )
    return path


def test_neither_sentences_nor_facts_keep_our_verbs(run, lesson: Path) -> None:
    ran = run("words", lesson)
    assert ran.code == 0
    told = [line for line in ran.out.splitlines() if line.startswith("    ")]
    assert [line for line in told if OURS.search(line)] == []
    facts = [line for line in told if line.startswith("    fact: ")]
    assert "    fact: the tip: to glue on where the leaf meets the base" in facts
    assert "    fact: the dart: to snip where the button meets the base" in facts
    assert [line for line in facts if re.search(r"the tip: glued on, .* square units become", line)]
    assert [line for line in facts if re.search(r"the dart: snipped, .* square units become", line)]
    assert [line for line in told if line.startswith("    says: ") and "Glue on the tip" in line]


def test_a_block_to_paste_has_the_verbs_of_the_theme(run, lesson: Path) -> None:
    ran = run("words", lesson, "--paste", "all")
    assert ran.code == 0 and "Snip the dart" in ran.out
    said = [line.split(": ", 1)[1] for line in ran.out.splitlines() if line.startswith("  ")]
    assert said and not [line for line in said if OURS.search(line)]


def test_without_such_a_theme_our_verbs_stand(run, lesson: Path) -> None:
    lesson.write_text(lesson.read_text(encoding="utf-8").replace("theme: club.yaml\n", ""), encoding="utf-8")
    told = run("words", lesson).out
    assert "fact: the tip: to join where the leaf meets the base" in told and "the dart: cut away, " in told
