"""`explainers vary`: files written, told, never written over."""

from __future__ import annotations

from pathlib import Path

from explainers.intake.workspace import load_solution
from explainers.kinds.join_and_cut.slips.registry import SLIPS

ITEMS = Path(__file__).parent.parent.parent / "items"


def test_the_items_are_written_and_named(run, tmp_path: Path) -> None:
    ran = run("vary", ITEMS / "corner-block.yaml", "--count", 2, "--seed", 7, "--to", tmp_path / "bank")
    assert (ran.code, ran.err) == (0, "")
    paths = [Path(line) for line in ran.out.splitlines()]
    assert [path.name for path in paths] == ["corner-block-7-1.yaml", "corner-block-7-2.yaml"]
    for path in paths:
        solution = load_solution(path)
        assert solution.sound and solution.item.name == path.stem
        assert path.read_text(encoding="utf-8").startswith("# Varied from corner-block: explainers vary")


def test_learners_read_a_name_that_tells_nothing_of_the_question_or_of_how_it_came_about(run, tmp_path: Path) -> None:
    ran = run("vary", ITEMS / "tent-block.yaml", "--count", 6, "--harder", "--to", tmp_path)
    assert ran.code == 0
    items = [load_solution(path).item for path in tmp_path.glob("*.yaml")]
    titles = {item.title for item in items}
    assert len(titles) == 6
    telling = {"harder", "tent", "variation", *SLIPS, *(piece.name for item in items for piece in item.pieces)}
    for title in titles:
        assert title.startswith("The ") and title.endswith(" block") and not any(letter.isdigit() for letter in title)
        assert not telling & set(title.lower().split())


def test_a_piece_inside_a_hole_has_variations(run, tmp_path: Path) -> None:
    ran = run("vary", ITEMS / "lattice-block.yaml", "--count", 1, "--seed", 7, "--to", tmp_path)
    assert (ran.code, ran.err) == (0, "")
    solution = load_solution(tmp_path / "lattice-block-7-1.yaml")
    assert solution.sound and not solution.warnings
    assert [len(placement.after.holes) for placement in solution.placements] == [2]
    assert len(solution.item.base.holes) == 1


def test_without_a_folder_they_go_to_the_outputs(run, tmp_path: Path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("vary", ITEMS / "kite-block.yaml", "--count", 1).code == 0
    assert (tmp_path / "render_out" / "kite-block" / "siblings" / "kite-block-1-1.yaml").exists()


def test_what_was_made_easier_is_said(run, tmp_path: Path) -> None:
    ran = run("vary", ITEMS / "kite-block.yaml", "--count", 1, "--easier", "--to", tmp_path)
    assert ran.code == 0
    first, *changes = ran.out.splitlines()
    assert Path(first).name == "kite-block-easier-1-1.yaml"
    assert "    no option is flipped" in changes
    assert "    wing turns by 90 degrees, not 180 degrees" in changes


def test_nothing_is_written_over_without_force(run, tmp_path: Path) -> None:
    arguments = ("vary", ITEMS / "kite-block.yaml", "--count", 2, "--to", tmp_path)
    (tmp_path / "kite-block-1-2.yaml").write_text("mine", encoding="utf-8")
    ran = run(*arguments)
    assert ran.code == 2 and "kite-block-1-2.yaml: is there already" in ran.err
    assert [path.name for path in tmp_path.iterdir()] == ["kite-block-1-2.yaml"]
    assert (tmp_path / "kite-block-1-2.yaml").read_text(encoding="utf-8") == "mine"
    assert run(*arguments, "--force").code == 0
    assert load_solution(tmp_path / "kite-block-1-2.yaml").sound


def test_fewer_than_asked_for_are_kept_and_counted(run, tmp_path: Path, monkeypatch) -> None:
    from explainers.kinds.join_and_cut.vary import search

    found, limit = search._Run.found, search.Limit(stage=search.Stage.OPTIONS, seen=7)
    monkeypatch.setattr(search._Run, "found", lambda self, number: found(self, number) if number < 2 else limit)
    ran = run("vary", ITEMS / "kite-block.yaml", "--count", 3, "--to", tmp_path)
    assert ran.code == 1
    assert "found 1 of the 3 asked for: 7 new outlines had no 4 wrong options" in ran.err and "To mend it" in ran.err
    assert [path.name for path in tmp_path.glob("*.yaml")] == ["kite-block-1-1.yaml"]


def test_easier_and_harder_together_are_refused(run) -> None:
    ran = run("vary", ITEMS / "kite-block.yaml", "--easier", "--harder")
    assert ran.code == 2 and "give one of the two" in ran.err


def test_a_refused_and_an_unsound_file_are_told_as_ever(run, refused: Path, unsound: Path, tmp_path: Path) -> None:
    ran = run("vary", refused, "--to", tmp_path)
    assert ran.code == 2 and ran.err.count("To mend it") >= 3
    ran = run("vary", unsound, "--to", tmp_path / "out")
    assert ran.code == 1 and "unsound" in ran.err and not (tmp_path / "out").exists()
