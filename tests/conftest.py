"""Shared by all tests: how many generated cases to run, a cache of drawings that belongs to the test alone."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from hypothesis import HealthCheck, settings

# No test asserts a time, and a busy machine is no fault of the code: neither a deadline nor a slow draw fails a test.
settings.register_profile("unhurried", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("unhurried")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--full", action="store_true", help="run the full number of generated cases, not the short one")


@pytest.fixture(scope="session")
def cases(request: pytest.FixtureRequest) -> Callable[[int, int], int]:
    """``cases(small, full)``: how many generated cases this run asks for."""
    full = bool(request.config.getoption("--full"))
    return lambda small, whole: whole if full else small


@pytest.fixture(scope="module", autouse=True)
def _cache_of_the_module(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """What fixtures of a module draw is kept for that module, never in the cache of whoever runs the tests."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EXPLAINERS_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield


@pytest.fixture(autouse=True)
def _cache_of_the_test(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each test starts with an empty cache, so that none depends on what another has drawn."""
    monkeypatch.setenv("EXPLAINERS_CACHE", str(tmp_path_factory.mktemp("cache")))
