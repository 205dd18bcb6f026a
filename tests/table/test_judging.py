"""Judging in a process of its own: the same answers, and no text that holds up a page."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from slow_items import slow_item
from test_sitting import CORNER

from explainers.editing.field_commands import SetField
from explainers.table.desk import Desk
from explainers.table.judging import LATER, STATE, JudgingApart, answered
from explainers.table.sitting import Sitting

PATH = Path("corner-block.yaml")


def never() -> bool:
    return False


@pytest.fixture(scope="module")
def judge() -> Iterator[JudgingApart]:
    apart = JudgingApart(longest_s=300.0)  # whatever else the machine does
    yield apart
    apart.close()


def test_it_gives_the_same_answers(judge: JudgingApart) -> None:
    for text in (CORNER, CORNER.replace("join", "fold"), "item: [", ""):
        for which in (STATE, LATER):
            assert judge(which, text, PATH, never) == answered(which, text, PATH)


def test_a_text_that_takes_too_long_is_a_fault_and_the_next_is_judged() -> None:
    judge = JudgingApart(longest_s=3.0)
    state = judge(STATE, slow_item(), PATH, never)
    assert "longer than 3 s" in state["faults"][0]["message"] and len(state["outlines"]) == 7
    judge._longest_s = 300.0  # a process that begins anew takes long where the machine is loaded
    assert judge(STATE, CORNER, PATH, never)["verdict"]["state"] == "sound"
    judge.close()


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
    desk.sitting.write(slow_item(), desk.sitting.revision)
    waiting: list[dict[str, object]] = []
    asker = threading.Thread(target=lambda: waiting.append(desk.state()))
    asker.start()
    desk.sitting.write(CORNER, desk.sitting.revision)
    desk.sitting.edit([SetField(at="title", value="At last")], desk.sitting.revision)
    asker.join(60)
    assert waiting and waiting[0]["title"] == "At last"
    desk.close()
    judge.close()
