"""Drawing in a process of its own: the same pictures, and no file that holds up or brings down the one that watches."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from looked_at import FIXTURES
from slow_items import slow_item

from explainers.preview.drawing_apart import DrawingApart
from explainers.preview.drawn import drawn

GOOD = (FIXTURES / "pocket-block.yaml").read_bytes()


@pytest.fixture(scope="module")
def draw() -> Iterator[DrawingApart]:
    apart = DrawingApart(longest_s=3.0)
    yield apart
    apart.close()


def test_it_draws_the_same_picture_and_the_same_faults(draw: DrawingApart, item: Path) -> None:
    assert draw(item) == drawn(item)
    item.write_bytes(GOOD.replace(b"does: cut", b"does: fold"))
    found = draw(item)
    assert found == drawn(item)
    assert found is not None and found.faults and found.sketch is not None


def test_a_file_that_takes_too_long_is_a_fault_and_the_next_is_drawn(draw: DrawingApart, item: Path) -> None:
    item.write_text(slow_item(), encoding="utf-8")
    found = draw(item)
    assert found is not None and "longer than 3 s" in found.faults[0].message and found.faults[0].fix
    item.write_bytes(GOOD)
    assert draw(item) == drawn(item)


def test_a_file_that_takes_long_is_given_up_when_it_is_saved_again(item: Path) -> None:
    patient = DrawingApart(longest_s=300.0)
    assert patient(item) == drawn(item)  # it has started, so that the next file is read before it is saved again
    item.write_text(slow_item(), encoding="utf-8")
    timer = threading.Timer(0.5, item.write_bytes, [GOOD])
    timer.start()
    assert patient(item) is None
    timer.join()
    assert patient(item) == drawn(item)
    patient.close()


@pytest.mark.skipif(os.name == "nt", reason="needs signals")
def test_a_process_that_is_lost_costs_one_drawing(draw: DrawingApart, item: Path) -> None:
    assert draw(item) == drawn(item)
    os.kill(draw._process.pid, signal.SIGKILL)
    found = draw(item)
    assert found is not None and "the program itself failed" in found.faults[0].message
    assert draw(item) == drawn(item)
