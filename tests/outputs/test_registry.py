"""What the table says of the writers: whether another theme, or another pace, makes another file."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from explainers.batch import Job, jobs_of
from explainers.figure.themes import DARK
from explainers.making import write_output
from explainers.outputs.registry import WRITERS, spec

ITEM = Path(__file__).parents[2] / "items" / "flag-block.yaml"


@pytest.fixture(scope="module")
def job() -> Job:
    (found,) = jobs_of([ITEM])
    assert isinstance(found, Job)
    return found


def written(job: Job, output: str, folder: Path) -> list[bytes]:
    options = job.options(spec(output))
    return [path.read_bytes() for path in write_output(output, job.timeline(), folder, **options)]


@pytest.mark.parametrize(
    "output", [name for name, writer in WRITERS.items() if name != "clip" and not writer.lists_folder]
)
def test_the_table_knows_what_an_output_depends_on(
    job: Job, output: str, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    """An output that differs must have another name, and one that does not must not be made twice."""
    if spec(output).reports and not request.config.getoption("--full"):
        pytest.skip("draws for some seconds: with --full")
    own = written(job, output, tmp_path / "own")
    in_the_dark = written(replace(job, theme_given=DARK), output, tmp_path / "dark")
    at_leisure = written(replace(job, pace_given="slow"), output, tmp_path / "slow")
    assert (own != in_the_dark, own != at_leisure) == (spec(output).themed, spec(output).timed)
