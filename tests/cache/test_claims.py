"""A claim keeps another process from the same work, and never outlives its owner."""

from __future__ import annotations

import hashlib
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from explainers.cache.claims import Claims

KEYS = [hashlib.sha256(name.encode()).hexdigest() for name in "abc"]

OWNER = """
import sys, time
from pathlib import Path
from explainers.cache.claims import Claims
with Claims(Path(sys.argv[1])) as claims:
    assert all(claims.take(key) for key in sys.argv[2:])
    print("taken", flush=True)
    time.sleep(60)
"""


@pytest.mark.skipif(os.name != "posix", reason="there are no such locks here")
def test_what_another_process_has_claimed_is_refused_until_it_ends(tmp_path: Path) -> None:
    owner = subprocess.Popen([sys.executable, "-c", OWNER, str(tmp_path), *KEYS[:2]], stdout=subprocess.PIPE, text=True)
    try:
        assert owner.stdout is not None and owner.stdout.readline() == "taken\n"
        with Claims(tmp_path) as claims:
            assert [claims.take(key) for key in KEYS] == [False, False, True]
            owner.send_signal(signal.SIGKILL)
            owner.wait()
            assert [claims.take(key) for key in KEYS] == [True, True, True]
    finally:
        owner.kill()
        owner.wait()
        owner.stdout.close()


def test_a_folder_that_cannot_be_used_lets_everybody_claim(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("no folder")
    with Claims(tmp_path / "file") as claims:
        assert claims.take(KEYS[0])
        claims.give_back(KEYS[0])
