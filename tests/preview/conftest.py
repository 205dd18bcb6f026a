"""Shared by the tests of the preview: demo items, and a file of one's own to break and mend."""

from __future__ import annotations

from pathlib import Path

import pytest
from looked_at import FIXTURES, WARNED
from outputs.html_pages import browser  # noqa: F401  the fixture, for every module here


@pytest.fixture
def item(tmp_path: Path) -> Path:
    """A small sound item in a folder of its own."""
    path = tmp_path / "pocket-block.yaml"
    path.write_bytes((FIXTURES / "pocket-block.yaml").read_bytes())
    return path


@pytest.fixture
def warned(tmp_path: Path) -> Path:
    """A sound item with nearly every kind of warning, and words that would be markup if they were not escaped."""
    path = tmp_path / "warned-block.yaml"
    path.write_text(WARNED, encoding="utf-8")
    return path
