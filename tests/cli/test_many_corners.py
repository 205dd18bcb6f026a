"""`explainers check` on outlines of as many corners as the format allows: what it takes of the machine is bounded."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import measured_child
import pytest
from jagged_items import KINDS, jagged_item

from explainers.document.fields import MAX_CORNERS

MOST_MB = 500


@pytest.mark.parametrize("kind", KINDS)
def test_a_check_of_the_most_corners_stays_within_its_memory(
    tmp_path: Path, kind: str, request: pytest.FixtureRequest
) -> None:
    if kind == "combed" and not request.config.getoption("--full"):
        pytest.skip("the least hungry of them: with --full")
    path = tmp_path / "torn-patch.yaml"
    path.write_text(jagged_item(MAX_CORNERS, kind=kind), encoding="utf-8")
    run = [sys.executable, measured_child.__file__, "check", str(path)]
    found = json.loads(subprocess.run(run, check=True, capture_output=True).stdout)
    assert found["code"] == 0
    assert found["megabytes"] < MOST_MB
