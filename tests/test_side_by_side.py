"""Builds of one lesson at the same time, and builds that are killed: real processes, real writers, real files."""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from explainers.made_record import RECORD_NAME

FIXTURE = Path(__file__).parent / "cli" / "fixtures" / "pocket-block.yaml"
WANTED = ("stills", "description", "deck-html", "index")

pytestmark = pytest.mark.skipif(os.name != "posix", reason="signals and locks are those of Unix")


def started(item: Path, out: Path) -> subprocess.Popen[str]:
    only = [word for output in WANTED for word in ("--only", output)]
    program = [sys.executable, "-c", "from explainers.cli.main import main; main()"]
    command = [*program, "build", str(item), "--to", str(out), *only]
    return subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True)


def contents(folder: Path) -> dict[str, bytes]:
    """All that is in a folder, hidden files too."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() if path.is_file() else b""
        for path in sorted(folder.rglob("*"))
        if path.name != RECORD_NAME
    }


@pytest.fixture(scope="module")
def item(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copy(FIXTURE, tmp_path_factory.mktemp("items")))


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("drawn")


@pytest.fixture(autouse=True)
def _one_cache(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Warm after the first build: the processes then come to writing at the same moments."""
    monkeypatch.setenv("EXPLAINERS_CACHE", str(cache))


@pytest.fixture(scope="module")
def undisturbed(item: Path, cache: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """What one build alone makes."""
    out = tmp_path_factory.mktemp("alone")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EXPLAINERS_CACHE", str(cache))
        build = started(item, out)
        assert not complaints(build.communicate(timeout=600)[1]) and build.returncode == 0
    made = contents(out)
    assert len(made) > 40
    return made


def complaints(told: str) -> list[str]:
    """What a build said beside what it left as it was."""
    return [line for line in told.splitlines() if "made before from the same files" not in line]


def test_four_at_once_all_succeed_and_leave_what_one_alone_makes(
    item: Path, undisturbed: dict[str, bytes], tmp_path: Path, cases: Callable[[int, int], int]
) -> None:
    for number in range(cases(1, 20)):
        out = tmp_path / f"out-{number}"
        builds = [started(item, out) for _ in range(4)]
        told = [build.communicate(timeout=600)[1] for build in builds]
        assert [build.returncode for build in builds] == [0] * 4, told
        assert not any(complaints(said) for said in told), told
        assert contents(out) == undisturbed


def test_a_rerun_after_a_kill_is_like_an_undisturbed_run(
    item: Path, undisturbed: dict[str, bytes], tmp_path: Path, cases: Callable[[int, int], int]
) -> None:
    """Killed while stills are drawn, written out, given their names, or noted."""
    chance = random.Random(7)
    left = 0
    for number in range(cases(2, 20)):
        out = tmp_path / f"out-{number}"
        stills = out / "pocket-block" / "stills"
        build = started(item, out)
        while build.poll() is None and not stills.exists():
            time.sleep(0.002)
        time.sleep(chance.uniform(0.0, 0.5))
        os.killpg(build.pid, signal.SIGKILL)
        build.communicate(timeout=60)
        left += any(path.name.startswith(".") for path in stills.rglob("*"))
        whole = {name: data for name, data in contents(out).items() if not any(p[0] == "." for p in name.split("/"))}
        assert whole.items() <= undisturbed.items(), "under its own name a file is whole"
        again = started(item, out)
        told = again.communicate(timeout=600)[1]
        assert again.returncode == 0 and not complaints(told)
        assert contents(out) == undisturbed
    assert left, "no kill came while anything was unfinished: this test has seen nothing"


def test_what_a_killed_build_of_other_steps_had_written_goes_too(item: Path, tmp_path: Path) -> None:
    """Killed after the new stills had their names and before they were noted as done; then changed once more."""
    out, mine = tmp_path / "out", Path(shutil.copy(item, tmp_path))
    folder = out / "pocket-block"

    def built() -> None:
        build = started(mine, out)
        assert not complaints(build.communicate(timeout=600)[1]) and build.returncode == 0

    built()
    renamed = mine.read_text(encoding="utf-8").replace("piece: pocket", "piece: zz-purse")
    assert renamed != mine.read_text(encoding="utf-8")
    first = mine.read_text(encoding="utf-8")
    mine.write_text(renamed, encoding="utf-8")
    build = started(mine, out)
    while build.poll() is None and not list((folder / "stills").glob("*zz-purse*")):
        time.sleep(0.001)
    os.killpg(build.pid, signal.SIGKILL)
    build.communicate(timeout=60)
    mine.write_text(first, encoding="utf-8")
    built()
    assert not list((folder / "stills").glob("*zz-purse*")) and not list(folder.glob("kept-*"))
