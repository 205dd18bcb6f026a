"""Calls in processes of their own: results in order, a lost process costs its own call, stopping stops them all."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import textwrap
import time
from pathlib import Path

import pytest

from explainers.errors import Fault, ItemError
from explainers.process_pool import Finished, Tell, each_in_a_process

FAULT = Fault(field="pieces[0]", message="is missing", fix="write it")


class OddError(Exception):
    """One that cannot be passed between processes."""

    def __init__(self, one: int, two: int) -> None:
        super().__init__("odd")


def call(what: str, folder: Path, tell: Tell) -> tuple[str, int]:
    tell("begin", what)
    (folder / what).write_text("whole")
    if what == "killed":
        os.kill(os.getpid(), signal.SIGKILL)
    if what == "refused":
        raise ItemError([FAULT])
    if what == "odd":
        raise OddError(1, 2)
    if what == "slow":
        time.sleep(0.5)
    if what == "endless":
        try:
            while True:
                tell("still there")
                time.sleep(0.05)
        finally:
            time.sleep(0.2)  # the second signal comes here
            (folder / what).write_text("cleaned up")
    return what, os.getpid()


def each(folder: Path, *names: str, workers: int = 2) -> list[Finished[tuple[str, int]]]:
    return list(each_in_a_process(call, [(name, folder) for name in names], workers))


def test_results_are_in_order_and_each_has_a_process_of_its_own(tmp_path: Path) -> None:
    finished: list[int] = []
    said: list[tuple[object, ...]] = []
    calls = [(name, tmp_path) for name in ("slow", "b", "c")]
    results = list(each_in_a_process(call, calls, 2, lambda *news: said.append(news), finished.append))
    assert [became.result and became.result[0] for became in results] == ["slow", "b", "c"]
    assert len({became.result and became.result[1] for became in results} | {os.getpid()}) == 4
    assert sorted(finished) == [0, 1, 2]
    assert sorted(said) == [(0, "begin", "slow"), (1, "begin", "b"), (2, "begin", "c")]


def test_a_failure_costs_its_own_call(tmp_path: Path) -> None:
    killed, refused, odd, good = each(tmp_path, "killed", "refused", "odd", "good")
    assert killed == Finished(exit_code=-signal.SIGKILL)
    assert isinstance(refused.error, ItemError) and refused.error.faults == (FAULT,)
    assert isinstance(odd.error, RuntimeError) and "odd" in str(odd.error)
    assert good.result is not None


def test_whoever_stops_asking_stops_the_processes(tmp_path: Path) -> None:
    results = each_in_a_process(call, [("good", tmp_path), ("endless", tmp_path)], 2)
    next(results)
    while not (tmp_path / "endless").exists():
        time.sleep(0.05)
    results.close()
    assert (tmp_path / "endless").read_text() == "cleaned up"


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGKILL])
def test_an_asker_that_is_stopped_leaves_no_process(tmp_path: Path, number: signal.Signals) -> None:
    code = textwrap.dedent("""
        import sys
        from pathlib import Path
        sys.path.insert(0, sys.argv[1])
        from test_process_pool import call
        from explainers.process_pool import each_in_a_process
        if __name__ == "__main__":
            list(each_in_a_process(call, [("endless", Path(sys.argv[2]))] * 2, 2, lambda *news: None))
        """)
    asker = subprocess.Popen(
        [sys.executable, "-c", code, str(Path(__file__).parent), str(tmp_path)],
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    while not (tmp_path / "endless").exists():
        time.sleep(0.05)
    time.sleep(0.3)
    if number == signal.SIGINT:
        os.killpg(asker.pid, number)  # as a terminal does: to the asker and its processes alike
    else:
        asker.kill()
    asker.wait(30)
    deadline = time.monotonic() + 30
    while (tmp_path / "endless").read_text() != "cleaned up" and time.monotonic() < deadline:
        time.sleep(0.05)
    assert (tmp_path / "endless").read_text() == "cleaned up"
