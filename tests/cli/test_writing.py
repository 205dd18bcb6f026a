"""`clip`, `deck`, `cues`, `stills`, `build` at the door: folders, exit codes, what is said where."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest
from stand_in_timeline import StandInTimeline, stand_in_timeline

from explainers.batch import Job
from explainers.errors import OutputError
from explainers.outputs import registry

WRITERS = ("clip", "deck", "cues", "stills")  # each with a command of its own
BUILT = (*WRITERS, "deck-html", "script", "transcript", "poster", "description", "certificate", "index")


@pytest.fixture
def calls(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, str, Path, dict[str, object]]]:
    """The writers replaced by ones that write a word; what they were asked for is noted."""
    noted: list[tuple[str, str, Path, dict[str, object]]] = []
    module = ModuleType("stand_in_writers")
    monkeypatch.setitem(sys.modules, "stand_in_writers", module)
    monkeypatch.setattr(Job, "timeline", stand_in_timeline)
    for name in BUILT:

        def write(timeline: StandInTimeline, folder: Path, *, name: str = name, **options: object) -> tuple[Path, ...]:
            noted.append((name, timeline.storyboard.name, folder, options))
            folder.mkdir(parents=True, exist_ok=True)
            (folder / name).write_text(name, encoding="utf-8")
            return (folder / name,)

        setattr(module, name, write)
        spec = replace(registry.WRITERS[name], target=f"stand_in_writers:{name}")
        monkeypatch.setitem(registry.WRITERS, name, spec)
    return noted


@pytest.mark.parametrize("name", WRITERS)
def test_one_input_goes_to_a_folder_of_its_name(
    run, calls, sound: Path, tmp_path: Path, monkeypatch, name: str
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = run(name, sound)
    assert ran.code == 0
    folder = Path("render_out/pocket-block") / ("stills" if name == "stills" else "")
    written = ("cues", "script") if name == "cues" else (name,)
    assert ran.out == "".join(f"{folder / output}\n" for output in written)
    assert [call[:3] for call in calls] == [(output, "pocket-block", folder) for output in written]


def test_the_folder_can_be_named(run, calls, sound: Path, tmp_path: Path) -> None:
    ran = run("deck", sound, "--to", tmp_path / "here")
    assert ran.code == 0 and ran.out == f"{tmp_path / 'here' / 'deck'}\n"


def test_several_inputs_get_a_folder_each(run, calls, sound: Path, tmp_path: Path) -> None:
    other = tmp_path / "other.yaml"
    other.write_text(sound.read_text(encoding="utf-8").replace("item: pocket-block", "item: other"), encoding="utf-8")
    assert run("deck", sound, other, "--to", tmp_path / "here").code == 0
    assert [call[2] for call in calls] == [tmp_path / "here" / "pocket-block", tmp_path / "here" / "other"]


def test_a_preview_is_passed_on(run, calls, sound: Path, tmp_path: Path) -> None:
    run("clip", sound, "--to", tmp_path)
    run("clip", sound, "--to", tmp_path, "--preview")
    assert [call[3]["preview"] for call in calls] == [False, True]
    assert [call[1] for call in calls] == ["pocket-block", "pocket-block.preview"], "neither writes over the other"


@pytest.mark.parametrize("name", [*WRITERS, "build"])
def test_nothing_is_drawn_from_an_unsound_item(run, calls, unsound: Path, tmp_path: Path, name: str) -> None:
    ran = run(name, unsound, "--to", tmp_path / "out")
    assert ran.code == 1 and ran.out == "" and calls == []
    assert ran.err.startswith(f"{unsound}: not sound, so nothing is drawn from it: ")
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("name", [*WRITERS, "build"])
def test_a_refused_item_is_told_fault_by_fault_and_the_others_are_made(
    run, calls, sound: Path, refused: Path, tmp_path: Path, name: str
) -> None:
    ran = run(name, refused, sound, "--to", tmp_path / "out")
    assert ran.code == 2
    assert [line.split(": ")[0] for line in ran.err.splitlines()] == [f"{refused}:{number}" for number in (5, 8, 15)]
    assert {call[1] for call in calls} == {"pocket-block"}


@pytest.mark.parametrize("name", [*WRITERS, "build"])
def test_a_full_disk_is_one_line(run, calls, sound: Path, tmp_path: Path, monkeypatch, name: str) -> None:
    def full(timeline: object, folder: Path, **options: object) -> Path:
        raise OutputError(f"{folder}: the disk is full. To mend it: free some space")

    for output in BUILT:
        monkeypatch.setattr(sys.modules["stand_in_writers"], output, full)
    ran = run(name, sound, "--to", tmp_path / "out")
    assert ran.code == 2 and ran.out == ""
    assert ran.err.count("\n") == 1 and "the disk is full" in ran.err


def test_build_makes_all_then_says_that_there_is_nothing_to_do(run, calls, sound: Path, tmp_path: Path) -> None:
    ran = run("build", sound, "--to", tmp_path)
    assert ran.code == 0
    folder = tmp_path / "pocket-block"
    assert ran.out.splitlines() == [
        f"{output}: {folder / ('stills/stills' if output == 'stills' else output)}"
        for output in (
            "clip",
            "deck",
            "deck-html",
            "script",
            "transcript",
            "stills",
            "poster",
            "description",
            "certificate",
            "cues",
            "index",
        )
    ]
    ran = run("build", sound, "--to", tmp_path)
    assert (ran.code, ran.out) == (0, "")
    assert "nothing to do" in ran.err and str(sound) in ran.err
    assert len(calls) == len(BUILT)


def test_build_can_be_asked_for_some(run, calls, sound: Path, tmp_path: Path) -> None:
    assert run("build", sound, "--to", tmp_path, "--only", "cues", "--only", "deck", "--only", "cues").code == 0
    assert [call[0] for call in calls] == ["cues", "deck"]


def test_an_unknown_output_names_the_known_ones(run, calls, sound: Path, tmp_path: Path) -> None:
    ran = run("build", sound, "--to", tmp_path, "--only", "film")
    assert ran.code == 2 and calls == []
    assert f"no output called 'film'; choose from {', '.join(sorted(registry.WRITERS))}" in ran.err


@pytest.mark.parametrize("name", [*WRITERS, "build"])
def test_a_missing_file_is_one_line(run, calls, tmp_path: Path, name: str) -> None:
    ran = run(name, tmp_path / "gone.yaml")
    assert ran.code == 2 and ran.err.count("\n") == 1 and "gone.yaml" in ran.err
