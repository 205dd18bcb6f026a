"""Whatever is sent: a proposal or one clear fault, never a crash, and memory that is bounded."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import measured_child
import pytest
from hostile_sources import hostile_sources

from explainers.tracing.reading import SURE
from explainers.tracing.sketch import Refused
from explainers.tracing.source import proposal_in, shown_with

MOST_MB = 700
# What is whole in these is proposed: the library reads such a scale as 1.
TAKEN = {"a scale of --1", "a scale of 1e", "noise"}


@pytest.fixture(scope="module")
def sent() -> list[tuple[str, bytes]]:
    return list(hostile_sources())


def test_each_gives_one_clear_fault(cases, sent: list[tuple[str, bytes]]) -> None:
    assert len(sent) >= 200
    for name, data in sent[:: cases(6, 1)]:
        stop = refused(data)
        assert stop is not None or name in TAKEN, name
        if stop is not None:
            assert stop.message and stop.fix, name
            assert "\n" not in f"{stop.message}{stop.fix}" and len(stop.message) < 400, name


def refused(data: bytes) -> Refused | None:
    """The fault that a file gives; None where it gives a proposal, which can then be shown."""
    try:
        kind, proposal = proposal_in(data)
        shown_with(data, kind, proposal)
    except Refused as stop:
        return stop
    return None


def test_of_noise_nothing_is_sure(sent: list[tuple[str, bytes]]) -> None:
    _, proposal = proposal_in(dict(sent)["noise"])
    assert all(outline.sure < SURE or outline.doubts for outline in proposal.outlines)


HUNGRY = ("a bomb", "deep groups", "very deep groups", "a bomb of elements", "a PNG bomb", "noise", "many points")
HUNGRY += ("a PNG that says it is 60000 x 60000", "a PNG that says it is 7800 x 7800", "ten thousand tiles", "lzma")


@pytest.mark.parametrize("name", HUNGRY)
def test_the_hungriest_stay_within_their_memory(
    name: str, sent: list[tuple[str, bytes]], tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    if HUNGRY.index(name) > 1 and not request.config.getoption("--full"):
        pytest.skip("with --full")
    path = tmp_path / "sent"
    path.write_bytes(dict(sent)[name])
    run = [sys.executable, measured_child.__file__, "trace", str(path)]
    found = json.loads(subprocess.run(run, check=True, capture_output=True).stdout)
    assert found["code"] in (0, 2)
    assert found["megabytes"] < MOST_MB, found
