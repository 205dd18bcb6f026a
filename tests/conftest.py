"""Shared by all tests: how many generated cases to run, a cache of drawings that belongs to the test alone."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from itertools import count
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

# No test asserts a time, and a busy machine is no fault of the code: neither a deadline nor a slow draw fails a test.
settings.register_profile("unhurried", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("unhurried")

# The command is started some hundred times, and each worker reads all tests: compiled modules are kept, as they are by
# default, even where the machine is told to keep none.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "full: a case that is run with --full only, beside others of its kind")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not config.getoption("--full"):
        for item in items:
            if item.get_closest_marker("full"):
                item.add_marker(pytest.mark.skip(reason="with --full"))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Each worker begins with a stretch of its own, so that most modules make their fixtures once; the idle help out.

    Another way of dividing that is asked for by `--dist` is left alone.
    """
    if config.getoption("dist") != "load":
        return None
    from xdist.scheduler import WorkStealingScheduling

    return WorkStealingScheduling(config, log)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--full", action="store_true", help="run the full number of generated cases, not the short one")


@pytest.fixture(scope="session")
def cases(request: pytest.FixtureRequest) -> Callable[[int, int], int]:
    """``cases(small, full)``: how many generated cases this run asks for."""
    full = bool(request.config.getoption("--full"))
    return lambda small, whole: whole if full else small


@pytest.fixture(scope="session")
def _new_cache(tmp_path_factory: pytest.TempPathFactory) -> Callable[[], str]:
    """The name of a folder that is not there yet, another at each call: few tests draw anything."""
    home, numbers = tmp_path_factory.mktemp("caches"), count()
    return lambda: str(home / str(next(numbers)))


@pytest.fixture(scope="module", autouse=True)
def _cache_of_the_module(_new_cache: Callable[[], str]) -> Iterator[None]:
    """What fixtures of a module draw is kept for that module, never in the cache of whoever runs the tests."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("EXPLAINERS_CACHE", _new_cache())
        yield


@pytest.fixture(autouse=True)
def _cache_of_the_test(_new_cache: Callable[[], str], monkeypatch: pytest.MonkeyPatch) -> None:
    """Each test starts with an empty cache, so that none depends on what another has drawn."""
    monkeypatch.setenv("EXPLAINERS_CACHE", _new_cache())
