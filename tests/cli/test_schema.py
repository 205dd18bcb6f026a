"""`explainers schema`: JSON for an editor, one object of each kind."""

from __future__ import annotations

import json

import pytest

from explainers.document.schema_values import Schema
from explainers.intake.schema import FILES, schema_of


@pytest.mark.parametrize("kind", FILES)
def test_it_prints_the_schema(run, kind: str) -> None:
    ran = run("schema", kind)
    assert (ran.code, ran.err) == (0, "")
    printed: Schema = json.loads(ran.out)
    assert printed == schema_of(kind)  # type: ignore[arg-type]
    assert printed["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_another_kind_is_refused(run) -> None:
    ran = run("schema", "theme")
    assert ran.code == 2
    assert "item" in ran.err and ran.out == ""
