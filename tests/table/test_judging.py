"""Judging in a process of its own: the same answers, and no text that holds up a page."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from test_sitting import CORNER

from explainers.editing.field_commands import SetField
from explainers.table.desk import Desk
from explainers.table.judging import LATER, STATE, JudgingApart, answered
from explainers.table.sitting import Sitting

PATH = Path("corner-block.yaml")


def never() -> bool:
    return False


def slow_text() -> str:
    """Allowed by every limit of the reader, yet minutes of work: wrong options made from a base of 300 corners."""
    zigzag = [[round(20 - 20 * n / 297, 4), 20.5 + 0.4 * (n % 2)] for n in range(1, 297)]
    pieces = "".join(
        f"  - {{piece: tab-{n}, does: join, corners: [[0, 0], [2, 0], [2, 1], [0, 2]], turned: {17 * n + 10}, "
        f"side: [[0, 0], [2, 0]], meets: [[{1 + 3 * n}, 0], [{3 + 3 * n}, 0]]}}\n"
        for n in range(6)
    )
    corners = [[0, 0], [20, 0], [20, 20], *zigzag, [0, 20]]
    return f"item: slow-block\nbase:\n  corners: {corners}\npieces:\n{pieces}options: {{make: 5, seed: 7}}\n"


@pytest.fixture(scope="module")
def judge() -> Iterator[JudgingApart]:
    apart = JudgingApart(longest_s=3.0)
    yield apart
    apart.close()


def test_it_gives_the_same_answers(judge: JudgingApart) -> None:
    for text in (CORNER, CORNER.replace("join", "fold"), "item: [", ""):
        for which in (STATE, LATER):
            assert judge(which, text, PATH, never) == answered(which, text, PATH)


def test_a_text_that_takes_too_long_is_a_fault_and_the_next_is_judged(judge: JudgingApart) -> None:
    state = judge(STATE, slow_text(), PATH, never)
    assert "longer than 3 s" in state["faults"][0]["message"] and len(state["outlines"]) == 7
    assert judge(STATE, CORNER, PATH, never)["verdict"]["state"] == "sound"


@pytest.mark.skipif(os.name == "nt", reason="needs signals")
def test_a_process_that_is_lost_costs_one_answer(judge: JudgingApart) -> None:
    judge(STATE, CORNER, PATH, never)
    os.kill(judge._process.pid, signal.SIGKILL)
    assert "failed" in judge(STATE, CORNER, PATH, never)["faults"][0]["message"]
    assert judge(STATE, CORNER, PATH, never) == answered(STATE, CORNER, PATH)


def test_a_text_that_takes_long_is_given_up_when_another_is_there(tmp_path: Path) -> None:
    path = tmp_path / "corner-block.yaml"
    path.write_text(CORNER, encoding="utf-8")
    judge = JudgingApart(longest_s=300.0)
    desk = Desk(Sitting(path), judge)
    assert desk.state()["verdict"]["state"] == "sound"
    desk.sitting.write(slow_text(), desk.sitting.revision)
    waiting: list[dict[str, object]] = []
    asker = threading.Thread(target=lambda: waiting.append(desk.state()))
    asker.start()
    desk.sitting.write(CORNER, desk.sitting.revision)
    desk.sitting.edit([SetField(at="title", value="At last")], desk.sitting.revision)
    asker.join(60)
    assert waiting and waiting[0]["title"] == "At last"
    desk.close()
    judge.close()
