"""Shared by all tests: how many generated cases to run."""

from __future__ import annotations

from collections.abc import Callable

import pytest


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--full", action="store_true", help="run the full number of generated cases, not the short one")


@pytest.fixture(scope="session")
def cases(request: pytest.FixtureRequest) -> Callable[[int, int], int]:
    """``cases(small, full)``: how many generated cases this run asks for."""
    full = bool(request.config.getoption("--full"))
    return lambda small, whole: whole if full else small
